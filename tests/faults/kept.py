"""What was answered, held against what is in the ledger."""

import json
from collections.abc import Iterable
from pathlib import Path

from daq.ledger import Ledger, LedgerView
from daq.ledger.reads import DB_NAME
from daq.ledger.verify import verify
from tests.faults.recorded import Answered


def kept(folder: Path, answered: Iterable[Answered]) -> bool:
    """Whether all that was answered is there; the record must be whole, nothing denied in it.

    No ledger is as good as one without rows.
    """
    told = list(answered)
    if not (folder / DB_NAME).exists():
        return not any(each.seqs for each in told)
    Ledger.open(folder).close()
    assert verify(folder).ok
    with LedgerView.open(folder) as view:
        causes = {seq: json.loads(body)["cause"].get("id") for seq, body, _ in view.rows()}
    denied = {each.id for each in told if not each.seqs}
    assert not denied & set(causes.values()), "it was said that this was not recorded"
    return all(causes.get(seq) == each.id for each in told for seq in each.seqs)
