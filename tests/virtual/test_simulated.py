"""A place without wires: what a head is asked, and what its gauge is said to send."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from daq.virtual import CannotError, HeadModel, Simulated
from daq.words import Ack, Axis, Position


class House:
    """Shows one page and wants the gauge's numbers for every press."""

    today = "2026-06-01"

    def __init__(self, **page: Any) -> None:
        self.console = {"unit": "mm", **page}
        self.seen: list[Sequence[float]] = []
        self.waited_s = 0.0

    def wait(self, seconds: float) -> None:
        self.waited_s += seconds

    def press(self, kind: str, payload: Any, shows: Callable[[], Sequence[float]]) -> Ack:
        self.seen.append(shows())
        return Ack("c", True, (), "ok")


class Told(HeadModel):
    """A head that writes down what it is told."""

    def __init__(self) -> None:
        self.told: list[tuple[object, ...]] = []

    def reads(self, at: Position | None) -> float:
        return -3.0 if at is None else 1.27

    def turn(self, axis: Axis, at: Position, reads: float) -> None:
        self.told.append((axis, at, reads))

    def pull(self, axis: Axis, part: float) -> None:
        self.told.append((axis, part))


def test_the_gauge_shows_where_it_stands_and_is_pushed_in_the_air() -> None:
    house = House()
    at = Simulated(house, Told(), samples=2)
    at.press("take", {})
    at.push()
    at.press("pushed", {})
    at.swing("left")
    at.press("take", {})
    assert house.seen == [(-3.0, -3.0), pytest.approx((-3.0, -1.8, -3.0, -3.0)), (1.27, 1.27)]


@pytest.mark.parametrize(("unit", "face"), [("mm", 1.27), ("in", 0.05)])
def test_what_is_read_and_turned_to_is_in_the_unit_of_the_face(unit: str, face: float) -> None:
    head = Told()
    at = Simulated(House(unit=unit), head)
    at.swing("front")
    assert at.read() == pytest.approx(face)
    at.turn("nod", face)
    assert head.told == [("nod", "front", pytest.approx(1.27))]


def test_a_gauge_in_the_air_shows_no_turn() -> None:
    with pytest.raises(CannotError, match="in the air"):
        Simulated(House(), Told()).turn("nod", 1.0)


def test_a_bolt_pulls_its_part_of_all_steps_and_all_bolts_the_whole() -> None:
    head = Told()
    at = Simulated(House(bolts={"of": 8}), head)
    at.pull("side", "upper")
    at.pull("side")
    assert head.told == [("side", 0.125), ("side", 1.0)]


def test_a_head_that_is_not_said_to_answer_a_little_turn_says_so() -> None:
    at = Simulated(House(), Told())
    at.crack("nod")
    at.turn_round("ring")
    with pytest.raises(CannotError, match="nod adjuster"):
        at.nudge("nod", back=True)


def test_waiting_is_counted_by_the_house_and_its_calendar_is_the_places() -> None:
    house = House()
    at = Simulated(house, Told())
    at.wait(3600.0)
    assert house.waited_s == 3600.0
    assert at.today().isoformat() == "2026-06-01"
