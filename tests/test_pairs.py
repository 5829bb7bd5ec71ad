"""A pair of what there is of both axes: how it is made, and how it goes to JSON and back."""

import json
from dataclasses import dataclass
from typing import Annotated

import pytest

from daq import settings, words
from daq.settings import Length, Range, SettingsError
from daq.words import Both


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
    assert caught.value.problems == (
        "file: bolts: unknown key 'left'; known: side, nod",
        "file: bolts.side.name: found 4; allowed: text",
        "file: bolts.nod: missing; allowed: a table",
        "file: reaches.nod: found -1.0 mm; allowed: above 0 mm",
    )
