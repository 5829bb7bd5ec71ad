"""Decisions made in memory: what is pressed is decided, kept and dated as by the service."""

from daq.audit.apply import fold
from daq.audit.recompute import differences
from daq.service.in_memory import InMemory
from tests.audit.conftest import setup_of
from tests.cards import READY
from tests.words import told

PRESSES = (
    ("open", {"reason": "scheduled"}, ()),
    ("readied", READY, ()),
    ("warmed", {"warm": True}, ()),
    ("prepared", {"serial_number": "P-1"}, ()),
    ("take", {}, (0.0,) * 3),
    ("pushed", {}, (0.0, 1.2, 0.0)),
    ("take", {"position": "front"}, (1.2,) * 3),
)


def worked():
    house = InMemory(setup_of(), told)
    asked = []

    def shows(numbers):
        asked.append(numbers)
        return numbers

    acks = [house.press(kind, given, lambda n=n: shows(n)) for kind, given, n in PRESSES]
    return house, acks, asked


def test_the_gauge_is_asked_only_where_the_decision_needs_it():
    _, acks, asked = worked()
    assert all(ack.accepted for ack in acks)
    assert [n for ack in acks for n in ack.seqs] == [1, 2, 3, 4, 5, 6, 7]
    assert asked == [numbers for _, _, numbers in PRESSES if numbers]


def test_the_same_presses_make_the_same_events_and_they_fold_and_decide_again():
    house, _, _ = worked()
    assert worked()[0].events == house.events
    assert fold(house.events) == house.shop
    assert list(differences(house.events, house.chunks.__getitem__)) == []


def test_what_is_refused_is_answered_and_changes_nothing():
    house, _, _ = worked()
    shop, events = house.shop, list(house.events)
    ack = house.press("tightened", {}, tuple)
    assert (ack.accepted, ack.code, ack.seqs) == (False, "refused", ())
    assert ack.reason
    assert (house.shop, house.events) == (shop, events)


def test_time_goes_on_by_numbers_and_by_waiting_alone():
    house, _, _ = worked()
    before = house.ns
    house.wait(3600.0)
    assert house.ns - before == 3600 * 10**9
    house.press("take", {"position": "right"}, lambda: (1.16,) * 3)
    assert house.events[-1].stamp.mono_ns == before + 3600 * 10**9 + 3 * 20_000_000


def test_a_gauge_in_inches_sends_inches():
    house = InMemory(setup_of(), told)
    house.unit = "in"
    (sample,) = house.samples((1.27,))
    assert (sample.text, sample.unit, sample.value_mm) == ("+0.0500", "in", 1.27)
