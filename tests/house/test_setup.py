"""hardware/run on a stand-in machine: what it does, what it leaves alone, what it says.

The machine is a folder of small scripts in front of PATH: a Python that notes what it is
asked and makes an environment of empty files, a sudo and an apt-get. No network, no root.
"""

import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pytest

PYTHON = """#!/bin/sh
echo "python $*" >> "$NOTES"
case "$*" in
    *"version_info <"*) [ -z "$OLD" ] ;;
    "--version") echo "Python 3.9.2" ;;
    *"import ensurepip"*) [ -e "$MACHINE/has-venv" ] ;;
    *"version_info[:3]"*) echo "$GROUND" ;;
    *"-m venv "*)
        mkdir -p "$3/bin"
        cp "$MACHINE/python3" "$3/bin/python" ;;
    *"-m pip install"*)
        [ -z "$NO_NETWORK" ] || { echo "cannot reach the index"; exit 1; }
        printf '#!/bin/sh\\necho demo in "$PWD"; printf "<%%s>" "$@"' > "${0%/python}/headsweep"
        chmod +x "${0%/python}/headsweep" ;;
esac
"""
SUDO = """#!/bin/sh
echo "sudo $*" >> "$NOTES"
[ -n "$MAY_SUDO" ] || exit 1
[ "$1" != -n ] || shift
exec "$@"
"""
APT = """#!/bin/sh
echo "apt-get $*" >> "$NOTES"
case "$*" in *install*) : > "$MACHINE/has-venv" ;; esac
"""
LINE = "apt-get update && apt-get install -y --no-install-recommends python3-venv"


class Machine:
    """A checkout in a folder with a space in its name, and the programs it finds."""

    def __init__(self, root: Path, checkout: Path, folder: Path) -> None:
        self.folder, self.checkout = folder, checkout
        self.notes = folder / "notes"
        for name in ("hardware/run", "hardware/prepare.sh", "README.md", "LICENSE"):
            (checkout / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(root / name, checkout / name)
        changing = ("daq/__init__.py", "web/page.html", "config/shop.toml", "pyproject.toml")
        for name in (*changing, "hardware/locked/run.txt"):
            (checkout / name).parent.mkdir(parents=True, exist_ok=True)
            (checkout / name).write_text("first\n", encoding="utf-8")
        pythons = dict.fromkeys(["python3", *(f"python3.{n}" for n in range(11, 15))], PYTHON)
        scripts = {**pythons, "sudo": SUDO, "apt-get": APT, "id": "#!/bin/sh\necho 1000\n"}
        for name, text in scripts.items():
            (folder / name).write_text(text, encoding="utf-8")
            (folder / name).chmod(0o755)

    @property
    def stamp(self) -> Path:
        return self.checkout / ".venv/headsweep.stamp"

    def run(
        self, arguments: Sequence[str] = (), **more: str
    ) -> tuple[subprocess.CompletedProcess[str], str]:
        """The run, and what the programs noted during it."""
        self.notes.write_text("", encoding="utf-8")
        environment = {
            "PATH": f"{self.folder}:/usr/bin:/bin",
            "MACHINE": str(self.folder),
            "NOTES": str(self.notes),
            "GROUND": "3.11.2",
            "TMPDIR": str(self.folder),
            **more,
        }
        done = subprocess.run(
            ["sh", str(self.checkout / "hardware/run"), *arguments],
            env=environment,
            cwd="/",
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
        )
        return done, self.notes.read_text(encoding="utf-8")


@pytest.fixture
def machine(tree, tmp_path):
    folder = tmp_path / "machine"
    folder.mkdir()
    (folder / "has-venv").touch()
    return Machine(tree.root, tmp_path / "head sweep", folder)


def test_it_installs_and_starts_the_demo_where_it_was_called(machine):
    done, notes = machine.run(["--port", "a b"])
    assert done.returncode == 0, done.stderr
    assert done.stdout.endswith("demo in /\n<demo><--port><a b>")
    pip = "-m pip install --disable-pip-version-check --quiet"
    locked = f"{pip} --require-hashes -r {machine.checkout}/hardware/locked/run.txt\n"
    alone = f"{pip} --no-deps --no-build-isolation {machine.checkout}\n"
    assert [locked in notes, alone in notes, notes.count("pip install")] == [True, True, 2]
    assert "sudo" not in notes


def test_a_second_run_installs_nothing_and_says_nothing(machine):
    machine.run()
    done, notes = machine.run()
    assert done.stdout == "demo in /\n<demo>"
    assert "pip install" not in notes
    assert "-m venv" not in notes


@pytest.mark.parametrize("name", ["daq/__init__.py", "web/page.html", "hardware/locked/run.txt"])
def test_a_changed_file_is_installed_into_the_same_environment(machine, name):
    machine.run()
    (machine.checkout / name).write_text("second\n", encoding="utf-8")
    _, notes = machine.run()
    assert "pip install" in notes
    assert "-m venv" not in notes


def test_a_file_taken_away_is_installed_too(machine):
    machine.run()
    (machine.checkout / "web/page.html").unlink()
    assert "pip install" in machine.run()[1]


def test_a_half_made_environment_is_made_anew(machine):
    machine.run()
    left = machine.checkout / ".venv/left-over"
    left.touch()
    machine.stamp.unlink()
    done, notes = machine.run()
    assert done.returncode == 0
    assert "-m venv" in notes
    assert not left.exists()


def test_another_python_or_a_moved_checkout_needs_a_new_environment(machine):
    machine.run()
    assert "-m venv" in machine.run(GROUND="3.13.1")[1]
    machine.checkout = machine.checkout.rename(machine.checkout.with_name("moved"))
    assert "-m venv" in machine.run(GROUND="3.13.1")[1]


def test_a_failed_installation_shows_why_and_is_not_taken_for_done(machine):
    machine.run()
    (machine.checkout / "pyproject.toml").write_text("second\n", encoding="utf-8")
    done, _ = machine.run(NO_NETWORK="1")
    assert done.returncode == 1
    assert "cannot reach the index" in done.stderr
    assert "Is the network up?" in done.stderr
    assert not machine.stamp.exists()
    assert machine.run()[0].returncode == 0


def test_an_old_python_is_named(machine):
    done, _ = machine.run(OLD="1")
    assert done.returncode == 1
    assert "found Python 3.9.2 at" in done.stderr
    assert "3.11 or newer" in done.stderr


def test_without_venv_and_sudo_the_line_for_root_is_printed(machine):
    (machine.folder / "has-venv").unlink()
    done, notes = machine.run()
    assert done.returncode == 1
    assert done.stderr.rstrip().endswith(f"As root, run: {LINE}")
    assert "apt-get" not in notes
    assert not (machine.checkout / ".venv").exists()


def test_without_venv_and_with_sudo_it_is_installed(machine):
    (machine.folder / "has-venv").unlink()
    done, notes = machine.run(MAY_SUDO="1")
    assert done.returncode == 0, done.stderr
    asked = [line.split(" ", 3)[3] for line in notes.splitlines() if line.startswith("apt-get ")]
    assert asked == ["update", "install -y --no-install-recommends python3-venv"]


def test_nothing_is_left_in_the_temporary_folder(machine):
    before = {path.name for path in machine.folder.iterdir()}
    machine.run()
    assert {path.name for path in machine.folder.iterdir()} == before | {"notes"}
