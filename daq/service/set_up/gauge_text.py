"""A gauge's file, made of the example whose frames it sends."""

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, Literal

from daq.service.set_up.text import changed

EXAMPLES: Final = "example-*.toml"

_PAPERS: Final = (
    "laboratory", "calibrated_on", "certificate.number", "certificate.uncertainty",
    "certificate.k", "certificate.condition", "certificate.drift", "stylus_angle", "angle_doubt",
)  # fmt: skip
"""What an example says of a gauge that nobody has: none of it is said of another one."""


@dataclass(frozen=True)
class GivenGauge:
    """What was said of a gauge. `example`: the one it is like, by its key.

    Lengths as text with their unit. What is left empty stands in the file commented out, and is
    said to be missing: nobody guesses what papers say.
    """

    port: str
    example: str
    name: str
    number: str
    resolution: str
    kind: Literal["plunger", "lever"] = "plunger"
    counts_up: bool = True
    travel: str = ""
    max_error: str = ""
    due: datetime.date | None = None


def examples(folder: Path) -> dict[str, str]:
    """The text of each example among the shipped files, by its key."""
    found = sorted((folder / "gauges").glob(EXAMPLES))
    return {path.stem: path.read_text(encoding="utf-8") for path in found}


def gauge_text(given: GivenGauge, example: str, table: Mapping[str, Any], today: str) -> str:
    """The whole file; `table` is what `example`, the example's text, says.

    Raises:
        NotChangedError: the example lacks what every gauge's file says.
    """
    told = {"travel": given.travel or None, "max_error": given.max_error or None}
    papers: dict[str, Any] = {**told, "calibration_due": given.due}
    values: dict[str, Any] = dict.fromkeys(key for key in _PAPERS if _says(table, key))
    values |= {"name": given.name, "serial_number": given.number, "kind": given.kind}
    values |= {"counts_up": given.counts_up, "line.port": given.port, **papers}
    values["resolution"] = given.resolution
    missing = [key for key, value in papers.items() if value is None]
    head = [
        f"# Written from the set-up page on {today}, after {given.example}.toml. Any editor may",
        "# change it; what stands in it counts once the files are read anew.",
    ]
    if missing:
        head.append(f"# Missing: {', '.join(missing)}. Put in what its papers say: nothing runs")
        head.append("# with this gauge before.")
    return "\n".join([*head, "", changed(example, values)])


def _says(table: Mapping[str, Any], key: str) -> bool:
    at: Any = table
    for each in key.split("."):
        if not isinstance(at, Mapping) or each not in at:
            return False
        at = at[each]
    return True
