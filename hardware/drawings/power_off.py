"""A button that ends the Pi in good order, and wakes it again."""

TITLE = "Power-off button"


def draw(sheet) -> None:
    """Put it on the sheet."""
    sheet.switch("power off")
    for y in (0, -2.4):
        sheet.wire((3.4, y), (7.5, y))
    sheet.note((5.6, -1.2), "no longer than 0.5 m", "center")
    sheet.pi(8, [(0, "GPIO 3", 5), (-2.4, "ground", 6)])
    sheet.pulled_up(12.5, "on the Pi's board", "1.8 kΩ")
