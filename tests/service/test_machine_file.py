"""A machine's file: a tolerance by name, and an example that tells every key."""

import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass

import pytest

from daq.metrology.presets import PRESETS
from daq.service import machine_file
from daq.service.files import load
from daq.settings import SettingsError
from tests.words import troubled


def limits(axis):
    return axis.limit, axis.over, axis.tolerance


@pytest.mark.parametrize("preset", PRESETS, ids=lambda preset: preset.key)
def test_a_tolerance_by_name_at_the_top_goes_for_both_axes(mill_file, preset):
    machine = mill_file.without_limits().put(f'tolerance = "{preset.key}"').read()
    assert machine.tolerance == preset.key
    for axis in (machine.side, machine.nod):
        assert limits(axis) == (preset.limit_mm, preset.over_mm, preset.key)


def test_an_axis_may_name_its_own(mill_file):
    mill_file.without_limits().put('tolerance = "roughing"').put('tolerance = "boring"', "[nod]")
    machine = mill_file.read()
    assert limits(machine.side) == (0.05, 300.0, "roughing")
    assert limits(machine.nod) == (0.01, 300.0, "boring")
    assert machine.tolerance == "roughing"


def test_an_axis_with_a_limit_of_its_own_goes_by_that(mill_file):
    machine = mill_file.put('tolerance = "roughing"').read()
    assert limits(machine.side) == limits(machine.nod) == (0.025, 300.0, "")


def test_without_any_the_general_one_goes(mill_file):
    machine = mill_file.without_limits().read()
    assert limits(machine.side) == limits(machine.nod) == (0.025, 300.0, "general")
    assert machine.tolerance == ""


def test_a_preset_is_found_by_its_name():
    assert machine_file.preset("boring").limit_mm == 0.01
    assert machine_file.preset("") is None


@pytest.mark.parametrize(
    ("section", "path"), [("", "tolerance"), ("[side]", "side.tolerance")], ids=["top", "axis"]
)
def test_a_tolerance_nobody_knows_is_told_the_nearest(mill_file, section, path):
    (said,) = mill_file.without_limits().put('tolerance = "genral"', section).problems()
    assert said == (
        f"{path}: found 'genral'; allowed: roughing, general, facing, boring, acceptance; "
        "nearest known: 'general'"
    )


def test_a_tolerance_that_is_no_text_is_told(mill_file):
    (said,) = mill_file.without_limits().put("tolerance = 7").problems()
    assert said.startswith("tolerance: found 7; allowed: roughing, general, ")


def test_a_tolerance_beside_a_limit_is_refused(mill_file):
    (said,) = mill_file.put('tolerance = "boring"', "[nod]").problems()
    assert said == (
        "nod.tolerance: found beside limit and over; allowed: a tolerance by name, or limit and "
        "over"
    )


def test_half_a_limit_is_not_filled_up(mill_file):
    mill_file.text = mill_file.text.replace('limit = "0.025 mm"\n', "", 1)
    (said,) = mill_file.put('tolerance = "boring"').problems()
    assert said.startswith("side.limit: missing; allowed: a length such as ")


def test_every_problem_is_told_at_once(mill_file):
    mill_file.without_limits().put('tolerance = "genral"\naudit_every = 0')
    said = "\n".join(mill_file.problems())
    assert "tolerance: found 'genral'" in said
    assert "audit_every: found 0; allowed: at least 1 and at most 3650" in said


def test_the_example_writes_out_what_the_practice_mill_leaves_at_its_default(mill_file, ram_file):
    plain, told = mill_file.read(), ram_file.read()
    assert (plain.ram_angle, plain.audit_every, plain.seat) == (0.0, None, "ring")
    assert told.ram_angle == pytest.approx(0.349066)
    assert len(told.positions) == 8
    assert told.seat == "plate"
    assert (told.verdict.coverage, told.verdict.together) == (0.99, "jointly")
    assert told.uncertainty.wedge_known and told.uncertainty.spindle_axial_known
    assert told.work.cutter == pytest.approx(76.2)
    assert told.audit_every == 90
    assert limits(told.side) == (0.015, 300.0, "facing")
    assert limits(told.nod) == (0.01, 300.0, "boring")
    assert told.side.tighten.bolts == ("upper left", "lower right", "upper right", "lower left")
    assert told.side.adjust.lead == pytest.approx(0.02 / 12)
    assert (told.nod.adjust.kind, told.nod.one_sided) == ("shim", "front")
    assert told.side.tighten.torque == pytest.approx(61.012, abs=0.001)
    assert (plain.while_powered, told.while_powered) == ((), ("arm",))


def keys(of, table=""):
    """Every key a machine's file may have, as "table.key"; both axes are one table."""
    for each in fields(of):
        value = getattr(of, each.name)
        name = re.sub(r"^(side|nod)\b", "axis", f"{table}.{each.name}".lstrip("."))
        if is_dataclass(value):
            yield from keys(value, name)
        elif isinstance(value, Mapping):
            for kind, check in value.items():
                yield from (f"{name}.{kind}.{key}" for key in (*check.options, "every_days"))
        else:
            yield name


def written(text):
    """Every key that stands in a file, with or without a # before it, in the same way."""
    table = ""
    for line in text.splitlines():
        if heading := re.match(r"^\[(.+)\]$", line):
            table = re.sub(r"^(side|nod)\b", "axis", heading[1])
        elif key := re.match(r"^(?:# )?(\w+) = ", line):
            yield f"{table}.{key[1]}".lstrip(".")


def test_the_example_tells_every_key_there_is(ram_file):
    assert set(keys(ram_file.read())) - set(written(ram_file.text)) == set()
    assert set(written(ram_file.text)) - set(keys(ram_file.read())) == set()


def test_an_example_is_checked_and_not_used(config, ram_file):
    assert list(load(config).machines) == ["practice-mill"]
    ram_file.path.write_text(ram_file.text.replace('"plate"', '"cloth"'), encoding="utf-8")
    with troubled(SettingsError, match=r"example-ram-mill\.toml: seat: found"):
        load(config)


def test_a_copy_of_the_example_is_a_machine(config, ram_file):
    (config / "machines" / "ram.toml").write_text(ram_file.text, encoding="utf-8")
    shop = load(config)
    assert list(shop.machines) == ["practice-mill", "ram"]
    assert set(shop.used_gauges) == {"practice", "example-inch"}
    assert shop.audit_setup("ram").plan.positions == shop.machines["ram"].positions


def test_examples_alone_are_no_shop(config, mill_file):
    mill_file.path.unlink()
    with troubled(SettingsError, match="found only examples; allowed: one file for each"):
        load(config)
