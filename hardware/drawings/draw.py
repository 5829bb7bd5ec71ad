"""Makes every drawing beside its source: python hardware/drawings/draw.py (needs schemdraw).

A source is a short file of this folder with two names: TITLE, and `draw`, which puts parts on a
sheet. Its drawing has its name and the ending .svg. Sources import nothing of each other; what
several of them need stands here.
"""

import itertools
import re
import runpy
import sys
from collections.abc import Sequence
from pathlib import Path
from xml.sax.saxutils import escape

import schemdraw
from schemdraw import elements as parts
from schemdraw.segments import SegmentCircle, SegmentText

HERE = Path(__file__).resolve().parent
FONT_PX = 13
Point = tuple[float, float]


class Sheet:
    """A drawing in the making. Lengths are in units of 36 px, y grows upward."""

    def __init__(self, title: str) -> None:
        """An empty one; its title stands in the file, not in the picture."""
        self.title = title
        self._drawing = schemdraw.Drawing(show=False)
        self._drawing.config(
            unit=2, fontsize=FONT_PX, font="sans-serif", lw=1.5, bgcolor="white", margin=0.3
        )

    def add(self, part: parts.Element) -> parts.Element:
        """Put a part on it, and hand it back with its places."""
        return self._drawing.add(part)

    def wire(self, *points: Point, dashed: bool = False) -> None:
        """A wire from point to point."""
        style = "--" if dashed else "-"
        for start, end in itertools.pairwise(points):
            self.add(parts.Line().at(start).to(end).linestyle(style))

    def dot(self, *points: Point) -> None:
        """Wires that cross here are joined."""
        for point in points:
            self.add(parts.Dot().at(point))

    def note(self, at: Point, text: str, side: str = "left") -> None:
        """Words; `side` is the one that `at` is at: left, right or center."""
        words = parts.Element().at((0, 0)).theta(0)
        words.segments.append(SegmentText(at, text, align=(side, "center"), fontsize=FONT_PX))
        self.add(words)

    def box(self, corner: Point, opposite: Point, name: str, dashed: bool = False) -> None:
        """Something with a name, of which only the terminals matter; the name is at its top."""
        (left, low), (right, high) = corner, opposite
        around = (left, low), (left, high), (right, high), (right, low), (left, low)
        self.wire(*around, dashed=dashed)
        for line, words in enumerate(name.splitlines()):
            self.note(((left + right) / 2, high - 0.35 - 0.45 * line), words, "center")

    def circle(self, radius: float) -> None:
        """A circle around the origin."""
        round_about = parts.Element().at((0, 0))
        round_about.segments.append(SegmentCircle((0, 0), radius))
        self.add(round_about)

    def switch(self, name: str) -> None:
        """A button that joins two wires while it is pressed: they end at (3.4, 0), (3.4, -2.4)."""
        self.box((0, -3.2), (3.4, 1.6), name)
        self.add(parts.Button().at((0.7, 0)).to((2.7, 0)))
        self.wire((0.7, 0), (0.3, 0), (0.3, -2.4), (3.4, -2.4))
        self.wire((2.7, 0), (3.4, 0))

    def pulled_up(self, left: float, where: str, ohms: str) -> None:
        """What a pin at height 0 has behind it, on the Pi."""
        self.box((left, -1.2), (left + 4.6, 3.6), where, dashed=True)
        self.wire((left - 0.9, 0), (left + 3.4, 0))
        self.note((left + 3.6, 0), "in")
        self.dot((left + 1.4, 0))
        self.add(parts.Resistor().at((left + 1.4, 0)).to((left + 1.4, 1.9)).label(ohms, "bottom"))
        self.add(parts.Vdd().at((left + 1.4, 1.9)).theta(0).label("3.3 V"))

    def pi(self, left: float, pins: Sequence[tuple[float, str, int]]) -> None:
        """The computer's row of pins: height, what the pin is, its number on the header."""
        heights = [height for height, _, _ in pins]
        self.box((left, min(heights) - 0.8), (left + 3.6, max(heights) + 1.6), "Raspberry Pi")
        for height, what, number in pins:
            self.wire((left - 0.5, height), (left, height))
            self.note((left + 0.2, height), f"{what}, pin {number}")

    def barrier(self, at: float, low: float, high: float) -> None:
        """Where two sides are apart: no conductor may cross it."""
        line = parts.Line().at((at, low)).to((at, high)).linestyle(":")
        self.add(line.linewidth(4).color("#555555"))

    def svg(self) -> str:
        """The drawing: the same text on every machine."""
        text = self._drawing.get_imagedata("svg").decode()
        text = re.sub(r"-?\d+\.\d{3,}", lambda number: f"{float(number[0]):.2f}", text)
        head, rest = text.split(">", 1)
        return f"{head}>\n<title>{escape(self.title)}</title>\n" + rest.replace("><", ">\n<") + "\n"


def drawn(source: Path) -> str:
    """Return what a source makes, as SVG text."""
    schemdraw.use("svg")
    schemdraw.svgconfig.text = "text"  # in letters, whatever else is installed
    made = runpy.run_path(str(source))
    sheet = Sheet(made["TITLE"])
    made["draw"](sheet)
    return sheet.svg()


def sources() -> list[Path]:
    """Return the sources there are, sorted."""
    return sorted(path for path in HERE.glob("*.py") if path.name != Path(__file__).name)


def main() -> int:
    """Make every drawing anew."""
    for source in sources():
        source.with_suffix(".svg").write_text(drawn(source), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
