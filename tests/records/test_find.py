"""Which audit is meant by what a person types."""

import pytest

from daq.audit.opening import short_form
from daq.ledger.errors import LedgerError
from daq.ledger.store import Ledger
from daq.ledger.view import LedgerView
from daq.records.find import find
from daq.records.read import read
from tests.ledger.conftest import make_draft
from tests.words import en


def test_an_audit_is_found_by_its_id_by_how_that_begins_and_by_its_short_form(data, ids):
    with LedgerView.open(data) as view:
        for audit in ids:
            short = read(data, audit).opened.short
            for typed in (audit, audit.upper(), audit[:8], short, short.lower(), f" {short} "):
                assert find(view, typed) == audit


def test_what_fits_none_or_several_is_said_with_those_it_fits(tmp_path):
    same = ["7b0c-1", "7b0c-2", "7b0c-3", "7b0c-4", "7b0c-5", "7b0d"]
    with Ledger.open(tmp_path) as ledger:
        for n, audit in enumerate((*same, "", same[0])):
            ledger.append([make_draft(n, audit=audit)])
    with LedgerView.open(tmp_path) as view:
        assert list(view.audits()) == same
        assert find(view, "7B0C-3") == "7b0c-3" and find(view, short_form("7b0d")) == "7b0d"
        for typed, says in (
            ("7b0c", "7b0c is more than one audit: 7b0c-1, 7b0c-2, 7b0c-3, 7b0c-4 and more"),
            ("7b", "7b is more than one audit: 7b0c-1, 7b0c-2, 7b0c-3, 7b0c-4 and more"),
            ("8", "it has no audit 8"),
            ("A-0000", "it has no audit A-0000"),
            ("", "it has no audit -"),
            ("%", "it has no audit %"),
        ):
            with pytest.raises(LedgerError) as none:
                find(view, typed)
            assert en(none.value.said).endswith(f"ledger.db: {says}")
