"""Which tests the quick look before a commit chooses for a file that changed."""

import re
import subprocess

import pytest

CHOSEN = [
    # A quick room, whatever of it changed: all of its tests.
    ("daq/squaring/aim.py", {"tests/squaring"}, set()),
    ("daq/squaring/response/fit.py", {"tests/squaring"}, set()),
    ("tests/checks/test_table.py", {"tests/checks"}, set()),
    ("daq/units.py", {"tests/test_units.py"}, set()),
    ("daq/cli/__init__.py", {"tests/test_cli.py"}, set()),
    ("daq/words/__init__.py", {"tests/test_words.py"}, set()),
    # What belongs to no room is the house's.
    ("pyproject.toml", set(), set()),
    ("README.md", set(), set()),
    ("daq/__main__.py", set(), set()),
    # A slow room: the file that changed, or the one named after the module that did.
    ("daq/audit/fold.py", {"tests/audit/test_fold.py"}, {"audit"}),
    ("tests/audit/test_fold.py", {"tests/audit/test_fold.py"}, {"audit"}),
    ("daq/gauges/frames/__init__.py", set(), {"gauges"}),
    ("daq/ledger/seal.py", {"tests/ledger/test_seal.py"}, {"ledger"}),
    ("web/streams.py", {"tests/web/test_streams.py"}, {"web"}),
    ("web/static/js/pedal.js", set(), {"web"}),
    ("tests/rigs/shelf.py", {"tests/virtual/test_shelf.py"}, {"virtual"}),
    ("config/gauges/practice.toml", set(), {"service"}),
    # A room whose every test starts a service: none, but it is said.
    ("tests/system/test_shelf.py", set(), {"system"}),
    ("tests/browser/test_scenes.py", set(), {"browser"}),
    ("tests/faults/test_wire.py", set(), {"faults"}),
]


@pytest.fixture
def choose(tree):
    def chosen(*files):
        done = subprocess.run(
            ["sh", tree.root / "tests" / "check", "--choose", *files],
            capture_output=True,
            text=True,
            timeout=100,
            check=True,
        )
        *run, left = done.stdout.splitlines()
        return run, set(left.partition("the rest of")[2].split())

    return chosen


@pytest.mark.parametrize(("file", "run", "left"), CHOSEN, ids=[each[0] for each in CHOSEN])
def test_a_file_that_changed_leads_to_its_tests(choose, file, run, left):
    assert choose(file) == (sorted({"tests/house"} | run), left)


def test_files_are_put_together_and_nothing_runs_twice(choose):
    run, left = choose(*(file for file, _, _ in CHOSEN))
    assert run == sorted({"tests/house"}.union(*(run for _, run, _ in CHOSEN)))
    assert left == set().union(*(left for _, _, left in CHOSEN))


def test_every_room_it_names_is_there_and_what_it_chooses(tree, choose):
    """A room that was renamed would be left out without a word."""
    check = (tree.root / "tests" / "check").read_text(encoding="utf-8")
    named = " ".join(re.findall(r'^(?:quick|never)="([^"]*)"', check, re.MULTILINE)).split()
    assert len(named) > 10
    for room in named:
        places = [f"tests/{room}", f"tests/test_{room}.py"]
        assert any((tree.root / place).exists() for place in places), room
    for place in choose(*(file for file, _, _ in CHOSEN))[0]:
        assert (tree.root / place).exists(), place
