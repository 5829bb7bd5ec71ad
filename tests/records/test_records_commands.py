"""`headsweep records`, as a person types it."""

import json
import shutil

import pytest

from daq.audit.history import WORDS
from daq.cli import main
from daq.ledger.store import Ledger
from tests.records.many import GAUGES, PEOPLE, Audits, iso, made_of
from tests.records.nobody import as_nobody, sealed_off


def listed(capsys, data, *options):
    assert main(["records", "--data", str(data), "--json", *options]) == 0
    return json.loads(capsys.readouterr().out)


def test_json_is_a_list_with_an_object_an_audit(capsys, many):
    found = listed(capsys, many)
    assert len(found) == 60
    for each in found:
        assert {"audit", "machine", "kind", "verdict", "signed"} <= each.keys()
        assert (each["signed"] is None) == (each["verdict"] is None) == (each["state"] != "signed")
        assert each["word"] == WORDS.get(each["verdict"])
    assert {each["kind"] for each in found} == {"squaring", "runout", "travel"}


@pytest.mark.parametrize(
    ("options", "holds"),
    [
        (["--machine", "mill-2"], lambda each: each["machine"] == "mill-2"),
        (["--kind", "runout"], lambda each: each["kind"] == "runout"),
        (["--verdict", "out"], lambda each: each["verdict"] == "does-not-conform"),
        (["--verdict", "conforms"], lambda each: each["word"] == "in"),
        (["--from", iso(10), "--to", iso(20)], lambda each: iso(10) <= each["day"] <= iso(20)),
        (["--gauge", "G-2"], lambda each: each["gauges"][0]["number"] == "G-2"),
        (["--by", "bo sample"], lambda each: "Bo Sample" in people(each)),
        (["--voided"], lambda each: each["taken_back"] > 0),
        (["--practice"], lambda each: each["practice"]),
        (["--open"], lambda each: each["ended"] is None),
        (["--machine", "mill-1", "--voided"], lambda e: e["machine"] == "mill-1" and e["voids"]),
    ],
    ids=lambda each: " ".join(each) if isinstance(each, list) else "",
)
def test_each_option_picks_those_out_and_no_others(capsys, many, options, holds):
    every = [{**each, "voids": each["taken_back"]} for each in listed(capsys, many)]
    wanted = [each["audit"] for each in every if holds(each)]
    assert wanted and len(wanted) < 60
    assert [each["audit"] for each in listed(capsys, many, *options)] == wanted


def people(each):
    return {each["done_by"], each["reviewed_by"], *each["hands"]} | (
        {"Ann Example"} if each["addenda"] else set()
    )


def test_the_table_has_a_line_an_audit_and_says_what_failed_checks_come_to(capsys, data, tmp_path):
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        audit = audits.opened(1)
        audits.row("Voided", 1.1, audit, "mill-1", {"voids": [2]})
        audits.signed(1.5, audit, moves=2, done_by=next(iter(PEOPLE)), sure=False)
        audits.opened(2, reason="practice")
        audits.checked(3, GAUGES[0], passed=False)
    assert main(["records", "--data", str(tmp_path), "--failed-check", iso(0)]) == 0
    failed, _, *lines, count = capsys.readouterr().out.splitlines()
    assert failed == (
        f"Gauge G-1 failed its check on {iso(3)}: 2 audits used it before; when it was last good"
        " is not known."
    )
    assert [line.split()[1:] for line in lines] == [
        [iso(2), "mill-1", "squaring", "open", "G-1", "0", "practice"],
        [f"{iso(1.5)}?", "mill-1", "squaring", "conforms", "G-1", "2", "Ann", "Example;", "1",
         "taken", "back"],
    ]  # fmt: skip
    assert count == "2 audits"


def test_a_name_put_right_is_right_in_every_line(capsys, many, tmp_path):
    folder = tmp_path / "named"
    shutil.copytree(many, folder)
    before = listed(capsys, folder, "--by", "Ann Example")
    person = next(iter(PEOPLE))
    assert main(["ledger", "people", "--data", str(folder), "--correct", f"{person}=A. Right"]) == 0
    capsys.readouterr()
    assert listed(capsys, folder, "--by", "Ann Example") == []
    text = json.dumps(before).replace("Ann Example", "A. Right")
    assert listed(capsys, folder, "--by", "right") == json.loads(text)


def test_it_answers_in_a_folder_that_nobody_can_write_to(capsys, many):
    with sealed_off(many) as folder:
        asked = ["records", "--data", str(folder), "--machine", "mill-2", "--json"]
        there = listed(capsys, many, "--machine", "mill-2")
        assert json.loads(as_nobody(lambda: main(asked))) == there
        assert [path.name for path in folder.iterdir() if path.name.startswith("records")] == []


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--from", "yesterday"], "argument --from: found 'yesterday'; allowed: a day such as"),
        (["--verdict", "good"], 'verdict: found "good"; allowed: one of'),
    ],
)
def test_what_cannot_be_asked_is_said_with_what_can(capsys, many, options, says):
    try:
        code = main(["records", "--data", str(many), *options])
    except SystemExit as stopped:
        code = stopped.code
    assert code == 2
    assert says in capsys.readouterr().err


def test_a_folder_without_a_ledger_is_said_so(capsys, tmp_path):
    assert main(["records", "--data", str(tmp_path)]) == 2
    assert "ledger.db" in capsys.readouterr().err
