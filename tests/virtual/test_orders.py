"""What a page asks a person for."""

import datetime
from typing import Any

import pytest

from daq.virtual.orders import asked, payload

TODAY = datetime.date(2026, 6, 1)


def test_what_is_asked_on_a_page() -> None:
    assert asked({"actions": []}) is None
    only = {"kind": "undo"}
    assert asked({"actions": [only]}) == only
    assert payload({"kind": "x"}, "N", TODAY, lambda: "P-1") == {}


def answer(key: str, primary: bool = False) -> dict[str, Any]:
    return {"kind": "answer", "payload": {"key": key}, "primary": primary}


ON_PURPOSE = {"kind": "stopped", "payload": {"on_purpose": True}, "primary": False}
UNDO = {"kind": "undo", "payload": {}, "primary": False}


@pytest.mark.parametrize(
    ("offered", "keys", "again", "pressed"),
    [
        ([answer("moved"), answer("unsure")], (), False, 0),
        ([answer("moved"), answer("unsure")], (), True, 1),
        ([answer("moved")], (), True, 0),
        ([answer("moved"), answer("unsure")], ("unsure", "moved"), False, 1),
        ([answer("moved"), answer("unsure")], ("far", "moved"), True, 0),
        ([answer("turn-on", True), ON_PURPOSE], (), False, 0),
        ([answer("turn-on", True), ON_PURPOSE], (), True, 1),
        ([answer("turn-on", True), ON_PURPOSE], ("on-purpose",), False, 0),
    ],
)
def test_which_answer_is_given(
    offered: list[dict[str, Any]], keys: tuple[str, ...], again: bool, pressed: int
) -> None:
    page = {"actions": [UNDO, *offered], "question": {"say": "?"}}
    assert asked(page, keys, again=again) == offered[pressed]


def test_a_question_without_an_answer_of_that_kind_has_none() -> None:
    page = {"actions": [answer("moved"), UNDO], "question": {"say": "?"}}
    assert asked(page, ("unsure",)) is None
    assert asked({**page, "actions": [UNDO]}) is None
