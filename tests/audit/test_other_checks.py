"""Checks that are none of the head, from opening to signature: what is read is exact geometry.

A bar that stands off the axis of rotation by e reads c + e cos(θ − φ) at the spindle's angle θ, but
for e² over its diameter; a table that rises along its travel reads a line.
"""

import math
from dataclasses import replace

import pytest

from daq.audit import evidence
from daq.audit.recompute import differences
from tests.audit.conftest import Bench
from tests.audit.stations import (
    BAD,
    FREE_MM,
    GOOD,
    TABLES,
    TRAVEL,
    bar,
    line,
    offering,
    opened,
    press,
    read,
    take,
)
from tests.words import en


def bench_of(**tables):
    return Bench(offering(tables or TABLES))


def signed(b, **more):
    b.do("cleared")
    return b.do("sign", {"done_by": "T. Nowak", **more})[-1]


PAST = {"last_good": "2026-01-05", "disposition": "read again"}


@pytest.mark.parametrize("check", TABLES)
def test_a_check_is_offered_read_and_signed_as_inside(check):
    b = bench_of()
    offered = [a["payload"] for a in b.console["actions"] if a["payload"].get("check")]
    assert offered == [{"reason": "scheduled", "check": name} for name in TABLES]
    opened(b, check)
    assert b.job.step == "stations" and not b.console["circle"]
    *_, done = read(b, GOOD[check])
    assert done.round.usable and done.round.word == "in" and b.job.step == "clear"
    assert b.console["verdict"]["word"] == "in"
    last = signed(b)
    assert last.verdict == "conforms" and last.as_left is None and last.round == done.round
    name = {"runout": "Spindle run-out", "travel": "Table along its travel"}[check]
    assert b.console["title"].startswith(f"{name}: inside")
    assert [row["say"] for row in b.console["axes"]] == [en(r.name) for r in done.round.results]


@pytest.mark.parametrize("check", TABLES)
def test_one_that_is_out_asks_for_the_past(check):
    b = opened(bench_of(), check)
    *_, done = read(b, BAD[check])
    assert done.round.word == "out"
    b.do("cleared")
    assert b.refused("sign", {"done_by": "T"}).code == "last-good-no-date"
    last = b.do("sign", {"done_by": "T", **PAST})[-1]
    assert last.verdict == "does-not-conform"
    assert "outside" in b.console["title"]


def test_the_run_out_is_what_geometry_says():
    b = opened(bench_of(), "runout")
    *_, done = read(b, bar(0.008, toward=0.5 * math.pi))
    found = {en(each.name): each for each in done.round.results}
    assert found["Run-out 10.0 mm below the nose"].value_mm == pytest.approx(0.016, abs=1e-9)
    off = found["Eccentricity 160.0 mm below the nose"]
    assert off.value_mm == pytest.approx(0.008) and off.toward_deg == pytest.approx(90.0)
    assert off.word is None and off.limit_mm is None
    assert found["Tilt against the axis of rotation"].value_mm == pytest.approx(0.0, abs=1e-9)
    assert all(each.budget.terms and each.doubt_mm > 0.0 for each in done.round.results)


def test_the_slope_is_what_geometry_says():
    b = opened(bench_of(), "travel")
    *_, done = read(b, line(0.012))
    slope, form = done.round.results
    assert slope.value_mm == pytest.approx(0.012) and slope.over_mm == 300.0
    assert form.value_mm == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("check", TABLES)
def test_a_zero_in_the_middle_begins_the_round_again(check):
    b = opened(bench_of(), check)
    read(b, GOOD[check][:2])
    b.do("zeroed", {}, [GOOD[check][1]] * 12 + [0.0] * 5)
    assert b.job.step == "stations" and b.job.reads.taken == () and b.job.gauge.zeroed
    *_, done = read(b, [round(v - GOOD[check][1], 3) for v in GOOD[check]])
    assert done.round.word == "in"


def test_the_contact_lifted_from_one_height_to_the_next_is_no_zero():
    b = bench_of()
    b.do("open", {"reason": "scheduled", "check": "runout"})
    b.prepare(free=0.0)
    read(b, GOOD["runout"][:5])
    assert b.refused("zeroed", {}, [1.0] * 12 + [0.0] * 5).code == "lifted-for-block"
    take(b, GOOD["runout"][5])
    b.do("zeroed", {}, [1.0] * 12 + [0.0] * 5)
    assert b.job.step == "touch-free"


def test_back_at_a_station_that_reads_zero_nothing_was_zeroed():
    b = opened(bench_of(), "travel")
    b.do("touch", {})
    b.do("take", {}, [-1.5] * 10)
    read(b, [0.0, 0.001, 0.002, 0.3])
    assert b.refused("zeroed", {}, [0.3] * 12 + [0.0] * 5).code == "zero-expected"


@pytest.mark.parametrize("check", TABLES)
def test_a_restart_in_the_middle_begins_the_round_again(check):
    b = opened(bench_of(), check)
    read(b, GOOD[check][:3])
    b.do("restarted")
    assert b.job.step == "prepare" and b.job.reads.taken == ()
    b.prepare(free=FREE_MM)
    assert b.job.step == "stations"
    *_, done = read(b, GOOD[check])
    assert done.round.word == "in"


def test_a_restart_at_the_touch_test_goes_on_to_the_stations():
    b = bench_of()
    b.do("open", {"reason": "scheduled", "check": "travel"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("restarted")
    b.do("prepared", {"serial_number": "P-1", "touched": True})
    b.do("take", {}, [0.003] * 10)
    b.do("pushed", {}, [0.003, 0.9, 1.2, 0.003])
    assert b.job.step == "stations"


def test_undo_takes_back_the_last_reading():
    b = opened(bench_of(), "travel")
    read(b, GOOD["travel"][:2])
    before = b.console["stations"]
    take(b, 1.2)
    b.do("undo")
    assert b.console["stations"] == before and len(b.job.reads.taken) == 2
    *_, done = read(b, GOOD["travel"][2:])
    assert done.round.word == "in"
    assert b.job.trail == ()


def test_a_drift_is_a_finding_that_asks_for_all_of_it_again():
    b = opened(bench_of(), "travel")
    *_, done = read(b, [*GOOD["travel"][:-1], GOOD["travel"][-1] + 0.05])
    assert not done.round.usable and [f.code for f in done.round.findings] == ["return-error"]
    assert b.job.step == "stations" and b.console["message"]["code"] == "return-error"
    *_, again = read(b, GOOD["travel"])
    assert again.round.usable and again.round.number == 2


def test_a_bar_that_is_not_round_blocks_once():
    b = opened(bench_of(), "runout")
    lobed = bar(0.002)
    for at in (1, 3, 6, 8):
        lobed[at] = round(lobed[at] + 0.012, 3)
    *_, first = read(b, lobed)
    assert [f.code for f in first.round.findings if f.blocking] == ["do-not-fit"]
    *_, second = read(b, lobed)
    assert second.round.usable and [f.code for f in second.round.findings] == ["do-not-fit"]


def test_another_station_the_air_and_the_end_of_travel_are_refused():
    b = opened(bench_of(), "travel")
    wrong = b.refused("take", {"station": "300"}, [1.0] * 10)
    assert wrong.code == "other-station" and en(wrong).endswith("X at 0.0 mm.")
    assert b.refused("take", press(b)["payload"], [FREE_MM] * 10).code == "off-contact"
    assert b.refused("take", press(b)["payload"], [12.7 + FREE_MM] * 10).code == "end-of-travel"


def test_read_again_needs_a_reason_and_the_latest_counts():
    b = opened(bench_of(), "travel")
    read(b, BAD["travel"])
    b.refused("again", {"why": " "})
    b.do("again", {"why": "a chip"})
    *_, done = read(b, GOOD["travel"])
    assert done.round.why == "a chip" and done.round.number == 2
    b.do("cleared")
    # What it was when it was found is asked for all the same.
    assert b.refused("sign", {"done_by": "T"}).code == "last-good-no-date"
    assert b.do("sign", {"done_by": "T", **PAST})[-1].verdict == "conforms"


def test_what_the_machine_does_not_offer_is_refused():
    b = bench_of(travel=TRAVEL)
    found = b.refused("open", {"reason": "scheduled", "check": "runout"})
    assert found.code == "no-such-check" and "travel" in en(found)


def test_of_a_bar_s_two_gauges_one_reads_it():
    b = bench_of()
    b.setup = replace(b.setup, second_gauge=replace(b.setup.gauge, key="far", serial_number="P-2"))
    opened(b, "travel")
    assert b.job.setup.second_gauge is None and "P-2" not in str(b.events[-1].data)
    *_, done = read(b, GOOD["travel"])
    assert done.round.word == "in"


def test_touched_again_in_the_middle_the_round_goes_on():
    b = opened(bench_of(), "travel")
    read(b, GOOD["travel"][:2])
    b.do("touch")
    b.do("take", {}, [FREE_MM] * 10)
    assert b.console["title"].startswith("Bring the contact down again")
    assert len(b.job.reads.taken) == 2
    *_, done = read(b, GOOD["travel"][2:])
    assert done.round.word == "in"


def test_an_inch_gauge_is_told_in_inches():
    b = bench_of()
    b.unit = "in"
    opened(b, "travel")
    assert "in along X" in b.console["title"]


def test_it_leaves_what_is_known_of_the_head_alone():
    b = bench_of()
    before = b.state
    opened(b, "travel")
    read(b, GOOD["travel"])
    signed(b)
    after = b.state
    assert (after.history, after.learned, after.visits) == (
        before.history,
        before.learned,
        before.visits,
    )


def test_given_up_it_says_what_is_still_in_the_way():
    b = opened(bench_of(), "runout")
    b.do("abandon", {"why": "no bar"})
    assert "test bar" in b.console["title"] and "arm" not in b.console["title"]
    b.do("made-safe")
    assert b.console["step"] == "idle"


@pytest.mark.parametrize("check", TABLES)
def test_decided_again_it_comes_out_the_same_and_one_changed_sample_shows(check):
    b = opened(bench_of(), check)
    read(b, GOOD[check][:2])
    b.do("undo")
    read(b, GOOD[check][1:])
    signed(b)
    assert list(differences(b.events, b.chunks.__getitem__)) == []
    at = next(e for e in b.events if e.type == "StationRead")
    (digest,) = at.evidence
    samples = list(evidence.decode(b.chunks[digest]))
    samples[-1] = replace(samples[-1], value_mm=samples[-1].value_mm + 0.001)
    chunks = {**b.chunks, digest: evidence.encode(samples)}
    assert at.seq in [each.seq for each in differences(b.events, chunks.__getitem__)]
