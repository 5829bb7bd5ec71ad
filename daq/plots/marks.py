"""The only file that writes a drawing's elements.

A class names what a mark is. A page's stylesheet draws it by that; the attributes of `PAPER` are
what it looks like where there is none, on paper and in a file of its own. Lengths are written with
one decimal, so that the same numbers give the same bytes.
"""

import math
from collections.abc import Mapping, Sequence
from html import escape
from types import MappingProxyType
from typing import Final, Literal

Anchor = Literal["start", "middle", "end"]

INK: Final = "#141b2e"
SOFT: Final = "#4a5063"
FAINT: Final = "#c9cede"
_FACE: Final = "Liberation Sans, sans-serif"
SIZE: Final = 15
"""Of the letters; a capital is about 0.7 of it."""

PAPER: Final[Mapping[str, str]] = MappingProxyType(
    {
        "ground": 'fill="#fff"',
        "grid": f'fill="none" stroke="{FAINT}"',
        "base": f'fill="none" stroke="{SOFT}"',
        "limit": f'fill="none" stroke="{INK}" stroke-width="2.5"',
        "control": f'fill="none" stroke="{INK}" stroke-dasharray="9 5"',
        "control left": f'fill="none" stroke="{INK}" stroke-dasharray="2 4"',
        "smooth": f'fill="none" stroke="{SOFT}" stroke-width="1.5"',
        "smooth drifted": f'fill="none" stroke="{INK}" stroke-width="4"',
        "marks": f'fill="{INK}" stroke="{INK}" stroke-width="1.5"',
        "hollow": 'fill="#fff"',
        "scribe": f'fill="none" stroke="{INK}" stroke-width="1.5"',
        "window": 'fill="#e9ecf5"',
        "tape": f'fill="none" stroke="{INK}" stroke-width="4"',
        "word": f'fill="{INK}" stroke="none"',
        "soft": f'fill="{SOFT}" stroke="none"',
    }
)
"""Presentational attributes by class, dark on white."""


def number(value: float) -> str:
    """Return a coordinate with one decimal, without one where that is a zero.

    Raises:
        ValueError: it is not finite.
    """
    if not math.isfinite(value):
        raise ValueError(f"coordinate: found {value}; allowed: a finite number")
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def _named(kind: str) -> str:
    return f' class="{kind}" {PAPER[kind]}' if kind else ""


def line(x1: float, y1: float, x2: float, y2: float, kind: str = "") -> str:
    """A straight line."""
    ends = f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
    return f"<line{_named(kind)} {ends}/>"


def rect(x: float, y: float, width: float, height: float, kind: str = "") -> str:
    """A rectangle."""
    sides = f'x="{number(x)}" y="{number(y)}" width="{number(width)}" height="{number(height)}"'
    return f"<rect{_named(kind)} {sides}/>"


def circle(x: float, y: float, radius: float, kind: str = "") -> str:
    """A circle."""
    return f'<circle{_named(kind)} cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"/>'


def path(along: str, kind: str = "") -> str:
    """Whatever `through`, `square`, `dot` and `wedge` say, one after the other."""
    return f'<path{_named(kind)} d="{along}"/>'


def through(points: Sequence[tuple[float, float]]) -> str:
    """A path from point to point; nothing for fewer than two."""
    if len(points) < 2:
        return ""
    (x, y), *rest = points
    return f"M{number(x)} {number(y)}L" + " ".join(f"{number(x)} {number(y)}" for x, y in rest)


def upright(x: float, start: float, end: float) -> str:
    """The path of an upright stroke."""
    return f"M{number(x)} {number(start)}V{number(end)}"


def level(x: float, half: float, y: float) -> str:
    """The path of a level stroke around a point."""
    return f"M{number(x - half)} {number(y)}h{number(2.0 * half)}"


def square(x: float, y: float, half: float) -> str:
    """The path of a square around a point."""
    side = number(2.0 * half)
    return f"M{number(x - half)} {number(y - half)}h{side}v{side}h-{side}z"


def dot(x: float, y: float, radius: float) -> str:
    """The path of a dot around a point."""
    r, across = number(radius), number(2.0 * radius)
    # Drawn the way round that a square is: where both meet they stay filled.
    return f"M{number(x - radius)} {number(y)}a{r} {r} 0 1 1 {across} 0 {r} {r} 0 1 1-{across} 0z"


def wedge(x: float, y: float, half: float, *, up: bool) -> str:
    """The path of a wedge that points out of the picture where a value lies beyond it."""
    tall = number(-2.0 * half if up else 2.0 * half)
    return f"M{number(x - half)} {number(y)}h{number(2.0 * half)}l-{number(half)} {tall}z"


def words(x: float, y: float, text: str, kind: str = "word", anchor: Anchor = "start") -> str:
    """A line of words."""
    at = "" if anchor == "start" else f' text-anchor="{anchor}"'
    return f'<text{_named(kind)} x="{number(x)}" y="{number(y)}"{at}>{escape(text)}</text>'


def unseen(key: str, width: float, top: float, bottom: float) -> str:
    """What can be pressed and is not seen, to be put where `pressed` says: so wide, left of it."""
    w, tall = number(width), number(bottom - top)
    drawn = f'id="{key}-at" d="M0 {number(top)}h{w}v{tall}h-{w}"'
    return f'<defs><path {drawn} fill="none" stroke="none" pointer-events="all"/></defs>'


def pressed(key: str, x: float) -> str:
    """The `unseen` of that key, from `x` on."""
    return f'<use href="#{key}-at" x="{number(x)}"/>'


def group(kind: str, *inside: str) -> str:
    """Marks of one kind."""
    return f"<g{_named(kind)}>{''.join(inside)}</g>" if any(inside) else ""


def told(text: str, *inside: str, href: str = "") -> str:
    """Marks with what they say to whoever points at them; with `href`, a link."""
    title = f"<title>{escape(text, quote=False)}</title>"
    if href:
        return f'<a href="{escape(href)}">{title}{"".join(inside)}</a>'
    return f"<g>{title}{''.join(inside)}</g>"


def drawing(
    kind: str, width: float, height: float, title: str, says: str, *inside: str, links: bool = False
) -> str:
    """Return the whole picture. With `links` a reader is told what is in it, else its words alone.

    `kind`: by which a page knows it; `says`: what it shows, in a sentence.
    """
    box = f"{number(width)} {number(height)}"
    sized = f'width="{number(width)}" height="{number(height)}" viewBox="0 0 {box}"'
    role = "group" if links else "img"
    letters = f'font-family="{_FACE}" font-size="{SIZE}"'
    head = f"<title>{escape(title, quote=False)}</title><desc>{escape(says, quote=False)}</desc>"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="picture {kind}" role="{role}" {sized} '
        f"{letters}>{head}{rect(0, 0, width, height, 'ground')}{''.join(inside)}</svg>"
    )
