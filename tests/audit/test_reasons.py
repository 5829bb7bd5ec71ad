"""Every reason a shop opens an audit for, walked by its buttons from opening to signature."""

from typing import get_args

import pytest

from daq.audit.reasons import REASONS, Reason
from daq.audit.recompute import differences
from daq.audit.trend import latest, trend
from daq.metrology.rule import Rule
from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import AfterCrash
from daq.virtual.orders import payload
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told
from tests.audit.stations import FREE_MM, bar, offering, read
from tests.words import en

OPENED = setup_of(limit=0.025, nod_pivot=150.0, height=400.0)


def at_work(setup=OPENED, side_mm=0.1, nod_mm=-0.2) -> Machinist:
    return Machinist(Bench(setup), RigidHead(mill(), side_mm, nod_mm))


def button(m: Machinist, kind: str, **given):
    """The one button of this kind whose payload holds that."""
    (found,) = [
        action
        for action in m.look()["actions"]
        if action["kind"] == kind and given.items() <= action["payload"].items()
    ]
    return found


def press(m: Machinist, kind: str, **given):
    """Press it, its fields filled in as an obedient person does; the events' data."""
    action = button(m, kind, **given)
    ack = m.press(kind, payload(action, "Alex", m.today(), m.number))
    assert ack.accepted, ack.reason
    return ack


def opened(reason: str, setup=OPENED, **head) -> Machinist:
    m = at_work(setup, **head)
    press(m, "open", reason=reason)
    return m


def no_difference(m: Machinist) -> bool:
    return not list(differences(m.bench.events, m.bench.chunks.__getitem__))


def restarted_at_the_card(m: Machinist) -> bool:
    """Off and on again, the same card is asked: nothing has been read that could be spoilt."""
    before = m.look()
    assert m.bench.refused("restarted").code == "card-unread"
    return m.look() == before


@pytest.mark.parametrize("reason", get_args(Reason))
def test_each_reason_leads_from_its_button_to_a_signature(reason):
    m = opened(reason)
    assert m.look()["reason"] == button(at_work(), "open", reason=reason)["say"]
    m.work("signed")
    signed = told(m.bench, "Signed")[-1]
    assert signed.verdict == ("conforms" if REASONS[reason].squares else "does-not-conform")
    assert bool(signed.moves) == REASONS[reason].squares
    kept = m.bench.state.history.latest
    assert [each.reason for each in kept] == [reason] * REASONS[reason].kept
    assert no_difference(m)


@pytest.mark.parametrize("reason", get_args(Reason))
def test_the_past_is_asked_for_unless_the_head_was_expected_out(reason):
    m = opened(reason)
    m.work("sign")
    asked = {field["name"] for field in button(m, "sign")["fields"]}
    assert ({"last_good", "disposition"} <= asked) != REASONS[reason].expected_out


def test_a_moved_machine_is_levelled_before_it_is_prepared():
    m = opened("moved")
    page = m.look()
    assert (page["step"], page["title"]) == ("levelled", "Stand the machine level first.")
    assert any("nobody beneath it" in each for each in page["cautions"])
    assert restarted_at_the_card(m)
    press(m, "levelled")
    assert m.look()["step"] == "table"
    press(m, "undo")
    assert m.look()["step"] == "levelled"


def angled(side_mm=0.1, nod_mm=-0.2, **more) -> Machinist:
    """Said to be at an angle still, and set back by the scale: it stands as given."""
    m = opened("after-angled-work", side_mm=side_mm, nod_mm=nod_mm, **more)
    press(m, "angled", still=True)
    return m


def test_a_head_still_at_an_angle_is_set_back_before_anything_hangs_in_the_spindle():
    m = opened("after-angled-work")
    page = m.look()
    assert (page["step"], page["title"]) == ("angled", "Is the head still at an angle?")
    assert restarted_at_the_card(m)
    press(m, "angled", still=True)
    page = m.look()
    assert page["step"] == "set-back" and not m.bench.job.arm_in
    cautions = " ".join(page["cautions"])
    assert "lock it out" in cautions and "nobody beneath the head" in cautions
    assert "No arm and no gauge" in cautions
    assert restarted_at_the_card(m)
    press(m, "set-back")
    assert m.look()["step"] == "table"


def test_set_back_by_scale_the_sweep_is_not_as_found_and_the_signature_and_trend_say_so():
    m = angled().work("sign")
    sweep = told(m.bench, "SweepDone")[0]
    assert sweep.purpose == "final"
    asked = {field["name"] for field in button(m, "sign")["fields"]}
    assert not asked & {"as_found", "last_good"}
    note = "Set back by its scale after angled work; not as found."
    assert note in m.look()["notes"]
    m.step()
    signed = told(m.bench, "Signed")[-1]
    assert (signed.as_found, signed.set_back, signed.verdict) == (None, True, "conforms")
    assert m.look()["notes"] == [note]
    shown = trend(m.bench.state, None, "2026-05-01", latest(m.bench.state.history, 10))
    assert shown.axes.nod.as_found.points == ()
    (left_out,) = shown.axes.nod.as_found.left_out
    assert en(left_out.say) == "Set back by its scale after angled work: not as found."
    assert len(shown.axes.nod.as_left.points) == 1
    assert no_difference(m)


def test_set_back_already_it_is_swept_as_it_stands():
    m = opened("after-angled-work")
    press(m, "angled", still=False)
    m.work("signed")
    signed = told(m.bench, "Signed")[-1]
    assert signed.as_found is not None and not signed.set_back
    assert no_difference(m)


def test_set_back_not_close_enough_for_the_gauge_it_is_brought_closer():
    m = angled().work("final")
    place = m.look()["circle"][0]["position"]
    m.bench.do("off-scale", {"position": place})
    m.work("closer").work("signed")
    signed = told(m.bench, "Signed")[-1]
    assert (signed.off_scale, signed.set_back) == (None, True)
    assert no_difference(m)


def test_given_up_while_it_is_set_back_the_machine_is_not_safe():
    m = angled()
    m.bench.do("abandon", {"why": "a hot job"})
    machine = m.bench.setup.machine
    left = m.bench.state.unsafe
    assert left.loose == (machine.side.bolts, machine.nod.bolts) and not left.arm


RAM_BOLTS = ("left ram bolt", "right ram bolt", "turret bolt")


def crashed(setup=OPENED) -> Machinist:
    return opened("crash", changed(setup, machine={"after_crash": AfterCrash(RAM_BOLTS)}))


def test_after_a_crash_a_wrench_is_put_on_every_bolt_and_what_moved_is_ticked():
    m = crashed()
    page = m.look()
    assert page["title"] == "Wrench on every head, ram, turret bolt: which moved?"
    assert all(bolt in page["detail"] for bolt in RAM_BOLTS)
    assert restarted_at_the_card(m)
    press(m, "bolt-moved", bolt="turret bolt")
    press(m, "bolt-moved", bolt="left ram bolt")
    press(m, "undo")
    assert m.look()["notes"][0] == "Moved: turret bolt"
    left = [a["payload"]["bolt"] for a in m.look()["actions"] if a["kind"] == "bolt-moved"]
    assert left == ["left ram bolt", "right ram bolt"]
    assert "1 moved" in button(m, "bolts-tried")["say"]
    assert restarted_at_the_card(m)
    refused = en(m.bench.refused("bolt-moved", {"bolt": "turret bolt"}))
    assert refused == "bolt: found 'turret bolt'; allowed: left ram bolt, right ram bolt"
    m.work("signed")
    (tried,) = told(m.bench, "BoltsTried")
    assert (tried.bolts, tried.moved) == (RAM_BOLTS, ("turret bolt",))
    assert told(m.bench, "Signed")[-1].as_found is not None
    assert no_difference(m)


def test_the_run_out_is_offered_first_where_the_file_offers_it_and_is_signed_as_after_a_crash():
    assert not [a for a in crashed().look()["actions"] if a["kind"] == "check-first"]
    m = crashed(offering())
    b = m.bench
    press(m, "check-first")
    assert m.look()["step"] == "power" and b.job.check.kind == "runout"
    press(m, "undo")
    assert m.look()["step"] == "crashed" and b.job.check is None
    press(m, "check-first")
    b.powered().prepare(free=FREE_MM)
    read(b, bar(0.004))
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    assert en(b.state.last.check.name) in m.look()["reason"] and "crash" in m.look()["reason"]
    assert b.state.history.latest == () and "runout" in b.state.checked
    assert no_difference(m)
    press(m, "open", reason="crash")
    assert m.look()["step"] == "crashed"


@pytest.mark.parametrize("together", ["", "vector"])
def test_a_check_that_finds_the_head_out_offers_to_square_it_in_the_same_audit(together):
    verdict = Rule(together=together) if together else Rule()
    m = opened("check-only", changed(OPENED, machine={"verdict": verdict})).work("clear")
    assert m.look()["detail"] == "Out: right end low 0.100 and nodded up 0.200."
    assert button(m, "square")["say"] == "Square it now"
    assert m.look()["reason"] == "Check only"
    press(m, "square")
    assert m.look()["step"] == "park"
    press(m, "undo")
    press(m, "square")
    m.work("clear")
    assert not [a for a in m.look()["actions"] if a["kind"] == "square"]
    m.work("signed")
    signed = told(m.bench, "Signed")[-1]
    assert signed.as_found == told(m.bench, "SweepDone")[0].results
    assert signed.verdict == "conforms" and signed.moves
    (kept,) = m.bench.state.history.latest
    assert (kept.reason, m.look()["reason"]) == ("check-only", "Check only, then squared")
    assert no_difference(m)


def test_a_check_signed_as_it_is_squares_nothing():
    m = opened("check-only").work("signed")
    assert told(m.bench, "Signed")[-1].moves == 0
    assert m.look()["reason"] == "Check only"


@pytest.mark.parametrize("head", [{"side_mm": 0.0, "nod_mm": 0.0}, {}])
def test_where_nothing_could_be_bettered_nothing_is_offered(head):
    fixed = changed(OPENED, both={"adjust": Adjust("none")}) if not head else OPENED
    m = opened("check-only", fixed, **head).work("clear")
    assert not [a for a in m.look()["actions"] if a["kind"] == "square"]
    assert en(m.bench.refused("square", {"arm": "in"})).startswith("Nothing is out")


def test_restarted_where_it_could_be_squared_it_still_can():
    m = opened("check-only").work("clear")
    m.bench.do("restarted")
    press(m, "square")
    m.work("signed")
    assert told(m.bench, "Signed")[-1].verdict == "conforms"
    assert no_difference(m)


def test_squared_after_the_arm_was_taken_out_it_is_prepared_touched_and_swept_anew():
    m = opened("check-only").work("clear")
    m.bench.do("square", {"arm": "out"})
    m.work("prepare").work("park")
    first, second = told(m.bench, "SweepDone")
    assert (first.purpose, second.purpose, en(second.why)) == (
        "as-found",
        "as-found",
        "the arm had been taken out",
    )
    m.work("signed")
    signed = told(m.bench, "Signed")[-1]
    assert (signed.as_found, signed.verdict) == (first.results, "conforms")
    assert no_difference(m)
