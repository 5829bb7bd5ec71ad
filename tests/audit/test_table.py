"""The card before anything else: four ticks, what is not done and why, and the numbers of a day."""

import math

import pytest

from daq.audit.recompute import differences
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
    b.do("readied", {**READY, "temperatures": written, "thermometer": "T-7", "wrench": "W-2"})
    found = told(b, "TableReadied")[-1].found
    assert found.temperature_c == pytest.approx(celsius, abs=1e-9)
    notes = " ".join(Machinist(b, RigidHead(mill(), 0.0, 0.0)).work("sign").bench.console["notes"])
    assert shown in notes and "no. T-7" in notes and "no. W-2" in notes


@pytest.mark.parametrize("written", ["20", "68 K", "warm", "20 mm", "1e999 °C", "nan °C"])
def test_a_temperature_without_a_unit_or_of_none_is_refused(written):
    said = en(opened().refused("readied", {**READY, "temperatures": written}))
    assert repr(written) in said and "such as" in said


@pytest.mark.parametrize("written", ["68 °C", "-1 °C", "20 °F", "51 °C", "123 °F"])
def test_a_temperature_nobody_squares_a_head_at_is_refused_with_what_is_allowed(written):
    said = en(opened().refused("readied", {**READY, "temperatures": written}))
    assert repr(written) in said and "0 °C to 50 °C" in said


def test_an_inch_shop_reads_it_in_its_own_scale():
    b = opened(unit="in", seat="ring")
    (asked,) = [f for f in b.console["actions"][0]["fields"] if f["name"] == "temperatures"]
    assert asked["say"] == "Room / machine / ring, such as 68 / 70 / 71 °F"
    b.do("readied", {**READY, "temperatures": "20 °C"})
    m = Machinist(b, RigidHead(mill(), 0.0, 0.0)).work("sign")
    assert "68.0 °F" in " ".join(m.bench.console["notes"])


def test_it_can_be_taken_back_and_ticked_anew():
    b = opened()
    b.do("readied", READY)
    b.do("undo")
    assert b.job.step == "table"


def of(seat, written):
    b = opened(seat=seat)
    b.do("readied", {**READY, "temperatures": written})
    return b


@pytest.mark.parametrize(
    ("seat", "written", "read"),
    [
        ("ring", "20 / 21.5 / 23 °C", (20.0, 21.5, 23.0)),
        ("plate", "68 °F / 68 F / 20 °C", (20.0, 20.0, 20.0)),
        ("ring", "20//23 °C", (20.0, None, 23.0)),
        ("ring", "- / 21 / 23 degC", (None, 21.0, 23.0)),
        ("table", "20 / 21 °C", (20.0, 21.0, None)),
    ],
)
def test_room_machine_and_ring_are_read_in_one_line(seat, written, read):
    b = of(seat, written)
    found = told(b, "TableReadied")[-1].found
    assert (found.temperature_c, found.machine_c, found.ring_c) == pytest.approx(read, abs=1e-9)
    m = Machinist(b, RigidHead(mill(), 0.0, 0.0)).work("clear")
    shown = [
        f"{of} {celsius:.1f} °C"
        for of, celsius in zip(("room", "machine", seat), read, strict=True)
        if celsius is not None
    ]
    assert m.bench.console["numbers"]["condition"].endswith(", ".join(shown) + ".")
    assert "Temperature: " + ", ".join(shown) in m.work("sign").bench.console["notes"]
    signed = m.finish()
    assert ", ".join(shown) in en(signed.measurand)
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_an_inch_shop_is_told_how_far_apart_they_are_in_its_own_scale():
    b = opened(unit="in", seat="ring")
    b.do("readied", {**READY, "temperatures": "68 / 68 / 77 °F"})
    assert "are 9.0 °F apart" in b.console["message"]["say"]


@pytest.mark.parametrize(
    ("seat", "written", "found"),
    [("table", "20 / 21 / 22 °C", "2"), ("ring", "1 / 2 / 3 / 4 °C", "3"), ("ring", "/20 K", "K")],
)
def test_what_the_line_does_not_ask_is_refused(seat, written, found):
    said = en(opened(seat=seat).refused("readied", {**READY, "temperatures": written}))
    assert found in said and "allowed" in said


# Steel grows 11.5e-6 a kelvin (textbook); rectangular (JCGM 100, 4.3.7).
@pytest.mark.parametrize(
    ("written", "warmer_k", "note"),
    [
        ("", 1.0, "note-temperature"),
        ("20 °C", 1.0, "note-temperature"),
        ("20 / 21 °C", 1.0, "note-temperature"),
        ("20 / 20 / 20 °C", 0.5, "note-temperature-read"),
        ("20 / 20.2 / 19.9 °C", 0.8, "note-temperature-read"),
        ("18 / 20 / 23 °C", 5.5, "note-temperature-more"),
        ("/ 68 / 70.7 °F", 2.0, "note-temperature-more"),
    ],
)
def test_the_ring_is_in_doubt_by_what_was_read_of_it_and_says_so_where_that_is_more(
    written, warmer_k, note
):
    b = of("ring", written)
    more = note == "note-temperature-more"
    assert ("apart" in b.console["message"]["say"] if b.console["message"] else False) is more
    m = Machinist(b, RigidHead(mill(), 0.0, 0.0)).work("clear")
    terms = m.bench.job.sweeps.latest.budgets.side.terms
    term = next(each for each in terms if each.code == "term-temperature")
    grown_mm = 11.5e-6 * b.setup.machine.uncertainty.thickness * warmer_k
    assert term.u_mm == pytest.approx(grown_mm / math.sqrt(3.0))
    assert term.note.code == note and en(term.note)
