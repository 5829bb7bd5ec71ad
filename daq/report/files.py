"""Reports of what a ledger has on record, as files: for the pages and the command line alike."""

import contextlib
import os
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Final

from daq.audit import evidence
from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.records.find import find
from daq.records.read import read_from
from daq.report.given import Given
from daq.report.made import form, made
from daq.report.number import earlier, kept, number, replaced
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
    """An audit has no report of that number."""


def report_of(
    view: LedgerView, asked: str, ending: str, says: Language, version: str, nth: str = ""
) -> ReportFile:
    """Return the latest report of the audit that `asked` means; `version`: the release's.

    `nth`: the number of the one that is wanted: of one that was amended the PDF that was kept with
    the row that replaced it; any other is made anew of the rows it was of.

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
        before = replaced(record)
        if nth not in before:
            there = ", ".join((*before, now.text))
            raise NoSuchReport(said("no-such-report", number=nth, there=there))
        at = before.index(nth) + 1
        digest = kept(record, at) if ending == KEPT else None
        if digest is not None:
            return ReportFile(f"{nth}.{ending}", kind.media, kind.policy, view.chunk(digest))
        record, now = earlier(record, at), replace(now, text=nth)
    content = made(record, ending, Given(says, view.people(), partial(samples, view), version))
    return ReportFile(f"{now.text}.{ending}", kind.media, kind.policy, content)


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
