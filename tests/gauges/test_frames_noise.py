"""What noise on the wire can do, for every gauge there is a capture of.

Guaranteed for each shape: bytes that come in any pieces say the same; no value is ever
made but from the bytes of one whole frame; garbage costs none of the frames it does not
touch, and invents none but what it holds itself. A frame that a terminator closes is touched by
what stands right before it, too. What cannot be seen is published in each capture's header.
"""

import importlib
import math
import sys
import time
import tracemalloc
from functools import cache
from itertools import pairwise
from pathlib import Path

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

sys.path.append(str(Path(__file__).parents[1] / "benchmarks"))

noise = importlib.import_module("noise_rows")
specimens = importlib.import_module("specimens")

steady = hypothesis.settings(deadline=None, derandomize=True, max_examples=60)

GAUGES = [gauge for shape in noise.names() for gauge in specimens.specimens(shape)]
POOL = {gauge: gauge.frames(64, seed=5) for gauge in GAUGES}
FAULTS = 1500

each_gauge = pytest.mark.parametrize("gauge", GAUGES, ids=lambda gauge: gauge.capture.path.stem)
cuts = st.lists(st.integers(0, 400))
picks = st.lists(st.integers(0, 63) | st.binary(min_size=1, max_size=20), max_size=12)


def closing(gauge):
    """What closes a frame on the wire, if anything does."""
    frame = gauge.seen[0]
    return frame.wire[len(frame.said.raw) :]


def assembled(gauge, items):
    """Frames and garbage as a stream, each piece of garbage with the closing of its own."""
    parts = [
        item + closing(gauge) if isinstance(item, bytes) else POOL[gauge][item].wire
        for item in items
    ]
    return parts, [POOL[gauge][item].said for item in items if not isinstance(item, bytes)]


@each_gauge
@steady
@given(items=picks, cuts=cuts)
def test_bytes_in_any_pieces_say_the_same(gauge, items, cuts):
    stream = b"".join(assembled(gauge, items)[0])
    whole, split = gauge.capture.decoder(), gauge.capture.decoder()
    for made in (whole, split):
        made.gap()
    wanted = gauge.say(whole, stream)
    ends = sorted({min(cut, len(stream)) for cut in cuts} | {0, len(stream)})
    found = [one for a, b in pairwise(ends) for one in split.feed(stream[a:b])]
    split.gap()
    whole.gap()
    assert found + split.feed(b"") == wanted + whole.feed(b"")
    assert split.bad == whole.bad


@each_gauge
@steady
@given(items=picks)
def test_garbage_loses_no_whole_frame_and_invents_none(gauge, items):
    parts, sent = assembled(gauge, items)
    made, found = gauge.decoder(), []
    if gauge.pauses:
        for part in parts:
            found += gauge.say(made, part)
    else:
        found += made.feed(b"".join(parts))
    left = iter(found)
    assert all(said in left for said in sent)
    garbage = [part for part, item in zip(parts, items, strict=True) if isinstance(item, bytes)]
    # Two pieces of garbage side by side may hold a frame between them.
    invented = list(found)
    for said in sent:
        invented.remove(said)
    assert all(said.raw in b"".join(garbage) for said in invented)


@each_gauge
@steady
@given(first=st.integers(0, 63), second=st.integers(0, 63), place=st.integers(1, 40))
def test_nothing_is_spliced_over_a_silence(gauge, first, second, place):
    one, two = POOL[gauge][first], POOL[gauge][second]
    place = min(place, len(one.said.raw) - 1)
    made = gauge.decoder()
    found = made.feed(one.wire[:place])
    made.gap()
    # Were both halves put together, they would be a whole frame.
    found += gauge.say(made, two.wire[place:])
    assert found == []
    gauge.say(made, one.wire)
    assert gauge.say(made, two.wire) == [two.said]


@each_gauge
@steady
@given(blocks=st.lists(st.binary(max_size=300) | st.none()))
def test_no_bytes_make_it_fail(gauge, blocks):
    made, fed = gauge.capture.decoder(), b""
    for block in blocks:
        if block is None:
            made.gap()
        else:
            fed += block
        for said in made.feed(block or b""):
            assert said.raw in fed
            assert said.unit in ("mm", "in")
            assert math.isfinite(said.value)


def worst(gauge, count):
    """The bytes that a decoder may have the most work with: frames that break off late."""
    wire = POOL[gauge][0].wire
    return (wire[:-1] * (count // (len(wire) - 1) + 1))[:count]


@each_gauge
def test_little_is_kept_of_endless_garbage(gauge):
    made, block = gauge.capture.decoder(), worst(gauge, 4096)
    made.gap()
    made.feed(block)
    tracemalloc.start()
    try:
        before = tracemalloc.get_traced_memory()[0]
        for _ in range(100):
            made.feed(block)
        assert tracemalloc.get_traced_memory()[0] - before < 4096
    finally:
        tracemalloc.stop()
    assert made.bad > 100


@each_gauge
@pytest.mark.parametrize("block", [1, 64, 1 << 20])
def test_time_is_in_proportion_to_the_bytes(gauge, block):
    def cost(count):
        stream, best = worst(gauge, count), float("inf")
        for _ in range(3):
            made = gauge.capture.decoder()
            start = time.thread_time()
            for first in range(0, count, block):
                made.feed(stream[first : first + block])
            best = min(best, time.thread_time() - start)
        return best

    assert cost(20_000) < 40 * cost(2_000) + 1e-3  # were it quadratic: 100 times


@cache
def rows_of(gauge):
    """What each kind of fault does to a gauge's frames."""
    return noise.of_gauge(gauge, FAULTS, seed=11)


@each_gauge
def test_wrong_values_are_no_more_than_published(gauge):
    published = gauge.capture.residual
    rows = {row.kind: row for row in rows_of(gauge)}
    assert set(rows) == set(published)
    for kind, row in rows.items():
        rate = published[kind]
        scatter = 4.0 * math.sqrt(rate * (1.0 - rate) / FAULTS)
        assert row.rate <= rate + scatter, f"{kind}: {row.rate}, published {rate}"


@each_gauge
def test_frames_that_no_fault_touched_are_lost_only_where_a_terminator_was_hit(gauge):
    rows = rows_of(gauge)
    lost = sum(row.lost for row in rows)
    assert lost <= sum(row.faults for row in rows) if closing(gauge) else lost == 0


def test_a_shapes_faults_are_shared_out():
    rows = noise.residual("bcd", 1200, seed=1)
    assert {row.kind for row in rows} == set(noise.FAULTS)
    assert sum(row.faults for row in rows) == 1200
    assert rows == noise.residual("bcd", 1200, seed=1)
    assert any(row.wrong for row in rows if row.kind == "flip")
