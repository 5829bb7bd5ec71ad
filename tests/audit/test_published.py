"""The published schema takes every row of a real audit, and refuses what is none."""

import json

import pytest
from jsonschema import Draft202012Validator

from daq.audit.codec import TYPES
from daq.audit.published import row_schema
from daq.cli import main
from tests.house.conftest import ROOT

GOLDEN = sorted((ROOT / "tests" / "audit" / "golden").glob("*.jsonl"))


@pytest.fixture(scope="module")
def validator():
    schema = row_schema()
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def rows(path):
    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    return [json.loads(line["body"]) for line in lines if "body" in line]


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: path.stem)
def test_every_row_of_a_golden_ledger_follows_it(validator, path):
    assert {row["type"] for row in rows(path)} >= {"LedgerBegan", "AuditOpened", "Signed"}
    for row in rows(path):
        validator.validate(row)


@pytest.mark.parametrize(
    ("key", "value"), [("seq", 0), ("v", 99), ("type", "Nothing"), ("evidence", ["x"]), ("x", 1)]
)
def test_what_is_no_row_is_refused(validator, key, value):
    row = rows(GOLDEN[-1])[0]
    assert validator.is_valid(row)
    assert not validator.is_valid({**row, key: value})


def test_a_field_that_no_event_has_is_refused(validator):
    for row in rows(GOLDEN[-1]):
        if row["type"] != "LedgerBegan":
            assert not validator.is_valid({**row, "data": {**row["data"], "x": 1}})


def test_the_command_prints_it_for_every_event(capsys):
    assert main(["ledger", "schema"]) == 0
    printed = json.loads(capsys.readouterr().out)
    kinds = {kind["properties"]["type"]["const"] for kind in printed["oneOf"]}
    assert kinds == {*TYPES, "LedgerBegan"}
