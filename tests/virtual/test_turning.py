"""Bringing the number to its mark, on adjusters of every kind."""

from itertools import product

import pytest

from daq.virtual.turning import CLOSE_ENOUGH_MM, bring_to_stop


class Adjuster:
    """A straight-line stand-in: gain, slack, and a memory of how it was turned."""

    def __init__(self, to_go: float, gain: float, slack: float) -> None:
        self.to_go = to_go
        self.gain = gain
        self.slack = slack
        self.within = slack / 2.0
        self.turns: list[float] = []
        self.furthest = 0.0

    def look(self) -> float:
        return round(self.to_go, 4)

    def turn(self, amount: float) -> None:
        self.turns.append(amount)
        target = self.within + amount
        self.within = min(max(target, 0.0), self.slack)
        self.to_go -= self.gain * (target - self.within)
        self.furthest = max(self.furthest, abs(self.to_go))


@pytest.mark.parametrize(
    ("to_go", "gain", "slack", "finish"),
    list(product([0.7, -0.7, 0.05, -0.004], [1.4, -1.4, 0.5], [0.0, 0.012, 0.05], [1, -1])),
)
def test_any_adjuster_is_brought_to_its_mark_from_one_side(
    to_go: float, gain: float, slack: float, finish: int
) -> None:
    one = Adjuster(to_go, gain, slack)
    assert bring_to_stop(one.look, one.turn, 1 if finish > 0 else -1)
    assert abs(one.to_go) <= CLOSE_ENOUGH_MM + 0.0001
    assert one.turns[-1] * finish > 0.0
    assert len(one.turns) <= 30
    assert one.furthest <= abs(to_go) + 0.2


def test_where_nothing_is_to_be_done_nothing_is_turned() -> None:
    one = Adjuster(0.001, 1.0, 0.01)
    assert bring_to_stop(one.look, one.turn, 1)
    assert one.turns == []


def test_an_adjuster_that_does_not_answer_is_given_up() -> None:
    one = Adjuster(0.5, 0.0, 0.0)
    assert not bring_to_stop(one.look, one.turn, 1)
    assert len(one.turns) < 12


def test_a_number_that_goes_away_ends_it() -> None:
    one = Adjuster(0.5, 1.0, 0.0)
    looks = iter([0.5, 0.48])
    with pytest.raises(StopIteration):
        bring_to_stop(lambda: next(looks), one.turn, 1)
    assert len(one.turns) == 2
