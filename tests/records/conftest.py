"""Two whole audits in a real ledger, made once: read only."""

import pytest

from daq.ledger.view import LedgerView
from daq.records.index import Index
from tests.audit.save_golden import audits, put
from tests.records.many import fill, made_of


@pytest.fixture(scope="session")
def data(tmp_path_factory):
    """The data folder: two signed audits of one machine, the second with the ring turned."""
    folder = tmp_path_factory.mktemp("records")
    put(folder, audits())
    return folder


@pytest.fixture(scope="session")
def ids(data):
    """The audits' ids, in order."""
    with LedgerView.open(data) as view:
        return list(dict.fromkeys(event.audit for event in view.events() if event.audit))


@pytest.fixture(scope="session")
def many(data, tmp_path_factory):
    """The data folder of a ledger with sixty audits of all sorts: not to be written to."""
    folder = tmp_path_factory.mktemp("many")
    fill(folder, made_of(data), 60)
    return folder


@pytest.fixture(scope="session")
def listed(many):
    """The list of many audits, made in memory."""
    with LedgerView.open(many) as view, Index.in_memory() as index:
        index.catch_up(view)
        yield index
