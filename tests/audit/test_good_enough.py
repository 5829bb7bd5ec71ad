"""A drawing's callout against the last sweep: plain geometry, what it rests on, when it refuses.

An axis that leans by the slope τ runs off by h τ over its depth h (tan τ, a slope being one).
"""

import math

import pytest

from daq.audit.answers import Callout
from daq.audit.apply import fold
from daq.audit.good_enough import answer
from daq.audit.input import Refused
from daq.audit.recompute import differences
from daq.audit.seal import decode, encode, sealed
from daq.audit.state import Shop
from daq.checks.sweep.callouts import Bore, Face, Wall
from daq.screens.enough import enough_view
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, mill
from tests.audit.stations import GOOD, offering, opened, read
from tests.words import en

SIDE, NOD = 0.008, -0.006
"""Differences over the sweep's 200 mm: right low, and the back."""

TEXT = {"bore": {"depth": "40 mm", "zone": "0.02 mm"}}
BORE = Callout(bore=Bore(40.0, 0.02))
LEAN = math.hypot(SIDE, NOD) / 200.0


def swept(b=None, reason="scheduled", side=SIDE, nod=NOD):
    b = b or Bench(setup_of(limit=0.05))
    b.start(reason)
    b.sweep(1.0 + nod / 2.0, 1.0 + side / 2.0, 1.0 - nod / 2.0, 1.0 - side / 2.0)
    return b


def signed(b=None, **more):
    b = swept(b, **more)
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    return b


def refusal(b, callout=BORE):
    with pytest.raises(Refused) as refused:
        answer(b.state, callout)
    return refused.value.said.code


@pytest.mark.parametrize(
    ("callout", "does_mm"),
    [
        (BORE, 40.0 * LEAN),
        (Callout(wall=Wall(50.0, 0.02, "right-left")), 50.0 * SIDE / 200.0),
        (Callout(wall=Wall(50.0, 0.02, "front-back")), 50.0 * -NOD / 200.0),
        # As wide as the cutter, it is as deep as the cutter's radius times the lean along the feed.
        (Callout(face=Face(80.0, 0.02, 80.0)), 40.0 * SIDE / 200.0),
    ],
)
def test_what_the_head_does_is_plain_geometry(callout, does_mm):
    found = answer(signed().state, callout)
    assert found.does_mm == pytest.approx(does_mm, rel=1e-6)
    assert found.doubt_mm > 0.0


@pytest.mark.parametrize(("zone", "word"), [(0.02, "in"), (0.0004, "out"), (0.0021, "close")])
def test_good_enough_not_or_too_close_by_the_sweep_s_own_rule(zone, word):
    found = answer(signed().state, Callout(bore=Bore(40.0, zone)))
    assert found.word == word
    say = en(enough_view(found, "mm", "2026-12-31").say)
    begins = {"in": "Good enough: ", "out": "Not good enough: ", "close": "Too close to tell: "}
    assert say.startswith(f"{begins[word]}0.002 over your bore, ±\N{NO-BREAK SPACE}0.00")


def test_it_says_by_which_sweep_how_old_and_what_it_leaves_out():
    b = signed()
    view = enough_view(answer(b.state, BORE), "mm", b.state.swept.day)
    assert en(view.basis).endswith(f"(audit {b.state.last.short}), today.")
    assert "The head's part alone." in en(view.alone) and "Nothing on record" in en(view.since)
    older = enough_view(answer(b.state, BORE), "in", "2099-01-01")
    assert older.days > 365 and f"{older.days} days old" in en(older.basis)
    assert "Allowed 0.0008 in" in en(older.say)


def test_a_fresh_sweep_counts_as_soon_as_it_is_read_and_none_does_once_bolts_are_cracked():
    b = signed()
    swept(b, side=0.05, nod=0.0)
    found = answer(b.state, BORE)
    assert (found.short, found.day, found.word) == (b.job.short, "", "in")
    assert found.does_mm == pytest.approx(40.0 * 0.05 / 200.0)
    m = Machinist(Bench(setup_of(limit=0.05)), RigidHead(mill(), 0.2, -0.3))
    m.bench.do("open", {"reason": "scheduled"})
    m.work("loosen")
    assert refusal(m.bench) == "enough-moved"
    m.work("move")
    assert refusal(m.bench) == "enough-moved"


def test_never_swept_unsafe_moved_or_crashed_it_is_refused_with_a_sentence():
    b = Bench(setup_of(limit=0.05))
    assert refusal(b) == "enough-no-sweep"
    signed(b)
    b.start()
    b.do("abandon", {"why": "no time"})
    assert refusal(b) == "enough-unsafe"
    b.do("made-safe")
    assert answer(b.state, BORE).word == "in"
    b.do("open", {"reason": "crash"})
    assert refusal(b) == "enough-crash"
    b.do("abandon", {"why": "no time"})
    assert refusal(b) == "enough-crash"
    signed(b)
    assert answer(b.state, BORE).word == "in"
    b.do("open", {"reason": "after-angled-work"})
    b.do("abandon", {"why": "no time"})
    assert refusal(b) == "enough-moved"


def test_given_up_with_bolts_cracked_the_head_may_have_moved():
    m = Machinist(Bench(setup_of(limit=0.05)), RigidHead(mill(), 0.2, -0.3))
    m.bench.do("open", {"reason": "scheduled"})
    m.work("signed")
    assert answer(m.bench.state, BORE).audit == m.bench.state.last.id
    m = Machinist(m.bench, RigidHead(mill(), 0.2, -0.3))
    m.bench.do("open", {"reason": "scheduled"})
    m.work("loosen")
    m.bench.abandon("a hot job")
    assert refusal(m.bench) == "enough-moved"


def test_given_up_after_the_proof_of_a_move_the_head_stands_as_no_signed_sweep_read_it():
    m = Machinist(Bench(setup_of(limit=0.05)), RigidHead(mill(), 0.2, -0.3))
    m.bench.do("open", {"reason": "scheduled"})
    m.work("signed")
    m = Machinist(m.bench, RigidHead(mill(), 0.2, -0.3))
    m.bench.do("open", {"reason": "scheduled"})
    m.work("clear")
    m.bench.abandon("the wrong gauge was noted")
    assert refusal(m.bench) == "enough-moved"


def test_another_check_leaves_the_answer_as_it_was():
    b = signed(Bench(offering()))
    before = answer(b.state, BORE)
    opened(b, "travel")
    assert answer(b.state, BORE) == before
    read(b, GOOD["travel"])
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    assert answer(b.state, BORE) == before


def test_kept_it_is_a_row_that_is_decided_again_and_changes_nothing():
    b = signed()
    found, before = answer(b.state, BORE), b.state
    (kept,) = b.do("keep-answer", {"callout": TEXT, "audit": found.audit})
    assert kept.answer == found
    assert b.state.history == before.history and b.state.swept == before.swept
    assert list(differences(b.events, b.chunks.__getitem__)) == []
    assert fold(b.events) == b.shop
    shop = Shop({b.state.machine: b.state})
    assert decode(encode(sealed(shop))).shop == shop


def test_kept_while_an_audit_is_open_that_goes_on_as_it_was():
    b = swept(signed())
    found, before = answer(b.state, BORE), b.job
    b.do("keep-answer", {"callout": TEXT, "audit": found.audit})
    assert b.job == before
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_an_answer_by_another_sweep_is_not_kept():
    b = signed()
    first = answer(b.state, BORE).audit
    signed(b)
    said = b.refused("keep-answer", {"callout": TEXT, "audit": first})
    assert said.code == "enough-other-sweep" and b.state.last.short in en(said)


@pytest.mark.parametrize(
    ("callout", "words"),
    [
        ({"bore": {"depth": "40", "zone": "0.02 mm"}}, 'bore.depth: found "40"; allowed: '),
        ({"bore": {"depth": "40 mm"}}, "bore.zone: missing; allowed: "),
        ({}, "callout: found none; allowed: one of bore, wall, face"),
        ({**TEXT, "wall": {"height": "1 in", "zone": "0.001 in"}}, "callout: found bore, wall"),
        (
            {"face": {"width": "90 mm", "zone": "0.02 mm", "cutter": "80 mm"}},
            "width: found 90 mm; allowed: up to the cutter's 80 mm",
        ),
    ],
)
def test_what_cannot_be_is_named_with_what_is_allowed(callout, words):
    said = signed().refused("keep-answer", {"callout": callout, "audit": "x"})
    assert said.code == "payload" and words in en(said)
