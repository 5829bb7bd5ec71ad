"""What may stand nowhere: a second SQLite, a person's folders, pages fetched from elsewhere."""

import ast
import re

FORBIDDEN_MODULES = {"sqlite3", "_sqlite3"}
HOME = re.compile(r"(?<![\w.])/(?:ro" + r"ot|ho" + r"me|Us" + r"ers|wo" + r"rk)/[\w.-]+")
FETCHED = re.compile(
    r"""(?:\b(?:src|href|action)\s*=\s*["']?|\burl\(\s*["']?|\bimport\s*\(?\s*["']|"""
    r"""\bfetch\(\s*["'`]|@import\s+["'])(?:https?:)?//[^\s"')]+""",
    re.IGNORECASE,
)


def imported(source):
    """The top-level names that a module imports, by statement or by importlib."""
    names = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            names |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names.add(node.module.split(".")[0])
        elif isinstance(node, ast.Call) and getattr(node.func, "attr", "") == "import_module":
            names |= {str(a.value).split(".")[0] for a in node.args if isinstance(a, ast.Constant)}
    return names


def test_sqlite3_is_imported_nowhere(tree):
    guilty = []
    for path in tree.files(".", ".py"):
        source = path.read_text(encoding="utf-8")
        # What names it nowhere need not be understood, which is most of the tree.
        if "sqlite3" in source and imported(source) & FORBIDDEN_MODULES:
            guilty.append(tree.name(path))
    assert guilty == []


def test_no_persons_folder_is_named(tree):
    found = []
    for path in tree.files():
        text = path.read_bytes().decode("utf-8", errors="replace")
        found += [f"{tree.name(path)}: {match}" for match in HOME.findall(text)]
    assert found == []


def test_pages_fetch_nothing_from_elsewhere(tree):
    found = []
    for path in tree.files("web", ".html", ".css", ".js", ".svg"):
        text = path.read_text(encoding="utf-8")
        found += [f"{tree.name(path)}: {match.group()}" for match in FETCHED.finditer(text)]
    assert found == []
