"""The card before anything else: four ticks, what is not done and why, and the numbers of a day."""

import pytest

from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told
from tests.cards import READY
from tests.words import en


def opened(**machine):
    b = Bench(changed(setup_of(), machine=machine))
    b.do("open", {"reason": "scheduled"})
    return b


def without(*keys):
    return {key: done for key, done in READY.items() if key not in keys}


def test_it_is_the_first_card_and_the_wall_shows_the_four_lines():
    page = opened().console
    assert page["step"] == "table"
    assert len(page["notes"]) == 4
    (done,) = [action for action in page["actions"] if action["primary"]]
    ticks = [field for field in done["fields"] if field["type"] == "tick"]
    assert [field["say"] for field in ticks] == page["notes"]
    assert "knuckle" in page["notes"][-1]


def test_four_ticks_and_one_press_lead_on():
    b = opened()
    b.do("readied", READY)
    assert b.job.step == "power"
    assert told(b, "TableReadied")[-1].found.not_done == ()


@pytest.mark.parametrize("left", [("bare",), ("clean", "locked"), tuple(READY)])
def test_what_is_not_ticked_wants_a_reason_and_is_shown_to_whoever_signs(left):
    b = opened()
    refused = b.refused("readied", without(*left))
    assert refused.code == "table-without-why"
    assert ("Vise and keys off" in en(refused)) == ("bare" in left)
    b.do("readied", {**without(*left), "why": "the vise is welded on"})
    found = told(b, "TableReadied")[-1].found
    assert (found.not_done, found.why) == (left, "the vise is welded on")
    m = Machinist(b, RigidHead(mill(), 0.0, 0.0)).work("sign")
    assert "the vise is welded on" in m.bench.console["notes"][0]


@pytest.mark.parametrize(
    ("written", "celsius", "shown"),
    [
        ("20 °C", 20.0, "20.0 °C"),
        ("20.5 degC", 20.5, "20.5 °C"),
        ("68 °F", 20.0, "20.0 °C"),
        ("0 °C", 0.0, "0.0 °C"),
        ("122 F", 50.0, "50.0 °C"),
    ],
)
def test_temperature_and_numbers_are_kept_and_shown_to_whoever_signs(written, celsius, shown):
    """°C = (°F - 32)/1.8: NIST SP 811, appendix B.8."""
    b = opened()
    b.do("readied", {**READY, "temperature": written, "thermometer": "T-7", "wrench": "W-2"})
    found = told(b, "TableReadied")[-1].found
    assert found.temperature_c == pytest.approx(celsius, abs=1e-9)
    notes = " ".join(Machinist(b, RigidHead(mill(), 0.0, 0.0)).work("sign").bench.console["notes"])
    assert shown in notes and "no. T-7" in notes and "no. W-2" in notes


@pytest.mark.parametrize("written", ["20", "68 K", "warm", "20 mm", "1e999 °C", "nan °C"])
def test_a_temperature_without_a_unit_or_of_none_is_refused(written):
    said = en(opened().refused("readied", {**READY, "temperature": written}))
    assert repr(written) in said and "such as" in said


@pytest.mark.parametrize("written", ["68 °C", "-1 °C", "20 °F", "51 °C", "123 °F"])
def test_a_temperature_nobody_squares_a_head_at_is_refused_with_what_is_allowed(written):
    said = en(opened().refused("readied", {**READY, "temperature": written}))
    assert repr(written) in said and "0 °C to 50 °C" in said


def test_an_inch_shop_reads_it_in_its_own_scale():
    b = opened(unit="in")
    b.do("readied", {**READY, "temperature": "20 °C"})
    m = Machinist(b, RigidHead(mill(), 0.0, 0.0)).work("sign")
    assert "68.0 °F" in " ".join(m.bench.console["notes"])


def test_it_can_be_taken_back_and_ticked_anew():
    b = opened()
    b.do("readied", READY)
    b.do("undo")
    assert b.job.step == "table"
