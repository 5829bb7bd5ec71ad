"""The bridge's program on a board that is a program itself: edges in, lines out.

Compiled by the C compiler of the machine, so what is tested is what a board is given.
"""

import subprocess
from pathlib import Path

import pytest

BRIDGE = Path(__file__).resolve().parents[3] / "hardware" / "bridge"
CORE = [BRIDGE / f"{name}.c" for name in ("bits", "line", "bridge")]
STRICT = ("-std=c11", "-pedantic", "-Wall", "-Wextra", "-Wconversion", "-Werror", "-O1")
TRAPS = ("-fsanitize=undefined", "-fsanitize-undefined-trap-on-error")
"""What C leaves undefined ends the program; without a library that not every compiler has."""


@pytest.fixture(scope="session")
def program(tmp_path_factory):
    """The bridge on that board."""
    made = tmp_path_factory.mktemp("bridge") / "bridge"
    own = Path(__file__).with_name("host.c")
    subprocess.run(["cc", *STRICT, *TRAPS, "-I", BRIDGE, "-o", made, *CORE, own], check=True)
    return made


@pytest.fixture(scope="session")
def simulated(tmp_path_factory):
    """The command that runs what is put onto the board, on a simulated processor."""
    folder = tmp_path_factory.mktemp("board")
    subprocess.run(["make", "-s", "-C", BRIDGE, f"BUILD={folder}"], check=True)
    own = Path(__file__).with_name("simulated.c")
    made = folder / "simulated"
    subprocess.run(["cc", "-O2", "-Wall", "-Wextra", "-o", made, own, "-lsimavr"], check=True)
    return made, folder / "bridge.elf"
