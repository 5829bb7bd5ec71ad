"""Every code has its sentence, every sentence its code, and each stands in the other's numbers."""

import ast
import re

import pytest
from fluent.syntax import FluentParser
from fluent.syntax import ast as ftl
from fluent.syntax.visitor import Visitor

from daq.says import Language, language
from daq.words import Figure, Person, Shown, said
from tests.house.conftest import ROOT

SAYERS = ("said", "Refused")
"""What takes a code, written out, and what its sentence needs."""
OF_LANGUAGE = {
    "list-more": {"before", "next"},
    "list-last": {"before", "last"},
    "language-name": set(),
    "a-day": {"iso", "year", "month", "day"},
}
"""What `daq.says` itself asks for, and what it gives: a language takes of that what it needs."""
PLURALS = {"zero", "one", "two", "few", "many", "other"}
HERE = ROOT / "daq" / "says"
IN_PAGES = re.compile(r"""\bwords\(\s*["']([\w-]+)["']((?:\s*,\s*\w+=[^,)]+)*)\s*\)""")


class Needs(Visitor):
    """The names that a pattern takes, the sentences that stand in it, and its choices by name."""

    def __init__(self):
        self.names, self.parts, self.choices = set(), set(), {}

    def visit_SelectExpression(self, node):
        keys = {each.key.name for each in node.variants if isinstance(each.key, ftl.Identifier)}
        if isinstance(node.selector, ftl.VariableReference):
            self.choices.setdefault(node.selector.id.name, set()).update(keys - PLURALS)
        self.generic_visit(node)

    def visit_VariableReference(self, node):
        self.names.add(node.id.name)

    def visit_MessageReference(self, node):
        self.parts.add(node.id.name)


def visited(name):
    """Each sentence of a language, looked at, by its code."""
    text = (ROOT / "daq" / "says" / f"{name}.ftl").read_text(encoding="utf-8")
    found = {}
    for entry in FluentParser().parse(text).body:
        if isinstance(entry, ftl.Message):
            visitor = Needs()
            visitor.visit(entry)
            found[entry.id.name] = visitor
    return found


def needs(name):
    """What each sentence of a language takes, those that stand in it among them, by its code."""
    seen = visited(name)

    def of(code):
        return seen[code].names.union(*(of(part) for part in seen[code].parts if part in seen))

    return {code: of(code) for code in seen}


def in_code():
    """Each code that Python names, where, and the names it gives."""
    for path in sorted([*ROOT.glob("daq/**/*.py"), *ROOT.glob("web/**/*.py")]):
        sayers = (*SAYERS, "words") if path.is_relative_to(ROOT / "web") else SAYERS
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in sayers:
                where = f"{path.relative_to(ROOT)}:{node.lineno}"
                yield where, node


def in_pages():
    for path in sorted(ROOT.glob("web/templates/**/*.html")):
        for match in IN_PAGES.finditer(path.read_text(encoding="utf-8")):
            yield path.name, match[1], set(re.findall(r"(\w+)=", match[2]))


def used():
    found = []
    for where, node in in_code():
        given = {keyword.arg for keyword in node.keywords}
        found.append((where, node.args[0].value, given))
    return [*found, *in_pages()]


@pytest.mark.parametrize("name", sorted(path.stem for path in HERE.glob("*.ftl")))
def test_a_language_says_every_sentence_with_all_that_is_given_and_no_other(name):
    takes, there = needs("en"), needs(name)
    assert sorted(there.keys() ^ takes.keys()) == []
    odd = {code: (names, takes[code]) for code, names in there.items() if names != takes[code]}
    assert [code for code in odd if code not in OF_LANGUAGE] == []
    assert [code for code, names in OF_LANGUAGE.items() if not there[code] <= names] == []


@pytest.mark.parametrize("name", sorted(path.stem for path in HERE.glob("*.ftl")))
def test_a_language_has_words_for_each_choice(name):
    first, there = visited("en"), visited(name)
    lacking = {
        (code, on): keys - there[code].choices.get(on, set())
        for code, each in first.items()
        for on, keys in each.choices.items()
    }
    assert {where: keys for where, keys in lacking.items() if keys} == {}


def test_every_code_is_written_out():
    hidden = [
        where
        for where, node in in_code()
        if len(node.args) != 1
        or not isinstance(node.args[0], ast.Constant)
        or not all(keyword.arg for keyword in node.keywords)
    ]
    assert hidden == []


def test_every_code_has_a_sentence_that_takes_what_it_gives():
    takes = needs("en")
    wrong = [
        f"{where}: {code} gives {sorted(given)}, its sentence takes {sorted(takes.get(code, []))}"
        for where, code, given in used()
        if takes.get(code) != given
    ]
    assert wrong == []


def test_nobody_is_without_a_sentence_and_no_sentence_without_use():
    seen = visited("en")
    parts = {part for each in seen.values() for part in each.parts}
    asked = {code for _, code, _ in used()} | OF_LANGUAGE.keys()
    assert sorted(seen.keys() - parts - asked) == []


def test_a_code_without_a_sentence_is_shown_with_a_warning():
    with pytest.warns(UserWarning, match="no sentence for nothing-of-the-kind"):
        assert language().words(said("nothing-of-the-kind")) == "nothing-of-the-kind()"


def test_a_sentence_that_lacks_a_number_warns():
    with pytest.warns(UserWarning, match="one"):
        Language("en", "one = { $n } more").words(said("one"))


@pytest.mark.parametrize("bad", ["one = 1\none = 2\n", "one: 1\n"])
def test_a_document_that_is_none_is_refused(bad):
    with pytest.raises(ValueError, match="allowed: each code once"):
        Language("en", bad)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (Shown(0.0254, "in", 4, plus=True), "+0.0010"),
        (Shown(-0.0004, "mm", 3), "0.000"),
        (Figure(0.25, 1), "0.2"),
        (Figure(-0.01, 1, plus=True), "0.0"),
        (1234567, "1234567"),
        ("the bolts", "the bolts"),
        ((said("a"),), "A"),
        ((said("a"), said("a")), "A and A"),
        ((said("a"), said("a"), said("a")), "A, A and A"),
    ],
)
def test_what_stands_in_a_sentence(value, shown):
    lists = "list-more = { $before }, { $next }\nlist-last = { $before } and { $last }\n"
    assert Language("en", f"{lists}a = A\nx = {'{ $it }'}").words(said("x", it=value)) == shown


def test_a_person_is_named_wherever_a_sentence_stands():
    one = Language("en", "x = By { $who }.\ny = { $it } Next.\nlist-last = { $before } { $last }")
    by = said("x", who=Person("5f0c3a52-8f7e"))
    names = {"5f0c3a52-8f7e": "Kit"}
    assert one.words(said("y", it=(by, by)), names) == "By Kit. By Kit. Next."
    assert one.told({"a": [by, Person("5f0c3a52-8f7e")]}, names) == {"a": ["By Kit.", "Kit"]}
    assert one.words(by) == "By 5f0c3a52."


def test_a_language_is_read_once_whether_it_is_named_or_not():
    assert language() is language("en")


def test_an_unknown_language_says_which_there_are():
    with pytest.raises(ValueError, match=r"found 'xx'; allowed: en, es"):
        language("xx")


def test_plurals_and_names_at_the_head_of_a_sentence():
    text = "x = { CAP($bolts) } took { $n ->\n    [one] one turn\n   *[other] { $n } turns\n }."
    one = Language("en", text)
    assert one.words(said("x", bolts="the bolts", n=1)) == "The bolts took one turn."
    assert one.words(said("x", bolts="the bolts", n=3)) == "The bolts took 3 turns."


@pytest.mark.parametrize(
    ("given", "shown"),
    [
        (said("off-scale", position="front-right"), "fuera de escala en el frente derecho"),
        (said("place-read", position="back", next="left", times=2), "El fondo: ya se leyó. Sigue"),
        (said("due-on", days=1, day="2026-03-31"), "Toca el 31 mar 2026, dentro de 1 día."),
        (said("good-until", day="2026-12-01 14:05:00"), "válido hasta el 1 dic 2026 14:05:00"),
        (said("good-until", day="unsaid"), "válido hasta el unsaid"),
        (said("last-good-ahead", found="2026-13-01", today="2026-12-01"), "se encontró 2026-13-01"),
    ],
)
def test_a_position_and_a_day_are_said_as_a_language_has_them_and_what_was_typed_as_it_is(
    given, shown
):
    assert shown in language("es").words(given)
    assert language().words(said("good-until", day="2026-12-01")) == "good until 2026-12-01"
