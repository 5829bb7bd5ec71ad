"""Four switches on a collar that stands still: which place is which, and to which pin it goes."""

from schemdraw import elements as parts

TITLE = "Four position switches on a collar, seen from above"
PINS = {"front": (5, 29), "right": (6, 31), "back": (13, 33), "left": (19, 35)}
GROUND = 39
PLACES = {"back": (0, 2.5), "right": (2.5, 0), "front": (0, -2.5), "left": (-2.5, 0)}


def draw(sheet) -> None:
    """Put it on the sheet."""
    plan(sheet)
    heights = {name: 2.4 - 1.5 * n for n, name in enumerate(PINS)}
    for name, y in heights.items():
        sheet.note((5.7, y + 0.4), name)
        sheet.add(parts.Button().at((6.8, y)).to((8.8, y)))
        sheet.wire((8.8, y), (9.2, y))
        sheet.add(parts.Resistor().at((9.2, y)).to((11.5, y)).label("1 kΩ"))
        sheet.wire((5.5, y), (6.8, y))
        sheet.dot((5.5, y))
    common = min(heights.values()) - 1.4
    sheet.wire((5.5, max(heights.values())), (5.5, common), (11.5, common))
    rows = [(heights[name], f"GPIO {pin}", number) for name, (pin, number) in PINS.items()]
    sheet.pi(12, [*rows, (common, "ground", GROUND)])


def plan(sheet) -> None:
    """The collar as a person sees it who leans over the table."""
    for radius in (3.3, 1.7):
        sheet.circle(radius)
    for name, (x, y) in PLACES.items():
        sheet.note((x, y), name, "center")
        sheet.box((x - 0.6, y - 0.35), (x + 0.6, y + 0.35), "")
    sheet.note((0, 0), "spindle", "center")
    sheet.note((0, 4), "column", "center")
    sheet.note((0, -4), "you stand here", "center")
    sheet.note((0, -4.6), "seen from above", "center")
