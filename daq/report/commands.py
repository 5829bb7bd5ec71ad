"""`headsweep report`: the report of one audit as a file, or of many into a folder."""

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Final, Protocol

from daq import __version__
from daq.ledger.progress import Progress
from daq.ledger.view import LedgerView
from daq.report.files import ReportFile, audits_of, report_of, written
from daq.report.made import endings
from daq.report.schema import report_schema
from daq.says import Language, language
from daq.words import Trouble

STDOUT: Final = "-"
SAMPLE: Final = "pdf"
"""What is made where nothing else is asked for."""


class ReportArgs(Protocol):
    """What the command line hands over."""

    audit: Sequence[str]
    data: Path | None
    output: str | None
    ending: str | None
    machine: str | None
    number: str | None
    language: str
    schema: bool


def run(args: ReportArgs) -> int:
    """Do it; 0 when all is well.

    Raises:
        Trouble: what was asked for cannot be; says why.
        OSError: a file cannot be written.
    """
    if args.schema:
        sys.stdout.write(json.dumps(report_schema(), indent=1, ensure_ascii=False) + "\n")
        return 0
    if args.data is None or not (args.audit or args.machine):
        raise Trouble("report: found no audit; allowed: AUDIT or --machine KEY, and --data DIR")
    says = _language(args.language)
    with LedgerView.open(args.data) as view:
        asked = [*args.audit, *(audits_of(view, args.machine) if args.machine else ())]
        if len(asked) == 1 and not args.machine:
            _one(view, asked[0], args, says)
        else:
            _many(view, asked, args, says)
    return 0


def _language(tag: str) -> Language:
    try:
        return language(tag)
    except ValueError as error:
        raise Trouble(f"--language: {error}") from None


def _one(view: LedgerView, asked: str, args: ReportArgs, says: Language) -> None:
    """One audit into the file of that name, or to where the output goes."""
    output = args.output or ""
    ending = args.ending or ending_of(output)
    found = _made(view, asked, ending, args, says)
    if output == STDOUT:
        sys.stdout.buffer.write(found.content)
        return
    target = Path(output) if output and not Path(output).is_dir() else Path(output) / found.name
    written(target, found.content)
    sys.stdout.write(f"{target}\n")


def _many(view: LedgerView, asked: Sequence[str], args: ReportArgs, says: Language) -> None:
    """Several into a folder, each under its number, one after the other."""
    if args.output in (None, STDOUT):
        raise Trouble("-o: found no folder; allowed: a folder for the reports of several audits")
    folder = Path(str(args.output))
    folder.mkdir(parents=True, exist_ok=True)
    with Progress(sys.stderr) as progress:
        progress.begin("made", len(asked), "reports")
        for count, each in enumerate(asked, 1):
            found = _made(view, each, args.ending or SAMPLE, args, says)
            written(folder / found.name, found.content)
            progress.at(count)
    sys.stdout.write(f"{folder}: {len(asked)} reports\n")


def _made(
    view: LedgerView, asked: str, ending: str, args: ReportArgs, says: Language
) -> ReportFile:
    return report_of(view, asked, ending, says, __version__, args.number or "")


def ending_of(output: str) -> str:
    """Return the format that a file's name asks for; the name of no format is PDF's.

    Raises:
        Trouble: its ending is that of no format.
    """
    name = Path(output).name
    if output in ("", STDOUT) or "." not in name:
        return SAMPLE
    for ending in endings():
        if name.lower().endswith(f".{ending}"):
            return ending
    raise Trouble(f"-o: found {output!r}; allowed: a name that ends in {', '.join(endings())}")
