"""The tables of a machine's file for other checks than the sweep, and what is said of bad ones."""

import pytest

from daq.audit.chosen import offers
from daq.service import machine_file
from daq.settings import SettingsError
from tests.words import en, faults

TRAVEL = """
[checks.travel]
axis = "y"
at = ["0 mm", "4 in", "200 mm"]
slope = "0.02 mm/300 mm"
every_days = 30
"""
RUNOUT = '\n[checks.runout]\nlimit = "0.01 mm"\n'


@pytest.fixture
def read(config):
    path = config / "machines" / "practice-mill.toml"
    mill = path.read_text(encoding="utf-8").partition("\n[checks.")[0]

    def reading(more):
        path.write_text(mill + more, encoding="utf-8")
        return machine_file.read(path)

    return reading


def problems(read, more):
    with pytest.raises(SettingsError) as error:
        read(more)
    return faults(error.value)


def test_what_a_file_offers_is_kept_in_the_house_s_units(read):
    machine = read(TRAVEL + RUNOUT)
    travel, runout = machine.checks["travel"], machine.checks["runout"]
    assert travel.options["at"] == pytest.approx([0.0, 101.6, 200.0])
    assert (travel.every_days, runout.every_days) == (30, None)
    assert runout.options["limit"] == 0.01 and runout.options["inside"] == "bar"
    names = [(each.kind, en(each.name)) for each in offers(machine)]
    assert names == [("runout", "Spindle run-out"), ("travel", "Table along its travel")]


def test_a_file_without_them_offers_none(read):
    assert read("").checks == {}


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            "\n[checks.runaut]\n",
            "checks: found 'runaut'; allowed: morning, runout, travel, ",
        ),
        (RUNOUT.replace("0.01 mm", "0.01"), 'checks.runout.limit: found "0.01"; allowed: '),
        ("\n[checks.runout]\n", "checks.runout.limit: missing; allowed: "),
        (RUNOUT + "every_days = 0\n", "checks.runout.every_days: found 0; allowed: at least 1"),
        (RUNOUT + "hight = 1\n", "checks.runout: unknown key 'hight'"),
        (RUNOUT + 'angles = ["0 deg", "90 deg"]\n', "checks.runout: angles: found 2; allowed: "),
        (TRAVEL.replace("slope", "# slope"), "checks.travel: found no limit; allowed: "),
        ('\n[checks.morning]\nspots = "front"\n', 'checks.morning.spots: found "front"; allowed: '),
        ("\n[checks.morning]\nlast = 1\n", "checks.morning: unknown key 'last'"),
        ("\n[checks]\nrunout = 3\n", "checks.runout: found 3; allowed: a table"),
    ],
)
def test_a_bad_one_names_file_key_found_and_allowed(read, more, said):
    (found,) = problems(read, more)
    assert found.partition("practice-mill.toml: ")[2].startswith(said)


def test_every_problem_is_told_at_once(read):
    both = RUNOUT.replace("0.01 mm", "x") + "every_days = 0\n" + TRAVEL.replace("0 mm", "q", 1)
    assert len(problems(read, both)) == 3
