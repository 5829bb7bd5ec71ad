"""From bytes alone to the frames: the shelf's gauges, and what was once captured."""

import math
import random
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from daq.gauges.learn import judge, scale
from daq.gauges.learn.evidence import Evidence
from daq.gauges.learn.framing import framing
from daq.gauges.learn.propose import propose
from daq.units import MM_PER
from daq.virtual.talk import Streaming
from daq.virtual.uart import LineEnd, resample
from daq.virtual.works import Works
from tests.rigs.shelf import SHELF

sys.path.append(str(Path(__file__).parent / "captures"))

import captured

UNDECODABLE = {"bits-complement"}
"""Neither content nor pauses tell its frames apart: no file could describe it."""

KNOWN = sorted(set(SHELF) - UNDECODABLE)
TEXT = [name for name in captured.names() if name.startswith("text-") and "fixed" not in name]


def wired(model):
    works = Works(model, random.Random(1))

    def frame(compression):
        look = works.look(compression)
        return (model.wire.over if look.over else b"") or model.wire.encode(look.counts, look.unit)

    return works, frame


def evidence(model, push, **known):
    """What is heard while the contact is worked, at rest and pushed."""
    _, frame = wired(model)
    top = min(2.0, model.travel_mm * 0.95)
    worked = tuple(frame(top * (0.5 - 0.5 * math.cos(k / 5.0))) for k in range(40))
    paused = not isinstance(model.talk, Streaming) or model.talk.interval_s > 0.025
    parts = (worked, (frame(0.0),) * 6, (frame(push),) * 6)
    if not paused:
        parts = tuple((b"".join(part),) for part in parts)
    return Evidence(
        *parts, push_mm=push, travel_mm=model.travel_mm, paused=paused,
        minus_at_rest=model.counts_up, **known,
    )  # fmt: skip


@pytest.mark.parametrize("key", KNOWN)
def test_each_gauge_is_found_from_its_bytes(key):
    model = SHELF[key]
    push = min(1.0, model.travel_mm * 0.6)
    best = propose(evidence(model, push))[0]
    assert best.counts_up == model.counts_up
    works, frame = wired(model)
    for compression in (0.0, 0.1, 0.35, push, 0.9 * model.travel_mm):
        found = judge.decoded(best.table, (frame(compression),) * 4)[-1]
        look = works.look(compression)
        size = model.wire.scales[look.unit].size_mm(look.unit)
        assert found.value * MM_PER[found.unit] == pytest.approx(look.counts * size, abs=1e-9)


@pytest.mark.parametrize("key", sorted(UNDECODABLE))
def test_what_no_file_can_describe_is_not_guessed(key):
    assert propose(evidence(SHELF[key], 1.0)) == []


def test_without_a_push_nothing_is_said_of_direction_and_scale():
    heard = evidence(SHELF["bcd-packed"], 1.0)
    best = propose(Evidence(heard.worked))[0]
    assert best.counts_up is None
    assert "No push was heard" in best.notes[0]


def test_a_sign_that_was_never_seen_is_said():
    _, frame = wired(SHELF["bcd-packed"])
    worked = tuple(frame(1.0 + k / 40.0) for k in range(40))
    best = propose(Evidence(worked, (frame(1.0),) * 3, (frame(2.0),) * 3, 1.0))[0]
    assert "how a minus is sent is not known" in best.notes[0]


def test_the_face_tells_which_symbol_is_minus():
    heard = evidence(SHELF["bcd-swapped"], 1.0)
    told = propose(heard)[0]
    other = propose(replace(heard, minus_at_rest=not heard.minus_at_rest))[0]
    untold = propose(replace(heard, minus_at_rest=None))[0]
    assert told.counts_up != other.counts_up
    assert told.table["signs"] == {"a": "+", "b": "-"}
    assert other.table["signs"] == {"b": "+", "a": "-"}
    assert told.notes == ()
    assert "compare with the gauge's face" in untold.notes[0]


@pytest.mark.parametrize("name", TEXT)
def test_a_captured_text_is_decoded_from_its_bytes_alone(name):
    capture = captured.load(name)
    golden, _ = capture.golden()
    best = propose(Evidence(worked=capture.pieces))[0]
    found = [(each.text, each.unit) for each in judge.decoded(best.table, capture.pieces)]
    assert found == [(each["text"], each["unit"]) for each in golden]


@pytest.mark.parametrize(
    ("sent", "heard"),
    [
        (LineEnd(9600, 8, "none"), (8, "none")),
        (LineEnd(9600, 7, "even"), (7, "even")),
        (LineEnd(9600, 7, "odd"), (7, "odd")),
        (LineEnd(9600, 7, "mark"), (7, "mark")),
    ],
)
def test_parity_shows_in_bytes_that_are_heard_without_it(sent, heard):
    text = b"+001.234 mm\r\n-056.789 in\r\n"
    assert framing(resample(text, sent, LineEnd(9600))) == heard


@pytest.mark.parametrize(
    ("counts", "push", "unit", "size"),
    [(1000, 1.0, "mm", 0.001), (-394, 1.0, "in", 0.0001), (79, 1.0, "in", 0.0005),
     (2001, 10.0, "mm", 0.005), (500, 1.0, "mm", 0.002), (50, 1.27, "in", 0.001)],
)  # fmt: skip
def test_a_push_gives_unit_and_step(counts, push, unit, size):
    best = scale.of_counts(counts, push)[0]
    assert (best.unit, best.size) == (unit, size)


def test_a_push_that_fits_no_step_gives_none():
    assert scale.of_counts(7, 1.0, (1,)) == []
    assert scale.of_number(3.0, 1.0) is None
