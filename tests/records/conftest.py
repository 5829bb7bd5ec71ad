"""Two whole audits in a real ledger, made once: read only."""

import pytest

from daq.ledger.view import LedgerView
from tests.audit.save_golden import audits, put


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
