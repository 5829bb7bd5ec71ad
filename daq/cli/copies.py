"""`headsweep ledger backup --into`: one more copy on a stick, and what is said of it."""

import sys
from argparse import Namespace
from pathlib import Path

from daq.ledger.commands import ALTERED, OK, UNREADABLE, Words
from daq.ledger.errors import LedgerError, NotSound, of_file
from daq.ledger.medium import require_lasting
from daq.ledger.progress import Progress
from daq.service.clock import SystemClock
from daq.service.copies import copy_into
from daq.words import said


def run(args: Namespace, words: Words) -> int:
    """Make the copy, say where it is, and give the exit code. Raises OSError."""
    try:
        _require_stick(args.into)
        with Progress(sys.stderr) as progress:
            made = copy_into(
                args.data, args.into, args.keep, SystemClock().stamp(), args.config, progress
            )
    except NotSound as error:
        sys.stderr.write(f"NOT SOUND: {words(error.said)}\n")
        return ALTERED
    except LedgerError as error:
        sys.stderr.write(f"{words(error.said)}\n")
        return UNREADABLE
    sys.stdout.write(f"{made.to}: {made.rows} rows, checked from the first to the last\n")
    return OK


def _require_stick(place: Path) -> None:
    """Raise LedgerError where the folder is one in memory, as of a stick that is not mounted."""
    if not place.is_dir():
        return  # said where the copy is made
    try:
        require_lasting(place)
    except LedgerError:
        raise LedgerError(of_file(place, said("no-stick-there"))) from None
