"""`headsweep doctor` on this very computer: beside a real service with a gauge, and without one."""

import json
import os

import pytest

from daq.cli import main
from daq.doctor.looks import looks
from tests.system.fixtures import client, daemon, gauge, shop

__all__ = ["client", "daemon", "gauge", "shop"]


def doctor(shop, *more):
    return main(["doctor", "--config", str(shop.config), "--data", str(shop.data), *more])


def asked(capsys, shop):
    """What each look says, as a program reads it."""
    code = doctor(shop, "--json")
    found = json.loads(capsys.readouterr().out)
    assert code == (0 if all(each["fine"] for each in found) else 1)
    assert [each["fine"] for each in found] == sorted(each["fine"] for each in found)
    assert all(each["found"] and each["fine"] == (not each["todo"]) for each in found)
    return {(each["about"], each["found_code"]): each for each in found}


def test_beside_a_service_its_gauge_and_record_are_fine_and_it_goes_on(
    shop, gauge, daemon, client, capsys
):
    client.until_live(lambda live: live.fresh)
    found = asked(capsys, shop)
    for fine in (
        ("service", "doctor-service-runs"),
        ("gauges", "doctor-gauge-heard"),
        ("ports", "doctor-port"),
        ("config", "doctor-files"),
        ("ledger", "doctor-rows-whole"),
    ):
        assert found[fine]["fine"], fine
    assert found["screens", "doctor-screens"]["found"] == "none is open, 240 at most"
    assert client.live().fresh
    gauge.unplug()
    client.until_live(lambda live: not live.fresh)
    found = asked(capsys, shop)
    assert "cable plugged in" in found["gauges", "in-their-words"]["found"]
    assert not found["ports", "doctor-port-gone"]["fine"]


def test_a_broken_shop_with_nothing_running_is_told_in_eighty_columns(shop, capsys):
    shop.add("gauges/practice.toml", "speed = 9600")
    shop.data.mkdir()
    assert doctor(shop) == 1
    shown = capsys.readouterr().out.splitlines()
    assert all(len(line) <= 80 for line in shown if " " in line.strip())  # a path stays whole
    assert {line[:11].strip() for line in shown} == {"LOOK HERE", "fine", ""}
    text = " ".join(" ".join(shown).split())
    assert "Shop's files: " in text and "speed" in text
    assert "Service: it is not running" in text
    assert "Traceback" not in text


def test_whoever_has_the_port_open_is_named(shop, capsys):
    master, ours = os.openpty()
    shop.tty.symlink_to(os.ttyname(ours))
    held = asked(capsys, shop)["ports", "doctor-port-held"]
    assert f"(process {os.getpid()})" in held["found"]
    assert str(os.getpid()) in held["todo"]
    os.close(ours)
    os.close(master)


def test_a_folder_that_was_named_and_is_not_there_ends_it(shop, capsys):
    shop.config = shop.config / "no-such"
    assert doctor(shop) == 2
    assert "no-such" in capsys.readouterr().err


@pytest.mark.parametrize("name", sorted(looks()))
def test_every_look_has_a_name_for_people(name):
    from daq.says import words
    from daq.words import said

    assert words(said("doctor-about", it=name)) != name
