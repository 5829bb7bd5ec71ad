"""`headsweep gauge check`: a gauge is stepped through known lengths, judged, and put on record.

One person at one terminal; the service must not run, for the port and the ledger are
used here.
"""

import argparse
import sys
from contextlib import closing
from dataclasses import fields
from pathlib import Path
from typing import Final

from daq.ledger.errors import LedgerError
from daq.ledger.store import Ledger
from daq.service.bench_asks import BenchQuestion, GivenUp, Terminal, Words
from daq.service.bench_check import record, worked
from daq.service.bench_plan import CheckWanted, planned
from daq.service.bench_reader import BenchReader
from daq.service.bench_talk import Conversation
from daq.service.clock import Clock, SystemClock
from daq.service.files import load
from daq.service.people import People
from daq.words import said

PASSED: Final = 0
NOT_PASSED: Final = 1
NOT_DONE: Final = 2


def run(args: argparse.Namespace, words: Words) -> int:
    """Check a gauge with the person at the terminal; 0 passed, 1 not passed, 2 not done.

    `words` makes words of what is said.

    Raises:
        SettingsError: the files are wrong, or name no such gauge.
        LedgerError: the data folder cannot be used, or nothing could be recorded.
    """
    shop = load(args.config)
    known = CheckWanted(**{each.name: getattr(args, each.name) for each in fields(CheckWanted)})
    task = planned(shop, known)
    clock = SystemClock()
    with _ledger(args.data, clock) as ledger:
        bench = BenchReader(task.key, task.gauge, args.data, shop.shop.settle, clock)
        with closing(bench):
            asks = Terminal(sys.stdin, sys.stdout, words)
            asks.say(said("bench-gauge", name=task.gauge.name, number=task.gauge.serial_number))
            session = Conversation(task, bench, asks)
            try:
                done = worked(session, asks, task, known)
                done_by = args.done_by
                if not args.yes:
                    done_by = done_by or asks.ask(BenchQuestion(said("bench-done-by")))
                    session.confirm()
            except (GivenUp, KeyboardInterrupt) as left:
                why = left.said if isinstance(left, GivenUp) else said("bench-left")
                asks.say(said("bench-nothing-recorded", why=why))
                return NOT_DONE
        named: dict[str, str] = {}
        person = People(ledger.people()).id_of(done_by, named)
        draft, chunk = record(done, person, clock)
        (event,) = ledger.append([draft], [chunk], named)
        asks.say(said("bench-recorded", row=event.seq))
    return PASSED if done.found.passed else NOT_PASSED


def _ledger(data: Path, clock: Clock) -> Ledger:
    try:
        ledger = Ledger.open(data, stamp=clock.stamp())
    except LedgerError as error:
        if isinstance(error.__cause__, BlockingIOError):  # somebody holds the folder's lock
            raise LedgerError(said("stop-the-service-first", why=error.said)) from error
        raise
    room = ledger.room()
    if room.say is not None:  # known before the work, not after it
        ledger.close()
        raise LedgerError(room.say)
    return ledger
