"""Frames of decimal digits: exactly the digits sent, and nothing from a frame that is none."""

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.gauges.frames.bcd import SHAPE, BcdOptions
from daq.settings import SettingsError, build
from tests.words import faults

steady = hypothesis.settings(deadline=None, derandomize=True)

TABLE = {
    "layout": ["filler ffff", "sign", "digits 6", "places", "unit", "any"],
    "signs": {"0": "+", "8": "-"},
    "units": {"0": "mm", "1": "in"},
}


def decoder(**changes):
    table = {key: value for key, value in {**TABLE, **changes}.items() if value is not ...}
    return SHAPE.make(build(BcdOptions, table, "gauge.toml", under="frame"))


def on_the_wire(nibbles, packing="packed", low_first=False):
    """The bytes of nibbles written as hexadecimal digits."""
    if packing == "hex":
        return nibbles.encode()
    if packing == "single":
        return bytes(int(nibble, 16) for nibble in nibbles)
    pairs = zip(nibbles[::2], nibbles[1::2], strict=True)
    return bytes(int(b + a if low_first else a + b, 16) for a, b in pairs)


def texts(indications):
    return [each.text for each in indications]


FRAME = on_the_wire("ffff0001234300")


def test_a_frame():
    (one,) = decoder().feed(FRAME)
    assert one == ("+001.234", 1.234, "mm", (), FRAME)


@pytest.mark.parametrize(
    ("packing", "low"), [("packed", 0), ("packed", 1), ("hex", 0), ("single", 0)]
)
@pytest.mark.parametrize("lowest_first", [False, True])
@steady
@given(
    sign=st.sampled_from("+-"),
    digits=st.text("0123456789", min_size=6, max_size=6),
    places=st.integers(0, 6),
    unit=st.sampled_from(["mm", "in"]),
    rest=st.sampled_from("0123456789abcdef"),
)
def test_what_is_sent_is_read(packing, low, lowest_first, sign, digits, places, unit, rest):
    made = decoder(
        packing=packing,
        order="low-first" if low else "high-first",
        lowest_first=lowest_first,
        layout=TABLE["layout"] if packing == "packed" else TABLE["layout"][:-1],
    )
    sent = digits[::-1] if lowest_first else digits
    nibbles = f"ffff{'08'['+-'.index(sign)]}{sent}{places}{['mm', 'in'].index(unit)}"
    nibbles += rest if packing == "packed" else ""
    frame = on_the_wire(nibbles, packing, low)
    (one,) = made.feed(frame)
    assert one.raw == frame
    assert (one.unit, one.flags) == (unit, ())
    whole, point, part = one.text[1:].partition(".")
    assert one.text[0] == sign
    assert (len(part), bool(point)) == (places, places > 0)
    assert (whole + part).zfill(6)[-6:] == digits
    assert one.value == float(sign + digits) / 10**places


def test_large_and_small_hexadecimal_characters_are_the_same():
    made = decoder(packing="hex", layout=TABLE["layout"][:-1])
    assert texts(made.feed(b"FFFF000123430fffF800123430")) == ["+001.234", "-001.234"]


def test_decimals_by_unit_where_they_are_not_sent():
    layout = ["filler ff", "sign+unit", "digits 4", "filler e"]
    by_sign = {"0": "mm", "1": "mm", "2": "in", "3": "in"}
    combined = {"0": "+", "1": "-", "2": "+", "3": "-"}
    made = decoder(
        layout=layout,
        signs=combined,
        units=by_sign,
        places={"mm": 2, "in": 4},
    )
    found = made.feed(on_the_wire("ff01234eff31234e"))
    assert [each[:3] for each in found] == [("+12.34", 12.34, "mm"), ("-0.1234", -0.1234, "in")]
    made = decoder(layout=layout, signs=combined, units=by_sign, places=0)
    assert texts(made.feed(on_the_wire("ff01234e"))) == ["+1234"]


def test_no_sign_and_a_number_in_two_parts():
    layout = ["digits 2", "filler f", "digits 3"]
    made = decoder(layout=layout, signs=..., units=..., unit="in", places=3, apart="pause")
    made.gap()
    made.feed(on_the_wire("12f345"))
    made.gap()
    (one,) = made.feed(b"")
    assert one[:3] == ("12.345", 12.345, "in")


def test_flags_are_counted_in_the_order_sent():
    made = decoder(
        layout=["filler f", "flags", "digits 3", "flags"],
        signs=...,
        units=...,
        unit="mm",
        places=1,
        packing="hex",
        terminator=";",
        flags={"0": "weak-battery", "3": "", "6": "preset"},
    )
    found = made.feed(b";f11230;f01235;f8123c;f01230;")
    assert [each.flags for each in found] == [
        ("weak-battery",),
        ("flag-4", "preset"),
        ("preset", "flag-7"),
        (),
    ]


@pytest.mark.parametrize(
    "nibbles",
    [
        "fff00001234300",  # a filler
        "ffff1001234300",  # a sign that is none
        "ffff000a234300",  # a digit above nine
        "ffff0001234700",  # more decimals than digits
        "ffff0001234320",  # a unit that is none
    ],
)
def test_a_nibble_out_of_its_role_makes_the_frame_bad(nibbles):
    made = decoder()
    assert texts(made.feed(FRAME + on_the_wire(nibbles) + FRAME)) == ["+001.234"] * 2
    assert made.bad == 1


def test_each_single_bit_is_either_shown_or_one_of_a_digit_sign_places_or_unit():
    # What the frame can show: worked out nibble by nibble from the layout alone.
    legal = ["f"] * 4 + ["08"] + ["0123456789"] * 6 + ["0123456"] + ["01"] + ["0123456789abcdef"]
    for bit in range(len(FRAME) * 8):
        byte = bytearray(FRAME)
        byte[bit // 8] ^= 0x80 >> bit % 8
        found = decoder().feed(bytes(byte))
        nibble = byte.hex()[bit // 4]
        assert bool(found) == (nibble in legal[bit // 4])
        assert [each.raw for each in found] in ([], [byte])


def test_one_lost_byte_is_always_shown():
    stream = b"".join(on_the_wire(f"ffff0{number:06}300") for number in range(900, 950))
    whole = texts(decoder().feed(stream))
    for place in range(len(stream)):
        made = decoder()
        found = texts(made.feed(stream[:place] + stream[place + 1 :]))
        lost = place // len(FRAME)
        assert found == whole[:lost] + whole[lost + 1 :]


def test_a_pause_ends_a_frame():
    made = decoder()
    assert made.feed(FRAME + FRAME[:4]) != []
    made.gap()
    assert made.bad == 1
    assert made.feed(FRAME[4:]) == []
    assert texts(made.feed(FRAME)) == ["+001.234"]


BARE = {"signs": ..., "units": ..., "unit": "mm", "places": 3}


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"layout": []}, "found 0 symbols in layout; allowed: 1 to 128 in all"),
        ({"layout": ["digits 129"]}, "found 129 symbols"),
        ({"layout": ["digits 99999"]}, "found 129 symbols"),
        ({"layout": ["digit 6"]}, 'found "digit 6" in layout; allowed: "filler ff" for'),
        ({"layout": ["filler"]}, 'found "filler" in layout'),
        ({"layout": ["filler fg"]}, 'found "filler fg" in layout'),
        ({"layout": ["digits a"]}, 'found "digits a" in layout'),
        ({"layout": ["digits -1"]}, 'found "digits -1" in layout'),
        ({"layout": ["filler+sign f"]}, 'found "filler+sign f" in layout'),
        ({"layout": ["filler ff", "sign"]}, "found the unit nowhere"),
        ({"unit": "mm"}, "found the unit twice"),
        ({"signs": ...}, "found sign in layout but no signs; allowed: both or neither"),
        ({"units": ..., "unit": "mm"}, "found the unit twice"),
        ({"units": ...}, "found unit in layout but no units"),
        ({"signs": {"+": "+"}}, 'found "+" in signs; allowed: one of 0 1 2'),
        ({"units": {"10": "mm"}}, 'found "10" in units; allowed: one of 0 1 2'),
        ({"flags": {"0": "x"}}, "found flags but none in layout; allowed: both or neither"),
        ({"layout": [*TABLE["layout"][:-1], "flags"], "flags": {"4": "x"}}, 'found flag "4"'),
        ({"layout": ["sign", *TABLE["layout"]]}, "found sign more than once in layout"),
        ({"layout": [*TABLE["layout"], "any"]}, "found 15 symbols to be packed; allowed: 2 to"),
        ({"places": 3}, "found the number of decimals twice"),
        ({**BARE, "layout": ["filler f", "digits 5"], "places": ...}, "decimals nowhere"),
        ({**BARE, "layout": ["filler f", "digits 13"]}, "found 13 digits in layout; allowed: 1 to"),
        ({**BARE, "layout": ["filler f", "any 3"]}, "found 0 digits in layout"),
        ({**BARE, "layout": ["filler f", "digits 5"], "places": {"in": 1}}, "found places for in;"),
        (
            {**BARE, "layout": ["digits 6"], "signs": {"0": "+"}},
            "found signs but no sign in layout",
        ),
        ({"packing": "hex", "order": "low-first"}, "found an order of nibbles"),
        ({"terminator": "12345"}, "found terminator '12345'; allowed: at most 4 characters"),
        ({"terminator": "€"}, "found terminator '€'"),
        (
            {
                "layout": ["filler f", "sign+unit", "digits 4"],
                "signs": {"0": "+"},
                "units": {"1": "mm"},
                "places": 1,
            },
            "found no symbol that is allowed for sign and unit",
        ),
        ({**BARE, "layout": ["digits 6"]}, "found frames whose beginning could be the end"),
        (
            {**BARE, "layout": ["filler ff", "digits 2", "filler ff"]},
            "found frames whose beginning",
        ),
        ({**BARE, "layout": ["filler ff", "any 2", "digits 2"]}, "found frames whose beginning"),
        (
            {
                **BARE,
                "layout": ["filler f", "digits 2", "any 125"],
                "packing": "hex",
                "terminator": "\r",
                "apart": "pause",
            },
            "found a frame of 129 bytes; allowed: at most 128",
        ),
    ],
)
def test_options_that_would_need_guessing_are_refused(changes, words):
    with pytest.raises(SettingsError) as caught:
        decoder(**changes)
    (problem,) = faults(caught.value)
    assert problem.startswith("gauge.toml: frame: found ")
    assert "; allowed: " in problem
    assert words in problem


def test_frames_that_content_cannot_part_are_parted_by_pauses():
    made = decoder(**BARE, layout=["digits 6"], apart="pause")
    frame = on_the_wire("001234")
    assert made.feed(frame) == []  # it may be the end of something
    made.gap()
    assert made.feed(frame) == []
    made.gap()
    assert texts(made.feed(b"")) == ["001.234"]
    assert made.feed(b"") == []
