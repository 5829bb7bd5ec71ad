"""`verify`, the independent verifier and the stranger's page agree on what was altered, and where.

Altered ledgers are put into a real database for `verify`, as an export before the other two; the
page is one open window of a real browser, saved as a file, told case after case.
"""

import json

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from daq.ledger.verify import Anchor
from daq.says import language
from tests.independent.altered import CHUNKS, DIGESTS, PUBLIC, by_file, by_script, made, put
from web.check_page import check_page

ASK = """async ([text, anchors, keys]) => {
  const given = anchors.map(([row, head]) => ({ ledger: "", row, head, source: "" }));
  const found = await checkExport(new File([text], "export.jsonl"), given, keys);
  return [found.kind, found.row];
}"""
STRAY = "ab" * 32
TEXTS = st.text(st.characters(blacklist_categories=("Cs",)), max_size=3)


@pytest.fixture(scope="module")
def base(tmp_path_factory):
    folder = tmp_path_factory.mktemp("base")
    return folder, made(folder)


@pytest.fixture(scope="module")
def page(browser, tmp_path_factory):
    path = tmp_path_factory.mktemp("page") / "check.html"
    path.write_text(check_page(language("en")).html, encoding="utf-8")
    shown = browser.new_page()
    shown.goto(path.as_uri())
    yield shown
    shown.close()


def by_page(page, lines, anchors, keys=()):
    given = [[each.seq, each.head] for each in anchors]
    return tuple(page.evaluate(ASK, ["".join(lines), given, list(keys)]))


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


@st.composite
def anchors_of(draw, what):
    """Hashes from elsewhere, right, wrong, or of a row that there is not."""
    found = []
    for row in draw(st.lists(st.integers(1, 13), max_size=2)):
        right = row <= len(what.rows) and draw(st.booleans())
        head = what.rows[row - 1][2].hex() if right else STRAY
        found.append(Anchor(row, head[: draw(st.sampled_from((8, 64)))]))
    return found


def case(data, what):
    """Some changes, and perhaps hashes that follow again from some row on."""
    altered = what.copy()
    for change in data.draw(st.lists(changes(), max_size=2)):
        assume(len(altered.rows) == len(what.rows))
        change(altered)
    if altered.rows and data.draw(st.booleans()):
        altered.chained(data.draw(st.integers(0, len(altered.rows) - 1)))
    return altered, data.draw(anchors_of(what))


def agree(base, page, altered, anchors, keys=()):
    """What the page and the script say of it; a file says the same where it can hold it."""
    try:
        lines = altered.lines()
    except ValueError:  # a body that is no UTF-8: no export holds it
        assume(False)
    found = by_page(page, lines, anchors, keys)
    assert found == by_script(lines, anchors, keys)
    if altered.fits_a_file and not keys and put(base[0], altered):
        assert found == by_file(base[0], anchors)
    return found


@pytest.mark.parametrize(
    "examples", [60, pytest.param(5000, marks=pytest.mark.long, id="thousands")]
)
def test_all_three_agree_on_altered_ledgers(base, page, examples):
    @settings(
        max_examples=examples,
        deadline=None,
        derandomize=examples < 1000,
        suppress_health_check=list(HealthCheck),
    )
    @given(data=st.data())
    def look(data):
        agree(base, page, *case(data, base[1]))

    look()


def test_what_is_as_it_was_is_sound_to_all(base, page):
    _, what = base
    whole = [Anchor(12, what.rows[-1][2].hex()), Anchor(3, what.rows[2][2].hex()[:8])]
    assert agree(base, page, what, whole) == ("sound", None)
    assert agree(base, page, what, [], ["ab" * 32]) == ("unsound", 8)
    assert agree(base, page, what, [], [PUBLIC]) == ("unsound", None)  # row 10 is not signed by it


def test_evidence_tells_the_first_row_whatever_else_is_wrong(base, page):
    altered = base[1].copy()
    altered.chunks.pop(DIGESTS[1])
    altered.rows.pop(6)
    assert agree(base, page, altered, []) == ("unsound", 3)


@pytest.mark.parametrize(
    "examples", [60, pytest.param(5000, marks=pytest.mark.long, id="thousands")]
)
def test_an_export_altered_anywhere_is_the_same_to_page_and_script(base, page, examples):
    text = "".join(base[1].lines())
    bits = st.sampled_from(('"', "\\", "\n", "\r\n", "{", "}", "0", " ", "\ufeff", "NaN", "=", "é"))

    @settings(
        max_examples=examples,
        deadline=None,
        derandomize=examples < 1000,
        suppress_health_check=list(HealthCheck),
    )
    @given(
        at=st.integers(0, len(text)), gone=st.integers(0, 300), put_in=st.lists(bits, max_size=2)
    )
    def look(at, gone, put_in):
        altered = text[:at] + "".join(put_in) + text[at + gone :]
        lines = altered.split("\n")
        lines = [f"{line}\n" for line in lines[:-1]] + ([lines[-1]] if lines[-1] else [])
        assert by_page(page, lines, []) == by_script(lines, [])

    look()
