"""What every picture is: the drawing, and the table that says the same."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Twin:
    """The numbers of a picture for whoever reads or copies them; the first of a row names it."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, SVG that stands in a page as well as in a file of its own, and its table.

    `says`: what it shows, in a sentence; it stands in the drawing, too, for whoever hears it, as
    does what is to be seen of it first, its `headline`, if anything is.
    """

    svg: str
    table: Twin
    says: str
    headline: str = ""
