"""The list of audits over HTTP: what the API answers, and what the pages say of it."""

import html
import re
import shutil
from urllib.parse import unquote

import pytest

from daq.audit.state import Shop
from daq.ledger.store import Ledger
from daq.service import listing as listing_module
from daq.service.listing import Listing, NoList
from daq.service.trends import Trends
from daq.words import Stamp, said
from tests.patience import PATIENCE_S
from tests.records.conftest import data, many  # noqa: F401 - fixtures
from tests.records.many import PEOPLE, START_US, Audits, iso, made_of, plainly
from tests.web.conftest import FakeHub, FakeInbox, Name
from tests.web.scenes import MACHINE
from web.app import HERE, create_app

ROW = re.compile(r'<a href="/records/([0-9a-f-]{36})">')


class Today:
    """The day after the last audit."""

    def stamp(self):
        return Stamp(0, START_US + 75 * 24 * 3600 * 1_000_000, "boot", True)


def app_of(folder, **more):
    hub = FakeHub()
    hub.people, hub.names = PEOPLE, (Name(MACHINE, "Practice mill"), Name("mill-1", "Mill 1"))
    trends = Trends({}, Shop(), Today(), folder)
    return create_app(hub, FakeInbox(), trends=trends, **more)


@pytest.fixture(autouse=True)
def patient(monkeypatch):
    """A busy computer makes nobody give up."""
    monkeypatch.setattr(listing_module, "AWAITED_S", PATIENCE_S)


@pytest.fixture(scope="module")
def listing(many, tmp_path_factory):  # noqa: F811
    """The list of sixty audits, kept in a folder of its own."""
    folder = tmp_path_factory.mktemp("listed") / "data"
    shutil.copytree(many, folder)
    found = Listing(folder, 1)
    found.start()
    yield found
    found.stop()


@pytest.fixture(scope="module")
def client(many, listing):  # noqa: F811
    return app_of(many, listing=listing).test_client()


@pytest.fixture(scope="module")
def every(many):  # noqa: F811
    return list(plainly(many))


def test_the_api_lists_audits_page_by_page_newest_first(client, every):
    got, before = [], ""
    while True:
        page = client.get(f"/api/records?limit=25{before}").json
        got += [each["audit"] for each in page["records"]]
        assert page["behind"] == 0 and page["failed"] == []
        if page["more"] is None:
            break
        before = f"&before={page['more']}"
    assert got == every
    one = page["records"][-1]
    assert {"audit", "machine", "kind", "verdict", "signed", "side", "gauges"} <= one.keys()


def test_the_page_lists_the_newest_and_leads_on_to_older_ones(client, every):
    got, to = [], "/records"
    while to:
        page = client.get(to).text
        got += ROW.findall(page[page.index('id="newest"') :])
        older = re.search(r'<a href="([^"]+)" rel="next">', page)
        to = older and older[1].replace("&amp;", "&")
    assert got == every


@pytest.mark.parametrize(
    "asked",
    [
        "machine=mill-2", "kind=runout&voided=yes", "verdict=does-not-conform", "by=Bo+Sample",
        f"since={iso(5)}&until={iso(9)}", "gauge=G-2&practice=no", "open=yes", "gauge=4711",
    ],
)  # fmt: skip
def test_form_and_api_pick_out_the_same_and_an_empty_field_asks_nothing(client, asked):
    answer = client.get(f"/api/records?limit=25&{asked}").json["records"]
    fields = dict(pair.split("=") for pair in asked.split("&"))
    empty = "".join(
        f"&{name}=" for name in ("machine", "gauge", "since", "by") if name not in fields
    )
    page = client.get(f"/records?{asked}{empty}").text
    assert ROW.findall(page) == [each["audit"] for each in answer]
    for name, value in fields.items():
        given = html.escape(unquote(value).replace("+", " "))
        chosen = f'<option value="{given}" selected>'
        assert re.search(f'name="{name}"[^>]* value="{given}"', page) or chosen in page


def test_audits_of_a_gauge_that_failed_are_one_press_away(data, tmp_path):  # noqa: F811
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        used = audits.opened(68, gauge=("bench", "4711"))
        audits.signed(68.5, used, done_by=next(iter(PEOPLE)))
        audits.signed(69.5, audits.opened(69, gauge=("other", "4712")))
        audits.checked(70, ("bench", "4711"), passed=False)
        last = ledger.seq
    listing = Listing(tmp_path, last)
    listing.start()
    client = app_of(tmp_path, listing=listing).test_client()
    page = client.get("/records").text
    says = f"Gauge 4711 failed its check on {iso(70)}: 1 audit used it before;"
    assert says in page
    to = re.search(r'<a href="([^"]+)" aria-describedby="failed">', page)[1].replace("&amp;", "&")
    assert ROW.findall(client.get(to).text) == [used]
    answer = client.get(to.replace("/records?", "/api/records?")).json
    assert [each["audit"] for each in answer["records"]] == [used]
    assert answer["failed"][0]["audits"] == 1 and says in answer["failed"][0]["say"]
    listing.stop()


def test_a_machine_s_page_lists_its_audits_of_every_kind(client, many):  # noqa: F811
    mine = [audit for audit, one in plainly(many).items() if one["machine"] == "mill-1"]
    page = client.get("/machines/mill-1/records").text
    assert ROW.findall(page) == mine[:25]
    assert "Records of Mill 1" in page and 'href="/machines/mill-1/trend"' in page


def test_a_machine_whose_file_is_gone_still_has_its_records_and_one_never_there_has_none(client):
    page = client.get("/machines/mill-3/records")
    assert page.status_code == 200 and len(ROW.findall(page.text)) > 0
    assert 'href="/machines/mill-3/trend"' not in page.text
    assert client.get("/machines/mill-9/records").status_code == 404
    assert ROW.findall(client.get(f"/machines/{MACHINE}/records").text) == []


def test_the_first_page_leads_there(client):
    assert 'href="/records"' in client.get("/").text
    assert 'href="/machines/mill-1/records"' in client.get("/records").text
    assert 'href="/check"' in client.get("/records").text


@pytest.mark.parametrize("asked", ["since=soon", "verdict=fine", "limit=0", "colour=red"])
def test_what_cannot_be_asked_is_said(client, asked):
    for where in ("/records", "/api/records"):
        answer = client.get(f"{where}?{asked}")
        assert answer.status_code == 400
        assert asked.split("=")[0] in answer.text
        assert "allowed: " in answer.text or "known: " in answer.text


def test_until_there_is_a_list_pages_say_so_and_show_the_rest(many):  # noqa: F811
    class None_(Listing):
        def asked(self):
            raise NoList(said("list-is-made", behind=4000))

    client = app_of(many, listing=None_(many, 4000)).test_client()
    says = "The list of audits is being made: 4000 rows to go."
    for where in ("/records", "/machines/mill-1/records"):
        page = client.get(where)
        assert page.status_code == 200 and says in page.text
    assert 'href="/machines/mill-1/records"' in client.get("/records").text
    answer = client.get("/api/records")
    assert (answer.status_code, answer.json["reason"]) == (503, says)


def test_without_a_list_there_is_no_page(many):  # noqa: F811
    client = app_of(many).test_client()
    for where in ("/records", "/api/records", "/machines/mill-1/records"):
        assert client.get(where).status_code == 404
    assert 'href="/records"' not in client.get("/").text


def test_pages_are_light_with_everything_they_need(client):
    for where in ("/records", "/records?machine=mill-1", "/machines/mill-1/records"):
        page = client.get(where).text
        needs = re.findall(r'(?:href|src)="(/static/[^"]+)"', page)
        sizes = [(HERE / each.lstrip("/")).stat().st_size for each in needs]
        assert len(page.encode()) + sum(sizes) <= 60_000
