"""Every kind of check: found by scanning, alone in its file, whole as a table, and in words."""

import ast
import tomllib
from dataclasses import replace

import pytest

from daq.checks import kinds
from daq.checks.outcome import Gauging, reduce
from daq.checks.station import Taken
from daq.metrology.rule import Rule
from daq.settings import build, plain
from daq.words import Said
from tests.house.conftest import ROOT
from tests.words import en

FILE = ROOT / "config" / "machines" / "example-ram-mill.toml"
EXAMPLE = {
    name: {key: value for key, value in table.items() if key != "every_days"}
    for name, table in tomllib.loads(FILE.read_text())["checks"].items()
}
TABLES = [name for name in kinds.names() if not isinstance(kinds.kind(name), kinds.OfHead)]
"""Those whose file says all; one that compares with a sweep is tried with one."""
FOLDER = ROOT / "daq" / "checks" / "kinds"
MOST_LINES = 120


def options(name, **changed):
    return build(kinds.kind(name).options, {**EXAMPLE[name], **changed}, "mill.toml")


def test_the_folder_is_scanned_and_the_example_shows_every_kind():
    assert kinds.names() == tuple(sorted(EXAMPLE)) == ("morning", "runout", "travel", "vise")


def test_an_unknown_kind_says_which_there_are():
    with pytest.raises(ValueError, match="found 'quill'; allowed: morning, runout, travel, vise"):
        kinds.kind("quill")


@pytest.mark.parametrize("name", kinds.names())
def test_a_kind_is_small_and_knows_no_other(name):
    text = (FOLDER / f"{name}.py").read_text(encoding="utf-8")
    assert len(text.splitlines()) <= MOST_LINES
    imported = [n.module for n in ast.walk(ast.parse(text)) if isinstance(n, ast.ImportFrom)]
    assert not [module for module in imported if module.startswith("daq.checks.kinds")]
    assert not [module for module in imported if module.startswith("daq.checks.sweep")]


@pytest.mark.parametrize("name", kinds.names())
def test_every_key_of_a_kind_stands_in_the_example(name):
    assert set(EXAMPLE[name]) == set(kinds.kind(name).options.__dataclass_fields__)


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("name", TABLES)
def test_a_table_tells_all_that_is_done_and_said(name, unit):
    kind = kinds.kind(name)
    table = kind.table(options(name), unit)
    assert table.unit == unit and table.tightest_mm == 0.01
    assert len({en(station.name) for station in table.stations}) == len(table.stations)
    for said in (kind.name, *table.cautions, *(s.hands for s in table.stations)):
        assert isinstance(said, Said) and en(said).strip() not in ("", said.code)
    assert len(table.sequence) == len(table.stations) + len(table.laps)


@pytest.mark.parametrize("name", TABLES)
def test_what_came_out_is_named_in_words_term_by_term(name):
    kind, given = kinds.kind(name), options(name)
    sequence = kind.table(given, "mm").sequence
    taken = [Taken(s.key, 0.001 * (i % 3), float(i)) for i, s in enumerate(sequence)]
    found = reduce(kind, given, "mm", taken, Gauging(0.001, 0.0007, 8.0, scale=0.002), Rule())
    assert any(result.judged for result in found.results)
    for result in found.results:
        assert en(result.quantity.name)
        codes = [term.code for term in result.budget.terms]
        assert len(codes) == len(set(codes))
        assert all(en(term.name) and en(term.note) for term in result.budget.terms)
        budget = build(type(result.budget), plain(result.budget), "event", quantities="plain")
        assert budget == result.budget


def test_a_file_in_inches_and_one_in_millimetres_say_the_same():
    mm = options("runout", limit="0.0254 mm", heights=["25.4 mm", "127 mm"])
    inch = options("runout", limit="0.001 in", heights=["1 in", "5 in"])
    assert (inch.limit, *inch.heights) == pytest.approx((mm.limit, *mm.heights), rel=1e-12)
    assert replace(inch, limit=mm.limit, heights=mm.heights) == mm
