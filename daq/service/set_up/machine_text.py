"""A machine's file, made of what was measured at it with a tape."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from daq.settings import toml_value
from daq.words import Said, Unit, said

Moved = Literal["worm", "rack", "hand", "none"]
"""What moves an axis. Shims need what a tape alone does not tell: they are written by hand."""


@dataclass(frozen=True)
class GivenMachine:
    """What was said of a machine. Lengths are numbers in `unit`, as typed; "": not measured.

    `side_pivot`, `nod_pivot`: from the spindle's axis sideways to the left, and backward, to the
    axis's pivot; the heights are above what is swept.
    """

    name: str
    gauge: str
    unit: Unit
    radius: str
    seat: Literal["ring", "plate", "table", "block"] = "ring"
    side_moved: Moved = "worm"
    nod_moved: Moved = "worm"
    z: Literal["knee", "quill", "powered"] = "knee"
    tolerance: Literal["roughing", "general", "facing", "boring", "acceptance"] = "general"
    side_pivot: str = ""
    side_height: str = ""
    nod_pivot: str = ""
    nod_height: str = ""


_NOT_MEASURED = {"side_pivot": 0, "nod_pivot": 180, "side_height": 380, "nod_height": 330}
"""Where nobody measured, mm; with a doubt by which the first moves teach it. Common practice, no
source."""
_PIVOT_DOUBT = {"side": 20, "nod": 120}
_HEIGHT_DOUBT = 150


def machine_text(given: GivenMachine, today: str, words: Callable[[Said], str]) -> str:
    """The whole file. `words`: of the language in which it names what screens will say."""
    lines = [
        f"# Written from the set-up page on {today}, from what was measured there. Any editor may",
        "# change it: what stands in it counts from the next audit on, once the files are read",
        "# anew. Keys that are not here have their defaults; README names every key there is.",
        "",
        f"name = {toml_value(given.name)}",
        "",
        "# The gauge on the arm: a file's name in gauges/, without its ending.",
        f"gauge = {toml_value(given.gauge)}",
        "",
        "# What is swept, in words, and what the contact stands on.",
        f"surface = {toml_value(words(said('surface-named', seat=given.seat)))}",
        f"seat = {toml_value(given.seat)}",
        "",
        "# The unit until the gauge has spoken; then everything is shown in the gauge's own.",
        f"unit = {toml_value(given.unit)}",
        "",
        "# From the spindle's axis to the contact.",
        f"sweep_radius = {_length(given.radius, given.unit)}",
        "",
        '# How the contact is brought down: the "knee", the "quill", or a "powered" head or table.',
        f"z = {toml_value(given.z)}",
        "",
        "# How square is square enough, over 300 mm: roughing 0.050, general 0.025, facing 0.015,",
        "# boring 0.010, acceptance 0.025 mm.",
        f"tolerance = {toml_value(given.tolerance)}",
        "",
        *_axis(given, "side", "to the left", words),
        "",
        *_axis(given, "nod", "to the back", words),
    ]
    return "\n".join(lines) + "\n"


def _axis(
    given: GivenMachine, axis: Literal["side", "nod"], way: str, words: Callable[[Said], str]
) -> list[str]:
    moved = given.side_moved if axis == "side" else given.nod_moved
    pivot = given.side_pivot if axis == "side" else given.nod_pivot
    height = given.side_height if axis == "side" else given.nod_height
    adjuster = said("adjuster-named", axis=axis, moved=moved)
    return [
        f"[{axis}]",
        f"say = {toml_value(words(said('axis-name', axis=axis)))}",
        "# As they appear in what the screens say: use the words of your shop.",
        f"bolts = {toml_value(words(said('bolts-named', axis=axis)))}",
        f"adjuster = {toml_value(words(adjuster))}",
        f"# From the spindle's axis {way}, to the pivot.",
        *_measured(given.unit, f"{axis}_pivot", pivot, "pivot_distance", _PIVOT_DOUBT[axis]),
        "# The pivot's height above what is swept.",
        *_measured(given.unit, f"{axis}_height", height, "pivot_height", _HEIGHT_DOUBT),
        "",
        f"[{axis}.adjust]",
        f"kind = {toml_value(moved)}",
    ]


def _measured(unit: Unit, what: str, typed: str, key: str, doubt_mm: int) -> list[str]:
    if typed.strip():
        return [f"{key} = {_length(typed, unit)}"]
    doubt = "pivot_doubt" if key == "pivot_distance" else "pivot_height_doubt"
    return [
        "# Not measured: the first moves teach it. With a tape it is known from the first one on.",
        f'{key} = "{_NOT_MEASURED[what]} mm"',
        f'{doubt} = "{doubt_mm} mm"',
    ]


def _length(typed: str, unit: Unit) -> str:
    """What was typed, with its unit; a comma is taken for the decimal sign."""
    return toml_value(f"{typed.strip().replace(',', '.')} {unit}")
