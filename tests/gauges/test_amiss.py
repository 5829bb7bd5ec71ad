"""Frames that come, and are no good: without a number, in another unit, or no frames at all."""

import random

import pytest

from daq.gauges import config
from daq.gauges.hearing import Hearing
from daq.virtual.uart import LineEnd, resample
from tests.gauges.conftest import gauge_table
from tests.rigs.shelf import SHELF
from tests.words import en

MS = 1_000_000
S = 1000 * MS
TEXT = {"shape": "text", "pattern": r"(?P<sign>[+-])(?P<value>\d{2}\.\d{3}) (?P<unit>mm)"}
LEARNED = {"shape": "text", "pattern": r"(?P<sign>[+-])(?P<value>\d{2}\.\d{3}) MM", "unit": "mm"}
BARE = {
    "shape": "text",
    "pattern": r"ID4 (?P<sign>[+-])(?P<value>\d\.\d{3})",
    "unit": "mm",
    "terminator": "\r",
}
FIXED = {
    "shape": "text",
    "pattern": r"N(?P<sign>[+-])(?P<value>\d{2}\.\d{3})mm",
    "unit": "mm",
    "length": 10,
}
PACKED = {
    "shape": "bcd",
    "layout": ["filler ff", "digits 6", "unit", "filler 3", "sign", "filler f"],
    "signs": {"0": "+", "1": "-"},
    "units": {"0": "mm"},
    "places": 3,
}
HEX = {
    "shape": "bcd",
    "packing": "hex",
    "layout": ["sign", "digits 6"],
    "signs": {"a": "+", "b": "-"},
    "unit": "mm",
    "places": 3,
    "terminator": "\r",
}
BITS = {
    "shape": "bits",
    "layout": ["fixed 10010110", "sign", "fixed 0", "magnitude 14"],
    "signs": {"0": "+", "1": "-"},
    "unit": "mm",
    "step": {"mm": 0.001},
    "apart": "pause",
}
SINGLE = LEARNED | {"pattern": r"(?P<sign>[+-])(?P<value>\d{2}\.\d{3})", "terminator": "\r"}
FIELDS = {
    "shape": "fields",
    "layout": ["text CH2;", "any", "text ;P", "number 2.3", "text \x20MM;*", "check"],
    "terminator": "\r\n",
    "unit": "mm",
    "check": {"kind": "xor", "over": [0, -3]},
}

NO_NUMBER = [
    (TEXT, b"LIMIT\r\n"),
    (TEXT, b"---.--- mm\r\n"),
    (TEXT, b"+      . mm\r\n"),
    (LEARNED, b"Err 5\r\n"),
    (BARE, b"ID4 ------\r"),
    (FIXED, b"N--.---mm "),
    (PACKED, bytes.fromhex("ffaaaaaa030f")),
    (PACKED, bytes.fromhex("ffffffff030f")),
    (HEX, b"-------\r"),
    (HEX, b"AFFFFFF\r"),
]
OTHER_UNIT = [
    (TEXT, b"+0.04567 in\r\n"),
    (TEXT, b"+00.456 in\r\n"),
    (LEARNED, b"-0.04567 IN\r\n"),
    (LEARNED, b'-0.04567 "\r\n'),
    (BARE, b"ID4 +0.04567\r"),
    (SINGLE, b'+0.0456"\r'),
    (PACKED, bytes.fromhex("ff045670130f")),
    (PACKED, bytes.fromhex("ff045670150f")),
    (BITS, bytes.fromhex("965234")),
]
FEWER_DIGITS = [
    (TEXT, b"+00.45 mm\r\n"),
    (TEXT, b"-01.2 mm\r\n"),
    (LEARNED, b"+00.45 MM\r\n"),
    (BARE, b"ID4 +0.45\r"),
    (SINGLE, b"+00.45\r"),
    (FIELDS, b"CH2;10:07:55;P01.23 MM;*5B\r\n"),
]
OTHER_FRAMES = [
    (TEXT, b"CH2;10:07:55;+00.456;OK\r\n"),
    (LEARNED, b"Q7 +00.456 MM 88 1 22\r\n"),
    (BARE, b"ID5 +0.456\r"),
    (PACKED, b"+00.456 mm\r\n"),
    (BITS, b"+00.456 mm\r\n"),
    (FIELDS, b"CH2;10:07:55;P01.234 MM\r\n"),
]
GARBAGE = [
    (TEXT, b"+001.234 mm\r\n"[:6] + b"\xf8\x00\r\n"),
    (TEXT, b"\x00\x80\xf8\r\n"),
    (PACKED, bytes.fromhex("1234567890ab")),
    (HEX, b"\xc1\xb0\xb0\xb0\xb0\xb0\xb0\x8d"),
]
GOOD = {
    id(TEXT): b"+00.456 mm\r\n",
    id(LEARNED): b"+00.456 MM\r\n",
    id(BARE): b"ID4 +0.456\r",
    id(FIXED): b"N+00.456mm",
    id(PACKED): bytes.fromhex("ff000456030f"),
    id(HEX): b"a000456\r",
    id(BITS): bytes.fromhex("960234"),
    id(SINGLE): b"+00.456\r",
    id(FIELDS): b"CH2;10:07:55;P01.234 MM;*6E\r\n",
}


def said(frame, sent, good=None):
    """The status after three seconds of these frames, with good ones before or not."""
    talk = {"interval": "100 ms", "pause": "20 ms"}
    hearing = Hearing(
        "dial", config.from_table(gauge_table(frame=frame, talk=talk), "test.toml"), "run", 0
    )
    at, status = 0, None
    for one in [good] * 10 * (good is not None) + list(sent):
        for block, after in ((one[:4], 5), (one[4:], 25), (b"", 70)):
            at += after * MS
            hearing.take(block, at)
        status = hearing.status(at) or status
    return status


@pytest.mark.parametrize("opened", ["on good frames", "on these"])
@pytest.mark.parametrize(("frame", "sent"), NO_NUMBER)
def test_a_word_or_dashes_in_place_of_the_number(frame, sent, opened):
    good = GOOD[id(frame)] if opened == "on good frames" else None
    status = said(frame, [sent] * 60, good)
    assert status.code == "no-number"
    assert en(status.say) == (
        "the frames look right, the number is missing: out of range, or the contact off?"
    )


@pytest.mark.parametrize("opened", ["on good frames", "on these"])
@pytest.mark.parametrize(("frame", "sent"), OTHER_UNIT)
def test_another_unit_than_the_files(frame, sent, opened):
    good = GOOD[id(frame)] if opened == "on good frames" else None
    status = said(frame, [sent] * 60, good)
    assert status.code == "other-unit"
    assert en(status.say) == (
        "the frames look right, but their unit is not the file's: was the unit key pressed?"
    )


@pytest.mark.parametrize("opened", ["on good frames", "on these"])
@pytest.mark.parametrize(("frame", "sent"), FEWER_DIGITS)
def test_fewer_digits_than_the_file_says(frame, sent, opened):
    good = GOOD[id(frame)] if opened == "on good frames" else None
    status = said(frame, [sent] * 60, good)
    assert status.code == "other-digits"
    assert "the number has fewer digits than the file says" in en(status.say)


@pytest.mark.parametrize("opened", ["on good frames", "on these"])
@pytest.mark.parametrize(("frame", "sent"), OTHER_FRAMES)
def test_another_gauges_frames(frame, sent, opened):
    good = GOOD[id(frame)] if opened == "on good frames" else None
    status = said(frame, [sent] * 60, good)
    assert status.code == "other-frames"
    assert "the speed is right, but they are not as the file says" in en(status.say)
    assert ("or no check value?" in en(status.say)) == ("check" in frame)


@pytest.mark.parametrize(("frame", "sent"), GARBAGE)
def test_what_is_no_frame_is_a_wrong_speed(frame, sent):
    assert said(frame, [sent] * 60, GOOD[id(frame)]).code == "garbled"
    assert said(frame, [sent] * 60).code == "wrong-settings"


@pytest.mark.parametrize("frame", [TEXT, LEARNED, BARE, FIXED, PACKED, HEX, BITS, SINGLE])
def test_bytes_at_random_are_a_wrong_speed(frame):
    rng = random.Random(3)
    sent = [rng.randbytes(9) + b"\r\n" for _ in range(60)]
    assert said(frame, sent).code == "wrong-settings"


@pytest.mark.parametrize(
    "received", [LineEnd(4800), LineEnd(19200), LineEnd(9600, 7, "odd")], ids=str
)
@pytest.mark.parametrize("key", ["text-plain", "bcd-packed"])
def test_a_wrong_speed_is_called_so(key, received):
    wire = SHELF[key].wire
    frame = TEXT | {"pattern": TEXT["pattern"].replace("2", "3")} if key == "text-plain" else PACKED
    # A byte with a wrong parity or stop bit is read as 0: so the link sets the terminal.
    sent = [
        resample(wire.encode(counts, "mm"), LineEnd(9600), received, framing="zero", parity="zero")
        for counts in range(60)
    ]
    assert said(frame, sent).code == "wrong-settings"


@pytest.mark.parametrize("frame", [TEXT, LEARNED, BARE, FIXED, PACKED, HEX, BITS, SINGLE, FIELDS])
def test_good_frames_are_well(frame):
    assert said(frame, [GOOD[id(frame)]] * 60).code == "ok"


def test_numbers_and_words_in_turn_are_no_fault():
    good = GOOD[id(TEXT)]
    assert said(TEXT, [good, b"LIMIT\r\n"] * 20).code == "ok"


def test_a_digit_lost_now_and_then_is_no_unit():
    sent = [b"+0.456 mm\r\n", b"+00.4 56 mm\r\n"] * 30
    assert said(TEXT, sent).code == "wrong-settings"
