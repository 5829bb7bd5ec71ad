"""The one machinist, at a made-up place that writes down all that is done there."""

import datetime
from collections.abc import Mapping
from typing import Any

import pytest

from daq.virtual import CannotError, Hand, Machinist, Workplace
from daq.words import Ack

TODAY = datetime.date(2026, 6, 1)


class Place:
    """Shows one page after another, each press the next; what hands do is noted as told."""

    def __init__(self, *pages: Mapping[str, Any]) -> None:
        self.pages = pages
        self.at = 0
        self.done: list[tuple[object, ...]] = []
        self.waited_s = 0.0
        self.refuses = ""

    def look(self) -> Mapping[str, Any]:
        return self.pages[self.at]

    def press(self, kind: str, payload: Mapping[str, Any]) -> Ack:
        self.done.append(("press", kind, dict(payload)))
        if self.refuses:
            return Ack("c", False, (), "refused", self.refuses)
        self.at += 1
        return Ack("c", True, (self.at,), "ok")

    def today(self) -> datetime.date:
        return TODAY

    def wait(self, seconds: float) -> None:
        self.waited_s += seconds

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") or not hasattr(Workplace, name):
            raise AttributeError(name)
        return lambda *told, **more: self.done.append((name, *told, *more.values()))


def page(do: dict[str, Any], kind: str = "go", **more: Any) -> dict[str, Any]:
    action = {"kind": kind, "payload": {}, "primary": True, "fields": []}
    return {"step": "any", "title": "A title.", "do": do, "actions": [action], **more}


END = {"step": "end"}


@pytest.mark.parametrize(
    ("do", "done"),
    [
        ({"kind": "free"}, ("lift",)),
        ({"kind": "push"}, ("push",)),
        ({"kind": "swing", "position": "back"}, ("swing", "back")),
        ({"kind": "swing", "position": "back", "flick": False}, ("swing", "back")),
        ({"kind": "turn-ring"}, ("turn_round", "ring")),
        ({"kind": "turn-arm"}, ("turn_round", "arm")),
        ({"kind": "loosen", "axis": "nod"}, ("crack", "nod")),
        ({"kind": "turn", "axis": "nod", "stop_at_text": "-1.234"}, ("turn", "nod", -1.234)),
        ({"kind": "nudge", "axis": "side", "back": True}, ("nudge", "side", True)),
        ({"kind": "tighten", "axis": "side"}, ("pull", "side")),
        ({"kind": "bolt", "axis": "side", "bolt": "upper"}, ("pull", "side", "upper")),
    ],
)
def test_each_thing_the_console_names_is_done_before_the_press(
    do: dict[str, Any], done: tuple[object, ...]
) -> None:
    place = Place(page(do), END)
    Machinist(place).work("end")
    assert place.done == [done, ("press", "go", {})]


def test_the_arm_is_flicked_where_the_console_asks_it() -> None:
    place = Place(page({"kind": "swing", "position": "back", "flick": True}), END)
    Machinist(place).work("end")
    assert place.done == [("swing", "back"), ("flick",), ("press", "go", {})]


def test_nothing_is_done_where_nothing_is_to_be_done() -> None:
    place = Place(page({"kind": "nothing"}), END)
    assert Machinist(place).work("end") is END
    assert place.done == [("press", "go", {})]


@pytest.mark.parametrize(("unit", "reads"), [("mm", 1.254), ("in", 1.202)])
def test_a_hand_that_misses_stops_so_far_past_in_the_unit_of_the_face(
    unit: str, reads: float
) -> None:
    turn = page({"kind": "turn", "axis": "nod", "stop_at_text": "1.200"}, unit=unit)
    miss_mm = 0.054 if unit == "mm" else 0.0508
    place = Place(turn, END)
    Machinist(place, Hand(miss_mm=miss_mm)).work("end")
    assert place.done[0] == ("turn", "nod", pytest.approx(reads))


def test_the_pace_is_counted_by_the_place_from_the_work_to_the_press() -> None:
    place = Place(*[page({"kind": "nothing"})] * 5, END)
    Machinist(place, Hand(pace_s=3600.0)).work("end")
    assert place.waited_s == 5 * 3600.0


def test_what_must_be_written_is_written_and_dated_by_the_calendar_of_the_place() -> None:
    fields = [
        {"name": "done_by", "type": "text", "required": True},
        {"name": "last_good", "type": "date", "required": True},
        {"name": "note", "type": "text", "required": False},
    ]
    sign = {"kind": "sign", "payload": {"a": 1}, "primary": True, "fields": fields}
    place = Place({**page({"kind": "nothing"}), "actions": [sign]}, END)
    Machinist(place, Hand(name="D. B.")).work("end")
    written = {"a": 1, "done_by": "D. B.", "last_good": "2026-05-02"}
    assert place.done == [("press", "sign", written)]


def ask(say: str) -> dict[str, Any]:
    answers = [
        {"kind": "answer", "payload": {"key": key}, "primary": False, "fields": []}
        for key in ("moved", "unsure")
    ]
    return {**page({"kind": "nothing"}), "question": {"say": say}, "actions": answers}


def test_read_again_and_the_same_is_asked_then_something_else_is_true() -> None:
    place = Place(ask("Which?"), page({"kind": "nothing"}), ask("Which?"), ask("Why?"), END)
    Machinist(place).work("end")
    keys = [told[2]["key"] for told in place.done if told[1] == "answer"]  # type: ignore[index]
    assert keys == ["moved", "unsure", "moved"]


def failed(place: Place, hand: Hand | None = None) -> str:
    with pytest.raises(CannotError) as error:
        Machinist(place, hand).work("end", most=9)
    return str(error.value)


SAID = {"detail": "A detail.", "message": {"code": "x", "say": "A message."}}


def test_what_cannot_be_done_is_told_with_all_the_screen_says() -> None:
    told = failed(Place(page({"kind": "sing"}, **SAID)))
    assert told == "hands do not know how to sing. The screen: A title. / A detail. / A message."
    turn = {"kind": "turn", "axis": "nod", "stop_at_text": "?"}
    assert failed(Place(page(turn))) == "no number to stop at. The screen: A title."
    assert failed(Place({**page({"kind": "nothing"}), "actions": []})).startswith(
        "nothing to press. The screen: A title."
    )


def test_what_the_place_cannot_do_is_told_with_the_screen_too() -> None:
    place = Place(page({"kind": "free"}, **SAID))

    def stuck() -> None:
        raise CannotError("the quill is stuck")

    place.lift = stuck
    told = failed(place)
    assert told == "the quill is stuck. The screen: A title. / A detail. / A message."
    assert place.done == []


def test_a_question_that_this_person_cannot_answer_is_told() -> None:
    told = failed(Place(ask("Which?")), Hand(answers=("never-offered",)))
    assert told == "nothing to press. The screen: A title. / Which?"


def test_a_refusal_is_told_with_its_reason_and_ends_it() -> None:
    place = Place(page({"kind": "free"}, "take", **SAID), END)
    place.refuses = "Off contact."
    assert failed(place) == (
        "take was not taken (refused): Off contact. The screen: A title. / A detail. / A message."
    )
    assert len(place.done) == 2


def test_whoever_is_led_in_a_circle_ends_it() -> None:
    place = Place(*[page({"kind": "nothing"})] * 10)
    assert failed(place) == "9 steps and not yet at end. The screen: A title."
