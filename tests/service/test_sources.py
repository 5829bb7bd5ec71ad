"""shop.toml's [[takes]]: which sources there are, and what is said of mistakes."""

import importlib

import pytest

from daq.service import sources
from daq.service.files import load
from daq.service.sources import pins
from daq.settings import SettingsError
from tests.words import faults


def with_takes(config, *lines):
    path = config / "shop.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text("\n".join([text, "[[takes]]", *lines, ""]), encoding="utf-8")
    return config


def problems(config):
    with pytest.raises(SettingsError) as error:
        load(config)
    return faults(error.value)


def test_the_sources_are_the_files_of_the_folder():
    assert sources.names() == ("key", "pins")
    for name in sources.names():
        source = importlib.import_module(f"daq.service.sources.{name}").SOURCE
        assert source.actor and source.options.__doc__


def test_a_source_is_read_with_its_options(config):
    with_takes(config, 'machine = "practice-mill"', 'source = "pins"', "press = 17")
    (chosen,) = load(config).takes
    assert (chosen.machine, chosen.options) == ("practice-mill", pins.PinOptions(press=17))
    assert chosen.gauge.name == "Practice gauge"


def test_a_shop_without_takes_has_none(config):
    assert load(config).takes == ()


def test_names_nobody_knows_are_told_the_nearest(config):
    with_takes(config, 'machine = "practise-mill"', 'source = "pin"')
    machine, source = problems(config)
    assert machine.endswith(
        "shop.toml: takes[0].machine: found 'practise-mill'; allowed: practice-mill; "
        "nearest known: 'practice-mill'"
    )
    assert source.endswith(
        "takes[0].source: found 'pin'; allowed: key, pins; nearest known: 'pins'"
    )


def test_a_table_without_its_two_keys(config):
    with_takes(config, "press = 17")
    assert ["found nothing" in said for said in problems(config)] == [True, True]


def test_options_are_checked_with_the_usual_words(config):
    with_takes(config, 'machine = "practice-mill"', 'source = "pins"', "pres = 17", "front = 40")
    said = "\n".join(problems(config))
    assert "shop.toml: takes[0]: unknown key 'pres'; nearest known: 'press'" in said
    assert "takes[0].front: found 40; allowed: at least 0 and at most 27" in said


def test_a_streaming_gauge_has_no_key(config):
    with_takes(config, 'machine = "practice-mill"', 'source = "key"')
    (said,) = problems(config)
    assert "takes[0].source: found \"key\" for 'Practice gauge'" in said
