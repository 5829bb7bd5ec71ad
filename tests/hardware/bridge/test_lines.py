"""What a bridge says over its line, and what it can be told there."""

import binascii
import re
from pathlib import Path

import pytest

from daq.gauges import config, frames
from tests.hardware.bridge.said import asked, random_frame, ready, values
from tests.hardware.bridge.wires import CHECKED, POWERED, Wires, binary, digits, lines

EXAMPLE = Path(__file__).resolve().parents[3] / "config" / "gauges" / "example-bridge.toml"


def test_the_check_value_is_the_published_one(program):
    """CRC-16/IBM-3740 of "123456789" is 29B1: the catalogue of parametrised CRCs, from memory."""
    wires = Wires(0)
    wires.put(CHECKED, 9)
    assert lines(program, wires) == ["29B1"] == [f"{binascii.crc_hqx(b'123456789', 0xFFFF):04X}"]


def twice(wires, bits, times=2):
    """A gauge that sends that so often."""
    for _ in range(times):
        wires.take(wires.edges(bits))
    return wires


def said_last(program, wires):
    return lines(program, wires)[-1]


def test_no_clock_is_said_once_a_second(program):
    wires = Wires(1)
    wires.wait(10_400_000)
    assert lines(program, wires) == ["# no clock"] * 10


def test_the_counter_of_microseconds_may_run_over_in_a_frame(program):
    wires = ready(seed=2, now_us=2**32 - 290_000)
    assert values(lines(program, twice(wires, binary(-1234), 9))) == ["-12.34 mm"] * 8


@pytest.mark.parametrize(
    ("step", "inch", "value"),
    [
        ("coarse", False, "-12.34 mm"),
        ("coarse", True, "-0.6170 in"),
        ("fine", False, "-1.234 mm"),
        ("fine", True, "-0.06170 in"),
    ],
)
def test_what_a_count_is_worth_can_be_told(program, step, inch, value):
    wires = ready(seed=3)
    wires.typed(f"step {step}\r")
    assert values(lines(program, twice(wires, binary(-1234, inch=inch)))) == [value]


@pytest.mark.parametrize(
    ("bits", "value"),
    [
        (binary(0), "+0.00 mm"),
        (digits(-5, 0), "-5 mm"),
        (digits(123456, 5), "+1.23456 mm"),
        ([*binary(0)[:20], 1, 0, 0, 0], "+0.00 mm"),
    ],
)
def test_a_value_is_written_as_its_frame_has_it(program, bits, value):
    assert values(lines(program, twice(ready(seed=4), bits))) == [value]


@pytest.mark.parametrize("at", range(52))
def test_bits_that_no_frame_has_make_no_value(program, at):
    """A bit turned in a frame of nines: another value that there may be, or none."""
    bits = digits(999_999, 2)
    bits[at] ^= 1
    wires = twice(ready(seed=5), bits, 12)
    wires.wait(1_000_000)
    said = lines(program, wires)
    sign, digit = at == 19, 20 <= at < 44
    if sign or at == 48 or (digit and at % 4 in (0, 3)) or at in (44, 45):
        assert set(values(said)) - {"+9999.99 mm"} and len(values(said)) == 11
    else:
        assert values(said) == []
        assert "# no value: bits that no frame has there" in said


@pytest.mark.parametrize("bits", [binary(77)[:23], [*binary(77), 0], [1] * 60])
def test_another_length_is_told(program, bits):
    wires = twice(ready(seed=6), bits, 24)
    said = lines(program, wires)
    assert values(said) == []
    assert f"# no frame: {min(len(bits), 53)} bits" in said


@pytest.mark.parametrize("rising", [False, True])
def test_the_other_edge_is_told_when_data_move_with_it(program, rising):
    wires = ready(seed=7, rising=rising)
    wires.typed(f"edge {'falling' if rising else 'rising'}\r")
    said = lines(program, twice(wires, binary(0x55555), 24))
    assert values(said) == []
    assert "# no frame: data move with this edge, try the other" in said


@pytest.mark.parametrize("before_us", range(2, 20, 4))
def test_data_that_move_just_before_the_edge_are_not_believed(program, before_us):
    period_us = 500
    wires = ready(seed=8, jitter=0, moves=0.5 - before_us / period_us, period_us=period_us)
    wires.chance.random = lambda: 0.0
    assert values(lines(program, twice(wires, binary(0x55555), 4))) == []


@pytest.mark.parametrize("after_us", [-3000, 5, 100])
@pytest.mark.parametrize("what", ["lost", "typed"])
def test_levels_that_were_lost_cost_their_frame_and_the_next(program, what, after_us):
    """They may be lost while a command is kept, too."""
    wires = ready(seed=8)
    wires.typed("show")
    for nth in range(6):
        changes = wires.edges(binary(nth))
        at = changes[0 if after_us < 0 else 20][0] + after_us
        lost = [(at, what, ord("\r"))] if nth == 3 and what == "lost" else []
        if nth == 3 and what == "typed":
            lost = [(at - 9 + k, "typed", ord(c)) for k, c in enumerate("\rask off\r")]
        wires.take(changes + lost)
    assert values(lines(program, wires)) == ["+0.01 mm", "+0.02 mm", "+0.05 mm"]


def test_a_board_that_was_busy_sees_the_last_edge_in_its_place(program):
    wires = ready(seed=8, ends=True, moves=0.2)
    for nth in range(4):
        changes = wires.edges(binary(nth))
        wires.take([*changes, (changes[-1][0] + 1, "busy", 0)])
        wires.wait(20_000)
    assert values(lines(program, wires)) == ["+0.01 mm", "+0.02 mm", "+0.03 mm"]


@pytest.mark.parametrize("at", [21, 22])
def test_a_bit_that_means_nothing_known_makes_no_value(program, at):
    bits = binary(1234)
    bits[at] = 1
    assert values(lines(program, twice(ready(seed=8), bits, 4))) == []


def test_a_silence_parts_two_frames_that_were_alike(program):
    wires = twice(ready(seed=9), binary(5))
    wires.wait(2_500_000)
    assert values(lines(program, twice(wires, binary(6)))) == ["+0.05 mm", "+0.06 mm"]


def test_without_a_number_no_value_goes_out(program):
    wires = twice(Wires(10), binary(5), 30)
    said = lines(program, wires)
    assert set(said) == {"# no number: type number, a blank, what the housing says"}


def test_what_was_set_is_kept_over_a_power_cut(program):
    wires = ready(seed=11)
    for line in ("edge rising\n", "step fine\r\n", "ask on\r"):
        wires.typed(line)
    wires.put(POWERED)
    wires.typed("show\r")
    assert "# number 1024-E, edge rising, step fine, ask on" in lines(program, wires)[-2:]


@pytest.mark.parametrize(
    "line",
    ["number", "number ", "number 1024 E", f"number {'1' * 17}", "edge up", "x" * 300, "Number 7"],
)
def test_what_it_does_not_know_changes_nothing(program, line):
    wires = ready(seed=12)
    wires.typed(f"{line}\r")
    wires.typed("show\r")
    known, shown = lines(program, wires)[-2:]
    assert known.startswith("# known: show; number ")
    assert shown == "# number 1024-E, edge falling, step coarse, ask off"


def test_a_gauge_that_wants_to_be_asked_is_asked_until_its_clock_comes(program):
    wires = ready(seed=13)
    wires.typed("ask on\r")
    wires.wait(160_000)
    frame = wires.edges(binary(5))
    wires.take(frame, 100_000)
    first, gone, second, heard, third = asked(program, wires)[:5]
    assert gone - first == 50_000  # nothing came
    assert 100_000 <= second - first <= 100_500 and 100_000 <= third - second <= 100_500
    assert frame[1][0] + 20 <= heard <= frame[1][0] + 520
    wires.typed("ask off\r")
    before = asked(program, wires)
    wires.wait(500_000)
    assert asked(program, wires) == before


def test_the_example_reads_what_the_bridge_sends(program):
    """Values, and what is no value: the screens then say that the number is missing."""
    wires = ready(seed=14)
    wanted = []
    for _ in range(40):
        bits, value = random_frame("52 bits", wires.chance)
        wanted += [value] if wires.now_us > 100_000 else []
        wires.take(wires.edges(bits))
    gauge = config.read(EXAMPLE)
    decoder = frames.decoder(gauge.frame, EXAMPLE.name)
    text = "\r\n".join(["", *lines(program, wires)[1:], ""]).encode()
    found = [f"{each.text} {each.unit}" for each in decoder.feed(text)]
    assert found == wanted
    assert decoder.bad == 0
    assert gauge.line.baud == 38400


@pytest.mark.parametrize("line", ["# no clock", "# no frame: 23 bits", "# no number: type number"])
def test_a_line_without_a_value_is_known_for_that(line):
    decoder = frames.decoder(config.read(EXAMPLE).frame, EXAMPLE.name)
    said = f"\r\n{line}\r\n{line}\r\n".encode()
    assert decoder.feed(said) == []
    assert decoder.amiss(said) == "number"


def test_another_gauges_number_is_refused_once_the_file_names_its_own_and_a_damaged_line():
    frame = config.read(EXAMPLE).frame
    own = {**frame, "pattern": frame["pattern"].replace("[0-9A-Za-z-]+", "1024-E")}
    decoder = frames.decoder(own, EXAMPLE.name)
    told = [f"gauge {name} +1.00 mm 0001 ".encode() for name in ("1024-E", "1024-F", "1024-E")]
    checks = [binascii.crc_hqx(line, 0xFFFF) for line in told]
    checks[2] ^= 1  # damaged on its way
    sent = [b"%s%04X\r\n" % (line, check) for line, check in zip(told, checks, strict=True)]
    assert len(decoder.feed(b"\r\n" + b"".join(sent))) == 1
    assert decoder.bad == 2


def test_each_line_that_the_document_explains_is_one():
    """And no other: hardware/README.md has all that it says instead of a value."""
    document = (EXAMPLE.parents[2] / "hardware" / "README.md").read_text(encoding="utf-8")
    explained = re.findall(r"^\| `(# .+?)` \|", document, re.MULTILINE)
    source = (EXAMPLE.parents[2] / "hardware" / "bridge" / "bridge.c").read_text(encoding="utf-8")
    body = source.split("static void say_why", 1)[1].split("\n}", 1)[0]
    said = [line.replace("00", "23") for line in re.findall(r'"(# [^"]+?)\\r', body)]
    assert sorted(explained) == sorted(said)
