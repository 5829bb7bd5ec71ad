"""When the record was last copied to somewhere else, and whether there is anything new since."""

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.service.copies import last_copy
from daq.words import said

ABOUT: Final = "backup"
OLD_DAYS: Final = 14
DAY_US: Final = 86_400_000_000


def backup(patient: Patient) -> Iterator[Diagnosis]:
    """The last copy, held against the record as it is now."""
    rows, last = _rows(patient.data), last_copy(patient.data)
    todo = said("doctor-make-backup", data=str(patient.data))
    if last is None:
        if rows > 1:  # the first one is the ledger's own
            yield look_here(ABOUT, said("doctor-no-backup"), todo)
        else:
            yield fine(ABOUT, said("doctor-nothing-to-copy"))
        return
    made_us = datetime.datetime.fromisoformat(last.utc).timestamp() * 1e6
    days = max(0, int((patient.clock.stamp().utc_us - made_us) // DAY_US))
    new = max(0, rows - last.rows)
    found = said("doctor-backup", days=days, to=last.to, new=new)
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
