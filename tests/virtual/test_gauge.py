"""The face of the gauge and the frames on its wire."""

import random
import re

import pytest

from daq.virtual import GaugeSpec
from daq.virtual.frames import END, TRUNCATE_EVERY, Fault, Wire, number
from daq.virtual.gauge import Gauge

STEADY = GaugeSpec(zero_mm=0.0, noise_sd_mm=0.0)

FRAME = re.compile(rb"([+-])(\d+\.\d+) (mm|in)\r\n")


def gauge(spec: GaugeSpec) -> Gauge:
    return Gauge(spec, random.Random(1))


@pytest.mark.parametrize(
    ("counts", "places", "step", "unit", "text"),
    [
        (1234, 3, 1, "mm", "+001.234 mm"),
        (-60, 3, 1, "mm", "-000.060 mm"),
        (0, 3, 1, "mm", "+000.000 mm"),
        (-1, 2, 1, "mm", "-000.01 mm"),
        (971, 5, 5, "in", "+000.04855 in"),
        (-123456, 3, 1, "mm", "-123.456 mm"),
    ],
)
def test_the_face_is_written_as_specified(
    counts: int, places: int, step: int, unit: str, text: str
) -> None:
    assert number(counts, places, step, unit) == text


def test_the_number_grows_when_pushed_in_or_shrinks() -> None:
    assert gauge(STEADY).face(1.25) == "+001.250 mm"
    down = GaugeSpec(zero_mm=0.0, noise_sd_mm=0.0, counts_up=False)
    assert gauge(down).face(1.25) == "-001.250 mm"


def test_the_free_reading_is_steady_and_not_zero() -> None:
    one = gauge(GaugeSpec())
    assert {one.face(0.0) for _ in range(100)} == {"-000.350 mm"}
    assert one.face(-3.0) == "-000.350 mm"


def test_the_plunger_ends_at_its_travel() -> None:
    assert gauge(STEADY).face(20.0) == "+012.700 mm"


def test_noise_flickers_by_a_count_or_two() -> None:
    one = gauge(GaugeSpec(zero_mm=0.0))
    seen = {float(one.face(1.0).split()[0]) for _ in range(500)}
    assert len(seen) > 1
    assert all(abs(value - 1.0) <= 0.002 for value in seen)


def test_an_inch_is_25_4_millimetres() -> None:
    """25.4 mm exactly: NIST SP 811, from memory."""
    inch = GaugeSpec(unit="in", places=4, zero_mm=0.0, noise_sd_mm=0.0, travel_mm=26.0)
    assert gauge(inch).face(25.4) == "+001.0000 in"
    one = gauge(STEADY)
    one.press_unit()
    assert one.face(12.7) == "+000.50000 in"
    one.press_unit()
    assert one.face(12.7) == "+012.700 mm"
    other = gauge(inch)
    other.press_unit()
    assert other.face(25.4) == "+025.400 mm"


def test_pressing_zero_makes_it_read_zero_there() -> None:
    one = gauge(STEADY)
    one.press_zero(1.1)
    assert one.face(1.1) == "+000.000 mm"
    assert one.face(1.0) == "-000.100 mm"


def frames(fault: Fault, faces: list[str]) -> list[bytes]:
    wire = Wire(random.Random(2))
    wire.fault = fault
    return [wire.encode(face) for face in faces]


FACES = [f"+000.{n:03d} mm" for n in range(60)]


def test_a_sound_wire_sends_the_face_and_a_line_end() -> None:
    assert frames("none", FACES) == [face.encode() + END for face in FACES]


def test_junk_comes_before_whole_frames() -> None:
    for frame, face in zip(frames("junk", FACES), FACES, strict=True):
        assert frame.endswith(face.encode() + END)
        assert len(frame) > len(face) + len(END)
        assert FRAME.search(frame) is not None


def test_truncated_frames_lose_their_line_end_and_some_digits() -> None:
    sent = frames("truncated", FACES)
    broken = [f for f in sent if not f.endswith(END)]
    assert len(broken) == len(FACES) // TRUNCATE_EVERY
    assert not any(FRAME.fullmatch(f) for f in broken)
    assert all(f for f in broken)


def test_garbage_holds_no_frame_at_all() -> None:
    sent = b"".join(frames("garbage", FACES))
    assert len(sent) > 500
    assert FRAME.search(sent) is None


def test_a_stuck_gauge_repeats_itself_and_a_silent_one_says_nothing() -> None:
    wire = Wire(random.Random(2))
    wire.encode("+001.000 mm")
    wire.fault = "stuck"
    assert wire.encode("+002.000 mm") == b"+001.000 mm\r\n"
    wire.fault = "silent"
    assert wire.encode("+002.000 mm") == b""
    wire.fault = "none"
    assert wire.encode("+002.000 mm") == b"+002.000 mm\r\n"
