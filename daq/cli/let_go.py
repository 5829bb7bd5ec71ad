"""`headsweep ledger let-go`: the raw samples of old audits, with the service stopped."""

import sys
from argparse import Namespace

from daq import __version__
from daq.ledger import commands as ledger
from daq.ledger.commands import Words
from daq.ledger.progress import Progress
from daq.service.clock import SystemClock
from daq.service.letting_go import by_hand


def run(args: Namespace, words: Words) -> int:
    """Let them go, say how many, and give the exit code. Raises LedgerError."""
    pieces = up_to = 0
    with Progress(sys.stderr) as progress:
        if ledger.unsound(args.data, words, progress):
            return ledger.ALTERED
        for row in by_hand(
            args.data, args.older_than, SystemClock(), __version__,
            any_clock=args.any_clock, progress=progress,
        ):  # fmt: skip
            pieces, up_to = pieces + row.data["count"], row.data["up_to"]
    last = f", of audits closed by row {up_to}; their digests stay" if pieces else ""
    sys.stdout.write(f"{pieces} pieces of evidence let go{last}\n")
    return ledger.OK
