"""Every reason a shop opens an audit for, walked by its buttons from opening to signature."""

from typing import get_args

import pytest

from daq.audit.reasons import REASONS, Reason
from daq.audit.recompute import differences
from daq.virtual.orders import payload
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, mill, told

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
    ack = m.press(kind, payload(action, "Alex", m.today()))
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
    assert m.look()["step"] == "prepare"
    press(m, "undo")
    assert m.look()["step"] == "levelled"
