"""The benchmarks run, and measure everything they are wanted for. No time fails a test."""

import json
import math
import os
import subprocess
import sys
from pathlib import Path

import pytest

RUN = Path(__file__).with_name("run.py")
WANTED = {*range(1, 16), 19}
IN_ONE_PROCESS = {*range(3, 9)}

pytestmark = pytest.mark.timeout(300)


def run(*arguments: str) -> str:
    command = [sys.executable, str(RUN), "--quick", *arguments]
    # As a person runs it: a script that finds the files beside it.
    env = {key: value for key, value in os.environ.items() if key != "PYTHONSAFEPATH"}
    done = subprocess.run(
        command, capture_output=True, text=True, timeout=280, check=False, env=env
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.fixture(
    scope="module", params=[IN_ONE_PROCESS, pytest.param(WANTED, marks=pytest.mark.long)]
)
def wanted(request):
    return request.param


@pytest.fixture(scope="module")
def rows(wanted):
    return json.loads(run("--json", *(f"--row={number}" for number in sorted(wanted))))


def test_every_wanted_row_is_there(rows, wanted):
    assert {row["number"] for row in rows} == wanted


def test_each_row_measures_something(rows):
    for row in rows:
        for name in ("own", "anchor", "reach"):
            assert math.isfinite(row[name]) and row[name] > 0.0, row


def test_the_table_is_aligned_and_says_what_was_reached():
    heads, *lines = run("--row", "5", "--repeats", "3").splitlines()
    assert heads.split("  ")[-1].strip() == "spread"
    assert [line.split()[0] for line in lines] == ["3", "4", "4", "5"]
    at = heads.index("reached")
    assert {line[at : at + len("reached")].strip() for line in lines} <= {"yes", "NO"}
