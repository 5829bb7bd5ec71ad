"""The service, its gauges and screens, its units and watchdogs, by what it and systemd say."""

import pytest

from daq.doctor.looks import units as of_units
from daq.doctor.patient import AtWork, at_work
from daq.says import words
from tests.doctor.conftest import told

WELL = {"ok": True, "say": ""}


def health(gauges=None, recording=None, held=(), dropped=()):
    return {
        "gauges": gauges or {},
        "recording": recording or {"mill": WELL},
        "held": list(held),
        "dropped": list(dropped),
    }


def test_a_service_that_goes_round_is_fine(look):
    assert told(look("service", running=at_work(health(), 0, 240))) == [
        (True, "doctor-service-runs")
    ]


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        ({"held": ["gauge-arm"]}, "doctor-thread-still"),
        ({"dropped": ["screens"]}, "doctor-thread-dropped"),
        ({"recording": {"mill": {"ok": False, "say": "full"}}}, "doctor-not-recorded"),
    ],
)
def test_what_is_wrong_with_it_is_named(look, wrong, code):
    assert told(look("service", running=at_work(health(**wrong), 0, 240))) == [(False, code)]


def test_none_and_one_that_cannot_be_asked(made, look):
    assert told(look("service")) == [(False, "doctor-service-not-running")]
    made.process(77, "headsweep")
    made.holds_record(77)
    (found,) = look("service")
    assert (found.found.code, found.found.of["pid"]) == ("doctor-service-silent", "77")
    assert found.todo.code == "doctor-ask-as-root"
    made.process("self", "headsweep", 0)
    (found,) = look("service")
    assert found.todo.code == "doctor-restart-service"


def test_each_gauge_is_told_of(look):
    gauges = {
        "arm": {"code": "ok", "say": ""},
        "bench": {"code": "silent", "say": "Nothing comes."},
        "lever": {"code": "unplugged", "say": ""},
    }
    found = look("gauges", running=at_work(health(gauges), 0, 240))
    assert [(each.fine, words(each.found)) for each in found] == [
        (True, "arm is heard"),
        (False, "Nothing comes."),
        (False, "lever is not heard (unplugged)"),
    ]


def test_without_a_service_and_without_a_gauge_nothing_is_heard(look):
    assert told(look("gauges")) == [(False, "doctor-gauges-unknown")]
    assert told(look("gauges", running=AtWork())) == [(False, "doctor-no-gauge")]


@pytest.mark.parametrize(
    ("n", "wall", "fine", "code"),
    [
        (0, "inactive", True, "doctor-screens"),
        (0, "active", False, "doctor-wall-blank"),
        (2, "active", True, "doctor-screens"),
        (240, "active", False, "doctor-screens"),
    ],
)
def test_screens(made, look, n, wall, fine, code):
    made.prints["systemctl is-active headsweep-wall.service"] = f"{wall}\n"
    assert told(look("screens", running=AtWork(screens=n, most_screens=240))) == [(fine, code)]
    assert look("screens") == []


UNITS = f"systemctl show --property={','.join(of_units.ASKED)} {' '.join(of_units.UNITS)}"


def unit(name, state="active", enabled="enabled", load="loaded", again=0):
    states = f"LoadState={load}\nActiveState={state}\nUnitFileState={enabled}\n"
    return f"NRestarts={again}\nId={name}\n{states}"


def test_units_that_come_up_by_themselves_are_fine(made, look):
    shown = [unit("headsweep.service", again=2), unit("headsweep-backup.timer")]
    shown += [unit("headsweep-wall.service", load="not-found", state="inactive", enabled="")]
    made.prints[UNITS] = "\n".join(shown)
    found = look("units")
    assert [(each.fine, each.found.of["again"]) for each in found] == [(True, 2), (True, 0)]


@pytest.mark.parametrize(
    ("state", "enabled", "code"),
    [
        ("failed", "enabled", "doctor-unit-failed"),
        ("active", "disabled", "doctor-unit-disabled"),
        ("inactive", "enabled", "doctor-unit-idle"),
    ],
)
def test_one_that_does_not_is_named(made, look, state, enabled, code):
    made.prints[UNITS] = unit("headsweep.service", state, enabled)
    assert told(look("units")) == [(False, code)]


def test_one_that_has_nothing_to_do_ends_by_itself(made, look):
    shown = [unit("headsweep.service"), unit("headsweep-power.service", "inactive")]
    made.prints[UNITS] = "\n".join(shown)
    assert [(each.fine, each.found.of["unit"]) for each in look("units")] == [
        (True, "headsweep.service")
    ]


@pytest.mark.parametrize("shown", [None, "", unit("headsweep.service", load="not-found")])
def test_without_its_unit_nothing_starts_it(made, look, shown):
    if shown is not None:
        made.prints[UNITS] = shown
    assert told(look("units")) == [(False, "doctor-not-installed")]


WATCH = "systemctl show --property=ActiveState,WatchdogUSec headsweep.service"
HARDWARE = "systemctl show --property=RuntimeWatchdogUSec"


@pytest.mark.parametrize(
    ("within", "fine", "code"),
    [("30s", True, "doctor-watched"), ("0", False, "doctor-unwatched")],
)
def test_the_service_managers_watchdog(made, look, within, fine, code):
    made.prints[WATCH] = f"WatchdogUSec={within}\nActiveState=active\n"
    assert told(look("watchdog"))[0] == (fine, code)


def test_a_service_that_was_started_by_hand_is_watched_by_nobody(made, look):
    made.prints[WATCH] = "WatchdogUSec=30s\nActiveState=active\n"
    made.process(77, "headsweep")
    made.holds_record(77)
    assert told(look("watchdog"))[0] == (
        True,
        "doctor-watched",
    )  # its environment is not to be read
    made.put("/proc/77/environ", "HOME=/\0LANG=C")
    assert told(look("watchdog"))[0] == (False, "doctor-not-by-unit")
    made.put("/proc/77/environ", "HOME=/\0NOTIFY_SOCKET=/run/systemd/notify")
    assert told(look("watchdog"))[0] == (True, "doctor-watched")


def test_the_computers_own_watchdog(made, look):
    assert told(look("watchdog")) == [(True, "doctor-no-hardware-watchdog")]
    made.put("/dev/watchdog0")
    assert told(look("watchdog")) == [(False, "doctor-hardware-watchdog-off")]
    made.prints[HARDWARE] = "RuntimeWatchdogUSec=15s\n"
    assert told(look("watchdog")) == [(True, "doctor-hardware-watchdog")]
