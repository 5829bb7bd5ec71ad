"""Every decision of a ledger made again from what it recorded."""

from pathlib import Path

from daq.audit.codec import UnknownEvent
from daq.audit.recompute import Difference, differences
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.view import LedgerView


def recheck(data: Path) -> list[Difference]:
    """Make every decision again from its recorded input; give those that come out otherwise.

    Raises:
        LedgerError: the ledger cannot be read, or not by this release.
    """
    with LedgerView.open(data) as view:
        try:
            return list(differences(view.events(), view.chunk))
        except UnknownEvent as error:
            raise LedgerError(of_file(view.path, error.said)) from error
