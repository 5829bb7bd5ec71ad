"""A report in every format: the same bytes from the same record, and where its audit ends."""

import io
import re
import zipfile

import pytest

from daq.ledger.view import LedgerView
from daq.report.formats import formats
from daq.report.made import NoSuchFormat, endings, form, made
from tests.report.benches import bytes_of, signed
from tests.report.conftest import given
from tests.words import en

ENDINGS = sorted(endings())


@pytest.mark.parametrize("ending", ENDINGS)
def test_the_same_record_gives_the_same_bytes(report, data, records, ending):
    with LedgerView.open(data) as view:
        assert made(records[0], ending, given(view)) == report(ending)


@pytest.mark.parametrize("ending", ENDINGS)
def test_each_file_says_in_plain_bytes_where_its_audit_ends(report, records, ending):
    last = records[0].last
    token = f"headsweep-anchor:{last.event.ledger}:{last.event.seq}:{last.hash}"
    assert token.encode() in plain(ending, report(ending))


def plain(ending, found):
    """A file's bytes; of a zip those of what is packed in it."""
    if ending != "xlsx":
        return found
    with zipfile.ZipFile(io.BytesIO(found)) as packed:
        return b"".join(packed.read(name) for name in packed.namelist())


def test_each_format_has_an_ending_and_says_what_it_is():
    assert set(endings()) == {each.ending for each in formats().values()}
    for each in endings():
        assert re.fullmatch(r"[a-z]+/[a-z0-9.+-]+", form(each).media)


def test_another_ending_is_refused_with_those_there_are():
    with pytest.raises(NoSuchFormat) as none:
        form("docx")
    assert en(none.value.said) == f"found docx; allowed: {', '.join(endings())}"


@pytest.mark.parametrize("ending", ENDINGS)
def test_what_a_person_typed_is_taken_for_no_anchor(ending):
    last = "headsweep-anchor:11111111-2222-4333-8444-555555555555:7:" + "ab" * 32
    found = bytes_of(signed(note=f"see {last}"), ending, {"T": f"A. Turner {last}"})
    tokens = set(re.findall(rb"headsweep-anchor:[0-9a-f:-]+", plain(ending, found)))
    assert len(tokens) == 1 and last.encode() not in tokens
