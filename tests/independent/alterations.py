"""What is done to a ledger's rows and evidence, drawn by hypothesis: each a function of `Kept`."""

import json

from hypothesis import strategies as st

from tests.independent.altered import CHUNKS, DIGESTS, STRAY

TEXTS = st.text(st.characters(blacklist_categories=("Cs",)), max_size=3)


@st.composite
def changes(draw, size=12):
    """A change of the rows or the evidence, as a function of what is kept."""
    at = draw(st.integers(0, size - 1))
    other = draw(st.integers(0, size - 1))
    return draw(st.sampled_from((*ROWS, *EVIDENCE)))(draw, at, other)


def flip(draw, at, other):
    n, bit = draw(st.integers(0, 400)), draw(st.integers(0, 6))

    def change(what):
        seq, body, stored = what.rows[at]
        n_th = n % len(body)
        body = body[:n_th] + bytes([body[n_th] ^ 1 << bit]) + body[n_th + 1 :]
        what.rows[at] = (seq, body, stored)

    return change


def hash_flip(draw, at, other):
    def change(what):
        seq, body, stored = what.rows[at]
        what.rows[at] = (seq, body, stored[:5] + bytes([stored[5] ^ 1]) + stored[6:])

    return change


def drop(draw, at, other):
    return lambda what: what.rows.pop(at)


def drop_and_count_anew(draw, at, other):
    def change(what):
        what.rows.pop(at)
        what.rows[at:] = [(seq - 1, body, stored) for seq, body, stored in what.rows[at:]]

    return change


def swap(draw, at, other):
    def change(what):
        (one, a, a_hash), (two, b, b_hash) = what.rows[at], what.rows[other]
        what.rows[at], what.rows[other] = (one, b, b_hash), (two, a, a_hash)

    return change


def out_of_order(draw, at, other):
    return lambda what: what.rows.insert(other, what.rows.pop(at))


def double(draw, at, other):
    return lambda what: what.rows.insert(other, what.rows[at])


def insert(draw, at, other):
    def change(what):
        after = [(seq + 1, body, stored) for seq, body, stored in what.rows[at:]]
        what.rows[at:] = [(at + 1, what.rows[other][1], what.rows[other][2]), *after]

    return change


def numbered(draw, at, other):
    seq = draw(st.integers(-3, 20))

    def change(what):
        what.rows[at] = (seq, *what.rows[at][1:])

    return change


def cut(draw, at, other):
    return lambda what: what.rows.__delitem__(slice(at, None))


def field_changed(draw, at, other):
    name, value = draw(
        st.one_of(
            st.tuples(st.just("ledger"), TEXTS),
            st.tuples(st.just("seq"), st.one_of(st.integers(0, 20), st.none(), st.booleans())),
            st.tuples(st.just("type"), st.sampled_from(("Signed", "AuditAttested", 7, "x"))),
            st.tuples(st.just("data"), st.sampled_from(({}, [], {"row": 7}, {"up_to": 3}))),
            st.tuples(st.just("evidence"), st.sampled_from(EVIDENCES)),
            st.tuples(st.just("stamp"), st.sampled_from(({}, None, {"boot": "x"}))),
            st.tuples(st.just("extra"), TEXTS),
        )
    )
    return lambda what: what.with_body(at, **{name: value})


EVIDENCES = ([], "", {}, [7], [None], ["AB" * 32], ["ab"], [STRAY], [DIGESTS[0]], [DIGESTS[2]])
EVIDENCES += ([DIGESTS[1], DIGESTS[1]], None)


def text_changed(draw, at, other):
    old, new = draw(
        st.sampled_from(
            (
                (b'"mean_mm":', b'"mean_mm":NaN,"x":'),
                (b'"mean_mm":', b'"mean_mm":1e999,"x":'),
                (b"{", b" {"),
                (b"{", b"\xef\xbb\xbf{"),
                (b'"actor"', b'"seq":3,"actor"'),
                (b'"actor"', b'"__proto__":{},"actor"'),
                (b"}", b"}]"),
                (b"console", "\u2028\u00e9\U0001f529".encode()),
                (b"console", b"\\ud800"),
                (b"console", b"\\u0000"),
            )
        )
    )

    def change(what):
        seq, body, stored = what.rows[at]
        what.rows[at] = (seq, body.replace(old, new, 1), stored)

    return change


def signature_changed(draw, at, other):
    name, value = draw(
        st.sampled_from(
            (
                ("row", 6), ("row", 10), ("row", "7"), ("hash", STRAY), ("key", STRAY),
                ("key", "00" * 32), ("signature", STRAY * 2), ("signature", "00" * 64), ("key", ""),
            )
        )
    )  # fmt: skip

    def change(what):
        seq, body, _ = what.rows[7]
        what.with_body(7, data=json.loads(body)["data"] | {name: value}) if seq == 8 else None

    return change


ROWS = (flip, hash_flip, drop, drop_and_count_anew, swap, out_of_order, double, insert)
ROWS += (numbered, cut, field_changed, text_changed, signature_changed)


def chunk_lost(draw, at, other):
    return lambda what: what.chunks.pop(DIGESTS[1 + at % 3], None)


def chunk_altered(draw, at, other):
    return lambda what: what.chunks.update({DIGESTS[1 + at % 3]: CHUNKS[0][other:]})


def chunk_added(draw, at, other):
    return lambda what: what.chunks.update({STRAY if at % 2 else DIGESTS[0]: CHUNKS[0]})


def gone_otherwise(draw, at, other):
    digest = (*DIGESTS, STRAY)[at % 5]

    def change(what):
        what.chunks.pop(digest, None)
        what.gone[digest] = other + 1

    return change


def gone_lost(draw, at, other):
    return lambda what: what.gone.clear()


EVIDENCE = (chunk_lost, chunk_altered, chunk_added, gone_otherwise, gone_lost)
