"""A serial adapter whose two sides share no conductor: light for the signals, a field for 5 V."""

from schemdraw import elements as parts

TITLE = "Isolated serial adapter between gauge and computer"
ROWS = ((1.8, "TXD", "USB 5 V"), (-1.4, "RXD", "USB data"), (-4.4, "0 V", "0 V"))


def draw(sheet) -> None:
    """Put it on the sheet."""
    for left, name in (
        (-4, "gauge's cable"),
        (0.6, "line side:\nits receiver\nand driver"),
        (9.2, "computer side:\nUSB to serial"),
        (13.8, "Raspberry Pi"),
    ):
        sheet.box((left, -5.2), (left + 3.2, 5), name)
    for y, left, right in ROWS:
        sheet.note((-1, y), left, "right")
        sheet.wire((-0.8, y), (0.6, y))
        sheet.wire((12.4, y), (13.8, y))
        sheet.note((14, y), right)
    sheet.barrier(6.5, -6.4, 5.4)
    sheet.note((6.5, 5.8), "barrier", "center")
    supplied(sheet)
    coupled(sheet)
    for x, ground, whose, side in (
        (-0.1, parts.GroundSignal, "gauge's 0 V", "right"),
        (13.1, parts.Ground, "Pi's 0 V", "left"),
    ):
        sheet.dot((x, -4.4))
        sheet.wire((x, -4.4), (x, -5.7))
        sheet.add(ground().at((x, -5.7)).theta(0).label(whose, side, ofst=0.2))


def supplied(sheet) -> None:
    """The line side's 5 V: a field crosses the barrier."""
    coils = sheet.add(parts.Transformer(t1=4, t2=4).anchor("p1").at((6, 4.2)).theta(0))
    for end in (coils.p1, coils.p2):
        sheet.wire(tuple(end), (3.8, end[1]))
    for end in (coils.s1, coils.s2):
        sheet.wire(tuple(end), (9.2, end[1]))
    sheet.note((4.9, 3.4), "supply", "center")


def coupled(sheet) -> None:
    """What the gauge sends, and the other way round what it is asked: light crosses it."""
    there = sheet.add(parts.Optocoupler(box=False).at((5.3, 0.2)).theta(0))
    back = sheet.add(parts.Optocoupler(box=False).reverse().at((5.36, -2.8)).theta(0))
    for one, lit, seen in ((there, 3.8, 9.2), (back, 9.2, 3.8)):
        for end in (one.anode, one.cathode):
            sheet.wire(tuple(end), (lit, end[1]))
        for end in (one.collector, one.emitter):
            sheet.wire(tuple(end), (seen, end[1]))
