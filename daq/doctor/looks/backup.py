"""When the record was last copied to somewhere else, and whether there is anything new since."""

import datetime
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.words import said

ABOUT: Final = "backup"
NAME: Final = "backup.json"
"""Written beside the record by whatever copied it: when (ISO 8601), where to, and how many rows."""

OLD_DAYS: Final = 14


def backup(patient: Patient) -> Iterator[Diagnosis]:
    """The last copy, held against the record as it is now."""
    rows = _rows(patient.data)
    todo = said("doctor-make-backup", data=str(patient.data))
    try:
        told = json.loads((patient.data / NAME).read_text(encoding="utf-8"))
        made = datetime.datetime.fromisoformat(told["utc"])
        to, copied = str(told["to"]), int(told["rows"])
    except FileNotFoundError:
        if rows > 1:  # the first one is the ledger's own
            yield look_here(ABOUT, said("doctor-no-backup"), todo)
        else:
            yield fine(ABOUT, said("doctor-nothing-to-copy"))
        return
    except (ValueError, KeyError, TypeError):
        yield look_here(ABOUT, said("doctor-backup-unread", file=NAME), todo)
        return
    now = datetime.datetime.fromtimestamp(patient.clock.stamp().utc_us / 1e6, datetime.UTC)
    days = max(0, (now - (made if made.tzinfo else made.replace(tzinfo=datetime.UTC))).days)
    new = max(0, rows - copied)
    found = said("doctor-backup", days=days, to=to, new=new)
    if new and days > OLD_DAYS:
        yield look_here(ABOUT, found, todo)
    else:
        yield fine(ABOUT, found)


def _rows(data: Path) -> int:
    """How many rows there are to be copied; one that cannot be read is told of elsewhere."""
    try:
        with LedgerView.open(data) as view:
            last = view.last()
    except LedgerError:
        return 0
    return last[0] if last else 0


LOOK = backup
