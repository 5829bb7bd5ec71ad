"""What a page asks a person for."""

import math

from daq.virtual.orders import asked, payload, to_go_mm
from daq.words import Live


def test_what_is_asked_on_a_page() -> None:
    assert asked({"actions": []}) is None
    only = {"kind": "undo"}
    assert asked({"actions": [only]}) == only
    question = {"answers": [{"key": "yes"}, {"key": "no"}]}
    assert asked({"actions": [], "question": question}) == {
        "kind": "answer",
        "payload": {"key": "yes"},
    }
    assert payload({"kind": "x"}) == {}


def live(text: str, unit: str, to_go: float | None) -> Live:
    return Live("g", "r", 1, text, unit, 0.0, 5, True, None, to_go)


def test_how_far_to_go_is_shown_or_read_off_the_two_numbers() -> None:
    assert to_go_mm(live("1.000", "mm", -0.3), "9.9") == -0.3
    to_go = to_go_mm(live("+001.000", "mm", None), "+1.200")
    assert to_go is not None
    assert math.isclose(to_go, 0.2)
    inches = to_go_mm(live("0.0100", "in", None), "0.0110")
    assert inches is not None
    assert math.isclose(inches, 0.0254)
    assert to_go_mm(live("", "mm", None), "1.2") is None
    assert to_go_mm(live("1.0", "mm", None), "") is None
