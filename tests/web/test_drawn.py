"""The pictures of an audit's rows on its pages: which there are, what leads to them, as files."""

import re

import pytest

from daq.audit.codec import decode
from daq.audit.events import Moved, SweepDone
from daq.words import Reading
from tests.audit.save_golden import audits
from tests.plots.seen import parsed
from tests.records.in_memory import Shelf
from tests.web.test_pictures import HEAVIEST, loaded
from web.app import create_app


@pytest.fixture(scope="module")
def kept():
    return audits()


@pytest.fixture(scope="module")
def shelf(kept):
    return Shelf(kept)


@pytest.fixture
def client(hub, inbox, shelf):
    return create_app(hub, inbox, on_record=shelf).test_client()


def rows_of(kept, audit):
    return [event for event in kept.events if event.audit == audit]


def test_an_audits_page_draws_the_latest_sweep_and_leads_to_every_sweep_and_move(
    client, shelf, kept
):
    for audit in shelf.audits:
        text = client.get(f"/records/{audit}").text
        drawn = [
            event.seq for event in rows_of(kept, audit)
            if isinstance(decode(event), SweepDone | Moved)
        ]  # fmt: skip
        for seq in drawn:
            assert f'href="/records/{audit}/rows/{seq}"' in text
        assert text.count("<svg") == 1 and loaded(text) <= HEAVIEST


def test_from_the_first_picture_one_leads_to_the_next_past_every_reading(client, shelf, kept):
    audit = shelf.audits[1]
    text = client.get(f"/records/{audit}").text
    at = re.search(r'href="([^"]+)">Every reading with its samples', text)[1]
    been = []
    while at:
        page = client.get(at)
        assert page.status_code == 200 and loaded(page.text) <= HEAVIEST
        been.append(int(at.rpartition("/")[2]))
        following = re.search(r'href="([^"]+)">The next picture', page.text)
        at = following and following[1]
    read = [
        event.seq for event in rows_of(kept, audit)
        if isinstance(getattr(decode(event), "reading", None), Reading)
    ]  # fmt: skip
    assert set(read) <= set(been) and been == sorted(been)


def test_a_picture_is_a_file_of_its_own(client, shelf, kept):
    audit = shelf.audits[0]
    row = next(e.seq for e in rows_of(kept, audit) if isinstance(decode(e), Moved))
    answer = client.get(f"/records/{audit}/rows/{row}.svg")
    assert (answer.status_code, answer.mimetype) == (200, "image/svg+xml")
    assert parsed(answer.text).get("role") == "img"


@pytest.mark.parametrize("row", ["1", "99999"])
def test_a_row_without_a_picture_is_said_to_have_none(client, shelf, row):
    for ending in ("", ".svg"):
        answer = client.get(f"/records/{shelf.audits[0]}/rows/{row}{ending}")
        assert answer.status_code == 404 and "has no picture." in answer.text


def test_an_audit_that_is_not_there_has_none(client):
    assert client.get("/records/none/rows/3").status_code == 404
