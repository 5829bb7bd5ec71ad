"""What paper says of the shop and of its tools, as its files said it when an audit was opened."""

from dataclasses import dataclass
from typing import Final, Literal

from daq.words.certified import Certified

ToolKind = Literal["wrench", "thermometer"]
"""What besides gauges a reading or a tightening rests on."""

UTC: Final = "UTC"


@dataclass(frozen=True)
class ShopPapers:
    """Who made a report, and how it is written.

    `method`, `revision`: by which the shop squares a head. `time_zone`: of the dates on paper, by
    its IANA name. `paper`: its size. `customer`: whom a machine belongs to whose file does not say.
    `dispositions`: what may become of work done while a machine was out, to choose from (the
    defaults are common practice, no source).
    """

    name: str = ""
    address: str = ""
    method: str = ""
    revision: str = ""
    time_zone: str = UTC
    paper: Literal["A4", "Letter"] = "A4"
    customer: str = ""
    dispositions: tuple[str, ...] = (
        "Nothing was made on it since",
        "Checked again: good",
        "Looked through: its tolerances allow for it",
        "Put aside until it is checked",
        "Reworked or scrapped",
        "Customer told",
    )


@dataclass(frozen=True)
class Tool(Certified):
    """A torque wrench or a thermometer, known by the `number` on it; `say`: what it is."""

    kind: ToolKind
    number: str
    say: str = ""


def the_tool(tools: tuple[Tool, ...], kind: ToolKind, number: str) -> Tool:
    """Return the tool of that number; one that no file names has no papers."""
    found = (tool for tool in tools if tool.kind == kind and tool.number == number)
    return next(found, Tool(kind, number))
