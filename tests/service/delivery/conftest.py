"""A ledger with something to deliver, made once."""

from dataclasses import replace

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
    """A ledger of one audit signed, added to and reported anew, one of practice, and one more."""
    folder = tmp_path_factory.mktemp("delivered")
    b = Bench(setup_of())
    b.rows = 1
    signed(b)
    added = {"audit": b.state.last.id, "kind": "other", "text": "A chip.", "done_by": "Bea"}
    b.do("add-to-signed", added)
    anew = {"audit": b.state.last.id, "why": "It stands in bay 4.", "done_by": "Bea"}
    b.decide(replace(b.command("amend-report", anew), brought=b"%PDF as it was"), ())
    signed(b, "practice")
    signed(b)
    put(folder, b)
    return folder


@pytest.fixture
def rows(data):
    """The rows that are looked at: signature, addendum, report anew, practice, signature."""
    with LedgerView.open(data) as view:
        return rows_after(view, 0)


@pytest.fixture
def going(rows):
    """Those of them that go out."""
    return [*rows[:3], rows[4]]
