"""Makes the lock files anew: python hardware/lock.py (needs uv and the network).

One file for what the product runs with, one with what its tests need, and one with what their
searches led by coverage need too: each complete, for Python 3.11 and newer on Linux, x86-64 and
aarch64, every version with the hashes of its files. Beside them the licence of every package,
from its own metadata.

With --gather FOLDER MACHINE it only fetches what the product runs with, for a 64-bit Arm computer
and for one of that kind (x86_64), and pip: see hardware/install, which needs no uv for it.
"""

import email.parser
import re
import shutil
import subprocess
import sys
import tempfile
import zipfile
from email.message import Message
from pathlib import Path

HERE = Path(__file__).resolve().parent
LOCKED = HERE / "locked"
BUILDS = "hatchling"
"""What builds the project: locked with it, so that nothing is fetched for that unseen."""
FILES = {"run": (), "tests": ("test",), "fuzz": ("test", "fuzz")}
"""Each file, with the extras of the project that it holds."""
ALL = "fuzz"
"""The file that holds every package of all of them."""
PLATFORMS = ("x86_64", "aarch64")
PYTHONS = ("3.11", "3.13")
LINUX = (*(f"manylinux_2_{minor}" for minor in range(36, 16, -1)), "manylinux2014")
"""The C library of Debian 12 and Raspberry Pi OS 12 is 2.36."""


def compiled(extras: tuple[str, ...], within: Path | None) -> str:
    """The packages of the project with these extras; of the versions in `within`, if any."""
    more = [flag for extra in extras for flag in ("--extra", extra)]
    more += [] if within is None else ["--constraint", str(within)]
    asked = [str(HERE.parent / "pyproject.toml"), "-"]
    flags = ["--universal", "--python-version", PYTHONS[0], "--generate-hashes", "--no-annotate"]
    done = subprocess.run(
        ["uv", "pip", "compile", "--quiet", "--no-header", *flags, *more, *asked],
        input=BUILDS, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return linux(done.stdout)


def linux(text: str) -> str:
    """The same without what only another system needs."""
    entries = re.split(r"(?m)^(?=\S)", text)
    return "".join(each for each in entries if "== 'win32'" not in each.partition("\n")[0])


def fetched(python: str, machine: str, into: Path, file: str = ALL) -> None:
    """Every wheel that a machine would install; there is one for each, or this fails."""
    platforms = [flag for one in LINUX for flag in ("--platform", f"{one}_{machine}")]
    kept = marked(LOCKED / f"{file}.txt", python, machine, into)
    pip = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check"]
    what = ["--require-hashes", "--only-binary", ":all:", "--no-deps", "--dest", str(into)]
    where = ["--implementation", "cp", "--python-version", python, *platforms]
    subprocess.run([*pip, *what, *where, "-r", str(kept)], check=True)


def marked(file: Path, python: str, machine: str, into: Path) -> Path:
    """The file as it is read there: pip reads markers by where it runs itself."""
    from pip._vendor.packaging.markers import Marker

    kept = []
    for entry in re.split(r"(?m)^(?=\S)", file.read_text(encoding="utf-8")):
        head, _, rest = entry.partition("\n")
        pin, _, marker = head.rstrip(" \\").partition(" ; ")
        of = {"python_version": python, "python_full_version": f"{python}.0"}
        of |= {"platform_machine": machine}
        if head and (not marker or Marker(marker).evaluate(of)):
            kept.append(f"{pin} \\\n{rest}")
    made = into.parent / f"{file.stem}-{python}.txt"
    made.write_text("".join(kept), encoding="utf-8")
    return made


def gather(into: Path, machine: str) -> None:
    """The wheels of the product alone, for a computer without a network; raises what pip does."""
    into.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=into.parent) as folder:
        wheels = Path(folder) / "wheels"
        for python in PYTHONS:
            for each in {machine, "aarch64"}:
                fetched(python, each, wheels, "run")
        pip = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check"]
        subprocess.run([*pip, "--no-deps", "--dest", str(wheels), "pip"], check=True)
        for wheel in wheels.iterdir():
            shutil.copyfile(wheel, into / wheel.name)


def licence(of: Message) -> str:
    """What a package says of its licence, in few words."""
    said = of["License-Expression"]
    classified = [
        line.rsplit(" :: ", 1)[1]
        for line in of.get_all("Classifier", [])
        if line.startswith("License ::") and line != "License :: OSI Approved"
    ]
    short = (of["License"] or "").strip().partition("\n")[0]
    return str(said or ", ".join(classified) or short or of["Headed"] or "not stated")


def metadata(wheel: Path) -> Message:
    """What stands in a wheel of itself, with how its licence's text is headed."""
    with zipfile.ZipFile(wheel) as packed:
        name = next(n for n in packed.namelist() if re.fullmatch(r"[^/]+\.dist-info/METADATA", n))
        found = email.parser.Parser().parsestr(packed.read(name).decode())
        texts = [n for n in packed.namelist() if n.endswith(str(found["License-File"]))]
        if texts:
            lines = [line.strip() for line in packed.read(texts[0]).decode().splitlines()]
            found["Headed"] = ", ".join([line for line in lines if line][:2])
        return found


def main() -> None:
    """Write all files."""
    LOCKED.mkdir(exist_ok=True)
    most = LOCKED / f"{ALL}.txt"
    most.write_text(compiled(FILES[ALL], None), encoding="utf-8")
    for file in ("run", "tests"):
        text = compiled(FILES[file], most)
        (LOCKED / f"{file}.txt").write_text(text, encoding="utf-8")
    with tempfile.TemporaryDirectory(dir="/var/tmp") as folder:
        wheels = Path(folder) / "wheels"
        for python in PYTHONS:
            for machine in PLATFORMS:
                fetched(python, machine, wheels)
        of = {}
        for wheel in sorted(wheels.glob("*.whl")):
            found = metadata(wheel)
            of[re.sub(r"[-_.]+", "-", found["Name"]).lower()] = licence(found)
    rows = [f"| {name} | {said} |" for name, said in sorted(of.items())]
    table = ["# Licences of the locked packages", "", "| package | licence |", "| --- | --- |"]
    (LOCKED / "LICENCES.md").write_text("\n".join([*table, *rows, ""]), encoding="utf-8")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--gather"]:
        gather(Path(sys.argv[2]), sys.argv[3])
    else:
        main()
