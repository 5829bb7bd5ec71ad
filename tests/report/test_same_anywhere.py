"""The same bytes from the command line, from a page, and in another process wherever it runs."""

import hashlib
import json
import os
import re
import subprocess
import sys
import uuid

import pytest

from daq.cli import main
from daq.report.made import endings
from daq.report.schema import report_schema
from daq.service.on_record import OnRecord
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import MACHINE
from web.app import create_app
from web.rooms import EXTENSION
from web.tongue import COOKIE

CODE = """
import hashlib, json, sys
from pathlib import Path
from daq.ledger.view import LedgerView
from daq.report.files import report_of
from daq.report.made import endings
from daq.says import language
with LedgerView.open(Path(sys.argv[1])) as view:
    made = {e: report_of(view, sys.argv[2], e, language(), "9.9.0").content for e in endings()}
print(json.dumps({e: hashlib.sha256(found).hexdigest() for e, found in made.items()}))
assert "typst" not in sys.modules  # it keeps all it worked out, 45 MB a report: never in a service
"""
ELSEWHERE = {"TZ": "Asia/Kathmandu", "LC_ALL": "C", "PYTHONHASHSEED": "77"}


def test_another_process_makes_the_same(data, ids, report):
    command = [sys.executable, "-c", CODE, str(data), ids[0]]
    surroundings = os.environ | ELSEWHERE
    ran = subprocess.run(command, env=surroundings, capture_output=True, check=True, text=True)
    assert json.loads(ran.stdout) == {e: hashlib.sha256(report(e)).hexdigest() for e in endings()}


@pytest.fixture
def app(data):
    return create_app(FakeHub(), FakeInbox(), on_record=OnRecord(data))


@pytest.fixture
def client(app):
    return app.test_client()


@pytest.mark.parametrize("ending", sorted(endings()))
def test_a_page_gives_the_bytes_that_the_command_writes(ending, data, ids, tmp_path, client):
    target = tmp_path / f"report.{ending}"
    assert main(["report", ids[0], "--data", str(data), "-o", str(target)]) == 0
    address = "/api/records" if ending == "json" else "/records"
    answer = client.get(f"{address}/{ids[0][:8]}/report.{ending}")
    assert answer.status_code == 200
    assert answer.data == target.read_bytes()
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy or "script-src 'none'" in policy


def test_a_screen_in_another_language_gets_the_shops_report(data, ids, client):
    shops = client.get(f"/records/{ids[0]}/report.html").data
    client.set_cookie(COOKIE, "es")
    assert "¿" in client.get(f"/records/{ids[0]}").text
    assert client.get(f"/records/{ids[0]}/report.html").data == shops


@pytest.mark.parametrize(
    ("arguments", "tag"),
    [([], "en"), (["--config", "."], "es"), (["--config", ".", "--language", "en"], "en")],
)
def test_the_command_writes_in_the_shops_language_or_the_one_it_names(
    arguments, tag, data, ids, tmp_path, monkeypatch
):
    monkeypatch.setattr("daq.cli.report.CONFIG", tmp_path / "none")
    (tmp_path / "shop.toml").write_text('name = "x"\nlanguage = "es"\n', encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    target = tmp_path / "report.html"
    assert main(["report", ids[0], "--data", str(data), "-o", str(target), *arguments]) == 0
    assert f'lang="{tag}"' in target.read_text(encoding="utf-8")


def test_a_shops_file_that_says_no_language_is_named(data, ids, tmp_path, capsys):
    arguments = ["--data", str(data), "-o", str(tmp_path / "x.html"), "--config", str(tmp_path)]
    assert main(["report", ids[0], *arguments]) == 2
    assert str(tmp_path / "shop.toml") in capsys.readouterr().err


def test_the_audits_page_leads_to_every_format(client, ids):
    page = client.get(f"/records/{ids[0]}").text
    hrefs = re.findall(r'href="(/records/[^"]+/report\.[^"]+)"', page)
    assert {href.partition("/report.")[2] for href in hrefs} == set(endings())


def test_a_press_that_amends_a_report_brings_along_the_one_that_it_replaces(app, client, ids):
    pdf = client.get(f"/records/{ids[0]}/report.pdf").data
    payload = {"audit": ids[0], "why": "Another place.", "done_by": "T"}
    body = {"id": str(uuid.uuid4()), "kind": "amend-report", "payload": payload}
    assert client.post(f"/api/machines/{MACHINE}/commands", json=body).status_code == 200
    (command,) = app.extensions[EXTENSION].inbox.got
    assert command.brought == pdf


def test_what_is_not_there_is_said(client):
    answer = client.get("/api/records/A-9999/report.pdf")
    assert answer.status_code == 404 and "no audit" in answer.json["reason"]
    assert client.get("/records/A-9999/report.docx").status_code == 404


def test_several_audits_go_into_a_folder_under_their_numbers(data, ids, tmp_path, capsys):
    folder = tmp_path / "reports"
    for asked in (ids, ["--machine", "mill"]):
        arguments = [*asked, "--data", str(data), "-o", str(folder), "--as", "json"]
        assert main(["report", *arguments]) == 0
        assert capsys.readouterr().out == f"{folder}: 2 reports\n"
        found = [json.loads(path.read_text(encoding="utf-8")) for path in folder.iterdir()]
        assert {each["audit"] for each in found} == set(ids)
        assert {path.name for path in folder.iterdir()} == {
            f"{each['issue']['number']}.json" for each in found
        }


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["A-9999", "-o", "x.pdf"], "it has no audit A-9999"),
        (["A-9999", "-o", "x.docx"], "-o: found 'x.docx'; allowed: a name that ends in"),
        (["A-9999", "-o", "x", "--as", "docx"], "found docx; allowed: "),
        ([], "report: found no audit; allowed: AUDIT or --machine KEY, and --data DIR"),
        (["a", "b"], "-o: found no folder; allowed: a folder for the reports of several audits"),
        (["a", "--language", "xx"], "--language: language: found 'xx'; allowed: en, es"),
    ],
)
def test_what_cannot_be_made_is_said_and_nothing_is_written(
    arguments, says, data, tmp_path, monkeypatch, capsys
):
    monkeypatch.chdir(tmp_path)
    assert main(["report", *arguments, "--data", str(data)]) == 2
    assert says in capsys.readouterr().err and list(tmp_path.iterdir()) == []


def test_the_schema_is_printed(capsys):
    assert main(["report", "--schema"]) == 0
    assert json.loads(capsys.readouterr().out) == report_schema()
