"""A hot job comes between: put aside at any step, left safe or under a tag, taken up again."""

import pytest

from daq.audit.apply import fold
from daq.audit.recompute import differences
from tests.audit.conftest import Bench
from tests.audit.rigid import leans_mm, told
from tests.audit.stations import FREE_MM, GOOD, offering, opened, read
from tests.audit.test_restart import LIMIT_MM, MEANWHILE, STEPS, begun
from tests.thinned import thinned

EVERY = ("prepare", *STEPS)
TAGS = ("HALF SQUARED: not judged yet.", "HALF SQUARED: last verdict ")


def button(b, kind: str, **payload):
    (found,) = [
        a
        for a in b.console["actions"]
        if a["kind"] == kind and payload.items() <= a["payload"].items()
    ]
    return found


OFF = [False, pytest.param(True, marks=pytest.mark.long)]


def put_aside(b) -> None:
    asked = button(b, "put-aside")
    assert [field["name"] for field in asked["fields"]] == ["why"] and asked["confirm"]
    b.do("put-aside", {"why": "a hot job"})


def restart(b) -> None:
    """The service goes off and on: the record is folded anew, and what it says first is heard."""
    b.shop = fold(b.events)
    assert b.refused("restarted").code == "card-unread"


@pytest.mark.parametrize("off", OFF)
@pytest.mark.parametrize("step", EVERY)
def test_put_aside_at_every_step_it_is_made_safe_tagged_and_swept_anew(step, off):
    m = begun(step)
    b = m.bench
    loose, learned, found = set(b.job.loose), b.job.head.learned, b.job.sweeps.as_found
    put_aside(b)
    if step == "sign":
        assert b.job.step == "aside"
    else:
        card = b.console
        assert "arm out, wrench off the drawbar." in card["detail"]
        assert ("tighten the nod bolts" in card["detail"]) == bool(loose or step == "loosen")
        assert all(not a["primary"] for a in card["actions"])
        if off:
            restart(b)
        b.do("rest", button(b, "rest", left="safe")["payload"])
    if off:
        restart(b)
    shown = b.console
    assert shown["step"] == "aside" and shown["title"].startswith(TAGS[found is not None])
    assert shown["stop_at"] is None and shown["detail"] == "Put aside: a hot job" and b.aim is None
    assert not b.job.loose and not b.job.arm_in
    assert b.refused("open", {"reason": "scheduled"}).code == "audit-open"
    # Somebody clamped the gauge anew, and the hot job knocked the head.
    m.plus_mm, seqs = -0.4, len(b.events)
    m.head.shift("side", 0.02)
    b.do("take-up")
    steps = []
    while b.job.step not in ("as-found", "final"):
        steps.append(b.job.step)
        m.step()
    assert [each for each in steps if each not in ("table", "power")] == [
        "prepare",
        "touch-free",
        "touch-push",
    ]
    assert b.job.step == ("final" if found else "as-found") and not b.job.reads.taken
    assert b.job.head.learned == learned
    assert m.finish().verdict == "conforms"
    signed = b.state.last.signed
    assert found is None or signed.as_found == found.results
    read = [each.seq for each in b.events[seqs:] if each.type == "SweepDone"]
    assert read and signed.sweeps[-1].as_left
    for off_mm in leans_mm(m.head).values():
        assert abs(off_mm) < LIMIT_MM
    assert list(differences(b.events, b.chunks.__getitem__)) == []


@pytest.mark.parametrize("off", OFF)
@pytest.mark.parametrize("step", [step for step in EVERY if step != "sign"])
def test_left_as_it_is_it_is_not_safe_to_run_until_put_right_or_taken_up(step, off):
    m = begun(step)
    b = m.bench
    loose = set(b.job.loose) | ({"nod"} if step == "loosen" else set())
    put_aside(b)
    b.do("rest", button(b, "rest", left="as-is")["payload"])
    if off:
        restart(b)
    tag = b.console
    assert tag["step"] == "unsafe"
    left = ["nod bolts loose"] * bool(loose) + ["arm in the spindle"]
    assert tag["title"] == f"NOT SAFE TO RUN: {', '.join(left)}."
    assert tag["notes"][0].startswith(TAGS)
    assert all(not a["primary"] for a in tag["actions"])
    b.do("take-up")
    assert b.job.step == "prepare"
    if loose:
        assert b.console["notes"] == ["Keep the head supported: the nod bolts may be loose."]
    m.work("check" if loose else "final", "as-found")
    assert (b.job.step == "check") == bool(loose) and b.job.loose == loose
    assert m.finish().verdict == "conforms"
    for off_mm in leans_mm(m.head).values():
        assert abs(off_mm) < LIMIT_MM


@pytest.mark.parametrize(
    ("step", "rests", "meanwhile"),
    thinned(["as-found", "move"], ["put-aside", "aside", "unsafe"], MEANWHILE),
)
def test_whatever_happens_while_it_rests_and_the_service_is_off_is_read_anew(
    step, rests, meanwhile
):
    m = begun(step)
    b = m.bench
    put_aside(b)
    if rests != "put-aside":
        b.do("rest", {"left": "safe" if rests == "aside" else "as-is"})
    MEANWHILE[meanwhile](m)
    restart(b)
    assert b.console["step"] == rests and b.console["stop_at"] is None and b.aim is None
    if rests == "put-aside":
        b.do("rest", {"left": "safe"})
    b.do("take-up")
    before = len(b.events)
    while b.job.stop is None and b.job.step != "clear":
        m.step()
    since = [event.type for event in b.events[before:]]
    assert [e for e in since if e not in ("TableReadied", "Warmed")][:3] == [
        "Prepared",
        "FreeRead",
        "Pushed",
    ]
    assert {"SweepDone", "CheckDone"} & set(since)
    assert m.finish().verdict == "conforms"
    for off_mm in leans_mm(m.head).values():
        assert abs(off_mm) < LIMIT_MM


def test_what_could_not_be_tightened_is_put_right_later_and_the_machine_may_run():
    m = begun("move")
    b = m.bench
    far = {axis: abs(each.error_mm) for axis, each in b.job.sweeps.as_found.results.items()}
    put_aside(b)
    b.do("rest", {"left": "as-is"})
    b.do("rest", button(b, "rest", left="safe")["payload"])
    assert b.console["step"] == "aside" and not b.job.loose
    assert b.console["title"] == (
        f"HALF SQUARED: last verdict OUT (side {far['side']:.3f} mm, nod {far['nod']:.3f} mm), "
        "bolts loosened since."
    )
    b.do("take-up")
    m.work("final")
    assert m.finish().verdict == "conforms"


def test_a_head_that_was_being_brought_closer_is_swept_once_it_is_tight():
    m = begun("as-found")
    b = m.bench
    b.do("off-scale", {"position": "back"}, [0.0] * 10)
    b.do("arm-out")
    put_aside(b)
    assert "tighten the side bolts and the nod bolts" in b.console["detail"]
    b.do("rest", {"left": "as-is"})
    assert b.console["title"] == ("NOT SAFE TO RUN: side bolts loose, nod bolts loose.")
    b.do("take-up")
    m.work("closer", "final")
    assert b.job.step == "closer"
    b.do("put-aside", {"why": "once more"})
    b.do("rest", {"left": "safe"})
    b.do("take-up")
    m.work("closer", "final")
    assert b.job.step == "final"
    m.finish()
    assert told(b, "Signed")[0].as_found is None


@pytest.mark.parametrize("left", ["safe", "as-is"])
def test_a_head_that_is_to_be_set_back_first_is_asked_about_again(left):
    b = Bench(begun("prepare").bench.setup)
    b.do("open", {"reason": "after-angled-work"})
    put_aside(b)
    assert b.console["step"] == "aside"
    b.do("take-up")
    assert b.job.step == "angled"
    b.do("angled", {"still": True})
    put_aside(b)
    assert "tighten the side bolts and the nod bolts" in b.console["detail"]
    b.do("rest", {"left": left})
    restart(b)
    loose = "NOT SAFE TO RUN: side bolts loose, nod bolts loose."
    assert b.console["title"] == (loose if left == "as-is" else TAGS[0])
    b.do("take-up")
    assert b.job.step == "set-back"
    b.do("set-back")
    assert b.job.step == "table" and not b.job.told


@pytest.mark.parametrize("kind", GOOD)
def test_another_check_rests_too(kind):
    b = opened(Bench(offering()), kind)
    read(b, GOOD[kind][:2])
    b.do("put-aside", {"why": "a hot job"})
    assert "gauge and test bar out, wrench off the drawbar." in b.console["detail"]
    b.do("rest", {"left": "safe"})
    assert b.console["title"].startswith("HALF DONE: ")
    assert b.console["title"].endswith(", not judged yet.")
    b.do("take-up")
    b.prepare(free=FREE_MM)
    assert b.job.step == "stations" and not b.job.reads.taken
    read(b, GOOD[kind])
    b.do("put-aside", {"why": "a hot job"})
    b.do("rest", {"left": "safe"})
    assert b.console["title"].endswith(": inside.")


def test_why_is_said_and_an_audit_rests_once():
    b = begun("park").bench
    assert b.refused("put-aside", {"why": " "}).code == "put-aside-without-why"
    put_aside(b)
    assert b.refused("put-aside", {"why": "again"}).code == "rests-already"
    assert b.refused("undo").code == "nothing-to-take-back"
    assert not [a for a in b.console["actions"] if a["kind"] in ("put-aside", "undo")]


def test_a_rest_may_be_given_up():
    b = begun("move").bench
    put_aside(b)
    b.do("rest", {"left": "as-is"})
    b.do("abandon", {"why": "sold"})
    assert b.console["title"] == "NOT SAFE TO RUN: nod bolts loose, arm in the spindle."
    b.do("made-safe")
    b = begun("move").bench
    put_aside(b)
    b.do("rest", {"left": "safe"})
    assert [f["name"] for f in button(b, "abandon")["fields"]] == ["why"]
    b.do("abandon", {"why": "sold"})
    assert b.console["title"] == "Ready for an audit."


def test_a_gauge_that_goes_and_is_zeroed_leaves_a_resting_audit_alone():
    b = begun("move").bench
    put_aside(b)
    b.do("rest", {"left": "safe"})
    b.do("gauge-fault", {"code": "unplugged"})
    b.do("gauge-back", {"run": "run-2", "gauge": b.setup.gauge.key})
    assert b.refused("zeroed", {}, [0.5] * 12 + [0.0] * 6).code == "not-this-step"
    assert b.console["step"] == "aside"
