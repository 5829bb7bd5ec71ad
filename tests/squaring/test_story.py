"""What is kept of a story, what a doubt takes out of it, and when a contact has not moved."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.squaring.story import Happened, Seen, disowned, distrusted, stood, then
from daq.words import FOUR_POSITIONS

SWEPT = tuple(Seen(position, 0.1) for position in ("right", "back", "left", "front"))
BASE = Seen("right", 0.10)
MOVED = Happened("moved", "side")
STOP = Seen("right", 0.05, stays=True)
RESTED = Happened("rested", "side")
PAIR = (Seen("left", 0.08), Seen("right", 0.06))
UNKNOWN = Happened("unknown")
positions = st.sampled_from(FOUR_POSITIONS)
seen = st.builds(Seen, positions, st.floats(-1.0, 1.0), st.booleans())
changes = st.builds(
    Happened,
    st.sampled_from(["moved", "rested", "tightened", "zeroed", "unknown"]),
    st.sampled_from(["side", "nod"]),
)
stories = st.lists(seen | changes, max_size=12).map(lambda told: (*SWEPT, *told))


def test_nothing_that_came_before_the_first_reading_is_kept():
    assert then((), MOVED, RESTED) == ()
    assert then((), Happened("zeroed")) == ()


def test_what_comes_after_a_reading_is_kept_in_order():
    assert then(SWEPT, MOVED, STOP, RESTED) == (*SWEPT, MOVED, STOP, RESTED)
    assert then(SWEPT) == SWEPT


def test_a_gauge_parked_where_it_was_read_last_has_not_moved():
    assert stood(SWEPT, Seen("front", 0.2)) == (*SWEPT, Seen("front", 0.2, stays=True))


def test_a_gauge_swung_to_another_place_lands_anew():
    assert stood(SWEPT, Seen("right", 0.2, stays=True)) == (*SWEPT, Seen("right", 0.2))


def test_the_first_reading_of_all_lands():
    assert stood((), Seen("front", 0.2, stays=True)) == (Seen("front", 0.2),)


@pytest.mark.parametrize("between", ["moved", "rested", "tightened", "zeroed"])
def test_what_turns_the_head_or_the_number_leaves_the_contact_where_it_is(between):
    story = (*SWEPT, Happened(between, "nod"))
    assert stood(story, Seen("front", 0.2))[-1].stays


@pytest.mark.parametrize("after", [(), (Happened("zeroed"),), (RESTED, Happened("zeroed"))])
def test_after_a_knock_the_contact_may_stand_elsewhere(after):
    assert not stood((*SWEPT, UNKNOWN, *after), Seen("front", 0.2))[-1].stays


def test_a_knock_before_the_last_reading_is_over():
    assert stood((*SWEPT, UNKNOWN, Seen("front", 0.3)), Seen("front", 0.2))[-1].stays


@given(stories, seen)
@settings(derandomize=True)
def test_parking_only_adds_one_reading(story, reading):
    told = stood(story, reading)
    assert told[:-1] == story
    assert (told[-1].position, told[-1].pushed_mm) == (reading.position, reading.pushed_mm)


def test_a_move_that_did_not_fit_teaches_nothing_and_what_was_read_stays():
    """The reading at the stop goes too: whatever happened, it came before or after."""
    story = (*SWEPT, BASE, MOVED, STOP, RESTED, *PAIR)
    assert distrusted(story) == (*SWEPT, BASE, UNKNOWN, *PAIR)


def test_what_was_learned_before_the_move_is_still_believed():
    first = (*SWEPT, BASE, MOVED, STOP, RESTED, *PAIR, Happened("tightened", "side"), *PAIR)
    nod = (Seen("front", 0.2), Happened("moved", "nod"), Seen("front", 0.1, stays=True))
    checked = (Happened("rested", "nod"), Seen("back", 0.1), Seen("front", 0.1))
    assert distrusted((*first, *nod, *checked)) == (*first, nod[0], UNKNOWN, *checked[1:])


def test_without_a_move_only_the_present_is_unknown():
    assert distrusted(SWEPT) == (*SWEPT, UNKNOWN)
    assert distrusted((*SWEPT, Happened("tightened", "nod"))) == (
        *SWEPT,
        Happened("tightened", "nod"),
        UNKNOWN,
    )


def test_a_zero_since_the_move_is_part_of_what_is_unknown():
    story = (*SWEPT, BASE, MOVED, STOP, RESTED, Happened("zeroed"), *PAIR)
    assert distrusted(story) == (*SWEPT, BASE, UNKNOWN, *PAIR)


def test_what_is_unknown_already_is_not_reached_back_past():
    """Two things that do not fit, one after the other: each moment keeps its own readings."""
    first = (*SWEPT, BASE, MOVED, STOP, RESTED, *PAIR, UNKNOWN, *PAIR, Happened("zeroed"))
    again = (Seen("front", 0.3), Seen("back", 0.2))
    assert distrusted((*first, *again)) == (*first, UNKNOWN, *again)


def test_a_pair_read_after_a_move_without_a_stop_is_kept_whole():
    story = (*SWEPT, BASE, MOVED, Happened("tightened", "side"), *PAIR)
    assert distrusted(story) == (*SWEPT, BASE, UNKNOWN, *PAIR)


@given(stories.filter(lambda told: all(getattr(e, "what", "") != "unknown" for e in told)))
@settings(derandomize=True)
def test_a_doubted_story_ends_without_a_move_since(story):
    """No reading is invented or changed, none before the move is lost, and one at most after."""
    doubted = distrusted(story)
    read = [entry for entry in story if isinstance(entry, Seen)]
    kept = [entry for entry in doubted if isinstance(entry, Seen)]
    assert len(read) - len(kept) in (0, 1)
    at = max(
        (i for i, e in enumerate(story) if isinstance(e, Happened) and e.what == "moved"),
        default=len(story),
    )
    assert doubted[:at] == story[:at]
    assert doubted[at] == UNKNOWN
    assert all(isinstance(entry, Seen) for entry in doubted[at + 1 :])


def test_a_disowned_story_keeps_every_reading_and_believes_no_move():
    story = (*SWEPT, BASE, MOVED, STOP, RESTED, *PAIR, Happened("tightened", "side"), *PAIR)
    told = disowned(story)
    assert [e for e in told if isinstance(e, Seen)] == [e for e in story if isinstance(e, Seen)]
    assert [e.what for e in told if isinstance(e, Happened)] == ["unknown", "unknown", "tightened"]
