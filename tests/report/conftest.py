"""Reports of the audits that the records' tests read, made from their ledger."""

from functools import cache

import pytest

from daq.audit import evidence
from daq.ledger.view import LedgerView
from daq.records.read import read
from daq.report.given import Given
from daq.report.made import made
from daq.says import language
from tests.records.conftest import data, ids

__all__ = ["data", "ids"]

VERSION = "9.9.0"


def given(view, version=VERSION):
    """What a report is made with; the samples come out of an open view."""
    return Given(language(), view.people(), lambda each: evidence.decode(view.chunk(each)), version)


@pytest.fixture(scope="session")
def records(data, ids):
    return [read(data, audit) for audit in ids]


@pytest.fixture(scope="session")
def report(data, records):
    """The bytes of one audit's report by its ending: the first audit's unless another is told."""

    @cache
    def bytes_of(ending, of=0, **changed):
        with LedgerView.open(data) as view:
            return made(records[of], ending, given(view, **changed))

    return bytes_of
