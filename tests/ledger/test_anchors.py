"""Anchors found in a folder by themselves, whoever put there what."""

import io
import os
import shutil
import zipfile

import pytest
import typst
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.ledger import LedgerView, anchors
from daq.ledger.anchors import gather, gather_beside, token
from daq.ledger.commands import export, verify
from tests.words import en

OTHER = "11111111-2222-4333-8444-555555555555"


@pytest.fixture(scope="module")
def kept(tmp_path_factory, filled):
    """A ledger of eleven rows as it was, with its hashes and its name."""
    folder = tmp_path_factory.mktemp("kept")
    heads = filled(folder, 10)
    with LedgerView.open(folder) as view:
        return folder, heads, view.name()


@pytest.fixture
def places(kept, tmp_path):
    """The same ledger in a folder of this test's, and a folder of reports of it."""
    folder, heads, ledger = kept
    shutil.copytree(folder, tmp_path / "data")
    (tmp_path / "reports" / "2026").mkdir(parents=True)
    return tmp_path / "data", tmp_path / "reports", heads, ledger


def verified(data, *found, anchors=()):
    out = io.StringIO()
    return verify(data, out, en, anchors, found), out.getvalue()


def exported(data, path):
    with path.open("w", encoding="utf-8") as out:
        assert export(data, out, en, evidence=True) == 0


def zipped(path, text, how=zipfile.ZIP_DEFLATED):
    with zipfile.ZipFile(path, "w", how) as archive:
        archive.writestr("xl/sheet.xml", "x" * 100_000)
        archive.writestr("docProps/core.xml", text)


def fill(reports, ledger, heads):
    """One of every kind there is."""
    mark = token(ledger, 9, heads[8])
    (reports / "a.html").write_text(f'<meta name="keywords" content="{mark}">', encoding="utf-8")
    (reports / "2026" / "b.csv").write_text(f"1.2,{mark}\n" * 3, encoding="utf-8")
    zipped(reports / "c.xlsx", f"<keywords>{mark}</keywords>")
    source = f'#set document(keywords: ("{mark}",), date: none)\nA report'
    (reports / "d.pdf").write_bytes(typst.compile(source.encode(), ignore_system_fonts=True))


def test_every_kind_of_report_bears_its_anchor(places):
    data, reports, heads, ledger = places
    fill(reports, ledger, heads)
    exported(data, reports / "2026" / "e.jsonl")
    (reports / "f.json").write_text(f'{{"anchor": "{token(OTHER, 3, heads[2])}"}}')
    (reports / "g.txt").write_text("nothing")
    code, said = verified(data, reports)
    assert code == 0
    assert "anchors of this ledger: 5, in 5 of 7 files looked at" in said
    assert f"1 file names another ledger alone: {reports.resolve()}/f.json" in said
    assert said.endswith(f"sound: 11 rows, none altered; head {heads[-1]}\n")


@pytest.mark.parametrize("last", ["report", "export"])
def test_a_cut_tail_is_found_without_anyone_remembering_a_number(places, hand, last):
    data, reports, heads, ledger = places
    if last == "export":
        exported(data, reports / "all.jsonl")
    else:
        (reports / "r.html").write_text(token(ledger, 11, heads[10]))
    with hand(data) as connection:
        connection.execute("DELETE FROM events WHERE seq > 8")
    assert verified(data)[0] == 0
    code, said = verified(data, reports)
    assert code == 3
    assert "the ledger ends at row 8, but row 11 was noted down, in " in said
    assert said.endswith("good rows: 8\nfirst bad row: 9\n")
    reports.rename(data / anchors.REPORTS)  # and there it need not even be named
    assert verified(data) == (3, said.replace(str(reports), str(data / anchors.REPORTS)))


def test_the_file_that_contradicts_is_named_with_the_first_row(places):
    data, reports, heads, ledger = places
    fill(reports, ledger, heads)
    for row in (7, 4, 12, 5):
        (reports / f"wrong-{row}.html").write_text(token(ledger, row, "ab" * 32))
    code, said = verified(data, reports)
    assert code == 3
    assert "4 files contradict this ledger: " in said and "wrong-12.html" in said
    assert f"row 4 has hash {heads[3]}, but {'ab' * 32} was noted down, in " in said
    assert "wrong-4.html\n" in said and said.endswith("first bad row: 4\n")


def test_a_folder_that_is_not_there_is_no_folder_without_anchors(places):
    data, reports, *_ = places
    with pytest.raises(ValueError, match="allowed: a folder that is there"):
        verified(data, reports / "of-last-year")


def hostile(reports, ledger, heads):
    """What a folder may hold that is no report."""
    os.mkfifo(reports / "waits")
    (reports / "round").symlink_to(reports)
    (reports / "away").symlink_to("/etc/passwd")
    (reports / "cut.xlsx").write_bytes(b"PK\x03\x04" + b"\0" * 50)
    zipped(reports / "old.xlsx", token(ledger, 9, heads[8]), zipfile.ZIP_LZMA)
    zipped(reports / "bomb.zip", "x" * 1000)
    raw = bytearray((reports / "bomb.zip").read_bytes())
    at = raw.rindex(b"PK\x01\x02")
    raw[at + 24 : at + 28] = (2**32 - 1).to_bytes(4, "little")  # so much it says it unpacks to
    (reports / "bomb.zip").write_bytes(raw)
    (reports / "many.txt").write_text(
        "\n".join(token(OTHER, n, "ab" * 32) for n in range(1, 10_002))
    )
    (reports / "\x1b[2Jclears-the-screen").write_text(token(OTHER, 1, "ab" * 32))


def test_what_is_no_report_is_named_and_stops_nothing(places):
    data, reports, heads, ledger = places
    hostile(reports, ledger, heads)
    (reports / "z.html").write_text(token(ledger, 9, heads[8]))
    found = gather_beside(data, [reports])
    assert (found.anchors, found.good.count, found.wrong.count) == (1, 1, 0)
    unread = found.unread.said
    assert found.unread.count == 4
    assert all(name in unread for name in ("cut.xlsx", "old.xlsx", "bomb.zip", "many.txt"))
    code, said = verified(data, reports)
    assert code == 0 and "\x1b" not in said and "clears-the-screen" in said


BITS = [
    b"headsweep-anchor:",
    OTHER.encode(),
    b":9:",
    b"ab" * 32,
    b"a",
    b'{"body":"{',
    b"PK\x03\x04",
]
BITS += [b'\\"ledger\\":\\"', b'","hash":"', b'","seq":9}', b"\n", b"PK\x05\x06" + b"\0" * 18]


@settings(deadline=None)
@given(parts=st.lists(st.one_of(st.sampled_from(BITS), st.binary(max_size=40)), max_size=12))
def test_any_bytes_end_in_a_count(kept, tmp_path_factory, parts):
    folder = tmp_path_factory.getbasetemp() / "any"
    folder.mkdir(exist_ok=True)
    text = b"".join(parts)
    (folder / "one").write_bytes(text)
    with LedgerView.open(kept[0]) as view:
        found = gather(view, [folder])
    assert (found.looked, found.anchors, found.against) == (1, 0, ())


@pytest.mark.parametrize("block", [1, 7, 64, 139, 140, 1000])
def test_an_anchor_across_two_blocks_is_found_once(monkeypatch, places, block):
    data, reports, heads, ledger = places
    monkeypatch.setattr(anchors, "BLOCK", block)
    mark = token(ledger, 9, heads[8])
    (reports / "a").write_text("x" * 93 + mark + "y" * 50 + token(ledger, 8, heads[7]) + mark)
    (reports / "b").write_text("f" * 9 + mark + "f")  # one digit more: that is no hash
    found = gather_beside(data, [reports])
    assert (found.anchors, found.good.count, found.looked) == (3, 1, 2)
