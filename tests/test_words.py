"""The shared words: places agree with the frame of reference, values cannot be changed."""

import dataclasses
from typing import get_args

import pytest

from daq import words


def test_opposites_are_half_a_turn_apart():
    for position, other in words.OPPOSITE.items():
        assert (words.POSITIONS[position] - words.POSITIONS[other]) % 360 == 180
        assert words.OPPOSITE[other] == position


def test_azimuths_count_anticlockwise_from_the_right_seen_from_above():
    four = {position: words.POSITIONS[position] for position in words.FOUR_POSITIONS}
    assert four == {"right": 0, "back": 90, "left": 180, "front": 270}


def test_a_diagonal_lies_halfway_between_the_two_places_it_is_named_after():
    diagonals = [position for position in words.POSITIONS if "-" in position]
    assert len(diagonals) == 4
    for diagonal in diagonals:
        for name in diagonal.split("-"):
            apart = (words.POSITIONS[diagonal] - words.POSITIONS[name]) % 360
            assert apart in (45, 315)


def test_every_position_has_an_azimuth_and_an_opposite_and_the_four_are_among_them():
    assert set(words.POSITIONS) == set(get_args(words.Position)) == set(words.OPPOSITE)
    assert set(words.FOUR_POSITIONS) < set(words.POSITIONS)
    order = [words.POSITIONS[position] for position in words.POSITIONS]
    assert [(azimuth - 270) % 360 for azimuth in order] == [45 * n for n in range(8)]


def test_each_axis_is_parked_at_one_of_its_own_positions():
    assert set(words.PARKED) == set(words.AXES)
    assert words.PARKED["side"] in ("left", "right")
    assert words.PARKED["nod"] in ("front", "back")


@pytest.mark.parametrize("name", [n for n in words.__all__ if n[0].isupper() and not n.isupper()])
def test_what_crosses_a_boundary_cannot_be_changed(name):
    cls = getattr(words, name)
    if dataclasses.is_dataclass(cls):
        assert cls.__dataclass_params__.frozen
        assert "__slots__" in vars(cls)
    else:
        assert name in ("Axis", "Position", "Text", "Trouble")
