"""What a reader makes of the wire, and what the screens are shown of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from daq.words.choices import Unit
from daq.words.said import Said


@dataclass(frozen=True, slots=True)
class Sample:
    """One decoded indication.

    `run` names one opening of the port (unique for ever), `n` counts samples
    within it. `text` and `raw` are exactly what was sent; `value_mm` is that
    number in millimetres with the gauge's own sign and zero.
    """

    gauge: str
    run: str
    n: int
    mono_ns: int
    text: str
    unit: Unit
    value_mm: float
    flags: tuple[str, ...]
    raw: bytes


@dataclass(frozen=True, slots=True)
class GaugeStatus:
    """How one gauge's reader is doing. `code` is "ok" or a fault's name.

    `in_full` says it with the port's path, for the setup page; None where no port is named.
    `warnings` tell of what does not take the number away, such as a weak battery.
    """

    gauge: str
    code: str
    say: Said | None
    run: str
    good: int
    bad: int
    last_mono_ns: int
    warnings: tuple[Said, ...] = ()
    in_full: Said | None = None


@dataclass(frozen=True, slots=True)
class Strip:
    """Where the number lies on a strip about the stop-at, both of its halves 1 long.

    `at`: the number, above zero where it shows more than the stop-at; `half`: how far the band
    reaches to both sides in which a turn may end.
    """

    at: float
    half: float


@dataclass(frozen=True, slots=True)
class Against:
    """What the live number says, held against the stop-at or against what a bolt may do.

    `state`: the way the number must go ("up", "down"), that it is "there", that let go it still
    "creeps", whether a bolt's movement is "within" its limit or "over" it, or "unknown" without
    such a number. `more`: whose turn it is. `lean`: how the axis that is turned leans with that
    number, as far as it is known; `strip`: where the number lies about the stop-at.
    """

    state: Literal["up", "down", "there", "creeps", "within", "over", "unknown"]
    say: Said
    more: Said | None = None
    lean: Said | None = None
    strip: Strip | None = None


@dataclass(frozen=True, slots=True)
class Live:
    """The latest sample as the screens show it; never stored.

    `text`, `unit`: the gauge's own face (what was sent, without padding). `to_go` is the
    distance to the stop-at in the same unit, signed as the face must change, or None
    when there is no stop-at. `fresh`: it may be shown as live, for `fresh_for_ms` more. Once
    it may not, there is no value, only which sample was the last and how old it is.
    `keyed`: sent by a press of the gauge's own key. It is never fresh; its age is told, and
    `to_go` holds for the moment it was sent. `against` says it in words, also where there is no
    number; None where there is nothing to hold one against.
    """

    gauge: str
    run: str
    n: int
    text: str
    unit: str
    value_mm: float | None
    age_ms: int
    fresh: bool
    to_go: str | None = None
    to_go_mm: float | None = None
    keyed: bool = False
    fresh_for_ms: int | None = None
    against: Against | None = None


@dataclass(frozen=True, slots=True)
class Snapshot:
    """Everything a screen needs about one machine besides the live number.

    `pages` holds one view per page, in codes and numbers. A fault of the gauge names the sample
    after which it came (`run`, `n`): that one and those before it are shown no more. `said` is what
    became of a press: its `outcome`, what to `say`, and a number `n` of its own. "wait" is of one
    that came from no screen, such as a switch's; "taken" of any that was read, "refused" of any
    (`command`: which one), and each stands for `left_ms` more. None when there is nothing to be
    told. `cut_off` is so of a run before this one that was not ended: what to `say`, in short, and
    what is `amiss` since.
    """

    machine: str
    seq: int
    head: str
    pages: Mapping[str, Any]
    faults: tuple[Mapping[str, Any], ...]
    recording: Mapping[str, Any]
    said: Mapping[str, Any] | None = None
    cut_off: Mapping[str, Any] | None = None
