"""A pedal with a bare contact, some metres away: pulled up, filtered and protected at the Pi."""

from schemdraw import elements as parts

TITLE = "Pedal on a pin, and a pedal that types"


def draw(sheet) -> None:
    """Put it on the sheet."""
    sheet.switch("pedal")
    cable(sheet)
    sheet.add(parts.Resistor().at((9.8, 0)).to((12, 0)).label("470 Ω"))
    sheet.dot((12, 0), (13.6, 0), (13.6, -2.4), (9.5, -2.4))
    sheet.add(parts.Resistor().at((12, 0)).to((12, 2.2)).label("4.7 kΩ", "bottom"))
    sheet.wire((12, 2.2), (15, 2.2))
    sheet.add(parts.Capacitor().at((13.6, 0)).to((13.6, -2.4)).label("100 nF", "top"))
    sheet.wire((12, 0), (15, 0))
    sheet.pi(15.5, [(2.2, "3.3 V", 1), (0, "GPIO 17", 11), (-2.4, "ground", 9)])
    sheet.box((0, -6.6), (3.4, -4.4), "pedal\nthat types")
    sheet.wire((3.4, -6), (15.5, -6))
    sheet.note((9.2, -5.6), "USB, no longer than 5 m", "center")
    sheet.box((15.5, -6.6), (19.1, -4.4), "Raspberry Pi")
    sheet.note((15.7, -6), "USB")


def cable(sheet) -> None:
    """Two cores and a screen that is joined at the Pi's end alone."""
    sheet.wire((3.4, 0), (9.8, 0))
    sheet.wire((3.4, -2.4), (15, -2.4))
    sheet.wire((4, 0.5), (9, 0.5), (9, -2.9), (4, -2.9), (4, 0.5), dashed=True)
    sheet.note((6.5, -0.9), "two cores and a screen,", "center")
    sheet.note((6.5, -1.5), "no longer than 5 m", "center")
    sheet.wire((9, -2.9), (9.5, -2.9), (9.5, -2.4))
