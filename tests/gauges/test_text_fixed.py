"""Text frames of fixed length, and numbers that are sent without their decimal sign."""

import pytest

from daq.gauges.frames.text import SHAPE, TextOptions
from daq.settings import SettingsError, build
from tests.words import faults

PATTERN = r"(?P<sign>[+-])(?P<value>\d{6})(?P<unit>[MI])(?P<status>[ *])"
TABLE = {
    "pattern": PATTERN,
    "length": 9,
    "places": {"mm": 3, "in": 5},
    "units": {"M": "mm", "I": "in"},
    "flags": {" ": "", "*": "weak-battery"},
}


def decoder(**changes):
    table = {key: value for key, value in {**TABLE, **changes}.items() if value is not ...}
    return SHAPE.make(build(TextOptions, table, "gauge.toml", under="frame"))


def texts(indications):
    return [each.text for each in indications]


def test_a_frame():
    made = decoder()
    (one, two) = made.feed(b"+001234M -123456I*")
    assert one == ("+001.234", 1.234, "mm", (), b"+001234M ")
    assert two == ("-1.23456", -1.23456, "in", ("weak-battery",), b"-123456I*")


def test_whatever_stands_between_frames_is_passed_over():
    made = decoder()
    found = made.feed(b"34M +001234M ++-001235M \r\n+001236M +00123")
    assert texts(found) == ["+001.234", "-001.235", "+001.236"]
    assert made.bad == 2
    made.gap()
    assert made.bad == 3
    assert made.feed(b"7M ") == []


def test_one_lost_or_doubled_byte_is_always_shown():
    sent = [f"{'+-'[n % 2]}{n:06}M " for n in range(120, 140)]
    stream = "".join(sent).encode()
    whole = texts(decoder().feed(stream))
    assert len(whole) == 20
    for at in range(len(stream)):
        hit = at // 9
        lost = texts(decoder().feed(stream[:at] + stream[at + 1 :]))
        assert lost == whole[:hit] + whole[hit + 1 :]
        doubled = texts(decoder().feed(stream[: at + 1] + stream[at:]))
        assert doubled in (whole, whole[:hit] + whole[hit + 1 :])


def test_frames_parted_by_pauses():
    made = decoder(
        pattern=r" ?(?P<value>\d{1,2}\.\d)", apart="pause", length=4, places=..., unit="mm"
    )
    found = []
    for block in (b"12.3", b"12.4", b" 12.", b"4", b" 1", b"2.5"):
        found += made.feed(block)
        made.gap()
    assert texts(found) == ["12.4"]
    assert made.bad == 4


def test_a_frame_whose_bytes_fit_but_which_does_not_match_is_bad():
    made = decoder(
        pattern=r"(?P<value>\d{3})(?P<unit>IN|MM)", units={"IN": "in", "MM": "mm"}, length=5
    )
    assert texts(made.feed(b"001IN002IM003MM")) == ["0.00001", "0.003"]
    assert made.bad == 1


def test_a_unit_that_is_none_makes_a_bad_frame():
    made = decoder(units={"M": "mm"}, places={"mm": 3})
    assert texts(made.feed(b"+001234M +001234I +001235M ")) == ["+001.234", "+001.235"]
    assert made.bad == 1


@pytest.mark.parametrize(
    ("pattern", "places", "line", "text", "value"),
    [
        (r"(?P<sign>[+-])(?P<value>\d+)", 2, b"-1234", "-12.34", -12.34),
        (r"(?P<sign>[+-]?)(?P<value>\d+)", 3, b"5", "0.005", 0.005),
        (r"(?P<value>\d+)(?P<sign>[+-])", 3, b"1234-", "1.234-", -1.234),
        (r"(?P<value>\d+)", 0, b"1234", "1234", 1234.0),
    ],
)
def test_decimals_that_are_not_sent(pattern, places, line, text, value):
    made = decoder(pattern=pattern, places=places, length=..., unit="mm")
    (one,) = made.feed(b"\r\n" + line + b"\r\nx\r\n")
    assert (one.text, one.value, one.raw) == (text, value, line)
    assert made.bad == 1


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"terminator": "\r"}, "found both a terminator and a length; allowed: one of them"),
        ({"length": ..., "apart": "pause"}, 'found apart = "pause"; allowed: with a length only'),
        ({"length": 8}, "found length 8, but no frame of that length matches pattern"),
        (
            {"pattern": r"(?P<value>\d{9})", "unit": "mm", "places": 3},
            "found frames whose beginning",
        ),
        ({"places": {"mm": 3}}, "found places for mm; allowed: for in and mm"),
        (
            {"pattern": r"(?P<value>\d+\.\d)", "unit": "mm", "places": 1},
            "of digits alone in pattern",
        ),
        ({"units": {"€": "mm"}}, 'found "€" in units; allowed: characters of one byte each'),
    ],
)
def test_options_that_would_need_guessing_are_refused(changes, words):
    with pytest.raises(SettingsError) as caught:
        decoder(**changes)
    (problem,) = faults(caught.value)
    assert problem.startswith("gauge.toml: frame: found ")
    assert "; allowed: " in problem
    assert words in problem
