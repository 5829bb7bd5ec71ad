"""Bytes nobody foresaw end in words: those once found, mutants of real ones, and a long search."""

import random
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest

from tests.fuzz.seeds import SEEDS
from tests.fuzz.targets import TARGETS, bodies

HERE = Path(__file__).parent
FUZZ = HERE / "fuzz.py"
CORPUS = HERE / "corpus"
SEED = 8
MUTANTS = {"decoders": 300, "config": 40, "bodies": 300, "ledgers": 40}
RUNS = {"decoders": 200_000, "config": 5_000, "bodies": 50_000, "ledgers": 5_000}


def mutant(chance: random.Random, seeds: list[bytes]) -> bytes:
    """One of them with a few bytes changed, cut out, doubled, or another's tail put on."""
    made = bytearray(chance.choice(seeds))
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(made) + 1)
        end = at + chance.randint(0, 12)
        match chance.randrange(5):
            case 0:
                made[at:end] = chance.randbytes(end - at)
            case 1:
                del made[at:end]
            case 2:
                made[at:at] = made[at:end] * chance.randint(1, 40)
            case 3:
                other = chance.choice(seeds)
                made[at:] = other[min(at, len(other)) :]
            case 4:
                made[at:at] = chance.choice(
                    [b"\0", b"\xff", b"[", b'"', b"1e999", b"-", b"\xed\xa0"]
                )
    return bytes(made)


@pytest.mark.parametrize("name", TARGETS)
def test_what_the_tests_have_and_what_was_once_found(name):
    for seed in [*SEEDS[name](), *(p.read_bytes() for p in sorted((CORPUS / name).glob("*")))]:
        TARGETS[name](seed)


def test_the_presses_of_two_audits_are_carried_out():
    """Else mutants of them would get no further than the door."""
    answers = [bodies(seed) for seed in SEEDS["bodies"]()]
    assert answers.count(200) > 100


def mutants(name: str, folder: Path) -> None:
    chance, seeds = random.Random(SEED), list(SEEDS[name]())
    for _ in range(MUTANTS[name]):
        made = mutant(chance, seeds)
        try:
            TARGETS[name](made)
        except Exception as error:
            error.add_note(f"{name}: {made!r}")
            raise


def search(name: str, folder: Path) -> None:
    """Led by what runs; what it finds lies in `folder` as crash-…"""
    command = [sys.executable, FUZZ, name, folder / "corpus", f"-runs={RUNS[name]}", "-seed=1"]
    done = subprocess.run(command, capture_output=True, text=True, cwd=folder, check=False)
    found = [path.read_bytes() for path in folder.glob("crash-*")]
    assert (done.returncode, found) == (0, []), done.stderr[-4000:]


NEEDS_ATHERIS = pytest.mark.skipif(
    find_spec("atheris") is None, reason="atheris has no wheel for this processor"
)


@pytest.mark.parametrize(
    "way",
    [
        mutants,
        pytest.param(search, marks=[pytest.mark.long, pytest.mark.timeout(3600), NEEDS_ATHERIS]),
    ],
)
@pytest.mark.parametrize("name", TARGETS)
def test_bytes_nobody_foresaw(name, way, tmp_path):
    way(name, tmp_path)
