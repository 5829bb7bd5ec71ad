"""What a page is served with holds no sentence and judges no number: both come from the service."""

import re

import pytest

LITERAL = re.compile(
    r"""//[^\n]*|/\*.*?\*/|("(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|`(?:\\.|[^`\\])*`)""", re.DOTALL
)
PHRASE = re.compile(r"(?<![.#\w-])[A-Za-z]{2,} [A-Za-z]{2,}|^[A-Z][a-z]+…?$")
OF_BROWSERS = {"Enter", "Escape"}
"""Keys as a browser calls them."""
JUDGING = re.compile(
    r"\bNumber\(|\bparseInt\(|\.startsWith\(\"[-+]\"\)|\b(?:limit|past|since|to_go)\b\s*[-+*/<>]"
)
MEASURING = {"fit.js", "wall_screen.js"}
"""What lays out type may reckon with its size."""
IN_BRACES = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
NO_WORDS = re.compile(r"<kbd>[A-Z0-9]</kbd>|gauges/\.toml|machines/\.toml")
"""Letters on a keyboard, files of the shop."""


def phrases(script):
    """Literals that a person would read."""
    found = (re.sub(r"\$\{[^}]*\}", "", m[1][1:-1]) for m in LITERAL.finditer(script) if m[1])
    return [text for text in found if PHRASE.search(text) and text not in OF_BROWSERS]


@pytest.mark.parametrize(
    ("script", "said"),
    [
        ('say("No connection");', ["No connection"]),
        ("say(`Too far: ${way}`); // a comment of words", ["Too far: "]),
        ('all(".station text");', []),
        ("const why = 'Live';", ["Live"]),
        ("""find("button, a, input"); on("data-part"); '[data-part="x"]';""", []),
    ],
)
def test_a_phrase_is_told_from_a_name(script, said):
    assert phrases(script) == said


def scripts(tree):
    return [path for path in tree.files("web", ".js") if "static" in path.parts]


def test_no_served_script_holds_a_sentence(tree):
    said = [
        f"{path.name}: {text}"
        for path in scripts(tree)
        for text in phrases(path.read_text(encoding="utf-8"))
    ]
    assert scripts(tree)
    assert said == []


def test_no_served_script_reckons_with_a_number_shown(tree):
    judged = []
    for path in scripts(tree):
        text = path.read_text(encoding="utf-8")
        judged += [f"{path.name}: {found}" for found in JUDGING.findall(text)]
        if path.name not in MEASURING:
            judged += [f"{path.name}: {n}" for n in re.findall(r"parseFloat|toFixed", text)]
    assert judged == []


def test_no_template_holds_a_sentence(tree):
    said = []
    for path in tree.files("web/templates", ".html"):
        bare = IN_BRACES.sub("", path.read_text(encoding="utf-8"))
        named = re.findall(r'(?:aria-label|title|alt|placeholder)="([^"]*[A-Za-z][^"]*)"', bare)
        shown = re.findall(r"[A-Za-z].*", re.sub(r"<[^>]*>", "\n", NO_WORDS.sub("", bare)))
        said += [f"{path.name}: {text}" for text in (*named, *shown)]
    assert said == []
