"""Before anything else: table bare and clean, everything locked and tight.

Most heads that never repeat fail here: a chip under the ring, a loose knuckle, a gib (common
practice, no source).
"""

from dataclasses import dataclass, replace

from daq.audit.anytime import restart
from daq.audit.events import Data, OfStage
from daq.audit.folding import go
from daq.audit.held.table import TABLE, TICKS, TableReady
from daq.audit.input import Input, Refused
from daq.audit.parts import Next
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.common import FIRST
from daq.audit.views.step import Action, Field, Wording
from daq.audit.views.table import lines, tick
from daq.settings import quoted
from daq.units import UnitError, parse
from daq.words import said

COLDEST_C, HOTTEST_C = 0.0, 50.0
"""Outside of this nobody squares a head: a slip of the pen, or the other unit."""


@dataclass(frozen=True)
class TableReadied(OfStage):
    """The table is bare and clean and everything locked, or is not, and why."""

    found: TableReady
    next: Next


@dataclass(frozen=True)
class Card:
    """The payload of `readied`: each line ticked or not, and what else is written on the card."""

    bare: bool = False
    clean: bool = False
    centred: bool = False
    locked: bool = False
    why: str = ""
    temperature: str = ""
    thermometer: str = ""
    wrench: str = ""


def readied(job: Job, given: Input) -> tuple[Data, ...]:
    """The card as it was ticked; what is not, with its reason."""
    card = given.payload(Card)
    missing = tuple(key for key in TICKS if not getattr(card, key))
    why = card.why.strip()
    if missing and not why:
        raise Refused("table-without-why", what=tuple(tick(job, key) for key in missing))
    found = TableReady(
        missing,
        why,
        _temperature(card.temperature.strip()),
        card.thermometer.strip(),
        card.wrench.strip(),
    )
    return (TableReadied(found, Next("prepare")),)


def _temperature(text: str) -> float | None:
    if not text:
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
        Field("temperature", said("temperature-such-as"), required=False),
        Field("thermometer", said("thermometer-number"), required=False),
        Field("wrench", said("wrench-number"), required=False),
    )
    return [Action("readied", said("table-is-ready"), primary=True, fields=(*ticks, *written))]


def _readied(job: Job, data: TableReadied) -> Job:
    return replace(go(job, data.next), own={**job.own, TABLE: data.found})


STAGES = (
    Stage(
        TABLE,
        before="power",
        when=_asked,
        shows=Shows("prepare", _says, _buttons, cautions=just((said("vise-is-heavy"), FIRST))),
        commands={"readied": Handler(readied), "restarted": Handler(restart.unread)},
        took={TableReadied: Took(_readied, undoable=True, told=said("table-was-readied"))},
        heeds_zero=False,
    ),
)
