"""`headsweep ledger restore`: what a copy holds is put into a folder of its own, and said."""

import sys
from argparse import Namespace
from datetime import UTC, datetime

from daq.audit.events import Abandoned, AuditOpened, Signed
from daq.ledger.commands import ALTERED, OK, UNREADABLE, Words, anchor
from daq.ledger.errors import LedgerError, NotSound
from daq.ledger.progress import Progress
from daq.ledger.restore import Restored, restore
from daq.words import Event, Stamp

_CLOSING = (Signed.__name__, Abandoned.__name__)


def run(args: Namespace, words: Words) -> int:
    """Restore `args.source` into `args.data`, say what was found, and give the exit code."""
    left = _Open()
    try:
        anchors = [anchor(text) for text in args.anchor]
        with Progress(sys.stderr) as progress:
            found = restore(args.source, args.data, anchors, left.follow, progress)
    except NotSound as error:
        sys.stderr.write(f"NOT SOUND: {words(error.said)}\n")
        return ALTERED
    except LedgerError as error:
        sys.stderr.write(f"{words(error.said)}\n")
        return UNREADABLE
    except ValueError as error:
        sys.stderr.write(f"{error}\n")
        return UNREADABLE
    sys.stdout.write(_told(args, found, left, words))
    return OK


class _Open:
    """The audits that are open after the rows so far: their short names, by id."""

    def __init__(self) -> None:
        self.audits: dict[str, str] = {}

    def follow(self, event: Event) -> None:
        if event.type == AuditOpened.__name__:
            self.audits[event.audit] = f"{event.data.get('short')} on {event.machine}"
        elif event.type in _CLOSING:
            self.audits.pop(event.audit, None)


def _told(args: Namespace, found: Restored, left: _Open, words: Words) -> str:
    gone = f"; of {found.let_go} the samples were let go, as rows say" if found.let_go else ""
    open_ones = ", ".join(left.audits.values()) or "none"
    names = "" if args.source.is_dir() else "names: none; an export holds people's ids alone\n"
    return (
        f"{args.data}: ledger {found.ledger}\nsound: {words(found.report.say)}\n"
        f"last row: {_date(found.last)}\naudits open: {open_ones}\n"
        f"evidence: complete, {found.chunks} pieces{gone}\n{names}"
    )


def _date(stamp: Stamp) -> str:
    when = datetime.fromtimestamp(stamp.utc_us / 1e6, UTC).strftime("%Y-%m-%d %H:%M:%S UTC")
    return when if stamp.utc_trusted else f"{when}, by a clock that no time server had set"
