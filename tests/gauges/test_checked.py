"""Check values: what they are, and that a frame they do not fit is refused and counted as such."""

import binascii
import itertools
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.gauges import config, frames
from daq.gauges.frames.shared.checked import CRCS, KINDS, Check
from daq.gauges.hearing import Hearing
from daq.settings import SettingsError
from tests.gauges.conftest import gauge_table
from tests.words import en, faults

PUBLISHED = {
    "crc-8/smbus": 0xF4,
    "crc-8/i-432-1": 0xA1,
    "crc-8/rohc": 0xD0,
    "crc-8/nrsc-5": 0xF7,
    "crc-8/dow": 0xA1,
    "crc-8/sae-j1850": 0x4B,
    "crc-8/darc": 0x15,
    "crc-8/cdma2000": 0xDA,
    "crc-16/arc": 0xBB3D,
    "crc-16/modbus": 0x4B37,
    "crc-16/usb": 0xB4C8,
    "crc-16/umts": 0xFEE8,
    "crc-16/cms": 0xAEE7,
    "crc-16/xmodem": 0x31C3,
    "crc-16/ccitt-false": 0x29B1,
    "crc-16/aug-ccitt": 0xE5CC,
    "crc-16/genibus": 0xD64E,
    "crc-16/kermit": 0x2189,
    "crc-16/mcrf4xx": 0x6F91,
    "crc-16/x-25": 0x906E,
    "crc-16/dnp": 0xEA82,
}
"""Of "123456789", as the Catalogue of parametrised CRC algorithms (G. Cook) has it as "check".

Written down from memory; each follows from the parameters beside its name there.
"""

TEXT = {
    "shape": "text",
    "pattern": r"N(?P<sign>[+-])(?P<value>\d{2}\.\d{3})\*[0-9A-F]{2}",
    "unit": "mm",
}
PACKED = {
    "shape": "bcd",
    "layout": ["filler aa", "sign", "filler c", "digits 6", "any 4"],
    "signs": {"0": "+", "1": "-"},
    "unit": "mm",
    "places": 3,
    "terminator": "\xee",
}
BITS = {
    "shape": "bits",
    "layout": ["sign", "magnitude 15", "any 8"],
    "signs": {"0": "+", "1": "-"},
    "unit": "mm",
    "step": {"mm": 0.001},
    "apart": "pause",
}


def text(check, number):
    over = b"N%+07.3f*" % number
    return over[:-1] + b"*" + check.written(over[1:-1]) + b"\r\n"


def packed(check, number):
    over = b"\xaa" + bytes([0x1C if number < 0 else 0x0C])
    over += bytes.fromhex(f"{abs(number) * 1000:06.0f}")
    return over + check.written(over) + b"\xee"


def bits(check, number):
    over = (round(abs(number) * 1000) | (number < 0) << 15).to_bytes(2, "big")
    return over + check.written(over)


SHAPES = [
    (TEXT, {"kind": "xor", "over": [1, -3]}, text),
    (TEXT, {"kind": "sum", "over": [1, -3]}, text),
    (TEXT, {"kind": "crc-8/smbus", "over": [1, -3]}, text),
    (PACKED, {"kind": "crc-16/modbus", "sent": "low-first"}, packed),
    (PACKED, {"kind": "sum-16", "sent": "high-first"}, packed),
    (BITS, {"kind": "crc-8", "sent": "high-first", "poly": 0x31, "init": 0xFF}, bits),
    (BITS, {"kind": "sum-to-zero", "sent": "high-first"}, bits),
]
each_shape = pytest.mark.parametrize(
    ("frame", "check", "written"), SHAPES, ids=[check["kind"] for _, check, _ in SHAPES]
)
NUMBERS = [0.0, 1.234, -0.001, 31.999, -7.77, 12.345]


def said(made, frame, wire):
    found = made.feed(wire)
    if frame.get("apart") == "pause":
        made.gap()
        found += made.feed(b"")
    return [each.value for each in found]


def decoder(frame, check):
    made = frames.decoder({**frame, "check": check}, "gauge.toml")
    made.gap()
    return made


@pytest.mark.parametrize("name", CRCS)
def test_a_crc_has_its_published_check_value(name):
    assert Check(kind=name).value(b"123456789") == PUBLISHED[name]


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.binary(max_size=40))
def test_two_crcs_are_those_of_the_standard_library(data):
    assert Check(kind="crc-16/xmodem").value(data) == binascii.crc_hqx(data, 0)
    assert Check(kind="crc-16/ccitt-false").value(data) == binascii.crc_hqx(data, 0xFFFF)


@pytest.mark.parametrize(
    ("changes", "written"),
    [
        ({"kind": "xor"}, b"31"),  # of ASCII 1 to 9 by hand: 0x31
        ({"kind": "sum", "sent": "high-first"}, b"\xdd"),  # 9 × 0x30 + 45 = 477 = 0x1DD
        ({"kind": "sum-16", "sent": "high-first"}, b"\x01\xdd"),
        ({"kind": "sum-16", "sent": "hex-low-first"}, b"DD01"),
        ({"kind": "sum-to-zero", "sent": "low-first"}, b"\x23"),
        ({"kind": "sum", "sent": "character"}, b"\x5d"),
        ({"kind": "crc-16/modbus", "sent": "low-first"}, b"\x37\x4b"),
        ({"kind": "crc-16", "poly": 0x8005, "init": 0xFFFF, "reflect": True}, b"4B37"),
    ],
)
def test_a_check_value_as_it_is_sent(changes, written):
    check = Check(**changes)
    assert check.written(b"123456789") == written
    assert len(written) == check.size
    assert check.holds(b"123456789" + written)
    assert not check.holds(b"123456788" + written)
    assert not check.holds(written)


def test_it_may_stand_anywhere():
    check = Check(kind="xor", over=(3, -1), at=1)
    assert check.holds(b"<31123456789>")
    assert check.holds(b"<31123456789\r")
    assert not check.holds(b"<32123456789>")


@each_shape
def test_every_frame_with_a_bit_turned_over_is_refused_and_counted(frame, check, written):
    made, made_by = decoder(frame, check), Check(**check)
    for number in NUMBERS:
        wire = written(made_by, number)
        said(made, frame, wire)
        assert said(made, frame, wire) == [number]
        for at, bit in itertools.product(range(len(wire)), range(8)):
            hit = wire[:at] + bytes([wire[at] ^ 1 << bit]) + wire[at + 1 :]
            if hit[:-2].upper() == wire[:-2].upper() and frame is TEXT:
                continue  # the other case of a hexadecimal character says the same
            found = said(made, frame, hit) + said(made, frame, wire) + said(made, frame, wire)
            assert set(found) == {number}
            assert len(found) < 3
    assert 0 < made.damaged <= made.bad


@pytest.mark.parametrize("count", [3000, pytest.param(1_000_000, marks=pytest.mark.long)])
def test_no_burst_of_16_bits_gets_by_a_crc_of_16_and_few_longer_ones_do(count):
    check, rng = Check(kind="crc-16/kermit", sent="low-first"), random.Random(7)
    longer = 0
    for _ in range(count):
        over = rng.randbytes(9)
        # The bits in the order in which the CRC takes them: it is reflected, each byte's lowest
        # first, and so is its own low byte.
        wire = int.from_bytes(over + check.written(over), "little")
        burst = (rng.getrandbits(16) | 1) << rng.randrange(88 - 16)
        assert not check.holds((wire ^ burst).to_bytes(11, "little"))
        burst = (rng.getrandbits(40) | 1 | 1 << 39) << rng.randrange(88 - 40)
        longer += check.holds((wire ^ burst).to_bytes(11, "little"))
    # One of 65,536 gets by in the mean, 1.5e-5.
    assert longer <= max(1.0, 3e-5 * count)


@each_shape
def test_where_no_frame_fits_its_check_value_it_is_said(frame, check, written):
    talk = {"interval": "100 ms", "pause": "20 ms"}
    table = gauge_table(frame={**frame, "check": check}, talk=talk)
    hearing, wire = Hearing("dial", config.from_table(table, "t"), "run", 0), b""
    for number in range(60):
        wire = bytearray(written(Check(**check), number / 1000))
        wire[{"text": -7, "bcd": -4, "bits": -1}[frame["shape"]]] ^= 1
        hearing.take(bytes(wire), number * 100_000_000)
        hearing.take(b"", number * 100_000_000 + 50_000_000)
    status = hearing.status(6_000_000_000)
    assert status.code == "damaged"
    assert "not one fits its check value" in en(status.say)
    assert hearing.wire().damaged > 50


@pytest.mark.parametrize(
    ("check", "words"),
    [
        ({}, "frame.check.kind: missing; allowed: text"),
        ({"kind": "xor", "on": 1}, "frame.check: unknown key 'on'"),
        ({"kind": "crc-16/modbuz"}, "frame.check: found kind 'crc-16/modbuz'; allowed: one of"),
        ({"kind": "crc-16/modbuz"}, "nearest: crc-16/modbus"),
        ({"kind": "crc-16"}, 'found no poly with kind "crc-16"'),
        ({"kind": "xor", "poly": 7}, 'found a poly with kind "xor"'),
        ({"kind": "xor", "init": 7}, 'found init, reflect or xorout with kind "xor"'),
        ({"kind": "crc-8", "poly": 0x107}, "of more than 8 bits"),
        ({"kind": "xor", "over": [1, 2, 3]}, "found 3 numbers in over; allowed: from which byte"),
        ({"kind": "xor", "sent": "octal"}, 'frame.check.sent: found "octal"; allowed: one of'),
    ],
)
def test_a_wrong_check_is_told(check, words):
    with pytest.raises(SettingsError) as caught:
        frames.decoder({**TEXT, "check": check}, "gauge.toml")
    assert any(words in fault for fault in faults(caught.value)), faults(caught.value)


def test_every_kind_has_a_name_of_its_own():
    assert len(set(KINDS)) == len(KINDS)
    assert set(PUBLISHED) == set(CRCS)
