"""Events about a gauge itself: it went, it came back, it was checked against known lengths."""

from dataclasses import dataclass
from typing import Literal

from daq.audit.parts import Budget, CheckPoint, Next, Point, ReadAt, Ruling
from daq.audit.questions import Question
from daq.audit.shop_papers import ShopPapers
from daq.words import Said, Unit, Word


@dataclass(frozen=True)
class GaugeFault:
    """The bound gauge stopped giving readings; `code`: as its reader calls it."""

    code: str


@dataclass(frozen=True)
class GaugeBack:
    """The bound gauge gives readings again.

    Nobody knows what happened to its zero meanwhile: `next` says where a base or half a
    pair check that was read before is to be read again, or is None when nothing depends
    on it.
    """

    run: str
    said: Said | None
    next: Next | None


@dataclass(frozen=True)
class GaugeNoted:
    """Something the bound gauge did that the person must know, with the samples that show it.

    `unit`: what it shows from now on, when its unit key was pressed. `next`: where what
    was read before is to be read again, or None when nothing depends on it. `stations`: those
    of a round under way, told in that unit.
    """

    said: Said
    unit: Unit | None
    next: Next | None
    stations: tuple[ReadAt, ...] = ()


@dataclass(frozen=True)
class Zeroed:
    """The gauge was zeroed: everything remembered shifts, the stop-at is void.

    With `resume` set it may as well have been lifted off the surface (it reads the same
    in the air): nothing shifts until the free reading, taken again, tells. `lost_face_mm`
    is what the parked spot read just before, when a base is to be carried over.
    `question`: it may as well have been turned to where it reads zero: nothing shifts until
    that is answered, and the rest is what follows from a yes.
    """

    before_face_mm: float
    after_face_mm: float
    lost_face_mm: float | None
    resume: Next | None
    restart: bool
    free_pushed_mm: float | None
    points: tuple[Point, ...]
    said: Said
    next: Next
    question: Question | None = None


@dataclass(frozen=True)
class BlocksUsed:
    """The set of gauge blocks a check was made with, and its papers; `date`: an ISO date."""

    name: str
    serial_number: str
    material: str
    certificate: str
    date: str
    laboratory: str


@dataclass(frozen=True)
class BenchWork:
    """How a gauge's check was made with blocks of a certificate, and how far it may be off.

    `shop`: what paper says of it. `state`: as the gauge was found, or as it was left after somebody
    set it. `low_mm` to `high_mm` of `travel_mm`: what was checked. `unit`, `decimals`: how its
    lengths are shown. `short_mm`: how far its error changed within a short span, None where too
    little of one was read. `budget`: of
    the span of the errors, judged as `word` by the rule in `ruling`, which keeps `guard_mm` off the
    permissible error; None in rows of before that was kept. `taken_back`: how many readings were.
    """

    gauge_name: str
    shop: ShopPapers
    state: Literal["found", "left"]
    blocks: BlocksUsed
    celsius: float
    rested_s: float
    low_mm: float
    high_mm: float
    travel_mm: float
    resolution_mm: float
    unit: Unit
    decimals: int
    short_mm: float | None
    budget: Budget
    word: Word
    ruling: Ruling
    taken_back: int = 0
    guard_mm: float | None = None


@dataclass(frozen=True)
class GaugeChecked:
    """A gauge was stepped through known lengths and judged; belongs to no machine or audit.

    `done_by`: a person's id, or nothing. `span_mm`: largest error less smallest;
    `repeatability_mm`: standard deviation of repeats; `hysteresis_mm`: largest difference
    between up and down. `work`: with which blocks, and what that is worth; None where nobody said.
    """

    gauge: str
    serial_number: str
    done_by: str
    day: str
    max_error_mm: float
    points: tuple[CheckPoint, ...]
    span_mm: float
    repeatability_mm: float | None
    hysteresis_mm: float | None
    passed: bool
    said: Said
    work: BenchWork | None = None
