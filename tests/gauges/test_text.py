"""The text decoder: no value but from one whole frame, however the bytes arrive."""

import re
from itertools import pairwise

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.gauges.frames.text import SHAPE, TextOptions
from daq.settings import SettingsError, build
from tests.words import faults

steady = hypothesis.settings(deadline=None, derandomize=True)

PATTERN = r"(?P<sign>[+-])(?P<value>\d{3}\.\d{3}) (?P<unit>mm|in)"
FRAME = b"+001.234 mm\r\n"


def decoder(**changes):
    return SHAPE.make(TextOptions(**{"pattern": PATTERN, **changes}))


def synced(**changes):
    """A decoder past its first terminator."""
    made = decoder(**changes)
    assert made.feed(made._end) == []
    return made


def values(indications):
    return [each.value for each in indications]


def frames(numbers):
    return b"".join(b"%+08.3f mm\r\n" % (number / 1000) for number in numbers)


def by_lines(pattern, end, limit, stream):
    """What a stream holds, worked out the slow way: cut at terminators, match whole lines."""
    _, *lines = stream.split(end)
    return [
        line
        for line in lines[:-1]
        if len(line) <= limit and re.fullmatch(pattern.encode(), line) is not None
    ]


def test_what_came_before_the_first_terminator_is_dropped():
    made = decoder()
    assert made.feed(b"+001.234 mm") == []
    assert made.feed(b"\r\n") == []
    assert values(made.feed(FRAME)) == [1.234]
    assert made.bad == 0


def test_a_half_frame_is_held_back_and_completed():
    made = synced()
    assert made.feed(FRAME[:5]) == []
    (one,) = made.feed(FRAME[5:])
    assert (one.text, one.value, one.unit, one.raw) == ("+001.234", 1.234, "mm", FRAME[:-2])


def test_after_a_gap_nothing_is_spliced():
    made = synced()
    made.feed(b"+001.2")
    made.gap()
    assert made.bad == 1
    made.gap()
    assert made.feed(b"99 mm\r\n") == []  # would make +001.299 with what came before
    assert values(made.feed(FRAME)) == [1.234]
    assert made.bad == 1


def test_a_gap_between_frames_costs_nothing():
    made = synced()
    made.feed(FRAME)
    made.gap()
    assert values(made.feed(FRAME)) == [1.234]
    assert made.bad == 0


def test_after_a_silence_at_first_a_frame_needs_no_terminator_before_it():
    made = decoder()
    made.gap()
    assert values(made.feed(FRAME)) == [1.234]  # the first from a gauge that waited for its key
    made.gap()
    assert (made.feed(b"+001.2"), made.gap()) == ([], None)
    made.gap()
    assert made.feed(FRAME) == []  # it might be the end of something else
    assert values(made.feed(FRAME)) == [1.234]


def test_a_gap_before_the_first_terminator_counts_nothing():
    made = decoder()
    made.feed(b"34 mm")
    made.gap()
    assert (made.feed(b"\r\n"), made.bad) == ([], 0)


def test_endless_junk_is_counted_and_not_kept():
    made = decoder()
    for _ in range(1000):
        assert made.feed(b"x" * 100) == []
    assert made.bad == (100_000 - 1) // 64
    assert len(made._rest) <= 64 + 1
    assert made.feed(b"\r\n" + FRAME)[0].value == 1.234


def test_a_frame_ends_at_its_terminator_even_if_the_pattern_holds_one():
    made = synced(pattern=r"(?P<value>\d)(?:;\d)?", unit="mm", terminator=";")
    assert values(made.feed(b"1;2;x;3;")) == [1.0, 2.0, 3.0]
    assert made.bad == 1


@pytest.mark.parametrize("pattern", [r"(?: *)*(?P<value>\d)", r"(?: +| )+-(?P<value>\d+\.\d)"])
def test_matching_takes_time_in_proportion(pattern):
    # Were repeats to give back, each blank would double the time: no test would end.
    made = synced(pattern=pattern, unit="mm")
    assert made.feed((b" " * 60 + b"\r\n") * 100) == []
    assert made.bad == 100


def test_a_repeat_gives_nothing_back():
    made = synced(pattern=r"(?P<value>\d+\.\d+)0", unit="mm")
    assert made.feed(b"1.00\r\n") == []


@steady
@given(st.integers(0, 3), st.lists(st.integers(0, 200)), st.data())
def test_splitting_changes_nothing(kind, cuts, data):
    pieces = [FRAME, b"-123.456 in\r\n", b"\r\n", b"\r", b"\n", b"+", b"1.0", b" mm", b"x" * 70]
    ends = [b"\r\n", b"\r", b";", b"\n"]
    stream = b"".join(data.draw(st.lists(st.sampled_from(pieces), max_size=12)))
    stream = stream.replace(b"\r\n", ends[kind])
    whole, split = decoder(terminator=ends[kind].decode()), decoder(terminator=ends[kind].decode())
    expected = whole.feed(stream)
    places = sorted({min(cut, len(stream)) for cut in cuts} | {0, len(stream)})
    got = [one for a, b in pairwise(places) for one in split.feed(stream[a:b])]
    assert got == expected
    assert split.bad == whole.bad
    assert [each.raw for each in got] == by_lines(PATTERN, ends[kind], 64, stream)


def test_splitting_at_every_place():
    stream = b"4 mm\r\n" + frames([1234, -5, 999_999]) + b"junk\r\n" + b"y" * 130 + b"\r\n" + FRAME
    expected = decoder()
    wanted = expected.feed(stream)
    assert values(wanted) == [1.234, -0.005, 999.999, 1.234]
    for first in range(len(stream) + 1):
        for second in range(first, len(stream) + 1):
            made = decoder()
            got = made.feed(stream[:first]) + made.feed(stream[first:second])
            got += made.feed(stream[second:])
            assert got == wanted
            assert made.bad == expected.bad


numbers = st.integers(-999_999, 999_999)
junk = st.binary(min_size=1, max_size=100).filter(
    lambda raw: b"\r" not in raw and b"\n" not in raw and not re.fullmatch(PATTERN.encode(), raw)
)


@steady
@given(st.lists(numbers | junk.map(lambda raw: raw + b"\r\n")))
def test_junk_between_frames_loses_none_and_invents_none(items):
    made = synced()
    stream = b"".join(each if isinstance(each, bytes) else frames([each]) for each in items)
    sent = [each / 1000 for each in items if not isinstance(each, bytes)]
    assert values(made.feed(stream)) == sent
    assert made.bad >= len(items) - len(sent)


@steady
@given(numbers, numbers, junk)
def test_junk_costs_the_frame_it_touches_and_no_other(first, last, raw):
    made = synced()
    got = values(made.feed(frames([first]) + raw + FRAME + frames([last])))
    assert got in ([first / 1000, last / 1000], [first / 1000, 1.234, last / 1000])
    assert len(got) == 2 or re.fullmatch(PATTERN.encode(), raw + FRAME[:-2])


@steady
@given(st.lists(numbers, min_size=3, max_size=6), st.integers(0, 60), st.integers(1, 12))
def test_lost_bytes_never_make_another_value(sent, start, length):
    # Fewer bytes than a frame has: a frame of fixed width shows each such loss.
    stream = frames(sent)
    start = min(start, len(stream))
    got = values(synced().feed(stream[:start] + stream[start + length :]))
    left = iter(each / 1000 for each in sent)
    assert all(value in left for value in got)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"terminator": ""}, "found terminator ''"),
        ({"terminator": "\r\r"}, "found terminator '\\r\\r'"),
        ({"terminator": "é"}, "found terminator 'é'"),
        ({"pattern": "("}, "found '(' in pattern"),
        ({"pattern": "^" + PATTERN}, "found '^(?' in pattern"),
        ({"pattern": PATTERN + "$"}, "found '$' in pattern"),
        ({"pattern": ".?" + PATTERN}, "found '.?(' in pattern"),
        ({"pattern": "[^a]" + PATTERN}, "found '[^a' in pattern"),
        ({"pattern": r"\s" + PATTERN}, r"found '\\s(' in pattern"),
        ({"pattern": PATTERN + r"\b"}, r"found '\\b' in pattern"),
        ({"pattern": PATTERN + "(a)"}, "found '(a)' in pattern"),
        ({"pattern": PATTERN + "(?=a)"}, "found '(?=' in pattern"),
        ({"pattern": PATTERN + r"(?P<other>a)"}, "found '(?P' in pattern"),
        ({"pattern": PATTERN + r"\1"}, r"found '\\1' in pattern"),
        ({"pattern": PATTERN + "["}, "found '[' in pattern"),
        ({"pattern": PATTERN + ")"}, "allowed: a regular expression in ASCII"),
        ({"pattern": PATTERN + "µ"}, "allowed: a regular expression in ASCII"),
        ({"pattern": "(?P<unit>mm)"}, "found no group (?P<value>…)"),
        ({"pattern": "(?P<value>[0-9a-z]*)", "unit": "mm"}, "found no group (?P<value>…)"),
        ({"pattern": r"(?P<value>[0-9.e]+)", "unit": "mm"}, "found no group (?P<value>…)"),
        ({"pattern": r"(?P<value>\w+)", "unit": "mm"}, "found no group (?P<value>…)"),
        ({"pattern": r"(?P<value>\d(?:a)?)", "unit": "mm"}, "found no group (?P<value>…)"),
        ({"decimal": ","}, r"allowed: one such as (?P<value>\d+,\d+)"),
        ({"pattern": r"(?P<sign>\d)(?P<value>\d)", "unit": "mm"}, "found other signs"),
        ({"unit": "in"}, "found the unit twice"),
        ({"pattern": r"(?P<value>\d)"}, "found the unit nowhere"),
    ],
)
def test_options_that_would_need_guessing_are_refused(changes, words):
    with pytest.raises(SettingsError) as caught:
        build(TextOptions, {"pattern": PATTERN, **changes}, "gauge.toml", under="frame")
    (problem,) = faults(caught.value)
    assert problem.startswith("gauge.toml: frame: found ")
    assert "; allowed: " in problem
    assert words in problem


@pytest.mark.parametrize(
    ("pattern", "raw", "value"),
    [
        (r"\(?(?P<value>\d+\.?\d*)\)?", b"(12.5)", 12.5),
        (r"[($^]?(?P<value>[0-9]+)", b"$12", 12.0),
        (r"(?P<sign>\+|-)?(?P<value>\d+)", b"12", 12.0),
        (r"(?P<sign>[ +-])(?P<value>\d{2,3}[.]\d)", b" 12.5", 12.5),
        (r"(?P<value>\d*\.\d+)", b".5", 0.5),
        (r"(?P<value>\d\.\d{3}(?:\d\d)?)", b"0.12345", 0.12345),
        (r"(?P<value>(?:12|34)\.\d)", b"34.5", 34.5),
        (r"(?:A|AB)?(?P<value>\d)|(?P<sign>-)X", b"A1", 1.0),
    ],
)
def test_patterns_of_many_kinds(pattern, raw, value):
    assert values(synced(pattern=pattern, unit="mm").feed(raw + b"\r\n")) == [value]


@pytest.mark.parametrize("raw", [b"1.2.3", b".", b"", b"+-1"])
def test_what_matches_but_is_no_number_is_bad(raw):
    made = synced(pattern=r"(?P<sign>[+-]?[+-]?)(?P<value>[0-9]*\.?\d*\.?\d*)", unit="mm")
    assert made.feed(raw + b"\r\n") == []
    assert made.bad == (1 if raw else 0)


def test_status():
    made = synced(
        pattern=r"(?P<status>[A-Za-z\xe9]?)(?P<value>\d)",
        unit="mm",
        flags={"B": "weak-battery", "k": ""},
    )
    found = made.feed(b"1\r\nB2\r\nk3\r\n\xe94\r\n")
    assert [each.flags for each in found] == [(), ("weak-battery",), (), ("é",)]


def test_units_are_the_shops_own_words():
    made = synced(
        pattern=r"(?P<value>\d)(?P<unit>[MI]?)", units={"M": "mm", "I": "in"}, terminator=";"
    )
    assert [each.unit for each in made.feed(b"1M;2I;3;")] == ["mm", "in"]
    assert made.bad == 1
