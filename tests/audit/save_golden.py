"""Save a data folder's ledger as a release's golden: python tests/audit/save_golden.py DATA NAME.

Writes golden/NAME.jsonl (the export) and golden/NAME.state.json (the machine's last
closed audit, as this release folds it). Later releases must fold it to the same.
"""

import io
import json
import sys
from pathlib import Path

from daq.audit.apply import fold
from daq.ledger import LedgerView
from daq.ledger.commands import export
from daq.settings import plain

GOLDEN = Path(__file__).parent / "golden"


def save(data: Path, name: str) -> None:
    """Write both files; a ledger without a closed audit is refused."""
    with LedgerView.open(data) as view:
        shop = fold(view.events())
    (state,) = shop.machines.values()
    if state.last is None:
        raise SystemExit(f"{data}: found no closed audit; allowed: a ledger with one")
    rows = io.StringIO()
    export(data, rows)
    GOLDEN.mkdir(exist_ok=True)
    (GOLDEN / f"{name}.jsonl").write_text(rows.getvalue(), encoding="utf-8")
    text = json.dumps(plain(state.last), indent=1, sort_keys=True)
    (GOLDEN / f"{name}.state.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    save(Path(sys.argv[1]), sys.argv[2])
