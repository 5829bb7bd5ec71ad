"""The mill shares no code with what measures, judges or advises."""

import ast
import sys
from pathlib import Path

import daq.virtual

ROOM = Path(daq.virtual.__file__).parent
RIGS = Path(__file__).parents[1] / "rigs"
ALLOWED = ("daq.virtual", "daq.words", "daq.units", "daq.settings", "tests.rigs")


def imported(source: str) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            module = node.module or ""
            found.add(module if node.level == 0 else f"daq.virtual.{module}")
            if module == "daq":
                found |= {f"daq.{alias.name}" for alias in node.names}
    return found


def foreign(source: str) -> set[str]:
    def welcome(name: str) -> bool:
        root = name.partition(".")[0]
        ours = any(name == room or name.startswith(f"{room}.") for room in ALLOWED)
        return ours or root == "numpy" or (root != "daq" and root in sys.stdlib_module_names)

    return {name for name in imported(source) if not welcome(name) and name != "daq"}


def test_virtual_imports_only_words_numpy_and_the_standard_library() -> None:
    files = sorted([*ROOM.rglob("*.py"), *RIGS.glob("*.py")])
    assert {f.parent.name for f in files} == {"rigs", "virtual", "wires"}
    assert {f.name: foreign(f.read_text(encoding="utf-8")) for f in files} == {
        f.name: set() for f in files
    }


def test_a_forbidden_import_would_be_found() -> None:
    for line in (
        "import daq.squaring",
        "from daq import checks",
        "from daq.metrology import settle",
    ):
        assert foreign(line), line
    assert foreign("import serial") == {"serial"}
