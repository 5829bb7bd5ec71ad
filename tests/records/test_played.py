"""A recorded audit played again: each moment as the screens stood, its numbers those on record."""

from dataclasses import replace

import pytest

from daq.audit.aim import aim
from daq.ledger.errors import LedgerError
from daq.records.played import MOST_NUMBERS, count, moment, moments
from daq.screens.console import console
from daq.screens.wall import wall
from daq.words import said
from tests.records.in_memory import Shelf
from tests.web.scenes import made
from tests.words import en

AUDITS = [
    "signed-added",
    pytest.param("zeroed", marks=pytest.mark.long),
    pytest.param("check-signed", marks=pytest.mark.long),
    pytest.param("restarted", marks=pytest.mark.long),
    pytest.param("aside-unsafe", marks=pytest.mark.long),
]


@pytest.fixture(params=AUDITS)
def shelf(request):
    return Shelf(made(request.param))


def test_each_moment_is_what_the_screens_showed_after_a_press(shelf):
    for audit in shelf.audits:
        record = shelf.read(audit)
        name = record.opened.setup.machine.name
        told = moments(record)
        assert [each.n for each in told.moments] == list(range(count(record)))
        assert sum(len(each.what) for each in told.moments) == len(record.rows)
        rows = {row.seq: n for n, row in enumerate(record.rows)}
        for each in told.moments:
            found, state = moment(record, each.n, shelf.samples), record.states[rows[each.seq]]
            assert found.snapshot.seq == each.seq
            assert found.snapshot.pages["wall"] == wall(state, name)
            shown = found.snapshot.pages["console"]
            assert shown == replace(console(state, name), actions=(), audit=None)


def test_every_moment_says_that_it_is_a_record_and_names_no_machine_to_press_for(shelf):
    record = shelf.read(shelf.audits[0])
    for n in range(count(record)):
        found = moment(record, n, shelf.samples)
        assert en(found.mark) == f"RECORD of 2026-06-01, {record.opened.short}: not live"
        assert (found.snapshot.machine, found.snapshot.said) == ("", None)


def test_the_numbers_of_a_moment_are_its_samples_held_against_what_was_shown_before(shelf):
    record = shelf.read(shelf.audits[0])
    seen = 0
    for each in moments(record).moments:
        found = moment(record, each.n, shelf.samples)
        assert len(found.numbers) <= MOST_NUMBERS
        at = [row.seq for row in record.rows].index(each.seq)
        digests = record.rows[at].event.evidence
        kept = [sample for digest in digests for sample in shelf.samples(digest)]
        if kept:
            seen += 1
            assert found.numbers[-1].live.n == kept[-1].n
            assert found.stands.value_mm == kept[-1].value_mm
            assert all(number.before_ms >= 0 for number in found.numbers)
        held = aim(record.states[at])
        if held is None:
            assert found.stands.against is None
    assert seen


def test_nothing_stands_once_the_service_was_off():
    shelf = Shelf(made("restarted"))
    record = shelf.read(shelf.audits[0])
    last = moment(record, count(record) - 1, shelf.samples)
    assert record.rows[-1].event.type == "Restarted"
    assert (last.stands.text, last.stands.fresh, last.numbers) == ("", False, ())


def test_samples_that_are_gone_leave_no_number_and_no_error():
    shelf = Shelf(made("signed-added"))
    record = shelf.read(shelf.audits[0])

    def gone(digest):
        raise LedgerError(said("name", name=digest))

    for n in range(count(record)):
        found = moment(record, n, gone)
        assert (found.numbers, found.stands.text) == ((), "")
