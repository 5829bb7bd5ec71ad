"""A switch within reach of the Pi: the pull-up is the processor's own."""

from schemdraw import elements as parts

TITLE = "Take switch on a pin"


def draw(sheet) -> None:
    """Put it on the sheet."""
    sheet.switch("take switch")
    sheet.wire((3.4, 0), (7.6, 0))
    sheet.wire((3.4, -2.4), (9.5, -2.4))
    sheet.note((6.2, -1.2), "no longer than 1 m", "center")
    sheet.add(parts.Resistor().at((7.6, 0)).to((9.5, 0)).label("1 kΩ"))
    sheet.pi(10, [(0, "GPIO 17", 11), (-2.4, "ground", 9)])
    sheet.pulled_up(14.5, "in the processor", "33 to 73 kΩ")
