"""A file is read in one sitting, a function fits a screen, nothing is left half done."""

import ast
import re

MOST_LINES_A_FILE = 300
MOST_LINES_A_FUNCTION = 45
MOST_WIDE = 100
CODE = (".py", ".js", ".css", ".html", ".sql", ".sh")
UNFINISHED = re.compile(r"\b(" + "|".join(["TO" + "DO", "FIX" + "ME", "X" + "XX"]) + r")\b")


def test_no_file_is_longer_than_one_sitting(tree):
    lengths = {
        tree.name(path): len(path.read_text(encoding="utf-8").splitlines())
        for path in tree.files(".", *CODE)
    }
    assert {name: n for name, n in lengths.items() if n > MOST_LINES_A_FILE} == {}


def test_no_function_is_longer_than_a_screen(tree):
    long = {}
    for path in tree.files(".", ".py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                lines = (node.end_lineno or node.lineno) - node.lineno + 1
                if lines > MOST_LINES_A_FUNCTION:
                    long[f"{tree.name(path)}: {node.name}"] = lines
    assert long == {}


def test_nothing_is_marked_unfinished(tree):
    marked = [
        f"{tree.name(path)}:{number}"
        for path in tree.files(".", *CODE, ".toml", ".md")
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if UNFINISHED.search(line)
    ]
    assert marked == []


def test_what_is_to_be_read_is_no_wider_than_the_code(tree):
    wide = []
    for path in tree.files(".", ".md"):
        fenced = False
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            fenced ^= line.startswith("```")
            if not fenced and not line.startswith("|") and len(line) > MOST_WIDE:
                wide.append(f"{tree.name(path)}:{number}")
    assert wide == []


def test_each_package_says_what_lives_there(tree):
    silent = []
    for path in tree.files("daq", ".py") + tree.files("web", ".py"):
        if path.name == "__init__.py":
            said = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
            if len(said.split()) < 12:
                silent.append(tree.name(path))
    assert silent == []


def test_each_test_file_tests_something(tree):
    # A test is a function, or a state machine's test case under a name of its own.
    names = re.compile(r"^\s*(?:async )?def test_\w+\(|^Test\w+ = |^class Test\w+", re.MULTILINE)
    files = [path for path in tree.files("tests", ".py") if path.name.startswith("test_")]
    assert files
    idle = [tree.name(p) for p in files if not names.search(p.read_text(encoding="utf-8"))]
    assert idle == []


def marks_long(node):
    return isinstance(node, ast.Attribute) and ast.unparse(node) == "pytest.mark.long"


def test_only_single_cases_are_long(tree):
    """A test that is long as a whole would not be in the ordinary run at all."""
    whole = []
    for path in tree.files("tests", ".py"):
        source = path.read_text(encoding="utf-8")
        if ".long" not in source:
            continue
        nodes = list(ast.walk(ast.parse(source)))
        cases = [
            n for n in nodes if isinstance(n, ast.Call) and ast.unparse(n.func) == "pytest.param"
        ]
        single = {id(inner) for case in cases for inner in ast.walk(case)}
        whole += [tree.name(path) for n in nodes if marks_long(n) and id(n) not in single]
    assert whole == []
