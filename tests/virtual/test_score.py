"""What costs points and what does not: each kind of fault once, and never more than it may."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.virtual.deeds import Deed, Stand
from daq.virtual.score import COSTS, RULES, WHOLE, Assignment, Bound, points, workmanship

BOUNDS = {"side": Bound(0.025, 300.0), "nod": Bound(0.025, 300.0)}
OUT, IN = 0.4 / 300.0, 0.01 / 300.0
STAND = Stand({"side": IN, "nod": IN}, "right")
TASK = Assignment(replace(STAND, leans={"side": OUT / 4.0, "nod": OUT}), BOUNDS, usual_s=300.0)
NOD: Mapping[str, Any] = {"axis": "nod"}


def row(name: str, of: Mapping[str, Any] | None = None, **more: Any) -> Deed:
    stand = replace(
        STAND, **{k: more.pop(k) for k in ("loose", "part", "place", "leans") if k in more}
    )
    return Deed("row", name, more.pop("row", 7), stand, of or {}, **more)


def act(verb: str, of: Mapping[str, Any] | None = None, **stand: Any) -> Deed:
    return Deed("act", verb, 7, replace(STAND, **stand), of or {})


def read(called: str, stood: str = "right", down: bool = True) -> Deed:
    stand = replace(STAND, place=stood, down=down)
    return Deed("row", "ReadingTaken", 7, stand, {"reading": {"position": called}})


def moved(axis: str, then: str = "tighten", number: int = 7) -> Deed:
    return row("Moved", {"axis": axis, "next": {"step": then}}, row=number)


def turned(*amounts_mm: float) -> list[Deed]:
    return [act("turn", {**NOD, "amount_mm": mm}, loose=("nod",)) for mm in amounts_mm]


GOOD = (
    row("AuditOpened", at_s=100.0),
    read("right"),
    act("loosen", NOD, loose=("nod",), part=("nod",)),
    row("Loosened", NOD, loose=("nod",), part=("nod",)),
    *turned(0.02, 0.3, -0.1, 0.02),
    moved("nod", "check"),
    row("CheckDone"),
    act("tighten", NOD),
    row("Tightened", NOD),
    row("SweepDone"),
    moved("side"),
)
SIGNED = row("Signed", at_s=690.0, row=90)

FAULTS: dict[str, Sequence[Deed]] = {
    "move": [moved("nod")],
    "spot": [read("back", "left")],
    "refused": [Deed("refused", "take", 7, STAND)],
    "both-loose": [act("loosen", NOD, loose=("side", "nod"))],
    "knocked": [act("bump")],
    "swept-loose": [row("SweepDone", loose=("nod",))],
    "not-tight": [row("Tightened", NOD, part=("nod",))],
    "not-loose": [row("Loosened", NOD)],
    "denied": [act("zero"), row("Voided", {"voids": []}, cause="not-zeroed")],
    "on-chip": [act("turn", {**NOD, "amount_mm": 0.1}, chip=True)],
    "to-and-fro": turned(0.1, -0.1, 0.1, -0.1),
}
"""What, done before signing, costs its kind and no other."""


def whys(deeds: Sequence[Deed]) -> list[str]:
    return [lost.why for lost in workmanship(TASK, deeds)]


def test_what_was_done_well_is_worth_all_of_it() -> None:
    assert workmanship(TASK, [*GOOD, SIGNED]) == ()
    assert points(()) == WHOLE


@pytest.mark.parametrize("why", FAULTS)
def test_a_fault_costs_its_kind_once_and_names_its_row(why: str) -> None:
    (lost,) = workmanship(TASK, [*GOOD, *FAULTS[why], SIGNED])
    assert (lost.why, lost.points, lost.row) == (why, COSTS[lost.why][0], 7)


def test_bolts_pulled_up_before_both_ends_were_read() -> None:
    unread = [each for each in GOOD if each.name != "CheckDone"]
    assert whys([*unread, SIGNED]) == ["unread"]


def test_the_lesser_axis_first() -> None:
    other = [GOOD[0], moved("side"), *GOOD[1:-1], SIGNED]
    assert whys(other) == ["lesser"]


@pytest.mark.parametrize(("out_mm", "cost"), [(0.0249, 0), (0.0251, 10), (0.0301, 12), (5.0, 20)])
def test_what_truly_stands_out_costs_by_how_far(out_mm: float, cost: int) -> None:
    signed = replace(SIGNED, stand=replace(STAND, leans={"side": 0.0, "nod": -out_mm / 300.0}))
    lost = workmanship(TASK, [*GOOD, signed])
    assert (WHOLE - points(lost), [each.why for each in lost]) == (cost, ["out"] * (cost > 0))


@pytest.mark.parametrize(("took_s", "cost"), [(600.0, 0), (601.0, 1), (661.0, 3), (6000.0, 5)])
def test_time_costs_only_beyond_twice_the_usual(took_s: float, cost: int) -> None:
    lost = workmanship(TASK, [*GOOD, replace(SIGNED, at_s=100.0 + took_s)])
    assert WHOLE - points(lost) == cost


def test_signed_with_bolts_that_are_not_pulled_up() -> None:
    assert whys([*GOOD, replace(SIGNED, stand=replace(STAND, part=("side",)))]) == ["not-tight"]


def test_what_was_taken_back_is_no_fault() -> None:
    wrong = replace(read("back", "left"), row=50)
    assert whys([*GOOD, wrong, row("Voided", {"voids": [50]}), SIGNED]) == []


def test_every_kind_of_fault_is_met_here() -> None:
    assert {*FAULTS, "out", "slow", "lesser", "unread"} == set(COSTS)
    assert len(RULES) <= len(COSTS)


some = st.lists(st.sampled_from(sorted(FAULTS)), max_size=40)


@settings(max_examples=60)
@given(some, some, st.floats(0.0, 10.0), st.floats(0.0, 1e5))
def test_the_score_stays_within_its_ends_and_fewer_faults_never_score_less(
    few: list[str], more: list[str], out_mm: float, took_s: float
) -> None:
    leans = {"side": out_mm / 300.0, "nod": -out_mm / 300.0}
    signed = replace(SIGNED, at_s=100.0 + took_s, stand=replace(STAND, leans=leans))

    def score(faults: list[str]) -> int:
        done = [*GOOD, *(deed for why in faults for deed in FAULTS[why]), signed]
        first = workmanship(TASK, done)
        assert first == workmanship(TASK, list(done))
        return points(first)

    assert 0 <= score([*few, *more]) <= score(few) <= WHOLE
