"""What a command has to bring along as bytes: made in the thread that asks, before it is decided.

An amended report keeps the one it replaces. Setting that takes longer than a press may be held up,
so the thread that decides is handed it.
"""

from collections.abc import Mapping
from typing import Any

from daq.words import SaidTrouble
from web.rooms import rooms


def brought(kind: str, payload: Mapping[str, Any]) -> bytes:
    """Return the PDF of the report that is to be replaced; nothing where there is none to bring.

    Why there is none is said by the decision: it refuses what comes without.
    """
    there, audit = rooms().on_record, payload.get("audit")
    if kind != "amend-report" or there is None or not isinstance(audit, str):
        return b""
    from daq import __version__
    from daq.ledger.view import LedgerView
    from daq.report.files import KEPT, report_of

    try:
        with LedgerView.open(there.data) as view:
            return report_of(view, audit, KEPT, rooms().of_shop, __version__).content
    except SaidTrouble:
        return b""
