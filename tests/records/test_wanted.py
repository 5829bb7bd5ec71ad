"""What is asked of the list, held against the rows one by one; and what an answer costs."""

import datetime
import random
from dataclasses import replace

import pytest

from daq.audit.history import WORDS
from daq.ledger.store import Ledger
from daq.records.look import look
from daq.records.wanted import Wanted, answer
from tests.records.many import (
    GAUGES,
    KINDS,
    MACHINES,
    PEOPLE,
    START_US,
    Audits,
    all_of,
    iso,
    made_of,
    plainly,
)


def fits(one, wanted):
    day = datetime.datetime.fromtimestamp(one["at"] / 1e6, datetime.UTC).date()
    by = {person for person, name in PEOPLE.items() if wanted.by.lower() in name.lower()}
    word = WORDS.get(one["verdict"])
    flags = (("voided", wanted.voided), ("practice", wanted.practice), ("open", wanted.open))
    return (
        wanted.machine in ("", one["machine"])
        and wanted.kind in ("", one["kind"])
        and (wanted.since is None or day >= wanted.since)
        and (wanted.until is None or day <= wanted.until)
        and wanted.verdict in ("", one["verdict"], word)
        and (not wanted.gauge or wanted.gauge in one["gauge"])
        and (not wanted.by or bool(by & one["people"]))
        and all(asked in ("", "yes" if one[name] else "no") for name, asked in flags)
    )


def some(draw, often, *choices):
    return draw.choice(choices) if draw.random() < often else ""


def any_wanted(draw):
    """Something to ask; most of it is left open."""
    start = datetime.datetime.fromtimestamp(START_US / 1e6, datetime.UTC).date()
    days = sorted(start + datetime.timedelta(draw.randrange(70)) for _ in range(2))
    since, until = (day if draw.random() < 0.3 else None for day in days)
    verdicts = ("in", "out", "close", "conforms", "does-not-conform", "look-closer")
    return Wanted(
        machine=some(draw, 0.3, *MACHINES, "none"),
        kind=some(draw, 0.3, *KINDS),
        since=since,
        until=until,
        verdict=some(draw, 0.3, *verdicts),
        gauge=some(draw, 0.3, "G-1", "G-2", "no-number", "left-bench", "%"),
        by=some(draw, 0.3, "Ann Example", "sample", "BO", "%"),
        voided=some(draw, 0.2, "yes", "no"),
        practice=some(draw, 0.2, "yes", "no"),
        open=some(draw, 0.2, "yes", "no"),
        limit=draw.choice((1, 7, 50)),
    )


def test_what_is_asked_comes_out_as_it_does_from_the_rows_one_by_one(many, listed):
    every = plainly(many)
    draw, answers = random.Random(5), 0
    for _ in range(200):
        wanted, got = any_wanted(draw), []
        while True:
            found = answer(listed, wanted, PEOPLE)
            assert len(found.audits) <= wanted.limit
            got += [line.audit for line in found.audits]
            if found.more is None:
                break
            wanted = replace(wanted, before=found.more)
        assert got == [audit for audit, one in every.items() if fits(one, wanted)]
        answers += len(got)
    assert answers > 500


def test_audits_with_a_gauge_that_failed_its_check_are_those_since_it_was_last_good(data, tmp_path):
    good, other = ("a", "G-1"), ("b", "G-2")
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        before = audits.opened(1, gauge=good)
        audits.signed(1.5, before)
        during = audits.opened(2, gauge=good)  # on while the gauge passed
        audits.checked(3, good, passed=True)
        audits.signed(3.5, during)
        after = audits.opened(4, gauge=("moved-to-another-port", "G-1"))
        audits.signed(4.5, after)
        strange = audits.opened(5, gauge=other)
        audits.signed(5.5, strange)
        still = audits.opened(6, gauge=good)
        audits.checked(7, good, passed=False)
        later = audits.opened(8, gauge=good)
        audits.checked(9, good, passed=True)
    day = datetime.date.fromisoformat
    (found, _), = look(tmp_path, Wanted(failed_check=day(iso(7))))  # fmt: skip
    assert [line.audit for line in found.audits] == [still, after, during]
    (failed,) = found.failed
    assert (failed.number, failed.day, failed.since, failed.audits) == ("G-1", iso(7), iso(3), 3)
    assert all_of(tmp_path, Wanted(failed_check=day(iso(7)), open="yes")) != []
    assert all_of(tmp_path, Wanted(failed_check=day(iso(8)))) == []
    assert {before, strange, later} & {line.audit for line in found.audits} == set()


def test_of_a_gauge_calibrated_since_it_passed_audits_before_that_day_are_not_asked_about(
    data, tmp_path
):
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        audits.checked(1, GAUGES[0], passed=True)
        for begun, calibrated, sure in ((2, None, True), (3, None, False), (6, iso(5), True)):
            audit = audits.opened(begun, calibrated=calibrated)
            audits.signed(begun + 0.5, audit, sure=sure)
        audits.checked(7, GAUGES[0], passed=False)
    (found, _), = look(tmp_path, Wanted(failed_check=datetime.date(2026, 1, 1)))  # fmt: skip
    # That of a clock nobody had set may be of any day.
    assert [line.day for line in found.audits] == [iso(6.5), iso(3.5)]
    assert found.failed[0].since == iso(5)


def test_a_gauge_of_no_number_is_told_by_its_key(data, tmp_path):
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        audits.signed(1.5, audits.opened(1, gauge=("one", "")))
        audits.signed(2.5, audits.opened(2, gauge=("two", "")))
        audits.checked(3, ("two", ""), passed=False)
    (found, _), = look(tmp_path, Wanted(failed_check=datetime.date(2026, 1, 1)))  # fmt: skip
    assert [line.day for line in found.audits] == [iso(2.5)]
    assert (found.failed[0].since, found.failed[0].audits) == (None, 1)


QUESTIONS = (
    Wanted(limit=7),
    Wanted(machine="mill-1", limit=7),
    Wanted(kind="runout", limit=7),
    Wanted(verdict="conforms", limit=7),
    Wanted(voided="yes", limit=7),
    Wanted(machine="none"),
    Wanted(kind="none"),
    Wanted(verdict="look-closer"),
    Wanted(gauge="none"),
    Wanted(by="none"),
    Wanted(since=datetime.date(2027, 1, 1)),
)


def steps(index, wanted):
    """How many times ten steps the database's machine takes to answer, and how many lines are made
    of what it gives."""
    counted = []
    index._connection.set_progress_handler(lambda: bool(counted.append(1)), 10)
    found = answer(index, wanted, PEOPLE)
    index._connection.set_progress_handler(None)
    return len(counted), len(found.audits)


@pytest.mark.parametrize("wanted", QUESTIONS, ids=str)
def test_a_question_costs_what_it_shows_however_many_audits_there_are(listed, wanted):
    """Held against the same list with each audit in it forty times."""
    with listed.in_a_copy() as longer:
        for n in range(1, 40):
            longer.rows(
                "INSERT INTO audits (opened, line, digest) SELECT opened - ?1 * 1000000,"
                " json_set(line, '$.audit', audit || ?1), '' FROM audits WHERE opened > 0",
                (n,),
            )
        few, shown = steps(listed, wanted)
        many_more, as_many = steps(longer, wanted)
        assert shown == as_many == (7 if wanted.limit == 7 else 0)
        assert many_more <= 2 * few + 5, (few, many_more)
