"""An audit's page and its data: all that is on record, told, and what was altered called so."""

import re
import shutil
from html import unescape
from pathlib import Path

import apsw
import pytest

import web
from daq.ledger.reads import DB_NAME
from daq.ledger.view import LedgerView
from daq.records.lines import lines
from daq.service.on_record import OnRecord
from daq.units import MM_PER
from tests.audit.save_golden import audits, put
from tests.records.in_memory import Shelf
from tests.web.acts import bench
from tests.web.scenes import SITUATIONS, made
from tests.words import en
from web.app import create_app

MOST = 80_000
"""Bytes of a page with all it loads."""
FEW = {"signed-added", "unsafe"}
"""What differs most; the others are for the long run."""
EVERY = [
    pytest.param(name, marks=() if name in FEW else pytest.mark.long) for name in sorted(SITUATIONS)
]
READ = re.compile(r"Read (-?[0-9.]+) (mm|in),")
TAGS = re.compile(r"<[^>]+>")


@pytest.fixture(scope="module")
def data(tmp_path_factory):
    """A ledger of two signed audits."""
    folder = tmp_path_factory.mktemp("record")
    put(folder, audits())
    return folder


@pytest.fixture(scope="module")
def ids(data):
    with LedgerView.open(data) as view:
        return list(dict.fromkeys(event.audit for event in view.events() if event.audit))


@pytest.fixture
def shelf(hub, inbox):
    """A client of whoever keeps audits."""
    return lambda on_record: create_app(hub, inbox, on_record=on_record).test_client()


def text(page):
    return " ".join(unescape(TAGS.sub(" ", page.text)).split())


def test_every_row_stands_on_the_page_with_its_hash_and_its_samples(shelf, data, ids):
    on_record = OnRecord(data)
    for audit in ids:
        page = shelf(on_record).get(f"/records/{audit}")
        found = on_record.read(audit)
        for line in lines(found):
            start = page.text.index(f'<li id="r{line.seq}"')
            row = page.text[start : page.text.find("<li id=", start + 1)]
            assert line.hash in row
            assert all(digest[:16] in row for digest in line.evidence)
            assert f"{line.type}, " in row
        assert f"All {len(found.rows)} rows of it are as written" in text(page)
        assert "NOT AS WRITTEN" not in page.text


def test_every_reading_is_told_in_the_unit_its_samples_were_sent_in(data, ids):
    on_record = OnRecord(data)
    for audit in ids:
        found = on_record.read(audit)
        told = {line.seq: " ".join(en(each) for each in line.detail) for line in lines(found)}
        assert found.readings
        for each in found.readings:
            number, unit = READ.search(told[each.row.seq]).groups()
            (sent,) = {sample.unit for sample in on_record.samples(each.reading.evidence)}
            step = 10.0 ** -len(number.partition(".")[2])
            assert unit == sent
            assert abs(float(number) * MM_PER[unit] - each.reading.mean_mm) <= step * MM_PER[unit]


def test_an_ordinary_audit_is_light(shelf, data, ids):
    for each in ids:
        page = shelf(OnRecord(data)).get(f"/records/{each}").text
        files = sum((STATIC / name).stat().st_size for name in loaded(page))
        assert len(page.encode()) + files <= MOST


STATIC = Path(web.__file__).parent / "static"


def loaded(page):
    """What a page loads, by its links and by what its scripts import."""
    found, todo = set(), set(re.findall(r"((?:css|js)/\w+\.(?:css|js))", page))
    while todo:
        name = todo.pop()
        found.add(name)
        text = (STATIC / name).read_text(encoding="utf-8")
        todo |= {f"js/{each}" for each in re.findall(r'from "\./(\w+\.js)"', text)} - found
    return found


def test_playing_it_is_light_and_loads_no_stream_and_no_pedal(shelf, data, ids):
    client = shelf(OnRecord(data))
    page, other = (client.get(f"/records/{ids[0]}/play{at}").text for at in ("", "/console"))
    for each in (page, other):
        assert not loaded(each) & {"js/stream.js", "js/foot.js", "js/post.js", "js/commands.js"}
    moments = client.get(f"/api/records/{ids[0]}/moments")
    some = [each["n"] for each in moments.json["moments"][::9]]
    most = max(len(client.get(f"/api/records/{ids[0]}/moments/{n}").data) for n in some)
    assert most <= MOST
    for each in (page, other):
        files = sum((STATIC / name).stat().st_size for name in loaded(each))
        assert len(each.encode()) + files + len(moments.data) <= MOST


def test_a_moment_that_is_none_is_said(shelf, data, ids):
    client = shelf(OnRecord(data))
    for asked in ("9999", "-1", "x", "9" * 30):
        answer = client.get(f"/api/records/{ids[0]}/moments/{asked}")
        assert answer.status_code == 404
        assert "allowed: 0 to " in answer.json["reason"]
    assert client.get("/api/records/A-ZZZZ/moments/0").status_code == 404
    assert client.get("/records/A-ZZZZ/play").status_code == 404


def test_any_way_of_naming_it_leads_to_its_own_address(shelf, data, ids):
    on_record = OnRecord(data)
    short = on_record.read(ids[1]).opened.short
    for named in (short, short.lower(), ids[1][:8]):
        answer = shelf(on_record).get(f"/records/{named}")
        assert answer.status_code == 302
        assert answer.headers["Location"] == f"/records/{ids[1]}"
        assert shelf(on_record).get(f"/api/records/{named}").json["audit"] == ids[1]
    assert shelf(on_record).get("/records/A-ZZZZ").status_code == 404
    assert "A-ZZZZ" in shelf(on_record).get("/api/records/A-ZZZZ").json["reason"]


def test_a_record_that_cannot_be_read_is_said_and_nothing_is_shown(shelf, tmp_path):
    answer = shelf(OnRecord(tmp_path)).get("/records/A-ZZZZ")
    assert answer.status_code == 503
    assert "there is no ledger here" in text(answer)
    assert shelf(None).get("/records/A-ZZZZ").status_code == 404


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE events SET body = replace(body, '\"mean_mm\":', '\"mean_mm\":1') WHERE seq = 20",
        "UPDATE chunks SET bytes = CAST('x' AS BLOB) WHERE rowid = (SELECT min(rowid) FROM chunks)",
    ],
    ids=["row", "samples"],
)
def test_what_was_altered_is_an_alarm_and_named(shelf, data, ids, tmp_path, sql):
    shutil.copytree(data, tmp_path, dirs_exist_ok=True)
    connection = apsw.Connection(str(tmp_path / DB_NAME))
    for trigger in ("events_never_updated", "chunks_never_updated"):
        connection.execute(f"DROP TRIGGER {trigger}")
    connection.execute(sql)
    connection.close()
    on_record = OnRecord(tmp_path)
    bad = {a: [r.seq for r in on_record.read(a).rows if not r.kept.sound] for a in ids}
    assert sum(len(rows) for rows in bad.values()) == 1
    for audit, rows in bad.items():
        page, told = (shelf(on_record).get(f"{at}/records/{audit}") for at in ("", "/api"))
        assert told.json["sound"] == (not rows)
        assert ('role="alert"' in page.text) == bool(rows)
        for row in rows:
            assert f"NOT AS WRITTEN: row {row}, or the samples named there." in text(page)
            assert [each["seq"] for each in told.json["rows"] if not each["sound"]] == [row]


@pytest.mark.parametrize("name", EVERY)
def test_every_audit_there_is_has_a_page_and_the_same_as_data(shelf, name):
    kept = Shelf(made(name))
    for audit in kept.audits:
        page, told = (shelf(kept).get(f"{at}/records/{audit}") for at in ("", "/api"))
        assert (page.status_code, told.status_code) == (200, 200)
        shown, view = text(page), told.json
        assert "None" not in re.sub(r"None (named|moved|stated)|None\.", "", shown)
        for fact in view["facts"]:
            assert " ".join(fact["value"].split()) in shown
        for each in (*view["moves"], *view["asked"], *view["swept"]):
            assert all(
                " ".join(t.split()) in shown for t in each.get("detail", each.get("came_to"))
            )


def test_what_was_taken_back_is_struck_and_says_so(shelf):
    bench = made("as-found")
    taken = bench.events[-1]
    bench = SITUATIONS["as-found"]()
    bench.do("undo")
    audit = taken.audit
    page = shelf(Shelf(bench)).get(f"/records/{audit}")
    voiding = bench.events[-1].seq
    assert bench.events[-1].type == "Voided"
    told = shelf(Shelf(bench)).get(f"/api/records/{audit}").json
    struck = [row["seq"] for row in told["rows"] if row["struck_by"] == voiding]
    assert struck == list(bench.events[-1].data["voids"])
    assert page.text.count(f"Taken back by row {voiding}") >= 2 * len(struck)


def test_addenda_stand_on_top_the_latest_first(shelf):
    bench = Shelf(made("signed-added"))
    page = text(shelf(bench).get(f"/records/{bench.audits[-1]}"))
    at = [page.index(each) for each in ("Found later", "Wrong gauge number", "What it came to")]
    assert at == sorted(at)


def test_practice_says_so_and_other_audits_do_not(shelf):
    b = bench()
    b.do("open", {"reason": "practice"})
    for made_of, says in ((b, True), (made("check"), False)):
        kept = Shelf(made_of)
        page = shelf(kept).get(f"/records/{kept.audits[0]}")
        assert ("PRACTICE: not of a real machine" in page.text) == says
