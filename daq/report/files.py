"""Reports of what a ledger has on record, as files: for the pages and the command line alike."""

import contextlib
import os
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Final

from daq.audit import evidence
from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.records.find import find
from daq.records.read import read_from
from daq.records.record import AuditRecord
from daq.report.given import Given
from daq.report.made import form, made
from daq.report.number import kept, number
from daq.says import Language
from daq.words import SaidTrouble, Sample, said

KEPT: Final = "pdf"
"""The format in which a report that is replaced is kept."""


@dataclass(frozen=True)
class ReportFile:
    """A report's bytes, how its file is called, and what a browser is told of it."""

    name: str
    media: str
    policy: str
    content: bytes


class NoSuchReport(SaidTrouble):
    """An audit has no report of that number, or not in that format."""


def report_of(
    view: LedgerView, asked: str, ending: str, says: Language, version: str, nth: str = ""
) -> ReportFile:
    """Return the latest report of the audit that `asked` means; `version`: the release's.

    `nth`: the number of the one that is wanted: of one that was replaced the very bytes that were
    kept with the row that replaced it.

    Raises:
        LedgerError: there is no such audit, several are called so, or it cannot be read.
        NoSuchFormat: no report is made with that ending.
        NoSuchReport: there is none of that number.
    """
    kind = form(ending)
    record = read_from(view, find(view, asked))
    now = number(record)
    nth = nth.strip().upper()
    if nth not in ("", now.text):
        return ReportFile(
            f"{nth}.pdf", kind.media, kind.policy, _replaced(view, record, ending, nth)
        )
    content = made(record, ending, Given(says, view.people(), partial(samples, view), version))
    return ReportFile(f"{now.text}.{ending}", kind.media, kind.policy, content)


def _replaced(view: LedgerView, record: AuditRecord, ending: str, nth: str) -> bytes:
    found = kept(record, nth)
    if found is None:
        now = number(record)
        there = ", ".join(f"{record.opened.short}-{n}" for n in range(1, now.nth + 1))
        raise NoSuchReport(said("no-such-report", number=nth, there=there))
    if ending != KEPT:
        raise NoSuchReport(said("only-pdf-kept", found=ending))
    return view.chunk(found)


def samples(view: LedgerView, digest: str) -> tuple[Sample, ...]:
    """What is stored under a digest, none where it is kept no more."""
    try:
        return evidence.decode(view.chunk(digest))
    except LedgerError:
        return ()


def audits_of(view: LedgerView, machine: str) -> Iterator[str]:
    """Give the ids of a machine's audits. Raises LedgerError."""
    for audit in view.audits():
        first = view.first(audit)
        if first is not None and first.machine == machine:
            yield audit


def written(target: Path, content: bytes) -> None:
    """Write a file that appears whole or not at all, in the place of one of that name.

    Raises OSError.
    """
    handle, part = tempfile.mkstemp(dir=target.parent, prefix=".headsweep-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(part).chmod(0o644)
        Path(part).replace(target)
    except OSError:
        with contextlib.suppress(OSError):
            Path(part).unlink()
        raise
