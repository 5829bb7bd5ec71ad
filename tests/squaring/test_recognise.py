"""What does not fit is said; what does, however it surprises, is not."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.distance import mahalanobis

from daq.squaring.equations import Doubt
from daq.squaring.recognise import TurnSeen, is_strange, strange, surprise
from daq.squaring.response import stand
from daq.squaring.story import Seen
from daq.words import AXES, OPPOSITE, PARKED
from tests.squaring.heads import SCATTER, PlainHead, prior

DOUBT = Doubt(0.0007, 0.0003)
FILE = prior()
TAUGHT = prior((0.5, 0.5), 0.0005)
TRUTH = (0.0, 0.0, 400.0, 150.0, 0.0, 400.0, *[0.0] * 6)
RADIUS = 100.0


def parked(axis, d_mm, truth=TRUTH, seed=4):
    """A head with one axis out by `d_mm` across the sweep, swept, and parked for its move."""
    at = [0.0, 0.0, 1.0]
    at[AXES.index(axis)] = d_mm / (2.0 * RADIUS)
    head = PlainHead(RADIUS, DOUBT, np.random.default_rng(seed), truth=truth, at=at)
    return head.sweep().read(PARKED[axis])


def move(head, axis, d_mm, turned=None):
    """The turn that the story tells of: `axis`; `turned` is the adjuster it was."""
    place = PARKED[axis]
    head._turn(turned or axis, d_mm / (2.0 * RADIUS))
    return head.happened("moved", axis).stop(place).happened("rested", axis)


def checked(head, axis, known):
    """What the pair check that follows calls the move, and how it surprised."""
    expected = stand(tuple(head.story), known, RADIUS, DOUBT, SCATTER)
    place, began = PARKED[axis], len(head.story)
    swept = {entry.position: entry.pushed_mm for entry in head.story[:4]}
    was_mm = swept[place] - swept[OPPOSITE[place]]
    seen = head.pair(axis, place).story[began:]
    read = {entry.position: entry.pushed_mm for entry in seen}
    found_mm = read[place] - read[OPPOSITE[place]] - was_mm
    turn = TurnSeen(2.0 * RADIUS * expected.lean(axis) - was_mm, found_mm)
    surprised = surprise(expected, seen, DOUBT.reading_mm)
    return strange(turn) if is_strange(surprised) else None, surprised, turn


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("lift_mm", [0.04, -0.04])
def test_a_knock_of_a_head_that_is_known_is_called_one(axis, lift_mm):
    head = move(parked(axis, 0.3), axis, -0.3)
    other_mm = (0.0, 0.02) if axis == "side" else (0.02, 0.0)
    head.knock(*other_mm, lift_mm)
    word, surprised, turn = checked(head, axis, TAUGHT)
    assert word == "bumped" and surprised > 10.0
    assert turn.expected_mm == pytest.approx(-0.3, abs=0.005)


def test_a_knock_that_leans_the_axis_itself_is_called_one():
    head = move(parked("nod", 0.3), "nod", -0.3).knock(0.0, 0.03, 0.0)
    assert checked(head, "nod", TAUGHT)[0] == "bumped"


@pytest.mark.parametrize(
    ("axis", "doubts"),
    [
        ("side", ((5.0, 40.0), 0.02)),
        ("side", ((0.5, 0.5), 0.0005)),
        ("nod", ((0.5, 0.5), 0.0005)),
    ],
)
@pytest.mark.parametrize("d_mm", [0.1, -0.3])
def test_the_other_adjuster_is_told_from_what_the_axis_did_not_do(axis, doubts, d_mm):
    """The other screw was turned until the number stood at the stop-at."""
    other = AXES[1 - AXES.index(axis)]
    truth = (30.0, *TRUTH[1:])
    own_sees, other_sees = (RADIUS + truth[3 * AXES.index(axis)], truth[3 * AXES.index(other)])
    head = parked(axis, d_mm, truth)
    move(head, axis, -d_mm * own_sees / other_sees, turned=other)
    word, _, turn = checked(head, axis, prior(*doubts, (30.0, 150.0)))
    assert word == "wrong-adjuster"
    assert abs(turn.found_mm) < 0.005 < abs(turn.expected_mm)


@pytest.mark.parametrize("d_mm", [0.1, -0.1, 0.5])
def test_a_pivot_on_the_other_side_turns_the_axis_the_wrong_way(d_mm):
    """The file has it 150 behind the spindle; it is 250 before it: 250/−150 of what was meant."""
    truth = (*TRUTH[:3], -250.0, *TRUTH[4:])
    head = move(parked("nod", d_mm, truth), "nod", -d_mm * 250.0 / -150.0)
    word, _, turn = checked(head, "nod", FILE)
    assert word == "backwards"
    assert turn.found_mm * turn.expected_mm < 0.0


OFF = [-2.5, 0.0, 2.5]


@pytest.mark.parametrize("pivot_off", OFF)
@pytest.mark.parametrize("coupling_off", OFF)
@pytest.mark.parametrize("axis", AXES)
def test_an_honest_move_of_a_head_unlike_its_file_is_not_called_a_knock(
    axis, pivot_off, coupling_off
):
    """Pivot and coupling 2.5 doubts off, from 0.05 to 3 mm out, at the first audit."""
    truth, at = list(TRUTH), 3 * AXES.index(axis)
    truth[at] += pivot_off * FILE.pivot_doubt_mm(axis)
    truth[at + 1] += coupling_off * FILE.coupling_doubt(axis)
    for d_mm in (0.05, 0.2, -0.5, 1.0, -3.0):
        meant = RADIUS + TRUTH[at]
        head = move(parked(axis, d_mm, truth), axis, -d_mm * meant / (RADIUS + truth[at]))
        word, surprised, turn = checked(head, axis, FILE)
        assert word is None, (d_mm, surprised)
        assert turn.found_mm * turn.expected_mm > 0.0


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("settled_mm", [0.004, -0.004])
def test_a_head_that_settles_when_the_hand_leaves_was_not_knocked(axis, settled_mm):
    own = AXES.index(axis)
    head = move(parked(axis, 0.3), axis, -0.3)
    head._turn(axis, settled_mm / (2.0 * RADIUS))
    assert checked(head, axis, TAUGHT)[0] is None
    assert abs(head.at[own]) * 2.0 * RADIUS == pytest.approx(0.004, abs=0.0001)


def test_honest_moves_are_hardly_ever_called_anything():
    """300 heads as likely as their file says, moved honestly at their first audit: none."""
    rng, words = np.random.default_rng(12), []
    scatter = np.array(FILE.covariance)[:8, :8]
    for i in range(300):
        axis = AXES[i % 2]
        # The hand never leaves here, so nothing is drawn of what the head would do then.
        truth = (*rng.multivariate_normal(FILE.mean[:8], scatter), *[0.0] * 4)
        d_mm = rng.normal(0.0, 0.4)
        words.append(checked(move(parked(axis, d_mm, truth, i), axis, -d_mm), axis, FILE)[0])
    assert words == [None] * 300


def test_knocks_of_a_taught_head_are_nearly_all_called_something():
    rng, words = np.random.default_rng(13), []
    for i in range(100):
        axis = AXES[i % 2]
        head = move(parked(axis, 0.2, seed=i), axis, -0.2)
        knock = rng.normal(0.0, 0.05, 3)
        words.append(checked(head.knock(*knock), axis, TAUGHT)[0])
    assert words.count(None) < 10


def standing():
    story = tuple(parked("nod", 0.3).story)
    return stand(story, FILE, RADIUS, DOUBT, SCATTER)


@given(st.lists(st.floats(-0.1, 0.1), min_size=4, max_size=4))
@settings(derandomize=True, deadline=None)
def test_a_surprise_is_the_mahalanobis_distance_by_reading(off):
    """Against scipy's, with the covariance of what was expected written out."""
    expected, places = standing(), ("right", "back", "left", "front")
    means = [expected.reading(place)[0] for place in places]
    seen = [Seen(p, m + d) for p, m, d in zip(places, means, off, strict=True)]
    rows = np.zeros((4, 15))
    rows[:, 12:] = [[100, 0, 1], [0, -100, 1], [-100, 0, 1], [0, 100, 1]]
    spread = rows @ expected.covariance @ rows.T + 0.0008**2 * np.eye(4)
    told = surprise(expected, seen, 0.0008)
    if max(map(abs, off)) < 0.0059:
        assert told == 0.0
    elif max(map(abs, off)) > 0.0061:
        distance = mahalanobis([s.pushed_mm for s in seen], means, np.linalg.inv(spread))
        assert told == pytest.approx(distance / 2.0, rel=1e-6)


def test_nothing_smaller_than_any_head_settles_by_surprises():
    expected = standing()
    at = expected.reading("front")[0]
    assert surprise(expected, [Seen("front", at + 0.0059)], 1e-5) == 0.0
    assert surprise(expected, [Seen("front", at + 0.0061)], 1e-5) > 5.0


def test_what_is_in_more_doubt_than_a_reading_surprises_less_and_teaches_less():
    story = tuple(Seen(p, 0.0) for p in ("front", "right", "back", "left"))
    expected = stand(story, FILE, RADIUS, DOUBT, SCATTER)
    surprised = [surprise(expected, [Seen("front", 0.01, more_mm=m)], 0.0007) for m in (0.0, 0.005)]
    assert surprised[0] > 5.0 > 2.5 > surprised[1]
    unsure = tuple(Seen(entry.position, 0.0, more_mm=0.005) for entry in story)
    found = stand(unsure, FILE, RADIUS, DOUBT, SCATTER)
    sure, more = (math.sqrt(at.covariance[-3][-3]) for at in (expected, found))
    assert 5.0 * sure < more < 8.0 * sure  # 7.2 times as much but for what the prior knows


@pytest.mark.parametrize(
    ("found_mm", "word"),
    [
        (-0.30, "bumped"),
        (-0.076, "bumped"),
        (-0.074, "wrong-adjuster"),
        (0.0, "wrong-adjuster"),
        (0.074, "wrong-adjuster"),
        (0.076, "backwards"),
        (0.3, "backwards"),
    ],
)
def test_what_the_axis_did_tells_what_happened(found_mm, word):
    """A quarter of −0.300 is 0.075."""
    assert strange(TurnSeen(-0.3, found_mm)) == word
    assert strange(TurnSeen(0.3, -found_mm)) == word


@pytest.mark.parametrize("expected_mm", [0.0, 0.0299, -0.0299])
def test_of_a_turn_too_small_to_follow_only_a_knock_is_said(expected_mm):
    assert strange(TurnSeen(expected_mm, 0.0)) == "bumped"
    assert strange(TurnSeen(math.copysign(0.0301, expected_mm), 0.0)) == "wrong-adjuster"


def test_what_is_not_believed_begins_at_four_standard_deviations():
    assert [is_strange(surprised) for surprised in (0.0, 3.99, 4.0, 50.0)] == [
        False,
        False,
        True,
        True,
    ]
