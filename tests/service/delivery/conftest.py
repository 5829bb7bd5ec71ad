"""A ledger with something to deliver, made once."""

import pytest

from daq.ledger.view import LedgerView
from daq.service.delivery.from_ledger import rows_after
from tests.audit.conftest import Bench, setup_of
from tests.audit.save_golden import put


def signed(b, reason="scheduled"):
    b.start(reason=reason)
    b.sweep(1.0, 1.0, 1.0, 1.0)
    b.do("cleared")
    b.do("sign", {"done_by": "Ann"})


@pytest.fixture(scope="module")
def data(tmp_path_factory):
    """A ledger of one signed audit with an addendum, one of practice, and one more."""
    folder = tmp_path_factory.mktemp("delivered")
    b = Bench(setup_of())
    b.rows = 1
    signed(b)
    added = {"audit": b.state.last.id, "kind": "other", "text": "A chip.", "done_by": "Bea"}
    b.do("add-to-signed", added)
    signed(b, "practice")
    signed(b)
    put(folder, b)
    return folder


@pytest.fixture
def rows(data):
    with LedgerView.open(data) as view:
        return rows_after(view, 0)
