"""A gauge's clock, data and request at a small board, behind an isolated USB adapter."""

from schemdraw import elements as parts

TITLE = "Bridge: clock and data of a small gauge to USB"


def draw(sheet) -> None:
    """Put it on the sheet."""
    sheet.box((0, -8.2), (3, 2.2), "gauge\n1.5 V cell")
    sheet.box((5.2, -3), (9.2, 2.2), "level shifter\ndrawn above", dashed=True)
    sheet.box((11.4, -8.2), (16, 2.2), "board\n3.3 V, 8 MHz")
    for name, pin, y in (("clock", "PD2", -0.6), ("data", "PD3", -2.2)):
        sheet.note((2.8, y), name, "right")
        sheet.wire((3, y), (5.2, y))
        sheet.note((5.4, y), name)
        sheet.note((9, y), f"not {name}", "right")
        sheet.wire((9.2, y), (11.4, y))
        sheet.note((11.6, y), pin)
    request(sheet)
    sheet.note((2.8, -7.4), "common", "right")
    sheet.wire((3, -7.4), (11.4, -7.4))
    sheet.note((11.6, -7.4), "0 V")
    usb(sheet)


def request(sheet) -> None:
    """The board pulls the gauge's request line down; its high level is the gauge's own."""
    sheet.note((2.8, -4), "request", "right")
    npn = sheet.add(parts.BjtNpn().reverse().anchor("base").at((7.6, -5.2)).theta(0))
    x, top = npn.collector
    sheet.wire((3, -4), (x, -4), (x, top))
    sheet.wire(tuple(npn.emitter), (x, -7.4))
    sheet.dot((x, -7.4))
    sheet.wire((7.6, -5.2), (8, -5.2))
    sheet.add(parts.Resistor().at((8, -5.2)).to((11, -5.2)).label("47 kΩ"))
    sheet.wire((11, -5.2), (11.4, -5.2))
    sheet.note((11.6, -5.2), "PD4")


def usb(sheet) -> None:
    """Behind the board nothing of the gauge's side goes on."""
    sheet.box((17.6, -8.2), (21.8, 2.2), "isolated\nUSB adapter")
    sheet.box((23.4, -8.2), (26.8, 2.2), "Raspberry Pi")
    sheet.barrier(19.7, -8.8, 0.9)
    for left, words in ((15.8, "USB"), (17.8, "gauge's")):
        sheet.note((left, -3.6), words, "right" if left < 17 else "left")
    sheet.note((21.6, -3.6), "Pi's", "right")
    sheet.note((23.6, -3.6), "USB")
    sheet.wire((16, -3.6), (17.6, -3.6))
    sheet.wire((21.8, -3.6), (23.4, -3.6))
