"""What is installed is what is in the tree: the wheel leaves nothing out and adds nothing."""

import subprocess
import sys
import sysconfig
import zipfile
from importlib.metadata import version
from pathlib import Path

import pytest

import daq
import web


@pytest.fixture(scope="module")
def wheel_names(tree, tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--disable-pip-version-check"]
    command += ["--no-deps", "--no-build-isolation", "--wheel-dir", str(folder), str(tree.root)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=100, check=False)
    assert done.returncode == 0, done.stderr
    (wheel,) = folder.glob("headsweep-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        return {name for name in archive.namelist() if ".dist-info/" not in name}


@pytest.fixture(scope="module")
def expected(tree):
    """Where each file of the tree that belongs to the package lies once installed."""
    code = {tree.name(path) for folder in ("daq", "web") for path in tree.files(folder)}
    return code | {f"daq/{tree.name(path)}" for path in tree.files("config")}


def test_the_wheel_holds_exactly_the_tree(wheel_names, expected):
    assert wheel_names - expected == set()
    assert expected - wheel_names == set()


@pytest.mark.parametrize(
    ("folder", "suffix"),
    [
        ("daq/config/gauges", ".toml"),
        ("daq/config/machines", ".toml"),
        ("daq/ledger", ".sql"),
        ("web", ".html"),
        ("web", ".css"),
        ("web", ".js"),
    ],
)
def test_the_wheel_holds_what_is_not_code(wheel_names, folder, suffix):
    assert [n for n in wheel_names if n.startswith(f"{folder}/") and n.endswith(suffix)]


def test_the_tests_run_against_the_installed_package(tree):
    site = Path(sysconfig.get_paths()["purelib"]).resolve()
    for package in (daq, web):
        assert Path(package.__file__).resolve().is_relative_to(site)
    assert str(tree.root) not in {str(Path(entry or ".").resolve()) for entry in sys.path}
    assert version("headsweep") == daq.__version__


def test_the_installed_package_is_the_tree(tree, expected):
    site = Path(sysconfig.get_paths()["purelib"])
    differing = [
        name
        for name in expected
        if not (site / name).is_file()
        or (site / name).read_bytes()
        != (tree.root / name.replace("daq/config/", "config/", 1)).read_bytes()
    ]
    assert differing == []
