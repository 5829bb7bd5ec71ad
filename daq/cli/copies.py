"""`headsweep ledger backup --into`: one more copy on a stick, and what is said of it."""

import sys
from argparse import Namespace

from daq.ledger.commands import ALTERED, OK, UNREADABLE, Words
from daq.ledger.errors import LedgerError, NotSound
from daq.ledger.progress import Progress
from daq.service.clock import SystemClock
from daq.service.copies import copy_into


def run(args: Namespace, words: Words) -> int:
    """Make the copy, say where it is, and give the exit code. Raises OSError."""
    try:
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
