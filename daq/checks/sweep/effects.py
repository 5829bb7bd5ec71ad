"""What a lean does to the work: the [work] table of a machine's file and its answers.

A tool leaning by slopes p along the feed and q across it turns in the plane
z = −(p x + q y), x along, y across. What it cuts follows from where that circle lies.
"""

import math
from dataclasses import dataclass
from typing import Annotated, Literal

from daq.checks.sweep.callouts import sagitta
from daq.settings import Length, Range
from daq.words import Both

_Size = Annotated[Length, Range(0.1, 5_000.0)]
Key = Literal["dish", "step", "hole", "bore"]

_BESIDE = math.sin(math.pi / 8.0)
"""A direction is named by both its parts when it is nearer to a diagonal than to either."""


@dataclass(frozen=True, slots=True)
class Work:
    """The shop's own cutter and part, mm; what is left out is not answered.

    `cutter`: the face mill's diameter; `cut_width`: the strip it cuts, as wide as the cutter
    when left out; `pass_step`: from one pass to the next; `feed`: which way the passes run.
    `hole_depth`: drilled with the quill. `bore_diameter`: bored by raising the table.

    Raises:
        ValueError: a strip or a step wider than the cutter.
    """

    cutter: _Size | None = None
    cut_width: _Size | None = None
    pass_step: _Size | None = None
    feed: Literal["left-right", "front-back"] = "left-right"
    hole_depth: _Size | None = None
    bore_diameter: _Size | None = None

    def __post_init__(self) -> None:
        """Refuse what no cutter of this size can do."""
        for key, value in (("cut_width", self.cut_width), ("pass_step", self.pass_step)):
            if self.cutter is not None and value is not None and value > self.cutter:
                raise ValueError(
                    f"{key}: found {value:g} mm; allowed: up to the cutter's {self.cutter:g} mm"
                )


@dataclass(frozen=True, slots=True)
class Effect:
    """One thing a lean does, mm: by exact geometry, and by the textbook's small-angle form.

    `sizes_mm` are those of the work it is for, in the order its sentence names them;
    `toward` where it goes ("back-left"), "" for nowhere; `feed` how the passes run, if they matter.
    """

    key: Key
    exact_mm: float
    textbook_mm: float
    sizes_mm: tuple[float, ...]
    toward: str = ""
    feed: str = ""


def effects(slopes: Both[float], work: Work) -> tuple[Effect, ...]:
    """Return what these leans, mm/mm, do to the work the shop told of.

    Positive where the right is low, and the front.
    """
    along, across = slopes.values()
    if work.feed == "front-back":
        along, across = across, along
    found = []
    if work.cutter is not None:
        found.append(_dish(along, across, work.cutter, work.cut_width or work.cutter, work.feed))
    if work.pass_step is not None:
        found.append(_step(along, across, work.pass_step, work.feed))
    if work.hole_depth is not None:
        found.append(_hole(slopes, work.hole_depth))
    if work.bore_diameter is not None:
        found.append(_bore(math.hypot(*slopes.values()), work.bore_diameter))
    return tuple(found)


def _dish(along: float, across: float, cutter: float, width: float, feed: str) -> Effect:
    """How far the middle of a face-milled strip lies below its edges.

    Textbook (from memory): (D − √(D² − e²))/2 · tan τ, τ the lean along the feed; a lean
    across only tilts the strip. Exact: the circle's ends, and sin τ in place of tan τ.
    """
    middle = _lead(along, across, cutter, 0.0)
    edges = _lead(along, across, cutter, width / 2.0) + _lead(along, across, cutter, -width / 2.0)
    exact = abs(along) * (middle - edges / 2.0)
    return Effect("dish", exact, sagitta(width, cutter) * abs(along), (width, cutter), feed=feed)


def _lead(along: float, across: float, cutter: float, y: float) -> float:
    """How far ahead of its centre the cutter's edge is, `y` beside it: x² + y² + z² = r²."""
    steep = 1.0 + along * along
    under = steep * (cutter * cutter / 4.0 - y * y) - across * across * y * y
    return (math.sqrt(max(0.0, under)) - along * across * y) / steep


def _step(along: float, across: float, step: float, feed: str) -> Effect:
    """How far one pass's face lies below the next: s · tan σ, σ the lean across the feed.

    Exact: square to the faces, which lean themselves.
    """
    upright = math.sqrt(1.0 + along * along + across * across)
    return Effect("step", step * abs(across) / upright, step * abs(across), (step,), feed=feed)


def _hole(slopes: Both[float], depth: float) -> Effect:
    """How far off a drilled hole ends: h · tan τ; exact with h along the quill: h · sin τ.

    The tool points the other way than the spindle's top leans.
    """
    lean = math.hypot(*slopes.values())
    toward = ""
    if lean > 0.0:
        parts = []
        if abs(slopes.nod) >= _BESIDE * lean:
            parts.append("back" if slopes.nod > 0.0 else "front")
        if abs(slopes.side) >= _BESIDE * lean:
            parts.append("left" if slopes.side > 0.0 else "right")
        toward = "-".join(parts)
    exact = depth * lean / math.sqrt(1.0 + lean * lean)
    return Effect("hole", exact, depth * lean, (depth,), toward=toward)


def _bore(lean: float, diameter: float) -> Effect:
    """How much narrower a bore is along the lean than across it.

    A leaning circle raised straight up leaves an ellipse of D by D cos τ: D (1 − cos τ);
    for small angles D τ²/2. Fed with the quill the bore is round, and leans as a hole does.
    """
    upright = math.sqrt(1.0 + lean * lean)
    # 1 − 1/upright, written so that small leans keep their digits.
    exact = diameter * lean * lean / (upright * (1.0 + upright))
    return Effect("bore", exact, diameter * lean * lean / 2.0, (diameter,))
