"""Samples let go by the shop's policy: those of closed audits alone, and only old ones."""

import pytest

from daq.audit.codec import decode
from daq.audit.events import SamplesLetGo
from daq.cli import main
from daq.ledger import LedgerError, LedgerView
from daq.ledger.aged import batches
from daq.ledger.verify import verify
from daq.service.letting_go import (
    by_hand,
    drafted,
)
from tests.ledger.conftest import raw_hand
from tests.service.old_audits import DAYS, Clock, Past, at, kept, let_go, rules
from tests.words import troubled


@pytest.fixture
def past(tmp_path):
    made = Past(tmp_path / "data")
    yield made
    made.close()


def test_only_old_and_closed_audits_lose_their_samples(past, tmp_path):
    past.audit("old", 300)
    past.audit("given-up", 290, closed="Abandoned")
    past.audit("open", 280, closed=None)
    past.row("Checked", "", 270)
    past.audit("late", 260, closed=None)
    past.audit("new", 50)
    past.row("Signed", "late", 40)
    rows = let_go(past.ledger)
    assert kept(past.ledger) == ({"open", "late", "new"}, {"old", "given-up", ""})
    assert sum(row.data["count"] for row in rows) == 7
    assert verify(tmp_path / "data").ok
    assert let_go(past.ledger) == []
    let_go(past.ledger, days=45)
    assert kept(past.ledger)[0] == {"open", "late"}
    let_go(past.ledger, days=1)
    assert kept(past.ledger)[0] == {"open"}
    assert verify(tmp_path / "data").ok


def test_a_row_without_a_sure_date_is_as_old_as_the_next_that_has_one(past):
    past.audit("first", 300)
    past.audit("second", 2000, trusted=False)
    past.audit("third", 200)
    past.audit("fourth", 2000, trusted=False)
    past.audit("fifth", 90)
    let_go(past.ledger)
    assert kept(past.ledger) == ({"fourth", "fifth"}, {"first", "second", "third"})


def test_after_the_last_sure_date_nothing_is_known_to_be_old(past):
    past.audit("first", 300)
    past.audit("second", 2000, trusted=False)
    let_go(past.ledger)
    assert kept(past.ledger) == ({"second"}, {"first"})


def test_what_was_added_after_the_signature_stays(past):
    past.audit("old", 300)
    added = past.row("Kept", "old", 299)
    past.audit("older", 280)
    let_go(past.ledger)
    assert past.ledger.chunk(added.evidence[0])
    assert sum(1 for event in past.ledger.events() for each in event.evidence) == 7
    assert past.ledger.evidence() == (7, 6)


def test_nothing_goes_before_it_was_forwarded(past):
    past.audit("first", 300)
    signed = past.audit("second", 290)
    past.audit("third", 280)
    let_go(past.ledger, last=signed.seq)
    assert kept(past.ledger) == ({"third"}, {"first", "second"})


def test_many_pieces_go_by_several_rows_and_a_stop_in_between_loses_none(past, tmp_path):
    past.audit("big", 300, readings=200)
    past.audit("next", 290)
    some = batches(past.ledger, rules())
    batch = next(some)
    past.ledger.let_go(drafted(batch, DAYS, at(0), "test"), batch.digests)
    assert 1 < len(batch.digests) <= 64
    rows = let_go(past.ledger)
    assert len(rows) >= 4
    assert kept(past.ledger) == (set(), {"big", "next"})
    assert verify(tmp_path / "data").ok


def test_a_damaged_piece_is_not_let_go(past, tmp_path):
    past.audit("old", 300)
    past.close()
    with raw_hand(tmp_path / "data") as connection:
        connection.execute("UPDATE chunks SET bytes = x'00' WHERE rowid = 2")
    with LedgerView.open(tmp_path / "data") as view, troubled(LedgerError, match="is damaged"):
        list(batches(view, rules()))


def test_by_hand_it_is_done_with_the_service_stopped_and_by_a_clock_that_was_set(past, tmp_path):
    past.audit("old", 300)
    data = tmp_path / "data"
    with troubled(LedgerError, match="another headsweep"):
        list(by_hand(data, DAYS, Clock(), "test"))
    past.close()
    with troubled(LedgerError, match="no time server has set this computer's clock"):
        list(by_hand(data, DAYS, Clock(trusted=False), "test"))
    (row,) = by_hand(data, DAYS, Clock(trusted=False), "test", any_clock=True)
    said = decode(row)
    assert isinstance(said, SamplesLetGo)
    assert (said.count, said.up_to, said.older_than_days) == (3, 5, DAYS)
    assert (row.machine, row.audit, row.actor) == ("", "", "service")
    assert list(by_hand(data, DAYS, Clock(), "test")) == []


def test_the_command(past, tmp_path, capsys):
    past.audit("old", 20_900)  # before any day this test may run on
    past.close()
    told = ["ledger", "let-go", "--data", str(tmp_path / "data"), "--older-than", "400"]
    assert main([*told, "--any-clock"]) == 0
    out = "3 pieces of evidence let go, of audits closed by row 5; their digests stay\n"
    assert capsys.readouterr().out == out
    assert main([*told, "--any-clock"]) == 0
    assert capsys.readouterr().out == "0 pieces of evidence let go\n"
    with raw_hand(tmp_path / "data") as connection:
        connection.execute("DELETE FROM chunks WHERE rowid = 1")
    assert main(told) == 3
    with pytest.raises(SystemExit):
        main([*told[:-1], "0"])
