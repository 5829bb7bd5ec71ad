"""What is installed is locked by version and hash, on every machine the product is meant for."""

import itertools
import re

import pytest
from packaging.markers import Marker
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

MACHINES = list(itertools.product(["3.11", "3.12", "3.13"], ["x86_64", "aarch64"]))
FILES = {"run": [], "tests": ["test"], "fuzz": ["test", "fuzz"]}
PIN = re.compile(r"(?P<name>[a-z0-9-]+)==(?P<version>[\w.]+)(?: ; (?P<marker>[^\\]+))? \\")
HASH = re.compile(r"    --hash=sha256:[0-9a-f]{64}(?: \\)?")


def on(python, machine):
    return {
        "python_version": python,
        "python_full_version": f"{python}.0",
        "platform_machine": machine,
        "platform_python_implementation": "CPython",
        "sys_platform": "linux",
        "extra": "",
    }


@pytest.fixture(params=FILES)
def file(request):
    return request.param


@pytest.fixture
def text(tree, file):
    return (tree.root / f"hardware/locked/{file}.txt").read_text(encoding="utf-8")


def pins(text, machine):
    """The version of each package on this machine."""
    found = [match.groupdict() for match in map(PIN.fullmatch, text.splitlines()) if match]
    kept = [
        (pin["name"], pin["version"])
        for pin in found
        if not pin["marker"] or Marker(pin["marker"]).evaluate(on(*machine))
    ]
    assert len({name for name, _ in kept}) == len(kept), "two versions of one package"
    return dict(kept)


def wanted(pyproject, file, machine):
    project = pyproject["project"]
    asked = [*project["dependencies"], *pyproject["build-system"]["requires"]]
    for extra in FILES[file]:
        asked += project["optional-dependencies"][extra]
    made = [Requirement(each) for each in asked]
    return [each for each in made if not each.marker or each.marker.evaluate(on(*machine))]


@pytest.mark.parametrize("machine", MACHINES, ids="-".join)
def test_every_dependency_is_locked_to_a_version_that_it_allows(pyproject, file, text, machine):
    locked = pins(text, machine)
    missing = [
        str(each)
        for each in wanted(pyproject, file, machine)
        if not each.specifier.contains(locked.get(canonicalize_name(each.name), "0"))
    ]
    assert missing == []


def test_every_line_is_a_version_or_its_hash_and_names_no_place(text):
    lines = text.splitlines()
    assert [line for line in lines if not (PIN.fullmatch(line) or HASH.fullmatch(line))] == []
    after = [HASH.fullmatch(lines[i + 1]) for i, line in enumerate(lines) if PIN.fullmatch(line)]
    assert after and all(after)
    assert not re.search(r"://|index|find-links", text)


def test_the_files_agree_with_each_other(tree):
    texts = [(tree.root / f"hardware/locked/{f}.txt").read_text(encoding="utf-8") for f in FILES]
    for machine in MACHINES:
        run, *others = (pins(text, machine) for text in texts)
        for other in others:
            assert run.items() <= other.items()


def test_the_licence_of_every_locked_package_is_listed(tree):
    table = (tree.root / "hardware/locked/LICENCES.md").read_text(encoding="utf-8")
    listed = dict(re.findall(r"^\| ([a-z0-9][a-z0-9-]*) \| (.+) \|$", table, re.MULTILINE))
    listed.pop("package", None)
    locked = set()
    for file in FILES:
        text = (tree.root / f"hardware/locked/{file}.txt").read_text(encoding="utf-8")
        locked |= {match["name"] for match in map(PIN.fullmatch, text.splitlines()) if match}
    assert listed.keys() == locked
    assert all(said and said != "not stated" for said in listed.values())
