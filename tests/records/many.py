"""A ledger of many audits of all sorts: the rows that the list follows, of audits really made.

What stands in them is changed here and there, so that there is one of everything.
"""

import copy
import random
import uuid
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from daq.checks.kinds import kind as kind_of
from daq.ledger.store import Ledger
from daq.ledger.view import LedgerView
from daq.records.listed import AuditLine
from daq.records.look import look
from daq.records.wanted import Wanted
from daq.settings import plain
from daq.words import Draft, Event, Stamp

DAY_US = 24 * 3600 * 1_000_000
START_US = 1_767_268_800_000_000
"""1 January 2026, noon UTC."""

PEOPLE = {str(uuid.UUID(int=n)): name for n, name in enumerate(("Ann Example", "Bo Sample"), 1)}
MACHINES = ("mill-1", "mill-2", "mill-3")
KINDS = ("squaring", "runout", "travel")
VERDICTS = ("conforms", "conforms", "does-not-conform", "cannot-be-decided")
REASONS = ("scheduled", "scheduled", "crash", "practice")
GAUGES = (("left-bench", "G-1"), ("right-bench", "G-2"), ("no-number", ""))


def stamp(day: float, *, sure: bool = True) -> Stamp:
    """So many days after the start."""
    return Stamp(int(day * 1e9), START_US + int(day * DAY_US), "boot", sure)


def made_of(data: Path) -> dict[str, Event]:
    """A row of each type that a real audit left."""
    with LedgerView.open(data) as view:
        return {event.type: event for event in view.events() if event.audit}


class Audits:
    """Writes audits into a ledger, one after the other, each in so many rows."""

    def __init__(self, ledger: Ledger, like: dict[str, Event]) -> None:
        """`like`: a row of each type. A ledger that holds rows knows everybody already."""
        self._ledger, self._like = ledger, like
        self._named = PEOPLE if ledger.seq == 1 else {}

    def row(self, kind: str, day: float, audit: str, machine: str, data: dict, **more) -> int:
        """One row; its number."""
        at = stamp(day, sure=more.pop("sure", True))
        cause = {"id": str(uuid.uuid4()), **more}
        draft = Draft(kind, 2, machine, audit, at, "console", cause, data)
        (event,) = self._ledger.append([draft], [], self._named)
        self._named = {}
        return event.seq

    def opened(
        self,
        day: float,
        machine: str = "mill-1",
        kind: str = "squaring",
        reason: str = "scheduled",
        gauge: tuple[str, str] = GAUGES[0],
        calibrated: str | None = None,
    ) -> str:
        """An audit begins; its id."""
        audit = str(uuid.uuid4())
        data = copy.deepcopy(dict(self._like["AuditOpened"].data))
        data["reason"] = reason
        data["setup"]["machine_key"] = machine
        data["setup"]["gauge"] |= {
            "key": gauge[0], "serial_number": gauge[1], "calibrated_on": calibrated,
        }  # fmt: skip
        if kind != "squaring":
            data["check"] = {
                "kind": kind, "name": plain(kind_of(kind).name), "options": {},
                "cautions": [],
            }  # fmt: skip
        self.row("AuditOpened", day, audit, machine, data)
        return audit

    def signed(self, day: float, audit: str, machine: str = "mill-1", **changes) -> int:
        """It is signed; the row. `sure`: of the clock."""
        sure = changes.pop("sure", True)
        data = {**self._like["Signed"].data, "done_by": "", "reviewed_by": "", **changes}
        return self.row("Signed", day, audit, machine, data, sure=sure)

    def checked(self, day: float, gauge: tuple[str, str], *, passed: bool) -> int:
        """A gauge is stepped through known lengths."""
        data = {
            "gauge": gauge[0], "serial_number": gauge[1], "done_by": "", "day": iso(day),
            "max_error_mm": 0.003, "points": [], "span_mm": 0.001, "repeatability_mm": None,
            "hysteresis_mm": None, "passed": passed, "said": {"code": "x", "of": {}},
        }  # fmt: skip
        return self.row("GaugeChecked", day, "", "", data)


def iso(day: float) -> str:
    """The date so many days after the start."""
    return datetime.fromtimestamp((START_US + day * DAY_US) / 1e6, UTC).date().isoformat()


def fill(folder: Path, like: dict[str, Event], count: int, seed: int = 1) -> None:
    """So many audits of all sorts, one a day, with what comes between and after."""
    draw = random.Random(seed)
    with Ledger.open(folder) as ledger:
        audits = Audits(ledger, like)
        for day in range(count):
            _one(audits, day, draw)


def _one(audits: Audits, day: int, draw: random.Random) -> None:
    machine, kind = draw.choice(MACHINES), draw.choice(KINDS)
    gauge, people = draw.choice(GAUGES), list(PEOPLE)
    audit = audits.opened(day, machine, kind, draw.choice(REASONS), gauge)
    for row, data in _between(draw, people):
        audits.row(row, day + 0.1, audit, machine, data)
    how = draw.random()
    if how < 0.7:
        names = {"done_by": draw.choice(people), "reviewed_by": draw.choice(["", *people])}
        verdict = draw.choice(VERDICTS)
        signed = audits.signed(day + 0.3, audit, machine, verdict=verdict, moves=day % 4, **names)
        if draw.random() < 0.2:
            data = {
                "of": audit, "signed": signed, "kind": "other", "text": "t", "done_by": people[0],
            }  # fmt: skip
            audits.row("Addendum", day + 0.5, audit, machine, data)
    elif how < 0.85:
        audits.row("Abandoned", day + 1.2, audit, machine, {"why": "broken off"})
    if draw.random() < 0.1:
        audits.checked(day + 0.6, gauge, passed=draw.random() < 0.5)


def _between(draw: random.Random, people: list[str]) -> Iterator[tuple[str, dict]]:
    if draw.random() < 0.3:
        yield "Voided", {"voids": [3, 4]}
    if draw.random() < 0.2:
        yield "HandedOver", {"left_by": people[0], "taken_by": people[1]}
    if draw.random() < 0.2:
        anew = {"why": "aside", "next": {"step": "sweep"}}
        yield "Rested", {"unsafe": None, "loose": [], "anew": anew, "next": {"step": "aside"}}
        if draw.random() < 0.5:
            yield "TakenUp", {"anew": None, "next": {"step": "prepare"}}


def all_of(data: Path, wanted: Wanted = Wanted()) -> list[AuditLine]:  # noqa: B008 - frozen
    """What is wanted of the list, newest first."""
    return [line for found, _ in look(data, wanted) for line in found.audits]


def plainly(data: Path) -> dict[str, dict]:
    """Each audit of a ledger as what may be asked of it, straight from the rows; newest first."""
    found = {}
    with LedgerView.open(data) as view:
        for event in view.events():
            if event.type == "AuditOpened":
                gauge = event.data["setup"]["gauge"]
                found[event.audit] = {
                    "row": event.seq, "machine": event.machine, "at": event.stamp.utc_us,
                    "kind": (event.data.get("check") or {}).get("kind", "squaring"),
                    "gauge": {gauge["key"], gauge["serial_number"]},
                    "practice": event.data["reason"] == "practice", "open": True, "verdict": None,
                    "people": set(), "voided": False,
                }  # fmt: skip
            elif event.audit:
                one = found[event.audit]
                people = {v for k, v in event.data.items() if k.endswith("_by") and v}
                one["people"] |= people
                one["voided"] |= event.type == "Voided"
                if event.type in ("Signed", "Abandoned"):
                    one |= {"open": False, "at": event.stamp.utc_us}
                    one["verdict"] = event.data.get("verdict")
    return dict(reversed(found.items()))
