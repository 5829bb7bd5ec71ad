"""Frames said field by field: what could not be said before, exact frame for frame."""

import itertools
import random
import struct

import pytest

from daq.gauges import frames
from daq.settings import SettingsError
from tests.gauges.hand_written import (
    CHECK,
    CLASSES,
    LINES,
    MM,
    exponent,
    raw_counts,
    real,
    sealed,
    several_lines,
)
from tests.words import faults


@pytest.mark.parametrize("count", [300, pytest.param(10_000, marks=pytest.mark.long)])
@pytest.mark.parametrize("made_by", CLASSES)
def test_what_could_not_be_said_is_exact(made_by, count):
    rng = random.Random(made_by.__name__)
    sent = [made_by(rng.randrange(-99_999, 100_000) / 1000) for _ in range(count)]
    made = frames.decoder({"shape": "fields", **sent[0][0]}, "gauge.toml")
    made.gap()
    found = []
    for _, wire, _ in sent:
        found += made.feed(wire)
        if sent[0][0].get("apart") == "pause":
            made.gap()
            found += made.feed(b"")
    texts = [each.text for each in found]
    wanted = [text for _, _, text in sent]
    assert [float(text) for text in texts] == [float(text) for text in wanted]
    if made_by not in (raw_counts,):  # its number is shown in full
        assert [t.lstrip("-") for t in texts] == [w.lstrip("-") for w in wanted]
    assert (made.bad, made.damaged) == (0, 0)


def said(table, wire):
    made = frames.decoder({"shape": "fields", **table}, "gauge.toml")
    made.gap()
    return [(each.text, each.flags) for each in made.feed(wire)], made.bad


@pytest.mark.parametrize(
    ("table", "wire", "flag"),
    [
        ({"layout": ["sign", "number"]}, b"LIMIT\r\n", "over-travel"),
        ({"layout": ["sign", "number", "text  mm"]}, b" LIMIT  mm\r\n", "over-travel"),
        ({"layout": ["sign", "number"]}, b"OPEN\r\n", "no-contact"),
        ({"layout": ["sign", "number"]}, b"LO BAT\r\n", "battery-empty"),
        ({"layout": ["hex 4 signed"]}, b"7fff\r\n", "over-travel"),
    ],
)
def test_a_word_for_the_number_says_why_there_is_none(table, wire, flag):
    words = {"LIMIT": "over-travel", "OPEN": "no-contact", "LO BAT": "battery-empty"}
    words["7fff"] = "over-travel"
    found, bad = said(LINES | MM | table | {"words": words}, wire + b"garbled\r\n")
    assert [flags for _, flags in found] == [(flag,)]
    assert bad == 1


def test_a_float_that_is_no_number_is_none():
    table = MM | {"layout": ["bytes a5", "float 32", "check"], "check": CHECK}
    for odd in ("7fc00000", "ff800000", "7f000000"):
        assert said(table, sealed(b"\xa5" + bytes.fromhex(odd)))[0] == []
    nan = sealed(b"\xa5" + bytes.fromhex("7fc00000"))
    assert said(table | {"words": {"nan": "no-contact"}}, nan)[0] == [("nan", ("no-contact",))]


def test_a_float_is_shown_by_the_fewest_digits_that_are_it():
    table = MM | {"layout": ["bytes a5", "float 32", "check"], "check": CHECK}
    rng = random.Random(4)
    raws = [struct.pack(">f", rng.uniform(-100, 100)) for _ in range(300)]
    found, _ = said(table, b"".join(sealed(b"\xa5" + raw) for raw in raws))
    assert len(found) == len(raws)
    for raw, (text, _) in zip(raws, found, strict=True):
        assert struct.pack(">f", float(text)) == raw
        assert len(text) <= len(repr(struct.unpack(">f", raw)[0]))


WRONG = [
    ({"layout": ["numbr"]}, "found \"numbr\" in layout; allowed: text, bytes"),
    ({"layout": ["numbr"]}, "nearest: number"),
    ({"layout": ["number x"]}, 'allowed: "number", "number 6" or "number 2.3"'),
    ({"layout": ["any"]}, "found 0 numbers in layout; allowed: one of number"),
    ({"layout": ["number", "text ,", "number"]}, "found 2 numbers in layout"),
    ({"layout": ["number"], "unit": None}, "found the unit nowhere"),
    ({"layout": ["number", "unit"]}, "found the unit twice"),
    ({"layout": ["number"], "signs": {"R": "+"}}, "found signs but no sign in layout"),
    ({"layout": ["number"], "check": {"kind": "xor"}}, "found check but no check in layout"),
    ({"layout": ["number", "check"]}, 'found "check" in layout but no check'),
    ({"layout": ["sign", "sign", "number"]}, "found sign more than once"),
    ({"layout": ["sign", "hex 4 signed"]}, "found a sign beside a number that has its own"),
    ({"layout": ["hex 4", "exponent"]}, 'found exponent without "number"'),
    ({"layout": ["number", "text 12"]}, "before what may begin as it goes on"),
    ({"layout": ["bits 101", "number"]}, 'found 3 bits side by side in layout; allowed: whole'),
    ({"layout": ["number"], "terminator": ""}, "nothing that closes a frame"),
    ({"layout": ["number"], "terminator": "xx"}, "that do not overlap themselves"),
    ({"layout": ["number"], "apart": "pause"}, 'found a terminator with apart = "pause"'),
    ({"layout": ["number"], "scale": 0}, "found scale 0"),
    ({"layout": ["number"], "scale": {"in": 1.0}}, "found scale for in; allowed: for mm"),
    ({"layout": ["number"], "places": 10}, "frame.places"),
    ({"layout": ["number"], "words": {"": "error"}}, 'found "" in words'),
    ({"layout": ["number"], "words": {"X": "gone"}}, 'frame.words.X: found "gone"'),
    ({"layout": ["number", "flags"]}, "found flags in layout but nothing it may be"),
    ({"layout": ["any", "any", "number"]}, "before what may begin as it goes on"),
    ({"layout": ["any 5-2", "number"]}, "allowed: the lower number first"),
    ({"layout": ["bytes 01", "unsigned 16"], "terminator": ""}, "could be the end of another"),
    ({"layout": ["unsigned 65"]}, "allowed: 1 to 64 bits"),
    ({"layout": ["bytes 01", "unsigned 16", "check"], "terminator": "", "check": {"kind": "xor"}},
     "could be the end of another"),  # eight bits are too few to tell frames apart
    ({"layout": ["unsigned 16", "unit 8 bits"], "unit": None, "units": {"mm": "mm"}}, "not 8 bits"),
    ({"layout": ["number"], "check": {"kind": "xor"}, "laiout": 1}, "nearest known: 'layout'"),
    ({"layout": ["check", "number"], "check": {"kind": "xor", "at": 0}}, "found check.at"),
    ({"layout": ["any 300", "number"]}, "allowed: 1 to 128 characters in each"),
]  # fmt: skip


@pytest.mark.parametrize(("table", "words"), WRONG)
def test_a_mistake_is_told(table, words):
    table = {"shape": "fields", "terminator": "\r\n", "unit": "mm", **table}
    with pytest.raises(SettingsError) as caught:
        frames.decoder({k: v for k, v in table.items() if v is not None}, "gauge.toml")
    assert any(words in fault for fault in faults(caught.value)), faults(caught.value)


def test_time_is_in_proportion_to_the_bytes_whatever_repeats():
    table = (
        LINES
        | MM
        | {"layout": ["any", "text ;", "blanks", "text ;", "any 1-100", "text ;", "number"]}
    )
    for part in (b";", b" ", b"; ;", b"1"):
        assert said(table, part * 20_000 + b"\r\n")[1] > 100


def test_every_part_may_be_split_anywhere():
    for made_by in (several_lines, real, exponent):
        table, wire, _ = made_by(1.234)
        for at in range(len(wire)):
            made = frames.decoder({"shape": "fields", **table}, "gauge.toml")
            made.gap()
            found = [made.feed(part) for part in (wire[:at], wire[at:] + wire)]
            assert len(list(itertools.chain(*found))) == 2
