"""Frames of other channels on the line: not ours, and not bad."""

import random

import pytest

from daq.gauges import frames
from daq.gauges.frames.shared.checked import Check
from tests.gauges.test_amiss import said
from tests.words import en

WORDS = {"OPEN": "no-contact", "Err 5": "error"}
OURS = {
    "shape": "fields",
    "layout": ["text CH2;", "any", "text ;", "sign", "number 3.3", "blanks", "unit"],
    "terminator": "\r\n",
    "words": WORDS,
}
GOOD = b"CH2;10:07;+001.234 mm\r\n"


def heard(wire, **changes):
    """What of the bytes is ours, and how many frames are bad."""
    made = frames.decoder({**OURS, **changes}, "gauge.toml")
    made.gap()
    return [(each.text, each.flags) for each in made.feed(wire)], made.bad


@pytest.mark.parametrize(
    "line",
    [
        b"CH3;10:07;+001.234 mm",
        b"CH9;;-999.999  in",
        b"ab0;10:07;+001.234 mm",
        b"CH3;10:07;---.--- mm",
        b"CH3;10:07;OPEN",
        b"CH3;10:07;Err 5",
    ],
)
def test_a_frame_of_another_channel_is_neither_ours_nor_bad(line):
    found = heard(GOOD + line + b"\r\n" + GOOD)
    assert found == ([("+001.234", ())] * 2, 0)


@pytest.mark.parametrize(
    "line",
    [
        b"CH2;10:07;+01.234 mm",
        b"CH3;10:07;+01.234 mm",
        b"CH3,10:07;+001.234 mm",
        b"C\x003;10:07;+001.234 mm",
        b"CH12;10:07;+001.234 mm",
        b"CH3;10:07;Err 6",
        b"CH2;10:07;---.--- mm",
        b"\xf8\x80\xf8",
    ],
)
def test_what_is_no_channels_frame_is_bad(line):
    assert heard(GOOD + line + b"\r\n" + GOOD)[1] == 1


def test_a_word_is_its_own_channels():
    assert heard(b"CH2;10:07;OPEN\r\nCH1;10:07;OPEN\r\nOPEN\r\n") == (
        [("OPEN", ("no-contact",))] * 2,
        0,
    )


def test_without_a_fixed_text_that_names_it_there_is_no_channel():
    layout = ["text ;", "sign", "number 3.3", "text  mm"]
    wire = b";+001.234 mm\r\n;+001.234 in\r\n"
    assert heard(wire, layout=layout, unit="mm") == ([("+001.234", ())], 1)


def test_the_channel_may_stand_behind():
    layout = ["sign", "number", "unit", "text ,3"]
    assert heard(b"+1.2mm,3\r\n+1.3mm,2\r\n", layout=layout) == ([("+1.2", ())], 0)


def test_a_damaged_frame_of_another_channel_is_bad():
    check = Check(kind="xor")
    layout = ["text CH2;", "sign", "number 3.3", "text *", "check"]

    def sealed(over):
        return over + check.written(over) + b"\r\n"

    wire = sealed(b"CH2;+001.234*") + sealed(b"CH3;+001.234*")
    table = {"layout": layout, "unit": "mm", "check": {"kind": "xor"}}
    assert heard(wire, **table) == ([("+001.234", ())], 0)
    assert heard(wire.replace(b"CH3;+001", b"CH3;+011"), **table)[1] == 1


def test_frames_of_several_lines():
    layout = [r"text A2:", "any", r"text \r\nB2:", "sign", "number", r"text \r\n"]
    ours, other = b"A2:0\r\nB2:+1.5\r\n\r\n", b"A1:0\r\nB1:+9.5\r\n\r\n"
    wire = (ours + other + other + ours) * 5
    assert heard(wire, layout=layout, unit="mm") == ([("+1.5", ())] * 10, 0)


def test_frames_between_silences():
    table = {"layout": ["text N2", "sign", "number"], "terminator": "", "apart": "pause"}
    made = frames.decoder({**OURS, **table, "unit": "mm"}, "gauge.toml")
    found = []
    for wire in (b"", b"N2+1.5", b"N1+9.5", b"N2+1.6", b"N2+x"):
        found += made.feed(wire)
        made.gap()
    assert [each.value for each in found + made.feed(b"")] == [1.5, 1.6]
    assert made.bad == 1


@pytest.mark.parametrize("opened", ["on good frames", "on these"])
def test_none_of_its_channel_is_no_wrong_speed(opened):
    good = GOOD if opened == "on good frames" else None
    status = said(OURS, [b"CH3;10:07;+001.234 mm\r\n", b"CH1;10:07;OPEN\r\n"] * 30, good)
    assert status.code == "other-channel"
    assert en(status.say) == (
        "frames come on its port, but none of its own: is its transmitter on, and its channel "
        "the file's?"
    )


def test_what_is_amiss_with_ours_is_said_though_others_come():
    others = [b"CH3;10:07;+001.234 mm\r\n", b"CH1;10:07;-001.234 mm\r\n"]
    assert said(OURS, [*others, b"CH2;;---.--- mm\r\n"] * 20).code == "no-number"
    assert said(OURS, [*others, b"CH2;10:07;+001.234 XX\r\n"] * 20).code == "other-unit"


def test_time_is_in_proportion_to_the_bytes():
    rng = random.Random(5)
    for part in (b"CH3;", b"CH", b"C", b";+", b"CH3;10:07;+001.234 mm"):
        wire = b"".join(part * rng.randrange(1, 40) + b"\r\n" for _ in range(2000))
        assert heard(wire)[1] > 100 or part.endswith(b"mm")
