"""What systemd and udev themselves say of the files they are given, and what headsweep needs there.

systemd.exec(5), systemd.service(5), sd_watchdog_enabled(3) and udev(7) say what the keys mean.
"""

import re
import shutil
import subprocess
from collections import defaultdict
from pathlib import Path

import pytest

from daq.cli import parser
from daq.service.keeper import END_LOOKS, LOOK_S
from daq.service.turns import STILL_NS
from tests.patience import PATIENCE_S

HARDWARE = Path(__file__).resolve().parents[2] / "hardware"
UNITS = sorted((HARDWARE / "systemd").glob("headsweep*.*"))
SERVICES = {unit.stem: unit for unit in UNITS if unit.suffix == ".service"}
RULES = HARDWARE / "udev" / "80-headsweep.rules"
EXPOSED = {"headsweep": 1.6, "headsweep-backup": 1.0, "headsweep-power": 1.6, "headsweep-wall": 4.3}
"""At most, of 10, as `systemd-analyze security` counts (version 252; later ones count less). The
wall's browser makes namespaces, and writable memory executable, for its own sandbox and engine."""


def keys(unit):
    """What a unit sets: each key with its values, continued lines put together."""
    found = defaultdict(list)
    text = unit.read_text(encoding="utf-8").replace("\\\n", " ")
    for line in text.splitlines():
        key, equals, value = line.partition("=")
        if equals and not line.startswith("#"):
            found[key].append(" ".join(value.split()))
    return found


def asked(*command):
    return subprocess.run(
        command,
        capture_output=True,
        text=True,
        timeout=PATIENCE_S,
        check=False,
        env={"LC_ALL": "C"},
    )


KEPT_UP = {"headsweep": "always", "headsweep-wall": "always", "headsweep-power": "on-failure"}
"""Those that are there for as long as the computer is on; one ends well where it has no pin."""


@pytest.fixture(scope="module")
def elsewhere(tmp_path_factory):
    """The units as they are, but for programs that this machine has."""
    folder = tmp_path_factory.mktemp("units")
    for unit in UNITS:
        text = unit.read_text(encoding="utf-8")
        text = re.sub(r"^(Exec\w+=[-+]*)/\S+", r"\1/bin/true", text, flags=re.MULTILINE)
        (folder / unit.name).write_text(text, encoding="utf-8")
    return folder


def test_the_service_manager_finds_nothing_wrong(elsewhere):
    found = asked("/usr/bin/systemd-analyze", "verify", "--man=no", *sorted(elsewhere.iterdir()))
    assert (found.returncode, found.stdout + found.stderr) == (0, "")


@pytest.mark.parametrize("service", sorted(SERVICES))
def test_no_unit_is_more_exposed_than_is_said(elsewhere, service):
    found = asked(
        "/usr/bin/systemd-analyze", "security", "--offline=true", "--no-pager",
        elsewhere / f"{service}.service",
    )  # fmt: skip
    (level,) = re.findall(r"exposure level for \S+: ([\d.]+)", found.stdout)
    assert float(level) <= EXPOSED[service]


@pytest.mark.parametrize("service", KEPT_UP)
def test_whatever_ends_it_it_is_started_anew_however_often(service):
    unit = keys(SERVICES[service])
    assert (unit["Restart"], unit["StartLimitIntervalSec"]) == ([KEPT_UP[service]], ["0"])


def test_there_is_no_service_but_those_and_one_that_is_over_when_it_is_done():
    others = SERVICES.keys() - KEPT_UP.keys()
    assert {name: keys(SERVICES[name])["Type"] for name in others} == {
        "headsweep-backup": ["oneshot"]
    }


def test_the_watchdog_waits_for_longer_than_a_turn_and_the_end_for_longer_than_the_keeper():
    unit = keys(SERVICES["headsweep"])
    (watchdog_s,), (stop_s,) = unit["WatchdogSec"], unit["TimeoutStopSec"]
    assert unit["Type"] == ["notify"]
    # The keeper pings at half of it, and not while a thread stands still: one that was late and
    # goes on again is pinged for in time.
    assert float(watchdog_s) / 2 > STILL_NS / 1e9 + LOOK_S
    assert float(stop_s) > 2 * END_LOOKS * LOOK_S


@pytest.mark.parametrize("service", sorted(SERVICES))
def test_what_a_unit_starts_is_a_command_there_is(service):
    (line,) = keys(SERVICES[service])["ExecStart"]
    program, *words = re.sub(r"\$\{HEADSWEEP_LISTEN\}", "0.0.0.0:8642", line).split()
    assert program == "/opt/headsweep/current/bin/headsweep"
    parser().parse_args(words)


def test_the_stick_is_mounted_by_the_manager_and_let_go_whatever_happened():
    """Seen with systemd 252 and 257: a process with + sees mounts of its own, too."""
    unit = keys(SERVICES["headsweep-backup"])
    assert [each.split()[0] for each in unit["ExecStartPre"]] == ["+/usr/bin/systemd-mount"]
    assert [each.split()[0] for each in unit["ExecStopPost"]] == ["-+/usr/bin/systemd-umount"]


def test_rules_are_read_without_a_complaint(tmp_path):
    """By `udevadm verify`, which systemd has from 254 on, else as the daemon reads them."""
    rules = tmp_path / "rules.d"
    rules.mkdir()
    shutil.copy(RULES, rules)
    copied = rules / RULES.name
    if asked("udevadm", "verify", "--help").returncode == 0:
        found = asked("udevadm", "verify", "--resolve-names=never", copied)
        assert found.returncode == 0, found.stdout + found.stderr
        return
    bind = 'mount --bind "$0" /etc/udev/rules.d && udevadm test /sys/class/mem/null'
    found = asked("unshare", "-r", "-m", "sh", "-c", bind, rules)
    told = [line for line in (found.stdout + found.stderr).splitlines() if RULES.name in line]
    assert f"Reading rules file: /etc/udev/rules.d/{RULES.name}" in told
    wrong = [line for line in told if not re.search("Reading|Unknown group 'gpio', ignoring", line)]
    assert wrong == []


def test_who_powers_off_may_read_what_the_services_user_keeps_to_itself():
    """A root without rights is shut out of its folder as anybody is (capabilities(7))."""
    assert keys(SERVICES["headsweep"])["ConfigurationDirectoryMode"] == ["0750"]
    assert keys(SERVICES["headsweep-power"])["CapabilityBoundingSet"] == ["CAP_DAC_READ_SEARCH"]
