"""Samples to stored bytes and back, whatever bytes a frame holds."""

from hypothesis import given
from hypothesis import strategies as st

from daq.audit import evidence
from daq.words import Sample

samples = st.builds(
    Sample,
    gauge=st.sampled_from(["arm", "bar"]),
    run=st.sampled_from(["r1", "r2"]),
    n=st.integers(0, 2**40),
    mono_ns=st.integers(0, 2**62),
    text=st.text(st.characters(exclude_categories=["Cs"]), max_size=8),
    unit=st.sampled_from(["mm", "in"]),
    value_mm=st.floats(-50, 50),
    flags=st.tuples() | st.tuples(st.text(st.characters(exclude_categories=["Cs"]), max_size=4)),
    raw=st.binary(max_size=12),
)


@given(st.lists(samples, max_size=6))
def test_what_is_stored_is_read_back(given_samples):
    assert evidence.decode(evidence.encode(given_samples)) == tuple(given_samples)


def test_a_byte_that_some_take_for_the_end_of_a_line():
    sample = Sample("g", "r", 0, 1, "1.285", "mm", 1.285, (), b"\x00\x12\x85\x03")
    assert evidence.decode(evidence.encode([sample])) == (sample,)
