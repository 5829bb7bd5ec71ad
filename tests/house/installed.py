"""A stand-in computer for hardware/install: a folder in the place of /, and programs before PATH.

A version is a file of the checkout, `daq/behaves`, that the stand-ins go by: whether it is `well`,
which record it `reads`, what it `writes` into the record as it starts, and whether it `decodes`
otherwise what gauges were learned from. Each call that changes
something is counted, and one may be the last: the power is cut there.
"""

import shutil
import subprocess
from pathlib import Path

GATE = """
set -eu
PATH=/usr/bin:/bin
read -r count < "$MACHINE/calls"
count=$((count + 1))
echo "$count" > "$MACHINE/calls"
[ "$count" != "$CUT" ] || kill -9 0
echo "${0##*/} $*" >> "$NOTES"
for last; do :; done
"""
"""What each program that changes something begins with."""
CHANGING = ("cp", "ln", "mkdir", "mv", "rm")
"""Programs of the system that are counted on their way."""
PROGRAMS = {
    "apt-get": '. "$MACHINE/gate"; case "$*" in *install*) : > "$MACHINE/has-venv" ;; esac',
    "chown": '. "$MACHINE/gate"',
    "groupadd": '. "$MACHINE/gate"; echo "$last" >> "$MACHINE/groups"',
    "sync": '. "$MACHINE/gate"',
    "udevadm": '. "$MACHINE/gate"',
    "useradd": '. "$MACHINE/gate"; echo "$last:$last" >> "$MACHINE/users"',
    "usermod": '. "$MACHINE/gate"; echo "$last:$3" >> "$MACHINE/users"',
    "runuser": '. "$MACHINE/gate"; shift 3; exec "$@"',
    "getconf": 'echo "${BITS:-64}"',
    "getent": 'grep -qx "$2" "$MACHINE/groups"',
    "hostname": "echo 192.0.2.7",
    "journalctl": "echo last words",
    "mktemp": 'exec /usr/bin/mktemp -d -p "$MACHINE"',
    "sleep": "",
    "cut": """case "$*" in
*/proc/uptime)
    read -r now < "$MACHINE/clock"
    now=$((now + 5))
    echo "$now" > "$MACHINE/clock"
    echo "$now" ;;
*) exec /usr/bin/cut "$@" ;;
esac""",
    "df": 'echo of; echo "disk 1 1 ${FREE:-9999999}"',
    "id": """case "$*" in
-u) echo "${WHO:-0}" ;;
-u*) grep -q "^$2:$2$" "$MACHINE/users" ;;
-nG*) sed -n "s/^$2://p" "$MACHINE/users" | tr '\\n' ' ' ;;
esac""",
    "systemctl": """wants=$HEADSWEEP_ROOT/etc/systemd/system/multi-user.target.wants
for last; do :; done
case "$1" in
is-active) exec test -e "$MACHINE/active" ;;
is-enabled) [ -L "$wants/$last" ] && echo enabled; exit ;;
show) exec cat "$MACHINE/pid" ;;
esac
. "$MACHINE/gate"
case "$1 $last" in
enable*) mkdir -p "$wants"; ln -sf "../$last" "$wants/$last" ;;
disable*) rm -f "$wants/$last" ;;
"stop headsweep.service") rm -f "$MACHINE/active" ;;
"restart headsweep.service")
    . "$HEADSWEEP_ROOT/opt/headsweep/current/bin/behaves"
    [ -z "${writes:-}" ] || echo "$writes" > "$HEADSWEEP_ROOT/var/lib/headsweep/ledger.db"
    : > "$MACHINE/active"
    echo $(($(cat "$MACHINE/pid") + 1)) > "$MACHINE/pid" ;;
esac""",
    "python3": """case "$*" in
*"version_info <"*) exec test -z "${OLD:-}" ;;
--version) echo "Python 3.9.2"; exit ;;
*"import ensurepip"*) exec test -e "$MACHINE/has-venv" ;;
*version_info*) echo "(3, 11) /usr"; exit ;;
*urllib*) . "${0%/python}/behaves"; exec test "$well" = yes ;;
esac
. "$MACHINE/gate"
case "$*" in
*"-m venv "*)
    mkdir -p "$last/bin"
    cp "$MACHINE/python3" "$last/bin/python" ;;
*.txt | *.whl)
    echo "index=${PIP_NO_INDEX:-} links=${PIP_FIND_LINKS:-}" >> "$NOTES"
    [ -z "${NO_NETWORK:-}" ] || { echo "cannot reach the index"; exit 1; } ;;
*)
    [ -z "${MEDDLE:-}" ] || echo "# meddled" >> "$last/daq/behaves"
    cp "$last/daq/behaves" "${0%/python}/behaves"
    cp "$MACHINE/headsweep" "${0%/python}/headsweep" ;;
esac""",
    "headsweep": """set -eu
. "${0%/headsweep}/behaves"
case "$1" in
ledger) from=$4 to=$6 ;;
records) from=$3 to= ;;
gauge) echo "arm: of what was learned $decodes numbers differ"; exit "$decodes" ;;
esac
[ "$(cat "$from/ledger.db")" -le "$reads" ] || { echo "row 7 is of a newer release" >&2; exit 2; }
[ -z "$to" ] || { mkdir "$to"; cp "$from/ledger.db" "$to/ledger.db"; }""",
}
UNIT = "[Service]\nExecStart=/opt/headsweep/current/bin/headsweep run\n"
FILES = {
    "pyproject.toml": 'version = "1.0"\n',
    "daq/behaves": "well=yes reads=1 decodes=0\n",
    "web/page.html": "",
    "config/shop.toml": "",
    "config/machines/example-mill.toml": "",
    "config/machines/practice-mill.toml": "",
    "hardware/locked/run.txt": "",
    "hardware/systemd/headsweep.service": UNIT + "[Install]\nWantedBy=multi-user.target\n",
    "hardware/systemd/headsweep-wall.service": UNIT + "[Install]\nWantedBy=multi-user.target\n",
    "hardware/systemd/headsweep-backup.service": UNIT,
    "hardware/systemd/headsweep-backup.timer": "[Install]\nWantedBy=timers.target\n",
    "hardware/systemd/journald/headsweep.conf": "[Journal]\n",
    "hardware/udev/80-headsweep.rules": "\n",
}
SCRIPTS = ("install", "prepare.sh", "versions.sh", "in_use.sh")


class Computer:
    """The computer, and a checkout in a folder with a space in its name."""

    def __init__(self, project: Path, folder: Path) -> None:
        self.root, self.machine = folder / "root", folder / "machine"
        self.checkout, self.notes = folder / "head sweep", folder / "machine/notes"
        for path in (self.machine, self.root / "run/systemd/system"):
            path.mkdir(parents=True)
        for name in ("calls", "clock", "pid"):
            (self.machine / name).write_text("0\n")
        (self.machine / "groups").write_text("dialout\nvideo\n")
        (self.machine / "has-venv").touch()
        for name in ("users", "notes"):
            (self.machine / name).touch()
        (self.machine / "gate").write_text(GATE, encoding="utf-8")
        passing = {name: f'. "$MACHINE/gate"; exec {name} "$@"' for name in CHANGING}
        pythons = {f"python3.{n}": PROGRAMS["python3"] for n in range(11, 15)}
        for name, text in {**PROGRAMS, **passing, **pythons}.items():
            (self.machine / name).write_text(f"#!/bin/sh\n{text}\n", encoding="utf-8")
            (self.machine / name).chmod(0o755)
        for name, text in FILES.items():
            self.write(name, text)
        for name in SCRIPTS:
            shutil.copy(project / "hardware" / name, self.checkout / "hardware" / name)
        for name in ("README.md", "LICENSE"):
            self.write(name, "")

    def write(self, name: str, text: str) -> None:
        """A file of the checkout."""
        (self.checkout / name).parent.mkdir(parents=True, exist_ok=True)
        (self.checkout / name).write_text(text, encoding="utf-8")

    def release(self, version: str, **behaves: str) -> None:
        """The checkout is of this version from now on, and behaves so."""
        self.write("pyproject.toml", f'version = "{version}"\n')
        known = {"well": "yes", "reads": "1", "decodes": "0", **behaves}
        self.write("daq/behaves", " ".join(f"{k}={v}" for k, v in known.items()) + "\n")

    def install(
        self, *arguments: str, cut: int = 0, **more: str
    ) -> subprocess.CompletedProcess[str]:
        """The command, in a session of its own, which a cut ends as a whole."""
        (self.machine / "calls").write_text("0\n")
        self.notes.write_text("", encoding="utf-8")
        places = {"MACHINE": str(self.machine), "NOTES": str(self.notes), "CUT": str(cut)}
        return subprocess.run(
            ["sh", str(self.checkout / "hardware/install"), *arguments],
            env={
                "PATH": f"{self.machine}:/usr/bin:/bin",
                "HEADSWEEP_ROOT": str(self.root),
                **places,
                **more,
            },
            start_new_session=True,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            timeout=100,
            check=False,
        )

    @property
    def calls(self) -> int:
        """How many changing calls the last run made."""
        return int((self.machine / "calls").read_text())

    @property
    def record(self) -> Path:
        return self.root / "var/lib/headsweep/ledger.db"

    def link(self, name: str) -> str:
        """The version that a link under /opt/headsweep names, without its digest."""
        path = self.root / "opt/headsweep" / name
        return str(path.readlink()).rpartition("-")[0] if path.is_symlink() else ""

    def state(self) -> dict[str, str]:
        """Every path under the root, what it holds or leads to, who is known and what runs."""
        found = {}
        for path in sorted(self.root.rglob("*")):
            name = path.relative_to(self.root).as_posix()
            if path.is_symlink():
                found[name] = f"-> {path.readlink()}"
            else:
                found[name] = "folder" if path.is_dir() else path.read_text(encoding="utf-8")
        known = sorted(set((self.machine / "users").read_text().split()))
        return {**found, "users": str(known), "active": str((self.machine / "active").exists())}
