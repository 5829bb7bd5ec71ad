"""The record and its seal, through a view that locks and alters nothing."""

import time
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from daq import __version__
from daq.audit.history import day_of
from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.ledger.errors import LedgerError
from daq.ledger.reads import DB_NAME
from daq.ledger.seal import Unfit, read_seal, require_fit
from daq.ledger.verify import walk
from daq.ledger.view import LedgerView
from daq.service.sealing import EVERY_ROWS
from daq.words import Event, Said, said

ABOUT: Final = "ledger"
LATEST: Final = 500
"""So many rows are looked at beside a service, which checks all of them behind its start."""

WITHIN_S: Final = 5.0
"""So long rows are looked at; of a longer record it is said how long all of them take."""


class _Enough(Exception):
    """The time is up."""


@dataclass
class _Pace:
    """Counts the good rows, until its time is up."""

    until_s: float
    rows: int = 0

    def __call__(self, _: Event) -> None:
        self.rows += 1
        if time.monotonic() >= self.until_s:
            raise _Enough


def ledger(patient: Patient) -> Iterator[Diagnosis]:
    """Rows from the first one on, or the latest; and how far the seal goes."""
    data = str(patient.data)
    if not patient.data.is_dir():
        yield look_here(ABOUT, said("doctor-no-folder", folder=data), said("doctor-name-data"))
        return
    if not (patient.data / DB_NAME).exists():
        yield fine(ABOUT, said("doctor-no-record", data=data))
        return
    try:
        with LedgerView.open(patient.data) as view:
            yield _rows(view, patient)
            yield from _seal(view, patient)
    except LedgerError as error:
        yield look_here(ABOUT, error.said, _todo(patient))


def _todo(patient: Patient) -> Said:
    return said("doctor-verify", data=str(patient.data))


def _rows(view: LedgerView, patient: Patient) -> Diagnosis:
    last, _ = view.last() or (0, b"")
    first = view.event(1)
    began_s = time.monotonic()
    pace = _Pace(began_s + WITHIN_S)
    view.asks(lambda: time.monotonic() > pace.until_s + 1)
    start = max(1, last - LATEST + 1) if patient.running else 1
    try:
        report = walk(view, start, each=pace)
    except _Enough:
        report = None
    if report is not None and not report.ok:
        return look_here(ABOUT, report.say, _todo(patient))
    since = day_of(first.stamp) if first else ""
    if pace.rows >= last:
        return fine(ABOUT, said("doctor-rows-whole", rows=last, since=since))
    took_s = (time.monotonic() - began_s) * last / max(1, pace.rows)
    minutes = max(1, round(took_s / 60))
    looked = said("doctor-rows-seen", rows=last, since=since, seen=pace.rows, minutes=minutes)
    return fine(ABOUT, looked)


def _seal(view: LedgerView, patient: Patient) -> Iterator[Diagnosis]:
    last, _ = view.last() or (0, b"")
    try:
        seal = read_seal(patient.data, __version__)
        require_fit(seal, view)
        yield fine(ABOUT, said("doctor-sealed", row=seal.seq))
    except Unfit:
        if last >= EVERY_ROWS:  # a shorter one needs none
            yield fine(ABOUT, said("doctor-no-seal"))


LOOK = ledger
