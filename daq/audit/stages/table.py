"""Before anything else: table bare and clean, everything locked and tight.

Most heads that never repeat fail here: a chip under the ring, a loose knuckle, a gib (common
practice, no source).
"""

import re
from dataclasses import dataclass, replace

from daq.audit.anytime import restart
from daq.audit.events import Data, OfStage
from daq.audit.folding import go
from daq.audit.held.table import TABLE, TICKS, TableReady
from daq.audit.input import Input, Refused
from daq.audit.parts import Next
from daq.audit.shop_papers import ToolKind
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.common import FIRST
from daq.audit.views.step import Action, Field, Wording
from daq.audit.views.table import apart, lines, read_at, tick, told
from daq.checks.sweep.warmth import warmer
from daq.settings import quoted
from daq.units import UnitError, parse
from daq.words import Said, said

COLDEST_C, HOTTEST_C = 0.0, 50.0
"""Outside of this nobody squares a head: a slip of the pen, or the other unit."""
_BARE = re.compile(r"[+-]?[0-9]+(\.[0-9]*)?")
_UNIT = re.compile(r"^[+-]?[0-9.]*\s*")
"""A number, and what stands before a unit."""


@dataclass(frozen=True)
class TableReadied(OfStage):
    """The table is bare and clean and everything locked, or is not, and why.

    `said`: that ring, machine and room are further apart than the machine's file allows for.
    """

    found: TableReady
    next: Next
    said: Said | None = None


@dataclass(frozen=True)
class Card:
    """The payload of `readied`: each line ticked or not, and what else is written on the card.

    `temperatures`: of room, machine, and ring or plate, as "20 / 21 / 23 °C"; the later ones, or
    what stands between two strokes, may be left out.
    """

    bare: bool = False
    clean: bool = False
    centred: bool = False
    locked: bool = False
    why: str = ""
    temperatures: str = ""
    thermometer: str = ""
    wrench: str = ""


def readied(job: Job, given: Input) -> tuple[Data, ...]:
    """The card as it was ticked; what is not, with its reason."""
    card = given.payload(Card)
    missing = tuple(key for key in TICKS if not getattr(card, key))
    why = card.why.strip()
    if missing and not why:
        raise Refused("table-without-why", what=tuple(tick(job, key) for key in missing))
    warm = _temperatures(job, card.temperatures.strip())
    found = TableReady(missing, why, *warm, card.thermometer.strip(), card.wrench.strip())
    return (TableReadied(found, Next("prepare"), _far_apart(job, found)),)


def _far_apart(job: Job, found: TableReady) -> Said | None:
    apart_k, doubts = found.apart_k, job.setup.machine.uncertainty
    if apart_k is None or warmer(doubts, apart_k) <= doubts.temperature:
        return None
    return said("temperatures-apart", seat=job.setup.machine.seat, apart=apart(job, apart_k))


def _temperatures(job: Job, text: str) -> tuple[float | None, float | None, float | None]:
    """Those written, in their order; the unit of the last is that of all that have none."""
    written = [each.strip() for each in text.split("/")]
    if len(written) > len(read_at(job)):
        raise Refused("temperatures-too-many", found=quoted(text), allowed=len(read_at(job)))
    unit = _UNIT.sub("", written[-1])
    every = (f"{each} {unit}".strip() if _BARE.fullmatch(each) else each for each in written)
    room, machine, ring, *_ = (*map(_temperature, every), None, None)
    return room, machine, ring


def _temperature(text: str) -> float | None:
    if text in ("", "-"):
        return None
    try:
        celsius = parse(text, "temperature")
    except UnitError as error:
        raise Refused("temperature-no-temperature", found=quoted(text)) from error
    if not COLDEST_C <= celsius <= HOTTEST_C:
        raise Refused("temperature-implausible", found=quoted(text))
    return celsius


def _asked(job: Job) -> bool:
    """Of a head, while its machine may be worked at: else the lock is asked about, or is on."""
    return job.check is None and (job.anew is None or job.anew.why not in ("restart", "left"))


def _says(job: Job) -> Wording:
    return Wording(said("table-ready"), said("table-ready-how"), lines(job))


def _buttons(job: Job) -> list[Action]:
    ticks = tuple(Field(key, tick(job, key), "tick", required=False) for key in TICKS)
    written = (
        Field("why", said("table-why"), required=False),
        Field("temperatures", _such_as(job), required=False),
        _tool(job, "thermometer", said("thermometer-number")),
        _tool(job, "wrench", said("wrench-number")),
    )
    return [Action("readied", said("table-is-ready"), primary=True, fields=(*ticks, *written))]


def _tool(job: Job, kind: ToolKind, say: Said) -> Field:
    """The number of one: the machine's own first, then any other that the shop's file names."""
    machine = job.setup.machine
    wrenches = tuple(axis.tighten.wrench for axis in machine.axes.values())
    own = wrenches if kind == "wrench" else (machine.thermometer,)
    others = (tool.number for tool in job.setup.tools if tool.kind == kind)
    known = tuple(dict.fromkeys(each for each in (*own, *others) if each))
    return Field(kind, say, required=False, suggests=known)


def _such_as(job: Job) -> Said:
    machine = job.setup.machine
    return said("temperatures-such-as", seat=machine.seat, unit=machine.unit)


def _readied(job: Job, data: TableReadied) -> Job:
    return replace(go(job, data.next, data.said), own={**job.own, TABLE: data.found})


def _detail(job: Job, data: TableReadied) -> tuple[Said, ...]:
    """The card as it was filled in."""
    card = told(job, data.found)
    return card if data.said is None else (*card, data.said)


STAGES = (
    Stage(
        TABLE,
        before="power",
        when=_asked,
        shows=Shows("prepare", _says, _buttons, cautions=just((said("vise-is-heavy"), FIRST))),
        commands={"readied": Handler(readied), "restarted": Handler(restart.unread)},
        took={
            TableReadied: Took(
                _readied, undoable=True, told=said("table-was-readied"), detail=_detail
            )
        },
        heeds_zero=False,
    ),
)
