"""The supply, with a store behind it and a signal from before the store."""

from schemdraw import elements as parts

TITLE = "Supply with a store, and the signal that the mains is gone"
BOXES = (
    (-0.8, "mains,\nby a qualified\nelectrician"),
    (4, "supply\n24 V DC"),
    (9.6, "store\nfor 60 s"),
    (14.4, "converter\n5.1 V, 5 A"),
)
PLUS, ZERO = 1.8, 0.6


def draw(sheet) -> None:
    """Put it on the sheet."""
    for left, name in BOXES:
        sheet.box((left, 0), (left + 3.4, 4), name)
    for left, right in ((2.6, 4), (7.4, 9.6), (13, 14.4), (17.8, 19.2)):
        sheet.wire((left, PLUS), (right, PLUS))
        sheet.wire((left, ZERO), (right, ZERO))
    signal(sheet)


def signal(sheet) -> None:
    """A coupler that is lit while there is mains: dark, the pin is pulled up."""
    sheet.dot((9, PLUS), (8, ZERO))
    sheet.wire((9, PLUS), (9, -0.4))
    sheet.add(parts.Zener().at((9, -2)).to((9, -0.4)).label("15 V", "bottom"))
    sheet.add(parts.Resistor().at((9, -2)).to((9, -4)).label("1.5 kΩ", "bottom"))
    lamp = sheet.add(parts.Optocoupler(box=False).anchor("anode").at((11, -4)).theta(0))
    sheet.wire((9, -4), (11, -4))
    x, low = lamp.cathode
    sheet.wire((8, ZERO), (8, low), (x, low))
    seen, ground = lamp.collector[1], lamp.emitter[1]
    for (x, y), at in ((lamp.collector, seen), (lamp.emitter, ground)):
        sheet.wire((x, y), (18.7, at))
    sheet.dot((15.4, seen))
    sheet.add(parts.Resistor().at((15.4, seen)).to((15.4, -1.8)).label("10 kΩ", "top"))
    sheet.wire((15.4, -1.8), (18.7, -1.8))
    pins = ((-1.8, "3.3 V", 17), (seen, "GPIO 27", 13), (ground, "ground", 14))
    supplied = ((PLUS, "5 V", 2), (ZERO, "ground", 6))
    sheet.pi(19.2, [*supplied, *pins])
