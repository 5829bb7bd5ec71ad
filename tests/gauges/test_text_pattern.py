"""What follows from a pattern: the bytes at each place, and time in proportion."""

import re
import time

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.gauges.frames.shared import pattern as rules

steady = hypothesis.settings(deadline=None, derandomize=True)

ATOMS = ["a", "b", r"\d", "[ab]", r"\+", "[+-]", r"\x61"]
LETTERS = b"ab1+-"


def shown(places):
    return None if places is None else [bytes(sorted(each)) for each in places]


@pytest.mark.parametrize(
    ("pattern", "length", "places"),
    [
        ("abc", 3, [b"a", b"b", b"c"]),
        ("abc", 4, None),
        ("ab?c", 2, [b"a", b"c"]),
        ("ab?c", 3, [b"a", b"b", b"c"]),
        ("a*b", 3, [b"a", b"a", b"b"]),
        ("a+b", 1, None),
        ("a{2,3}b{,2}", 4, [b"a", b"a", b"ab", b"b"]),
        ("a{2,}", 3, [b"a"] * 3),
        ("a{,}b", 2, [b"a", b"b"]),
        ("a{", 2, [b"a", b"{"]),
        ("(?:ab|c)d", 3, [b"a", b"b", b"d"]),
        ("(?:ab|c)d|xyz", 3, [b"ax", b"by", b"dz"]),
        ("(?P<unit>in|mm)", 2, [b"im", b"mn"]),
        (r"[ \d]{2}", 2, [b" 0123456789"] * 2),
        (r"\x2b\.", 2, [b"+", b"."]),
        ("", 0, []),
        ("(?:)*", 0, []),
    ],
)
def test_places(pattern, length, places):
    assert shown(rules.places(pattern, length)) == places


parts = st.recursive(
    st.sampled_from(ATOMS),
    lambda inner: (
        st.tuples(inner, inner).map("".join)
        | st.tuples(inner, inner).map(lambda pair: f"(?:{pair[0]}|{pair[1]})")
        | st.tuples(inner, st.sampled_from("*+?")).map(lambda pair: f"(?:{pair[0]}){pair[1]}")
    ),
    max_leaves=6,
)


@steady
@given(parts, st.lists(st.sampled_from(list(LETTERS)), max_size=5).map(bytes))
def test_whatever_matches_lies_within_its_places(pattern, frame):
    if re.fullmatch(pattern.encode(), frame):
        places = rules.places(pattern, len(frame))
        assert places is not None
        assert all(byte in may for byte, may in zip(frame, places, strict=True))


@pytest.mark.parametrize(
    ("pattern", "possessive"),
    [
        ("a*b", "a*+b"),
        ("a+?b{2}?", "a++b{2}+"),
        ("a{,3}b{1,}+", "a{,3}+b{1,}+"),
        (r"\*[*+?]\d{", r"\*[*+?]\d{"),
        ("(?:a|b)?(?P<value>a+)?", "(?:a|b)?+(?P<value>a++)?+"),
    ],
)
def test_possessive(pattern, possessive):
    assert rules.possessive(pattern) == possessive


def cost(pattern, frame):
    """Return the CPU time of a frame that does not match, the best of some."""
    match = re.compile(rules.possessive(pattern).encode()).fullmatch
    best = float("inf")
    for _ in range(5):
        start = time.thread_time()
        for _ in range(20):
            assert match(frame) is None
        best = min(best, time.thread_time() - start)
    return best / 20


WORST = [
    r"(?: *)*\d",
    r"(?:(?: +)+)+\d",
    r"(?: | )*\d",
    r"(?:  | )*\d",
    r"(?: ?){,}\d",
    r"(?: ?){64} {64}\d",
    r" * * * * * * * *\d",
    r"(?:(?:  | )?(?: |  )?){40}\d",
    r"(?: +| )+-\d",
]


@pytest.mark.parametrize("pattern", WORST)
def test_the_worst_patterns_take_time_in_proportion(pattern):
    # Were repeats to give back, twice the bytes would take four times as long, or a
    # million times: then no test would end.
    assert cost(pattern, b" " * 16000 + b"x") < 40 * cost(pattern, b" " * 1600 + b"x") + 1e-4


def test_the_most_choices_there_may_be_do_no_harm():
    choices = "(?:  | )" * rules._MOST_CHOICES
    assert rules.groups(choices) == set()
    assert cost(choices + "x", b" " * 30) < 0.01


def test_the_named_groups():
    assert rules.groups(r"(?P<sign>[+-])?(?P<value>\d)(?:(?P<unit>mm))?") == {
        "sign",
        "value",
        "unit",
    }


@pytest.mark.parametrize(
    ("pattern", "words"),
    [
        ("(?:a|b)" * 13, "found 13 times | in pattern; allowed: at most 12"),
        (r"(?P<value>\d)+", "found (?P<value>…) repeated in pattern"),
        (r"(?P<value>\d){2}", "found (?P<value>…) repeated"),
        (r"(?:a(?P<value>\d))*", "found (?P<value>…) repeated"),
        (r"(?:(?:(?P<sign>-))b)+", "found (?P<sign>…) repeated"),
        ("a**", "allowed: a regular expression in ASCII"),
        ("a)", "allowed: a regular expression in ASCII"),
    ],
)
def test_patterns_that_are_refused(pattern, words):
    with pytest.raises(ValueError, match=re.escape(words)):
        rules.groups(pattern)


def test_a_bar_in_a_class_or_behind_a_stroke_is_no_choice():
    assert rules.groups(r"[|]\|" * 13) == set()
