"""The checkout's shape: what may stand at the top, and which rooms and test folders exist."""

import ast

ALLOWED_AT_TOP = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "pyproject.toml",
    "daq",
    "web",
    "config",
    "hardware",
    "tests",
}
# Test folders that are no room's own: they look at several rooms at once.
ACROSS_ROOMS = {
    "independent",
    "hardware",
    "house",
    "published",
    "system",
    "browser",
    "faults",
    "fuzz",
    "benchmarks",
}


def test_only_what_is_allowed_stands_at_the_top(tree):
    visible = {name for name in tree.top() if not name.startswith(".")}
    assert visible == ALLOWED_AT_TOP


def filed_under(tree):
    """What the test files are filed under: their folder, or their own name at the top."""
    inside = (path.relative_to(tree.root / "tests").parts for path in tree.files("tests", ".py"))
    return {
        parts[0].removeprefix("test_").removesuffix(".py")
        for parts in inside
        if parts[-1].startswith("test_")
    }


def test_tests_are_filed_under_the_rooms_names(tree):
    rooms = {room.removeprefix("daq.") for room in tree.rooms()}
    assert filed_under(tree) - rooms - ACROSS_ROOMS == set()


def test_each_room_is_tested(tree):
    rooms = {room.removeprefix("daq.") for room in tree.rooms()}
    assert rooms - filed_under(tree) == set()


def test_each_package_has_an_inhabitant(tree):
    empty = []
    for path in tree.files("daq", ".py") + tree.files("web", ".py"):
        if path.name != "__init__.py" or path.parent == tree.root / "daq":
            continue
        others = [p for p in path.parent.rglob("*.py") if p != path]
        statements = ast.parse(path.read_text(encoding="utf-8")).body[1:]
        if not others and not statements:
            empty.append(tree.name(path.parent))
    assert empty == []


def test_the_commands_are_executable_scripts(tree):
    commands = ("run", "long", "check", "machines/run")
    for name in ("hardware/run", "hardware/install", *(f"tests/{c}" for c in commands), ".ci/run"):
        path = tree.root / name
        assert path.read_text(encoding="utf-8").startswith("#!/bin/sh\n"), name
        assert path.stat().st_mode & 0o111, f"{name} is not executable"
