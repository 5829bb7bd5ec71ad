"""`headsweep gauge certificate`: a gauge's check on record as a paper, by the reports' formats."""

import sys
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final, Protocol

from daq import __version__
from daq.audit.codec import decode
from daq.audit.gauge_events import BenchWork, GaugeChecked
from daq.ledger.anchors import token
from daq.ledger.chain import link
from daq.ledger.view import LedgerView
from daq.report.files import ReportFile, written
from daq.report.formats.html import html_of
from daq.report.formats.pdf import pdf_of
from daq.report.gauge_paper import CheckOnRecord, gauge_paper
from daq.report.given import Given
from daq.report.made import NoSuchFormat, form
from daq.report.number import ReportAnchor, check_word
from daq.report.one_anchor import without_anchors
from daq.report.paper import Paper
from daq.report.told import Told
from daq.says import Language, language
from daq.words import Event, SaidTrouble, Trouble, said

_FORMATS: Final = {"pdf": pdf_of, "html": html_of}
_LONGEST: Final = 18
"""Digits of a row's number."""


class NoSuchCheck(SaidTrouble):
    """The ledger holds no check of that gauge that a certificate can be made of."""


class CertificateArgs(Protocol):
    """What the command line hands over."""

    gauge: str
    data: Path
    row: int | None
    output: str | None
    language: str


@dataclass(frozen=True)
class _Found:
    event: Event
    data: GaugeChecked
    work: BenchWork


def run(args: CertificateArgs) -> int:
    """Write a check's certificate into a file; 0 when that is done.

    Raises:
        Trouble: there is none, or no such format; says why.
        OSError: the file cannot be written.
    """
    output = Path(args.output or "")
    ending = output.suffix.removeprefix(".").lower() or "pdf"
    if ending not in _FORMATS:
        allowed = ", ".join(f".{each}" for each in _FORMATS)
        raise Trouble(f"-o: found {args.output!r}; allowed: a name that ends in {allowed}")
    try:
        says = language(args.language)
    except ValueError as error:
        raise Trouble(f"--language: {error}") from None
    with LedgerView.open(args.data) as view:
        given = Given(says, view.people(), lambda _: (), __version__)
        paper = paper_of(view, args.gauge, args.row, given)
    target = output if output.suffix else output / f"{paper.number.split()[-1]}.{ending}"
    written(target, _FORMATS[ending](paper))
    sys.stdout.write(f"{target}\n")
    return 0


def certificate_of(
    view: LedgerView, gauge: str, row: str, ending: str, says: Language, version: str
) -> ReportFile:
    """Return the certificate of the check in a row as a file, for a page.

    Raises:
        LedgerError: the ledger cannot be read.
        NoSuchCheck, NoSuchFormat: there is none of it; says which there are.
    """
    kind = form(ending)
    if ending not in _FORMATS:
        allowed = ", ".join(_FORMATS)
        raise NoSuchFormat(said("no-such-format", found=ending, allowed=allowed))
    nth = int(row) if row.isascii() and row.isdecimal() and len(row) < _LONGEST else 0
    paper = paper_of(view, gauge, nth, Given(says, view.people(), lambda _: (), version))
    name = f"{paper.number.split()[-1]}.{ending}"
    return ReportFile(name, kind.media, kind.policy, _FORMATS[ending](paper))


def paper_of(view: LedgerView, gauge: str, row: int | None, given: Given) -> Paper:
    """Return the certificate of a gauge's latest check with blocks, or of that in a row.

    Raises:
        LedgerError: the ledger cannot be read.
        NoSuchCheck: there is none of it; says which there are.
    """
    made = tuple(_checks(view, gauge))
    asked = [each for each in made if row in (None, each.event.seq)]
    if not asked:
        rows = ", ".join(str(each.event.seq) for each in made) or "-"
        raise NoSuchCheck(said("no-gauge-check", gauge=gauge, rows=rows))
    it = asked[-1]
    before = [each for each in made if each.event.seq < it.event.seq and _found(each, it)]
    on_record = CheckOnRecord(
        it.event, it.data, it.work, _anchor(view, it.event), before[-1].data if before else None
    )
    paper = gauge_paper(on_record, Told(given))
    return replace(without_anchors(paper), token=paper.token, qr=paper.qr)


def _checks(view: LedgerView, gauge: str) -> list[_Found]:
    """The checks of a gauge of that key that were made with blocks, the oldest first."""
    found = []
    for event in view.of_types((GaugeChecked.__name__,), 0, view.ends()[0]):
        data = decode(event)
        if isinstance(data, GaugeChecked) and data.gauge == gauge and data.work is not None:
            found.append(_Found(event, data, data.work))
    return found


def _found(before: _Found, left: _Found) -> bool:
    """Whether one is how the gauge was found that the other says was left."""
    same = before.data.serial_number == left.data.serial_number
    return same and left.work.state == "left" and before.work.state == "found"


def _anchor(view: LedgerView, event: Event) -> ReportAnchor:
    (_, _, previous), (_, body, stored) = (
        next(view.rows(after)) for after in (event.seq - 2, event.seq - 1)
    )
    digest = stored.hex()
    mark = token(event.ledger, event.seq, digest)
    sound = link(previous, body) == stored
    return ReportAnchor(event.ledger, event.seq, digest, mark, check_word(digest), sound)
