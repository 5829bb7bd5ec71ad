"""hardware/install on a stand-in computer: what it does, leaves, refuses, and after a cut."""

import subprocess

import pytest

from tests.house.installed import Computer

OPT = "opt/headsweep"
ENDS = ("nothing was changed", "runs, and will", "A phone is paired", "What else", "For the pages")


@pytest.fixture
def computer(tree, tmp_path):
    return Computer(tree.root, tmp_path)


def steps(done):
    """What a run said it did, without what it says at its end."""
    return [line for line in done.stdout.splitlines() if not any(end in line for end in ENDS)]


def installed(computer, version="1.0"):
    """That version, with a record that it wrote."""
    computer.release(version)
    done = computer.install()
    assert done.returncode == 0, done.stderr
    computer.record.write_text("1\n", encoding="utf-8")
    return done


def test_it_installs_and_starts_and_says_where(computer):
    done = installed(computer)
    assert computer.calls < len(CUTS), "each call is cut at"
    state = computer.state()
    share = f"{OPT}/{state[f'{OPT}/current'][3:]}/share/headsweep"
    assert (state["active"], computer.link("current")) == ("True", "1.0")
    assert "http://192.0.2.7:8642/" in done.stdout
    for name in ("headsweep.service", "headsweep-backup.service", "headsweep-backup.timer"):
        assert f"etc/systemd/system/{name}" in state
    wanted = {name.rpartition("/")[2] for name in state if ".target.wants/" in name}
    assert wanted == {"headsweep.service", "headsweep-backup.timer"}, "the wall was not asked for"
    assert "etc/udev/rules.d/80-headsweep.rules" in state
    assert "etc/systemd/journald.conf.d/headsweep.conf" in state
    assert "HEADSWEEP_LISTEN=0.0.0.0:8642" in state["etc/default/headsweep"]
    assert f"{share}/examples/machines/example-mill.toml" in state
    assert not [name for name in state if "practice" in name or name.startswith("etc/headsweep/s")]
    for group in ("headsweep:dialout", "headsweep:gpio", "headsweep:video", "headsweep-wall:video"):
        assert f"'{group}'" in state["users"]


def test_a_second_run_changes_nothing_and_leaves_the_service_alone(computer):
    installed(computer)
    before = computer.state(), (computer.machine / "pid").read_text()
    done = computer.install()
    assert (done.returncode, steps(done)) == (0, [])
    assert (computer.state(), (computer.machine / "pid").read_text()) == before


LONG = [pytest.param(what, marks=pytest.mark.long) for what in ("first", "uninstall")]


@pytest.mark.parametrize("what", ["upgrade", *LONG])
def test_a_dry_run_says_what_is_done_and_does_nothing(computer, what):
    options = ["--uninstall"] if what == "uninstall" else []
    if what != "first":
        installed(computer)
        computer.release("1.1")
    before = computer.state()
    said = computer.install("--dry-run", *options)
    assert (said.returncode, computer.state()) == (0, before)
    assert computer.notes.read_text().startswith("rm -rf") and computer.calls == 1, "its scratch"
    assert steps(said) == steps(computer.install(*options)) != []


def test_an_upgrade_keeps_the_record_a_copy_of_it_and_the_version_before(computer):
    installed(computer)
    computer.release("1.1")
    assert computer.install().returncode == 0
    assert computer.calls < len(CUTS), "each call is cut at"
    assert (computer.link("current"), computer.link("previous")) == ("1.1", "1.0")
    copy = computer.record.parent / "before-upgrade/ledger.db"
    assert computer.record.read_text() == copy.read_text() == "1\n"
    computer.release("1.2")
    assert computer.install().returncode == 0
    kept = {path.name[:3] for path in (computer.root / OPT).iterdir() if not path.is_symlink()}
    assert kept == {"1.1", "1.2"}


def test_a_version_that_is_not_well_makes_way_with_its_units(computer):
    installed(computer)
    before = computer.state()
    computer.release("1.1", well="no")
    unit = "hardware/systemd/headsweep.service"
    computer.write(unit, (computer.checkout / unit).read_text() + "# newer\n")
    computer.write("hardware/systemd/headsweep-more.service", "[Service]\n")
    done = computer.install()
    assert done.returncode == 1
    assert "last words" in done.stderr
    assert "headsweep 1.0-" in done.stderr and "runs as before" in done.stderr
    after = computer.state()
    assert {name: after.get(name) for name in before} == before
    assert not [n for n in after.keys() - before.keys() if not n.startswith(("opt", "var"))]


def test_one_that_was_well_once_stays_whatever_ails_it_later(computer):
    installed(computer)
    computer.release("1.1")
    computer.install()
    for path in (computer.root / OPT / "current").glob("bin/behaves"):
        path.write_text("well=no reads=1\n")
    done = computer.install()
    assert done.returncode == 1
    assert "Once that is mended, run this again" in done.stderr
    assert computer.link("current") == "1.1"


def test_one_that_cannot_read_the_record_is_never_put_in_use(computer):
    installed(computer)
    computer.release("1.1", reads="0")
    pid = (computer.machine / "pid").read_text()
    done = computer.install()
    assert done.returncode == 1
    assert "row 7 is of a newer release" in done.stderr and "goes on" in done.stderr
    assert (computer.link("current"), (computer.machine / "pid").read_text()) == ("1.0", pid)


def test_a_record_that_the_version_before_cannot_read_any_more_is_noticed(computer):
    installed(computer)
    computer.release("1.1", well="no", reads="2", writes="2")
    done = computer.install()
    assert done.returncode == 1
    assert "row 7 is of a newer release" in done.stderr
    assert "cannot read what 1.1-" in done.stderr and "before-upgrade" in done.stderr
    assert (computer.link("current"), computer.record.read_text()) == ("1.0", "2\n")


def test_what_gauges_were_learned_from_is_decoded_by_a_new_version_alone(computer):
    gauges = computer.root / "etc/headsweep/gauges"
    installed(computer)
    (gauges / "arm.cap").write_text("bytes and numbers\n", encoding="utf-8")
    computer.release("1.1")
    assert "LOOK HERE" not in computer.install().stdout
    assert "gauge test --config" in computer.notes.read_text()
    computer.release("1.2", decodes="1")
    done = computer.install()
    assert (done.returncode, computer.link("current")) == (0, "1.2"), "a person decides"
    assert "LOOK HERE before anything is measured: arm: of what was learned 1" in done.stdout
    computer.install()
    assert "gauge test" not in computer.notes.read_text(), "nothing new"


def test_uninstalling_leaves_configuration_and_record_and_says_where(computer):
    installed(computer)
    (computer.root / "etc/headsweep/shop.toml").write_text("name = 'Ours'\n")
    for done in (computer.install("--uninstall"), computer.install("--uninstall")):
        assert done.returncode == 0
        for place in ("/etc/headsweep", "/var/lib/headsweep", "/etc/default/headsweep"):
            assert place in done.stdout
    state = computer.state()
    left = {n for n, what in state.items() if what != "folder" and n not in ("users", "active")}
    kept = {"etc/headsweep/shop.toml", "etc/default/headsweep", "var/lib/headsweep/ledger.db"}
    assert (left, state["active"]) == (kept, "False")
    assert installed(computer).returncode == 0


CUTS = [pytest.param(n, marks=() if n == 27 else pytest.mark.long) for n in range(1, 70)]


@pytest.mark.parametrize("cut", CUTS)
def test_cut_off_anywhere_it_can_be_run_again(computer, cut):
    """A first installation, then an upgrade, each cut off at that call that changes something."""
    for version in ("1.0", "1.1"):
        computer.release(version)
        computer.install(cut=cut)
        done = computer.install()
        assert done.returncode == 0, done.stderr
        assert (computer.link("current"), computer.state()["active"]) == (version, "True")
        computer.record.write_text("1\n", encoding="utf-8")
    left = [name for name in computer.state() if name.endswith((".part", ".new", "/.current"))]
    assert (left, computer.link("previous")) == ([], "1.0")


REFUSED = {
    "not root": ({"WHO": "1000"}, "sudo sh"),
    "32 bits": ({"BITS": "32"}, "64-bit system"),
    "old Python": ({"OLD": "yes"}, "found Python 3.9.2"),
    "full": ({"FREE": "1000"}, "0 MB are free where /opt/headsweep is; 439 MB are needed"),
    "no network": ({"NO_NETWORK": "yes"}, "Is the network up?"),
    "meddled with": ({"MEDDLE": "yes"}, "was changed meanwhile"),
}


@pytest.mark.parametrize("why", REFUSED)
def test_it_refuses_in_words_and_puts_nothing_in_use(computer, why):
    given, said = REFUSED[why]
    done = computer.install(**given)
    assert (done.returncode, computer.link("current")) == (1, "")
    assert said in done.stderr


def test_without_systemd_all_is_put_in_place_and_that_is_said(computer):
    (computer.root / "run/systemd/system").rmdir()
    done = computer.install()
    assert done.returncode == 0, done.stderr
    assert "nothing was started" in done.stdout
    assert (computer.state()["active"], computer.link("current")) == ("False", "1.0")


def test_without_a_network_packages_and_pip_come_from_the_folder(computer, tmp_path):
    (computer.machine / "has-venv").unlink()
    wheels = tmp_path / "on the stick"
    wheels.mkdir()
    refused = computer.install("--wheels", str(wheels))
    assert (refused.returncode, "found no wheels" in refused.stderr) == (1, True)
    (wheels / "pip-1-py3-none-any.whl").touch()
    assert computer.install("--wheels", str(wheels)).returncode == 0
    notes = computer.notes.read_text()
    assert "-m venv --without-pip" in notes and "apt-get" not in notes
    assert notes.count("index=1 links=") == 1, "what is locked comes from the folder"


def test_the_wall_comes_with_its_packages_stays_and_goes(computer):
    wall = "etc/systemd/system/multi-user.target.wants/headsweep-wall.service"
    done = computer.install("--wall")
    assert done.returncode == 0, done.stderr
    assert "--no-install-recommends cage" in computer.notes.read_text()
    assert "systemctl restart --no-block headsweep-wall.service" in computer.notes.read_text()
    assert wall in computer.state()
    assert wall in (computer.install(), computer.state())[1]
    assert wall not in (computer.install("--no-wall"), computer.state())[1]


def test_shell_scripts_are_clean(tree):
    scripts = [
        tree.name(path)
        for path in tree.files()
        if path.suffix == ".sh" or (not path.suffix and b"#!/bin/sh" in path.read_bytes()[:9])
    ]
    assert "hardware/install" in scripts and len(scripts) > 8
    done = subprocess.run(
        ["shellcheck", "--external-sources", *scripts],
        cwd=tree.root, capture_output=True, text=True, timeout=100, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout
