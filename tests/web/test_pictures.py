"""The pages with a machine's pictures: what stands on them, how heavy they are, what is not."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

import web
from daq.audit.reliable import of_shop
from daq.report.run_pictures import KEYS
from daq.service.listing import Listing, NoList
from daq.service.trends import NoSuchPage, Trends
from daq.words import said
from tests.audit import worn
from tests.web.scenes import MACHINE
from web.app import create_app

HEAVIEST = 80_000
"""Bytes of a page with all that it loads."""
CSS = Path(web.__file__).parent / "static"


class Worn(Trends):
    """So many audits of a machine whose head goes."""

    def __init__(self, count, unit="mm"):
        self.count, self.unit = count, unit

    def of(self, machine, most, before=None):
        if before == 3:
            raise NoSuchPage(said("no-such-page", before=3))
        view = worn.view(min(self.count, most), self.unit)
        return view if before is None else replace(view, more=41)

    def reliability(self):
        return of_shop(())

    def due(self, machine):
        return ()


@pytest.fixture
def page(hub, inbox):
    """A page's text of a machine with so many audits."""

    def get(path, count=200, unit="mm"):
        client = create_app(hub, inbox, trends=Worn(count, unit)).test_client()
        return client.get(f"/machines/{MACHINE}/trend{path}")

    return get


def loaded(text):
    """Bytes of a page and of everything in its folder that it names."""
    named = re.findall(r'(?:href|src)="/static/([^"?]+)', text)
    return len(text.encode()) + sum((CSS / each).stat().st_size for each in set(named))


@pytest.mark.parametrize("path", ["", *(f"/{key}" for key in KEYS)])
def test_two_hundred_audits_are_no_heavier_than_a_page_may_be(page, path):
    text = page(path, unit="in").text
    assert loaded(text) <= HEAVIEST
    assert "style=" not in text and "onclick" not in text


def test_every_point_of_a_picture_by_itself_leads_to_its_audit(page):
    text = page("/run-nod").text
    links = re.findall(r'<a href="/records/([^"]+)"><title>', text)
    assert links == [worn.ident(n) for n in range(200)]
    rows = re.findall(r"<tr><th>([^<]+)", text)
    assert rows == [f"A-{n:04d}" for n in reversed(range(200))]


def test_the_page_of_all_pictures_has_each_and_what_it_says_in_words(page):
    text = page("", 60).text
    for key in KEYS:
        assert f'<figure class="drawn" id="{key}">' in text
        assert f'href="/machines/{MACHINE}/trend/{key}"' in text
    assert "Drifting since" in text and text.count("<svg") == len(KEYS)
    ids = re.findall(r'\bid="([^"]+)"', text)
    assert len(ids) == len(set(ids))


def test_earlier_audits_are_a_page_of_their_own(page):
    text = page("/run-nod?before=99").text
    assert f'href="/machines/{MACHINE}/trend/run-nod?before=41"' in text
    assert "Earlier audits" not in page("/run-nod").text


@pytest.mark.parametrize(
    ("path", "status", "says"),
    [
        ("/run-roll", 404, "picture: found run-roll; allowed: run-side, run-nod"),
        ("/run-nod?before=3", 400, "before: found 3; allowed: a row given as `more`"),
    ],
)
def test_what_is_not_there_is_said(page, path, status, says):
    answer = page(path)
    assert answer.status_code == status and says in answer.text


def test_a_machine_never_audited_shows_empty_pictures(page):
    assert "No signed audit yet." in page("", 0).text


class Nothing(Listing):
    """A list that is not made yet."""

    def __init__(self):
        pass

    def asked(self):
        raise NoList(said("list-is-made", behind=7))


def test_a_machines_records_begin_with_its_run_of_audits(hub, inbox):
    app = create_app(hub, inbox, trends=Worn(60), listing=Nothing())
    text = app.test_client().get(f"/machines/{MACHINE}/records").text
    assert text.count("<svg") == 2 and "Drifting since" in text
    assert f'<a href="/records/{worn.ident(59)}"><title>' in text
    assert loaded(text) <= 0.6 * HEAVIEST, "the list of audits stands below"
