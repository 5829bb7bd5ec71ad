"""The gauge's clock and data, about 1.5 V, made 3.3 V: two transistors, which turn them over."""

from schemdraw import elements as parts

TITLE = "Level shifter: clock and data of about 1.5 V to 3.3 V"


def draw(sheet) -> None:
    """Put it on the sheet."""
    sheet.box((0, -10.4), (3, 1.6), "gauge\n1.5 V cell")
    sheet.box((12.4, -10.4), (15.6, 1.6), "bridge\n3.3 V logic")
    for name, y in (("clock", -1), ("data", -6.9)):
        channel(sheet, name, y)
    sheet.note((2.8, -9.7), "common", "right")
    sheet.wire((3, -9.7), (12.4, -9.7))
    sheet.note((12.6, -9.7), "0 V")
    sheet.dot((7.6, -9.7))
    sheet.add(parts.GroundSignal().at((7.6, -9.7)).theta(0))


def channel(sheet, name: str, y: float) -> None:
    """One of the two lines."""
    sheet.note((2.8, y), name, "right")
    sheet.add(parts.Resistor().at((3, y)).to((6, y)).label("47 kΩ"))
    sheet.dot((6, y))
    sheet.add(parts.Resistor().at((6, y)).to((6, y - 2)).label("100 kΩ", loc="top"))
    sheet.add(parts.GroundSignal().at((6, y - 2)).theta(0))
    sheet.wire((6, y), (7.2, y))
    npn = sheet.add(parts.BjtNpn().anchor("base").at((7.2, y)).theta(0))
    x, top = npn.collector
    sheet.add(parts.GroundSignal().at(npn.emitter).theta(0))
    sheet.dot((x, top))
    sheet.add(parts.Resistor().at((x, top)).to((x, top + 2)).label("10 kΩ", loc="bottom"))
    sheet.add(parts.Vdd().at((x, top + 2)).theta(0).label("3.3 V"))
    sheet.wire((x, top), (12.4, top))
    sheet.note((12.6, top), f"not {name}")
