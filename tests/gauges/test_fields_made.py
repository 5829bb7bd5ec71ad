"""What is encoded from a definition decodes to the same values; a damaged frame to none."""

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.gauges import frames
from tests.gauges import fielded

steady = hypothesis.settings(deadline=None, derandomize=True, max_examples=40)
much = hypothesis.settings(deadline=None, max_examples=3000)


def decoded(made, defined, wires):
    found = []
    for wire in wires:
        found += made.feed(wire)
        if defined.table.get("apart") == "pause":
            made.gap()
            found += made.feed(b"")
    return found


def encoded_is_decoded(defined, data):
    numbers = data.draw(st.lists(st.integers(defined.lows, defined.highs), min_size=1, max_size=8))
    hypothesis.assume(all(abs(defined.value(number)) < 1e6 for number in numbers))
    made = frames.decoder({"shape": "fields", **defined.table}, "gauge.toml")
    made.gap()
    wires = [defined.wire(number) for number in numbers]
    found = decoded(made, defined, wires)
    assert [each.value for each in found] == [defined.value(number) for number in numbers]
    assert made.bad == made.damaged == 0
    if defined.sealed:
        at, bit = data.draw(st.integers(0, len(wires[0]) - 1)), data.draw(st.integers(0, 7))
        hit = bytearray(wires[0])
        hit[at] ^= 1 << bit
        said = [each.value for each in decoded(made, defined, [bytes(hit), wires[0], wires[0]])]
        assert set(said) <= {defined.value(numbers[0])}


@pytest.mark.parametrize("kind", [fielded.texts, fielded.counts, fielded.floats])
@steady
@given(data=st.data())
def test_what_is_encoded_from_a_definition_decodes_to_the_same(kind, data):
    encoded_is_decoded(data.draw(kind()), data)


@pytest.mark.parametrize(
    "kind",
    [
        pytest.param(kind, marks=pytest.mark.long)
        for kind in (fielded.texts, fielded.counts, fielded.floats)
    ],
)
@much
@given(data=st.data())
def test_so_are_thousands(kind, data):
    encoded_is_decoded(data.draw(kind()), data)
