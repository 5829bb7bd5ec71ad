"""Situations about who has an audit, who signs it in spite of what, and what is added to it."""

from dataclasses import replace

from daq.audit.apply import apply
from daq.audit.clock_events import ClockStepped
from daq.audit.codec import encode
from tests.audit.conftest import Bench
from tests.web.acts import at, audit, bench, situation

EARLY, LATE = "Alexandra Ellingham", "Bartholomew Oakes"
NAMES = {EARLY: EARLY, LATE: LATE}
"""What people are called, by the ids that a pure bench takes for theirs."""
NUMBER = "The number on the housing is P-0471; the one picked belongs to the surface gauge."
FINDING = "A chip stood under the left side of the ring: it was found as the ring was put away, and"
FINDING += " the mark it left is plain to see. The sweep of the next job is to be held against it."
DAYS_US = 86_400_000_000


def handed(b: Bench) -> Bench:
    b.do("hand-over", {"left_by": EARLY, "taken_by": LATE})
    return b


def clock_set(b: Bench, days: int) -> None:
    """The Pi's clock was so many days behind, and is set."""
    now_us = b.stamp().utc_us
    kind, version, plain = encode(ClockStepped(now_us - days * DAYS_US, now_us))
    last = b.events[-1]
    cause = {"id": "clock", "kind": kind, "payload": {}}
    row = replace(
        last, seq=last.seq + 1, type=kind, v=version, data=plain, machine="", audit="",
        cause=cause, evidence=(),
    )  # fmt: skip
    b.events.append(row)
    b.shop = apply(b.shop, row)


def against(step: str) -> Bench:
    papers = {"check_passed": False, "checked_on": "2026-05-28", "calibration_due": "2026-05-20"}
    b = handed(at(step, bench(gauge=papers)).bench)
    clock_set(b, 20)
    return b


@situation
def handed_over() -> Bench:
    return handed(at("move").bench)


@situation
def aside_handed() -> Bench:
    b = at("move").bench
    b.do("put-aside", {"why": "the shaft for the night shift comes first"})
    b.do("rest", {"left": "safe"})
    return handed(b)


@situation
def sign_against() -> Bench:
    return against("sign")


@situation
def sign_known() -> Bench:
    """Found out, on a machine that was signed in before, by two people."""
    m = audit(bench(), side_mm=0.0, nod_mm=0.0).work("sign")
    m.bench.do("sign", {"done_by": EARLY, "reviewed_by": LATE})
    return audit(m.bench, reason="scheduled", side_mm=0.0).work("sign").bench


@situation
def signed_added() -> Bench:
    b = against("sign")
    why = "No other gauge in the shop today; it was checked against the slip gauges by hand."
    past = {"last_good": "2026-01-05", "disposition": "Nothing was made on it since."}
    b.do("sign", {"done_by": LATE, "all_the_same": why, **past})
    for kind, text in (("gauge-number", NUMBER), ("finding", FINDING)):
        sheet = {"audit": b.state.last.id, "kind": kind, "text": text, "done_by": EARLY}
        b.do("add-to-signed", sheet)
    return b
