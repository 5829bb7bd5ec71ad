"""Any bytes to the decoder of every shape: no exception, and nothing grows.

A million bytes a shape; `sh tests/long tests/gauges/test_any_bytes.py` takes fifty.
"""

import math
import random
import sys
import tracemalloc
from pathlib import Path

import pytest

from daq.gauges import frames

sys.path.append(str(Path(__file__).parent / "captures"))

import captured

MILLION = 1_000_000
BLOCK = 2000


def mixed(rng, pieces):
    """Random bytes, and those of a capture with some changed: half a block of each."""
    known = bytearray(b"".join(pieces) * 40)[: BLOCK // 2]
    for _ in range(rng.randrange(40)):
        known[rng.randrange(len(known))] = rng.randrange(256)
    return bytes(known) + rng.randbytes(BLOCK - len(known))


@pytest.mark.parametrize("most", [MILLION, pytest.param(50 * MILLION, marks=pytest.mark.long)])
@pytest.mark.parametrize("shape", frames.names())
def test_any_bytes_end_in_indications_or_none(shape, most):
    captures = [captured.load(n) for n in captured.names() if n.startswith(f"{shape}-")]
    rng, each = random.Random(shape), most // len(captures)
    for capture in captures:
        made, held = capture.decoder(), 0
        for block in range(each // BLOCK):
            if block == 20:
                tracemalloc.start()
            elif block == 60:  # Python's own stores are filled; 40,000 bytes follow
                held = tracemalloc.get_traced_memory()[0]
            elif block == 80:
                assert tracemalloc.get_traced_memory()[0] - held < 10 * BLOCK
                tracemalloc.stop()
            for said in made.feed(mixed(rng, capture.pieces)):
                assert math.isfinite(said.value)
                assert said.unit in ("mm", "in")
            if block % 9 == 0:
                made.gap()
        assert made.bad > each // BLOCK // 10
        assert made.amiss(mixed(rng, capture.pieces)[-256:]) is None
