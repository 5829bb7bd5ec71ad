"""Tests run by several workers: whatever becomes of one is told, as if there were none.

How busy they keep the machine decides nothing.
"""

import subprocess
import sys

import pytest
from hypothesis import HealthCheck, settings

CONFTEST = """
import os
import pytest
from tests.forked import Workers

def pytest_configure(config):
    config.pluginmanager.register(Workers(2))

@pytest.fixture(scope="session")
def own(tmp_path_factory):
    yield os.getpid()
    folder = tmp_path_factory.getbasetemp().parent
    (folder / f"ended-{os.getpid()}").touch()
"""
PASSES = "def test_one(own): pass\ndef test_two(own): pass\n"
FAILS = "def test_is_wrong(): assert 1 == 2\ndef test_comes_after(): pass\n"
DIES = "import os\ndef test_dies(): os._exit(3)\ndef test_is_behind_it(): pass\n"
ENDS_BADLY = """
import pytest
@pytest.fixture(scope="session")
def spoilt():
    yield
    assert not "put away"
def test_of_its_own(spoilt): pass
"""


@pytest.fixture
def run(tree, tmp_path):
    """Run files of tests by two workers."""
    (tmp_path / "conftest.py").write_text(CONFTEST)

    def run(files, *more):
        for name, text in files.items():
            (tmp_path / f"test_{name}.py").write_text(text)
        command = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "-rfE", *more]
        surroundings = {"PYTHONPATH": str(tree.root), "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
        options = ["-q", "--import-mode=importlib", "--basetemp", str(tmp_path / "t" / "own")]
        (tmp_path / "t").mkdir()
        return subprocess.run(
            [*command, *options, tmp_path],
            cwd=tmp_path,
            env=surroundings,
            capture_output=True,
            text=True,
            check=False,
        )

    return run


def test_every_file_is_run_once_and_what_its_worker_keeps_is_put_away(run, tmp_path):
    done = run({f"of_{nth}": PASSES for nth in range(5)})
    assert (done.returncode, done.stderr) == (0, ""), done.stdout
    assert "10 passed" in done.stdout
    assert 1 <= len(list(tmp_path.rglob("ended-*"))) <= 2, "one of each worker that had a file"


def test_what_fails_what_was_not_run_and_how_a_worker_ended_is_told(run):
    done = run({"dies": DIES, "fails": FAILS, "passes": PASSES, "spoilt": ENDS_BADLY})
    assert done.returncode == 1
    assert "3 failed, 4 passed, 1 error" in done.stdout
    for said in ("wrong - assert 1 == 2", "dies - not run to", "behind_it - not run", "put away"):
        assert said in done.stdout, done.stdout


def test_nothing_more_is_begun_after_a_failure_if_so_told(run):
    done = run({f"of_{nth}": FAILS for nth in range(20)}, "-x")
    assert done.returncode == 1 and "!! stopping after" in done.stdout
    assert "passed" not in done.stdout and "not run to its end" not in done.stdout


def test_no_example_is_timed():
    said = settings(derandomize=True, max_examples=300)
    assert said.deadline is None and HealthCheck.too_slow in said.suppress_health_check
