"""`verify`, the independent verifier and the stranger's page agree on what was altered, and where.

Altered ledgers are put into a real database for `verify`, as an export before the other two; the
page is one open window of a real browser, saved as a file, told case after case.
"""

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from daq.ledger.verify import Anchor
from daq.says import language
from tests.independent.alterations import changes
from tests.independent.altered import DIGESTS, PUBLIC, STRAY, by_file, by_script, made, put
from web.check_page import check_page

ASK = """async ([text, anchors, keys]) => {
  const given = anchors.map(([row, head]) => ({ ledger: "", row, head, source: "" }));
  const found = await checkExport(new File([text], "export.jsonl"), given, keys);
  return [found.kind, found.row];
}"""


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
