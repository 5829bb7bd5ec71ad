"""An interface in the gauge's cable that has no supply but the adapter's two handshake lines."""

from schemdraw import elements as parts

TITLE = "Powered interface: its supply comes from DTR and RTS"
ROWS = (
    (2.4, "out", "2 RXD"),
    (0.8, "V+", "4 DTR, on"),
    (-1.4, "0 V", "5 ground"),
    (-3.6, "V−", "7 RTS, off"),
)


def draw(sheet) -> None:
    """Put it on the sheet."""
    sheet.box((0, -4.6), (2.4, 4.2), "gauge")
    sheet.wire((2.4, -0.6), (4.2, -0.6))
    sheet.note((3.3, -0.2), "data", "center")
    sheet.box((4.2, -4.6), (7.6, 4.2), "interface\nin the cable")
    sheet.box((13.4, -4.6), (16.6, 4.2), "adapter\n9-pin plug")
    for y, left, right in ROWS:
        sheet.note((7.4, y), left, "right")
        sheet.note((13.6, y), right)
    (out, _, _), (plus, _, _), (zero, _, _), (minus, _, _) = ROWS
    for y in (out, zero):
        sheet.wire((7.6, y), (13.4, y))
    for y in (plus, minus):
        sheet.wire((7.6, y), (10.8, y))
    sheet.add(parts.Diode().at((13.4, plus)).to((10.8, plus)).label("D1", loc="bottom"))
    sheet.add(parts.Diode().at((10.8, minus)).to((13.4, minus)).label("D2"))
    sheet.dot((9.4, plus), (9.4, zero), (9.4, minus))
    for high, low in ((plus, zero), (zero, minus)):
        store = parts.Capacitor2(polar=True).at((9.4, high)).to((9.4, low))
        sheet.add(store.label("10 µF", loc="bottom", ofst=0.3))
