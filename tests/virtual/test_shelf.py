"""The shelf: many gauges, no two alike, each of which talks as it is described."""

import os
import random
import re
import select
import time
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest

from daq.virtual.model import GaugeModel
from daq.virtual.talk import OnKey, OnRequest, Streaming
from daq.virtual.wires import TextSpec
from daq.virtual.works import Works
from daq.words import Unit
from tests.patience import PATIENCE_S
from tests.rigs.bcd import BcdSpec
from tests.rigs.bits import BitsSpec
from tests.rigs.shelf import SHELF, on_tty

MODELS = list(SHELF.values())
PUSH_MM = 0.5

# The first frame with the contact in the air and pushed in by half a millimetre, by hand:
# (compression - zero) / size of a count, and minus when the number shrinks.
FIRST = {
    "text-plain": (b"-000.350 mm\r\n", b"+000.150 mm\r\n"),
    "text-trailing-sign": (b" 0.350 \r", b" 0.150-\r"),
    "text-comma": (b"  -0,350 mm\n", b"  0,150 mm\n"),
    "text-inch-asked": (b"-0.01380\r\n", b"+0.00590\r\n"),
    "text-status-letter": (b"G+00.350M\r\n", b"G-00.150M\r\n"),
    "text-no-end": (b"-    0.35mm", b"+    0.15mm"),
    "text-key-thrice": (b" 0.0138  in\r", b" 0.0059- in\r"),
    "text-inch-mark": (b"-000.350\r\n", b"000.150\r\n"),
    "text-enquiry": (b"\x02mm-000.350\x03", b"\x02mm+000.150\x03"),
    "text-lever": (b"-0.100\r\n", b"+0.400\r\n"),
    "bcd-packed": (bytes.fromhex("FF 00 03 50 03 1F"), bytes.fromhex("FF 00 01 50 03 0F")),
    "bcd-swapped": (bytes.fromhex("0A 50 03 00 03 FF"), bytes.fromhex("0B 50 01 00 03 FF")),
    "bcd-hex-asked": (b"1D0001384\r", b"1C0000594\r"),
    "bcd-single-key": (
        bytes.fromhex("0F 0F 0F 00 01 02 00 00 00 03 05 0A"),
        bytes.fromhex("0F 0F 0F 00 00 02 00 00 00 01 05 0A"),
    ),
    "bits-lsb": (bytes.fromhex("23 00 80 A5"), bytes.fromhex("0F 00 00 A5")),
    # 350 << 2 = 0x578; 150 << 2 = 0x258 with bit 20
    "bits-msb-asked": (bytes.fromhex("C3 00 05 78"), bytes.fromhex("C3 10 02 58")),
    # -700 is 0x1000000 - 0x2BC; 300 = 0x12C
    "bits-complement": (bytes.fromhex("55 80 FF FD 44 AA"), bytes.fromhex("55 80 00 01 2C AA")),
    # 0.01378 in = 28 half thousandths; 0.0059 in = 12, with bit 18
    "bits-inch": (bytes.fromhex("96 1C 00 B0"), bytes.fromhex("96 0C 00 B4")),
}


def test_every_kind_is_there() -> None:
    assert len(MODELS) >= 16
    assert {type(model.wire) for model in MODELS} == {TextSpec, BcdSpec, BitsSpec}
    assert {type(model.talk) for model in MODELS} == {Streaming, OnRequest, OnKey}
    assert {model.counts_up for model in MODELS} == {True, False}
    assert {model.unit for model in MODELS} == {"mm", "in"}
    assert {1200, 115200} <= {model.line.baud for model in MODELS}
    framings = {str(model.line).split()[1] for model in MODELS}
    assert {"7E1", "8N1", "8N2"} <= framings
    for one, other in combinations(MODELS, 2):
        assert one.wire != other.wire
        assert (one.line, one.talk) != (other.line, other.talk), (one.key, other.key)


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.key)
def test_its_whole_travel_fits_in_its_frames_and_its_frames_on_its_line(model: GaugeModel) -> None:
    works = Works(model, random.Random(0))
    for unit in model.wire.scales:
        works.unit = unit
        sizes = set()
        for tenth in range(11):
            look = works.look(model.travel_mm * tenth / 10.0)
            sizes.add(len(model.wire.encode(look.counts, look.unit)))
        if isinstance(model.talk, Streaming):
            assert model.line.seconds(max(sizes)) < model.talk.interval_s


def test_no_frame_names_a_unit_its_wire_cannot_show() -> None:
    units: set[Unit] = {"mm", "in"}
    assert all(
        set(model.wire.scales) <= units and model.unit in model.wire.scales for model in MODELS
    )


@pytest.mark.parametrize("key", SHELF)
def test_each_talks_on_a_tty(tmp_path: Path, key: str) -> None:
    free, pushed = FIRST[key]
    gauge = on_tty(key, tmp_path / "gauge")
    with gauge:
        port = os.open(tmp_path / "gauge", os.O_RDWR | os.O_NOCTTY)
        try:
            prompt(gauge.press_key, port, SHELF[key])
            assert came(port, len(free)) == free
            gauge.set(PUSH_MM)
            prompt(gauge.press_key, port, SHELF[key])
            assert wanted(port, pushed)
        finally:
            os.close(port)


def prompt(press_key: Callable[[], None], port: int, model: GaugeModel) -> None:
    if isinstance(model.talk, OnRequest):
        os.write(port, model.talk.request)
    elif isinstance(model.talk, OnKey):
        press_key()


def came(port: int, size: int) -> bytes:
    got = b""
    while len(got) < size and select.select([port], [], [], PATIENCE_S)[0]:
        got += os.read(port, size - len(got))
    return got


def wanted(port: int, frame: bytes) -> bool:
    got, end = b"", time.monotonic() + PATIENCE_S
    while frame not in got and select.select([port], [], [], PATIENCE_S)[0]:
        assert time.monotonic() < end
        got += os.read(port, 4096)
    return frame in got


def test_no_name_says_more_than_the_form_of_the_frames() -> None:
    assert all(re.fullmatch(r"(text|bcd|bits)-[a-z-]+", key) for key in SHELF)
