"""A name means one thing: whoever reads it in one file has not to ask which of two is meant."""

import ast
from collections import defaultdict
from collections.abc import Iterator

from tests.house.conftest import Tree


def classes(source: str) -> Iterator[str]:
    """The public classes that a module defines."""
    for node in ast.parse(source).body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield node.name


def test_no_two_modules_define_a_class_of_the_same_name(tree: Tree) -> None:
    homes: dict[str, list[str]] = defaultdict(list)
    for path in tree.files("daq", ".py") + tree.files("web", ".py"):
        for name in classes(path.read_text(encoding="utf-8")):
            homes[name].append(tree.name(path))
    assert len(homes) > 200
    assert {name: where for name, where in homes.items() if len(where) > 1} == {}
