"""The list kept beside a ledger that goes on: up to date, in nobody's way, healed where hurt."""

import shutil

import pytest

from daq.audit.state import Shop
from daq.ledger.store import Ledger
from daq.records.index import INDEX_NAME
from daq.records.wanted import Wanted, answer
from daq.service import listing as listing_module
from daq.service.committed import Committed
from daq.service.listing import Listing, NoList
from tests.patience import PATIENCE_S, until
from tests.records.conftest import data, many  # noqa: F401 - fixtures
from tests.records.many import PEOPLE, Audits, made_of


@pytest.fixture(autouse=True)
def patient(monkeypatch):
    """A busy computer makes nobody give up."""
    monkeypatch.setattr(listing_module, "AWAITED_S", PATIENCE_S)


@pytest.fixture
def folder(many, tmp_path):  # noqa: F811
    found = tmp_path / "data"
    shutil.copytree(many, found)
    return found


def audits_of(listing):
    with listing.asked() as index:
        return [line.audit for line in answer(index, Wanted(limit=200), PEOPLE).audits]


def test_what_was_committed_is_in_the_list_when_it_is_asked_next(data, folder):  # noqa: F811
    with Ledger.open(folder) as ledger:
        listing = Listing(folder, ledger.seq)
        listing.start()
        audits = Audits(ledger, made_of(data))
        for _ in range(3):
            audit = audits.opened(100)
            opened = ledger.event(ledger.seq)
            listing.committed(Committed((opened,), Shop(), Shop(), ledger.head))
            assert audits_of(listing)[0] == audit and listing.behind == 0
        listing.stop()


def test_a_row_that_says_nothing_of_the_list_is_not_looked_at(data, folder):  # noqa: F811
    with Ledger.open(folder) as ledger:
        listing = Listing(folder, ledger.seq)
        listing.start()
        before = audits_of(listing)
        stands = (folder / INDEX_NAME).stat()
        audits = Audits(ledger, made_of(data))
        audits.row("Cleared", 100, before[0], "mill-1", {"next": {"step": "sign"}})
        cleared = ledger.event(ledger.seq)
        listing.committed(Committed((cleared,), Shop(), Shop(), ledger.head))
        assert audits_of(listing) == before
        assert (folder / INDEX_NAME).stat().st_mtime_ns == stands.st_mtime_ns
        listing.stop()


@pytest.mark.parametrize("hurt", ["gone", "short", "another"])
def test_a_list_that_is_hurt_meanwhile_is_said_and_made_anew(folder, hurt):
    listing = Listing(folder, 1)
    listing.start()
    whole = audits_of(listing)
    path = folder / INDEX_NAME
    if hurt == "gone":
        path.unlink()
    else:
        path.write_bytes(path.read_bytes()[:5000] if hurt == "short" else b"\1" * 9000)
    with pytest.raises(NoList):
        audits_of(listing)

    def healed():
        try:
            return audits_of(listing) == whole
        except NoList:
            return False

    until(healed)
    listing.stop()


def test_the_next_start_goes_on_with_what_is_there(folder):
    for _ in range(2):
        listing = Listing(folder, 1)
        listing.start()
        whole = audits_of(listing)
        listing.stop()
        stands = (folder / INDEX_NAME).stat()
    assert len(whole) == 60
    assert stands.st_mtime_ns == (folder / INDEX_NAME).stat().st_mtime_ns


def test_where_nothing_can_be_written_it_is_said_and_the_thread_lives_on(folder, monkeypatch):
    monkeypatch.setattr(listing_module, "AWAITED_S", 0.01)
    (folder / INDEX_NAME).mkdir()
    listing = Listing(folder, 1)
    listing.start()
    for _ in range(2):
        with pytest.raises(NoList):
            audits_of(listing)
    (folder / INDEX_NAME).rmdir()
    listing.stop()
