"""When each check that is none of the head was last signed, and when it is due again."""

import datetime
from dataclasses import replace

import pytest

from daq.audit.seal import decode, encode, sealed
from daq.audit.state import Shop
from daq.audit.trend import dues
from tests.audit.conftest import Bench
from tests.audit.stations import BAD, GOOD, TABLES, offering, opened, read
from tests.words import en

PAST = {"last_good": "2026-01-05", "disposition": "read again"}
SQUARING, RUNOUT, TRAVEL = range(3)


def signed(b, check, values):
    opened(b, check)
    read(b, values)
    b.do("cleared")
    return b.do("sign", {"done_by": "T. Nowak", **PAST})[-1]


def after(b, days):
    """Each check's due date so many days after the day the bench stands at."""
    day = datetime.datetime.fromtimestamp(b.events[0].stamp.utc_us / 1e6, datetime.UTC).date()
    return dues(b.state, b.setup.machine, (day + datetime.timedelta(days)).isoformat())


def told(each):
    return each.check, en(each.say), each.word, each.due.overdue


def test_a_check_never_signed_counts_as_due():
    found = dues(Bench(offering()).state, offering().machine, "2026-06-01")
    assert [told(each) for each in found] == [
        ("", "Squaring the head", None, False),
        ("runout", "Spindle run-out", None, True),
        ("travel", "Table along its travel", None, True),
    ]
    assert "one is due" in en(found[RUNOUT].due.say)


@pytest.mark.parametrize("check", TABLES)
@pytest.mark.parametrize(("values", "word"), [(GOOD, "in"), (BAD, "out")])
def test_signed_it_is_due_its_own_days_later_and_no_other_check_is(check, values, word):
    b = Bench(offering())
    signed(b, check, values[check])
    rows = {each.check: each for each in after(b, 90)}
    assert (rows[check].word, rows[check].short) == (word, b.state.last.short)
    assert (rows[check].due.days_left, rows[check].due.overdue) == (0, False)
    (other,) = {"runout", "travel"} - {check}
    assert rows[other].due.last_day is None and rows[other].due.overdue
    late = {each.check: each for each in after(b, 93)}[check].due
    assert late.overdue and en(late.say).startswith("Overdue by 3 days")


def test_the_latest_signature_counts_and_one_given_up_or_practised_does_not():
    b = Bench(offering())
    signed(b, "travel", BAD["travel"])
    signed(b, "travel", GOOD["travel"])
    last = b.state.checked["travel"]
    assert last.word == "in" and last.seq == b.state.seq
    opened(b, "travel")
    b.do("abandon", {"why": "no time"})
    b.do("made-safe")
    b.do("open", {"reason": "practice", "check": "travel"})
    b.prepare(free=-0.4)
    read(b, BAD["travel"])
    b.do("cleared")
    b.do("sign", {"done_by": "T", **PAST})
    assert b.state.checked["travel"] == last


def test_without_an_interval_it_is_said_when_it_was_last_signed():
    setup = offering()
    free = {name: replace(each, every_days=None) for name, each in setup.machine.checks.items()}
    b = Bench(replace(setup, machine=replace(setup.machine, checks=free)))
    signed(b, "runout", GOOD["runout"])
    row = after(b, 5000)[RUNOUT]
    assert row.due.last_day and not row.due.overdue and row.due.day is None


def test_what_a_file_offers_no_more_is_no_more_asked_for():
    b = Bench(offering())
    signed(b, "travel", GOOD["travel"])
    gone = replace(b.setup.machine, checks={})
    assert [each.check for each in dues(b.state, gone, "2026-06-01")] == [""]


def test_a_sealed_state_keeps_it():
    b = Bench(offering())
    signed(b, "travel", GOOD["travel"])
    shop = Shop({b.state.machine: b.state})
    assert decode(encode(sealed(shop))).shop == shop
