"""The import contracts leave no room out, and what is imported is what is declared.

The contracts themselves are held by lint-imports in the test command.
"""

import ast
import re
import sys
from functools import cache
from importlib.metadata import packages_distributions


def layers(pyproject):
    contracts = pyproject["tool"]["importlinter"]["contracts"]
    lines = next(c["layers"] for c in contracts if c["type"] == "layers")
    return [room.strip() for line in lines for room in re.split(r"[|:]", line)]


def outside_names(tree, folder):
    """Top-level names that the code of a folder imports and that are not its own."""
    names = set()
    for path in tree.files(folder, ".py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                names.add(node.module.split(".")[0])
    # _typeshed exists for type checkers only.
    return names - {"daq", "web", "_typeshed"} - set(sys.stdlib_module_names)


def distribution_name(requirement):
    return re.split(r"[^\w.-]", requirement)[0].lower()


def test_every_room_has_its_place_in_the_layers(tree, pyproject):
    assert sorted(layers(pyproject)) == tree.rooms()


def test_what_the_code_imports_is_what_is_declared(tree, pyproject):
    declared = {distribution_name(line) for line in pyproject["project"]["dependencies"]}
    providers = packages_distributions()
    used = {
        provider.lower()
        for name in outside_names(tree, "daq") | outside_names(tree, "web")
        for provider in providers.get(name, [name])
    }
    # Flask brings Jinja2 and Werkzeug, and is used through them: they are part of it; so is
    # fluent.syntax, which lies in the same top-level name as fluent.runtime.
    assert used - {"jinja2", "werkzeug", "markupsafe", "fluent.syntax"} == declared


def test_frame_shapes_do_not_know_each_other(tree):
    shapes = [p for p in tree.files("daq/gauges/frames", ".py") if p.stem != "__init__"]
    siblings = {f"daq.gauges.frames.{shape.stem}" for shape in shapes}
    for shape in shapes:
        for node in ast.walk(ast.parse(shape.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom):
                assert node.module not in siblings, f"{tree.name(shape)} imports {node.module}"
                assert not node.level, f"{tree.name(shape)} imports relatively"


SCANNED = (
    "daq.audit.stages",
    "daq.checks.kinds",
    "daq.doctor.looks",
    "daq.gauges.frames",
    "daq.gauges.ports",
    "daq.report.formats",
    "daq.service.sources",
    "web.api",
    "web.pages",
)
"""Folders whose files are found by looking, not by an import that names them."""


FROM_OUTSIDE = ("daq.service.in_memory", "daq.virtual.simulated")
"""What DEVELOPERS.md offers to programs outside the tree."""


def modules(tree):
    """Each module of the product by its dotted name."""
    files = tree.files("daq", ".py") + tree.files("web", ".py")
    named = {".".join(path.relative_to(tree.root).with_suffix("").parts): path for path in files}
    return {name.removesuffix(".__init__"): path for name, path in named.items()}


@cache
def named_by(path):
    """(module, name) of each `from module import name`."""
    nodes = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    froms = [node for node in nodes if isinstance(node, ast.ImportFrom) and node.module]
    return [(node.module, alias.name) for node in froms for alias in node.names]


def homes(all_modules):
    """(package, name) of what a package only hands on: the module it stands in."""
    packages = {name: p for name, p in all_modules.items() if p.name == "__init__.py"}
    return {(name, what): home for name, p in packages.items() for home, what in named_by(p)}


def only_hands_on(path):
    """Whether a module is a package that makes nothing itself."""
    if path.name != "__init__.py":
        return False
    body = ast.parse(path.read_text(encoding="utf-8")).body
    made = [n for n in body if not isinstance(n, ast.Import | ast.ImportFrom | ast.Expr)]
    return all(ast.unparse(n).startswith("__all__") for n in made)


def needed(all_modules, roots):
    """The modules that the roots need, and those that these need, and so on."""
    handed_on, found, left = homes(all_modules), set(), list(roots)
    while left:
        if (one := left.pop()) in found:
            continue
        found.add(one)
        path = all_modules[one]
        for module, name in named_by(path) if not only_hands_on(path) else ():
            inner = f"{module}.{name}"
            home = inner if inner in all_modules else handed_on.get((module, name), module)
            left += [home] if home in all_modules else []
    return found


def test_the_product_needs_each_of_its_modules(tree):
    """What only tests use belongs to the tests: no shop installs it."""
    every = modules(tree)
    found = {name for name in every if name.rpartition(".")[0] in SCANNED}
    roots = {"daq.__main__", *FROM_OUTSIDE, *found}
    code = {name for name, path in every.items() if path.name != "__init__.py"}
    assert code - needed(every, roots) == set()
