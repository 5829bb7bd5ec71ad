"""A shop's files that are broken, missing or none at all: the service comes up and says so."""

from contextlib import closing
from shutil import rmtree

import pytest

from daq.service.files import load, what_is_good
from daq.settings import SettingsError
from tests.system.daemon import Daemon
from tests.system.shop import MACHINE
from tests.words import faults

MILL = f"machines/{MACHINE}.toml"
GAUGE = "gauges/practice.toml"
SECOND = "second-mill"


@pytest.fixture
def running(shop):
    with closing(Daemon(shop)) as running:
        yield running


@pytest.fixture
def started(running):
    return running.start


def with_second(shop):
    """A second machine, with a gauge of its own."""
    for kind, old, new in (("machines", MACHINE, SECOND), ("gauges", "practice", "second")):
        text = (shop.config / kind / f"{old}.toml").read_text(encoding="utf-8")
        (shop.config / kind / f"{new}.toml").write_text(text, encoding="utf-8")
    shop.set(f"machines/{SECOND}.toml", "gauge", '"second"')
    shop.set("gauges/second.toml", "port", f'"{shop.tty}-2"')


def get(client, path):
    return client.ask("GET", path).body


def amiss(client):
    return {each["file"]: each["problems"] for each in get(client, "/api/setup")["amiss"]}


def offered(client, machine=MACHINE):
    shown = get(client, f"/api/machines/{machine}/snapshot")
    return [each["kind"] for each in shown["pages"]["console"]["actions"]]


@pytest.mark.parametrize("file", [MILL, GAUGE])
def test_one_broken_file_stops_no_other_machine(shop, started, file):
    with_second(shop)
    shop.add(file, "colour = 3")
    client = started().client
    told = amiss(client)
    assert "colour" in told[str(shop.config / file)][0]
    assert offered(client) == []
    assert "open" in offered(client, SECOND)
    say = f"{MILL}, or the file of its gauge, has a mistake"
    assert client.snapshot()["faults"][0]["say"].startswith(say)
    refused = client.post("open", {"reason": "scheduled"})
    assert refused.body["code"] == "refused"
    assert refused.body["reason"].startswith(say)


def test_files_that_do_not_go_together_on_one_port_stop_one_machine(shop):
    with_second(shop)
    shop.set("gauges/second.toml", "port", f'"{shop.tty}"')
    shop.set(
        "gauges/second.toml", "pattern", "'C2;(?P<sign>[+-])(?P<value>\\d+\\.\\d+) (?P<unit>mm)'"
    )
    assert what_is_good(shop.config).amiss == ()
    shop.set("gauges/second.toml", "baud", "4800")
    with pytest.raises(SettingsError) as caught:
        load(shop.config)
    gauges = shop.config / "gauges"
    why = (
        f"line.baud: found 4800 in {gauges / 'second.toml'} and 9600 in "
        f"{gauges / 'practice.toml'}, on one port; allowed: the same in both"
    )
    assert faults(caught.value) == (f"{shop.config / 'machines' / SECOND}.toml: {why}",)
    found = what_is_good(shop.config)
    assert (list(found.machines), found.broken) == ([MACHINE], (SECOND,))


def test_without_a_good_shop_file_no_audit_is_opened(shop, started):
    shop.set("shop.toml", "wait_s", '"soon"')
    client = started().client
    assert offered(client) == []
    assert "shop.toml has a mistake" in client.post("open", {"reason": "scheduled"}).body["reason"]
    assert list(amiss(client)) == [str(shop.config / "shop.toml")]


def test_a_language_there_is_none_of_is_a_mistake_like_any_other(shop, started):
    shop.set("shop.toml", "language", '"xx"')
    client = started().client
    assert "found 'xx'; allowed: en, es" in amiss(client)[str(shop.config / "shop.toml")][0]


@pytest.mark.parametrize("there", [True, False], ids=["empty", "none"])
def test_a_folder_without_files_is_a_shop_without_machines(shop, started, there):
    rmtree(shop.config)
    if there:
        shop.config.mkdir()
    client = started().client
    assert get(client, "/healthz")["ok"]
    assert get(client, "/api/machines") == []
    assert amiss(client)


def test_what_is_good_is_what_a_strict_reading_gives(shop):
    assert what_is_good(shop.config) == load(shop.config)


def test_an_open_audit_goes_on_when_its_file_breaks(shop, running):
    client = running.start().client
    client.opened()
    running.kill()
    shop.add(MILL, "colour = 3")
    assert running.start().client.console()["step"] == "prepare"
    assert offered(running.client)


@pytest.mark.parametrize("file", ["shop.toml", MILL, GAUGE])
def test_a_file_cut_short_anywhere_is_good_or_named(shop, file):
    whole = (shop.config / file).read_bytes()
    for end in range(0, len(whole), 97):
        (shop.config / file).write_bytes(whole[:end])
        found = what_is_good(shop.config)
        if found.amiss:
            assert shop.config / file in [each.path for each in found.amiss]
            with pytest.raises(SettingsError):
                load(shop.config)
