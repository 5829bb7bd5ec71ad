"""Finding frames of fixed length: worked out again, byte by byte, the slow way."""

from itertools import pairwise

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.gauges.frames.shared.fixed import LONGEST, check, finder

steady = hypothesis.settings(deadline=None, derandomize=True)

DIGIT = frozenset(b"0123456789")
OPEN = [frozenset(b"+-"), DIGIT, DIGIT, DIGIT]
CLOSED = [DIGIT, DIGIT, frozenset(b"\r"), frozenset(b"\n")]
FRAMES = [b"+123", b"-456", b"12\r\n", b"34\r\n"]

pieces = st.lists(st.sampled_from([*FRAMES, b"+", b"1", b"\r", b"\n", b"x", b"12", b"\r\n"]))


def fits(places, part):
    return len(part) == len(places) and all(b in may for b, may in zip(part, places, strict=True))


def by_content(places, closing, stream):
    """Go on a byte where no frame begins, a frame where one does."""
    found, at, stray, bad, length = [], 0, -len(places), 0, len(places)
    while at + length <= len(stream):
        if fits(places, stream[at : at + length]) and stream[:at].endswith(closing):
            found.append(stream[at : at + length])
            at, stray = at + length, 0
            continue
        at, stray = at + 1, stray + 1
        bad += stray > 0 and (stray - 1) % length == 0
    return found, bad


@pytest.mark.parametrize(("places", "closing"), [(OPEN, b""), (CLOSED, b""), (CLOSED, b"\r\n")])
@steady
@given(pieces, st.lists(st.integers(0, 80)))
def test_by_content_finds_what_the_slow_way_finds(places, closing, parts, cuts):
    stream = b"".join(parts)
    made = finder(places, "content", closing)
    ends = sorted({min(cut, len(stream)) for cut in cuts} | {0, len(stream)})
    found = [frame for a, b in pairwise(ends) for frame in made.feed(stream[a:b])]
    assert (found, made.bad) == by_content(places, closing, stream)


def told(between):
    """The frames of each silence's bytes: one, or some once one came alone."""
    most, size = 1, len(OPEN)
    for block in between:
        each = [block[at : at + size] for at in range(0, len(block), size)]
        if each and all(fits(OPEN, one) for one in each) and len(each) <= most:
            most = 4
            yield each
        else:
            yield []


@steady
@given(st.lists(st.lists(st.binary(max_size=6) | st.sampled_from(FRAMES)), min_size=1))
def test_by_pause_a_frame_is_what_came_between_two_silences(silences):
    made, found = finder(OPEN, "pause"), []
    for blocks in silences:
        for block in blocks:
            found += made.feed(block)
        made.gap()
    found += made.feed(b"")
    between = [b"".join(blocks) for blocks in silences]
    good = list(told(between[1:]))
    assert found == [each for joined in good for each in joined]
    wrong = [-(-len(b) // 4) for b, each in zip(between[1:], good, strict=True) if not each]
    assert made.bad == sum(wrong) + max(0, -(-(len(between[0]) - 4) // 4))


def test_a_closed_frame_counts_only_behind_a_closing():
    made = finder(CLOSED, "content", b"\r\n")
    assert made.feed(b"12\r\n") == []
    assert made.feed(b"34\r\n") == [b"34\r\n"]
    assert made.feed(b"156\r\n78\r\n") == [b"78\r\n"]
    assert made.bad == 2


def test_a_pause_within_a_closed_frame_costs_the_next_too():
    made = finder(CLOSED, "content", b"\r\n")
    made.feed(b"\r\n12")
    made.gap()
    assert made.feed(b"12\r\n") == []  # it might be the end of something else
    assert made.feed(b"34\r\n") == [b"34\r\n"]


def test_a_pause_between_closed_frames_costs_nothing():
    made = finder(CLOSED, "content", b"\r\n")
    made.feed(b"\r\n12\r\n")
    made.gap()
    assert made.feed(b"34\r\n") == [b"34\r\n"]
    assert made.bad == 0


def test_after_a_silence_at_first_a_closed_frame_needs_none_before_it():
    made = finder(CLOSED, "content", b"\r\n")
    made.gap()
    made.gap()
    assert made.feed(b"12\r\n") == [b"12\r\n"]  # the first from a gauge that waited for its key
    assert made.bad == 0


def test_endless_bytes_are_counted_while_they_come():
    for way in ("content", "pause"):
        made = finder(OPEN, way)
        made.gap()
        for _ in range(100):
            assert made.feed(b"x" * 40) == []
        assert made.bad in (999, 1000)


@pytest.mark.parametrize(
    ("places", "way", "words"),
    [
        ([DIGIT] * 3, "content", "found frames whose beginning could be the end of another"),
        ([*OPEN, frozenset(b"+")], "content", "could be the end of another"),
        (
            [frozenset(b"+")] * (LONGEST + 1),
            "pause",
            "found a frame of 129 bytes; allowed: at most",
        ),
    ],
)
def test_frames_that_could_not_be_told_apart_are_refused(places, way, words):
    with pytest.raises(ValueError, match=words):
        check(places, way)


@pytest.mark.parametrize("places", [OPEN, CLOSED, [DIGIT], OPEN[::-1]])
def test_frames_that_can_be_told_apart_are_taken(places):
    check(places, "content")
    check([DIGIT] * 3, "pause")


@steady
@given(st.lists(st.sampled_from([b"+123", b"-456", b"+009"]) | st.binary(max_size=9)))
def test_no_whole_frame_is_lost_whatever_stands_round_it(parts):
    found = finder(OPEN, "content").feed(b"".join(parts))
    left = iter(found)
    assert all(part in left for part in parts if fits(OPEN, part))


@pytest.mark.parametrize("damaged", [b"7\x0056;", b"7", b";", b"56;", b"79456;;"])
def test_one_damaged_frame_costs_no_more_than_the_next_where_each_is_followed_by_a_silence(damaged):
    places = [frozenset(b"7"), *[frozenset(b"0123456789")] * 3, frozenset(b";")]
    made = finder(places, "content", b";")
    made.gap()
    found = []
    for frame in (b"7123;", damaged, b"7456;", b"7789;", b"7000;"):
        found += made.feed(frame)
        made.gap()
    assert found[0] == b"7123;"
    assert found[-2:] == [b"7789;", b"7000;"]
