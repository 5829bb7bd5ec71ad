import hashlib
import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.ledger.body import decode, encode
from daq.ledger.chain import GENESIS_PREV, canonical, digest_bytes, digest_of, link

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | TEXT,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT, inner, max_size=4),
    max_leaves=20,
)


def test_canonical_text_is_compact_sorted_and_plain():
    value = {"b": [1, 2.5, None, True], "a": "größer ✓", "B": 1e-7}
    assert canonical(value) == '{"B":1e-07,"a":"größer ✓","b":[1,2.5,null,true]}'


@settings(derandomize=True, deadline=None)
@given(JSON)
def test_canonical_text_reads_back_the_same(value):
    text = canonical(value)
    assert json.loads(text) == value
    assert canonical(json.loads(text)) == text


@settings(derandomize=True, deadline=None)
@given(st.floats(allow_nan=False, allow_infinity=False))
def test_floats_come_back_bit_for_bit(number):
    back = json.loads(canonical(number))
    assert math.copysign(1.0, back) == math.copysign(1.0, number)
    assert back == number


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_refused(value):
    with pytest.raises(ValueError, match="JSON compliant"):
        canonical({"data": [value]})


def test_keys_that_are_not_text_are_refused():
    with pytest.raises(ValueError, match="key 1 is not text"):
        canonical({"data": [{1: "a", "1": "b"}]})


def test_broken_text_is_refused():
    with pytest.raises(ValueError, match="surrogates"):
        canonical("\ud800")


def test_what_json_cannot_carry_is_refused():
    with pytest.raises(TypeError, match="bytes"):
        canonical({"raw": b"1.234"})


def test_a_link_is_the_hash_of_both_in_a_row():
    # SHA-256 of "abc": FIPS 180-2, appendix B.1, from memory.
    known = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert link(b"a", b"bc").hex() == known
    assert digest_of(b"abc") == known
    assert link(GENESIS_PREV, b"x") == hashlib.sha256(b"\0" * 32 + b"x").digest()


@pytest.mark.parametrize("name", ["", "ab", "AB" * 32, " " + "ab" * 32, "ab" * 33, "zz" * 32])
def test_a_chunk_has_one_name(name):
    with pytest.raises(ValueError, match="found"):
        digest_bytes(name)
    assert digest_bytes("ab" * 32) == b"\xab" * 32


def test_a_body_says_where_it_stands(draft):
    found = json.loads(encode(draft(3, evidence=("ab" * 32,)), "uuid", 8))
    assert set(found) == {
        "ledger", "seq", "type", "v", "machine", "audit", "stamp", "actor", "cause", "data",
        "evidence",
    }  # fmt: skip
    assert (found["ledger"], found["seq"], found["evidence"]) == ("uuid", 8, ["ab" * 32])
    assert set(found["stamp"]) == {"mono_ns", "utc_us", "boot", "utc_trusted"}


@settings(derandomize=True, deadline=None)
@given(data=st.dictionaries(TEXT, JSON, max_size=4), actor=TEXT)
def test_a_body_reads_back_as_the_event(draft, data, actor):
    wanted = draft(1, data=data, actor=actor)
    event = decode(encode(wanted, "uuid", 2))
    assert (event.ledger, event.seq, event.data, event.actor) == ("uuid", 2, data, actor)
    assert event.stamp == wanted.stamp


@pytest.mark.parametrize("text", ["", "[]", "{}", '"a"', '{"stamp":{},"evidence":[]}'])
def test_other_text_is_no_event(text):
    with pytest.raises(ValueError):
        decode(text)
