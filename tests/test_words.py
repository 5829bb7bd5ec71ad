"""The shared words: places agree with the frame, values cannot be changed, a pair is a table."""

import dataclasses
import json
from dataclasses import dataclass
from typing import Annotated, get_args

import pytest

from daq import settings, words
from daq.settings import Length, Range, SettingsError
from daq.words import Both
from tests.words import faults

NO_VALUES = ("Axis", "CannotBe", "Position", "SaidTrouble", "Text", "Trouble", "Unit", "Word")


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
        assert name in NO_VALUES


@dataclass(frozen=True)
class Bolt:
    name: str
    reach: Annotated[Length, Range(above=0.0, hi=500.0)] = 20.0


@dataclass(frozen=True)
class Pairs:
    bolts: Both[Bolt | None]
    reaches: Both[Annotated[Length, Range(above=0.0)]] = Both(1.0, 2.0)  # noqa: RUF009 - frozen
    maybe: Both[float] | None = None


def test_a_pair_holds_one_thing_an_axis_side_first():
    pair = Both.of(len)
    assert pair == Both(4, 3) == Both(side=4, nod=3) != Both(3, 4)
    assert list(pair.items()) == [("side", 4), ("nod", 3)] == [(a, pair[a]) for a in words.AXES]
    assert pair.map(str) == Both("4", "3")
    assert pair.put("nod", 7) == Both(4, 7) and pair.put("side", 7) == Both(7, 3)
    assert "left" not in pair and hash(pair) == hash(Both(4, 3))


@pytest.mark.parametrize("limits", [True, False])
def test_it_is_a_table_of_both_axes_and_comes_back_from_it(limits):
    for pairs in (
        Pairs(Both(Bolt("a"), None), maybe=Both(0.5, -1.0)),
        Pairs(Both(None, Bolt("b", 7.0)), Both(3.0, 4.0)),
    ):
        table = json.loads(json.dumps(settings.plain(pairs)))
        assert list(table["bolts"]) == ["side", "nod"]
        assert settings.build(Pairs, table, "row", quantities="plain", limits=limits) == pairs


def test_what_is_wrong_in_one_of_the_two_names_its_axis():
    table = {
        "bolts": {"side": {"name": 4}, "left": None},
        "reaches": {"side": "4 in", "nod": "-1 mm"},
    }
    with pytest.raises(SettingsError) as caught:
        settings.build(Pairs, table, "file")
    assert faults(caught.value) == (
        "file: bolts: unknown key 'left'; known: side, nod",
        "file: bolts.side.name: found 4; allowed: text",
        "file: bolts.nod: missing; allowed: a table",
        "file: reaches.nod: found -1.0 mm; allowed: above 0 mm",
    )
