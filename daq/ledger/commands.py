"""What a person can ask of a ledger at the command line: verify, show, export, backup, people.

Each takes a data folder and a stream to write to and gives the exit code. What the ledger says
is made words by whoever calls.
"""

import base64
import io
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Final, Protocol, TextIO

from daq.ledger.anchors import gather_beside
from daq.ledger.attested import Attested, public_key
from daq.ledger.backup import backup
from daq.ledger.carry_on import carry_on, looked_at
from daq.ledger.chain import canonical
from daq.ledger.errors import LedgerError, NotSound, of_file
from daq.ledger.progress import SILENT, Progress
from daq.ledger.store import Ledger
from daq.ledger.verify import Anchor
from daq.ledger.verify import verify as check
from daq.ledger.view import LedgerView
from daq.words import Event, Said, said

Words = Callable[[Said], str]
"""Makes words of what is said."""

OK: Final = 0
UNREADABLE: Final = 2
ALTERED: Final = 3
DIFFER: Final = 4

_DONE: Final = "Good of ledger {}: {} rows, head {}. A new ledger will name that row and hash."
_LOOK: Final = (
    "Nothing of the old ledger is known to the new one. Before any machine gets its power back,"
    " see that its head is tight and nothing is left in its spindle."
)

_WHOLE: Final = ("Addendum", "ReportAmended")
"""What is written out however long it is: it is there to be read with the audit it belongs to."""

_COLUMNS: Final = "{:>7}  {:<19}  {:<16}  {:<8}  {:<20}  {:<10}  {}"


class Args(Protocol):
    """What the command line hands over."""

    action: str
    data: Path
    anchor: Sequence[str]
    anchors: Sequence[Path]
    key: Sequence[str]
    audit: str | None
    evidence: bool
    to: Path
    correct: Sequence[str]
    yes: bool


def run(args: Args, words: Words) -> int:
    """Do `args.action` (such as "verify") and give the exit code."""
    with Progress(sys.stderr) as progress:
        return _run(args, words, progress)


def _run(args: Args, words: Words, progress: Progress) -> int:
    try:
        if args.action == "verify":
            anchors = [anchor(text) for text in args.anchor]
            return verify(args.data, sys.stdout, words, anchors, args.anchors, args.key, progress)
        if args.action == "show":
            return show(args.data, sys.stdout, args.audit)
        if args.action == "people":
            return people(args.data, sys.stdout, args.correct)
        if args.action == "carry-on":
            return succeed(args.data, sys.stdout, words, sure=args.yes)
        if args.action == "backup":
            return copy(args.data, sys.stdout, words, args.to, progress)
        return export(args.data, sys.stdout, words, evidence=args.evidence, progress=progress)
    except NotSound as error:
        progress.clear()
        sys.stderr.write(f"NOT SOUND: {words(error.said)}\n")
        return ALTERED
    except LedgerError as error:
        progress.clear()
        sys.stderr.write(f"{words(error.said)}\n")
    except ValueError as error:
        sys.stderr.write(f"{error}\n")
    return UNREADABLE


def anchor(text: str) -> Anchor:
    """Read "ROW:HASH", as printed on a report. Raises ValueError."""
    seq, colon, head = text.partition(":")
    if not colon or not seq.isdecimal():
        raise ValueError(f"found {text!r}; allowed: ROW:HASH such as 41:9f86d081884c7d65")
    return Anchor(int(seq), head.strip().lower())


def verify(
    folder: Path,
    out: TextIO,
    words: Words,
    anchors: Sequence[Anchor] = (),
    places: Sequence[Path] = (),
    keys: Sequence[str] = (),
    progress: Progress = SILENT,
) -> int:
    """Check every row and all evidence, and say what was found; so of the anchors in `places`.

    With `keys` every signed audit must be signed by one of them. Raises LedgerError, ValueError
    where a place is not there or a key is none.
    """
    attested = Attested([public_key(each) for each in keys])
    gathered = gather_beside(folder, places)
    report = check(folder, (*anchors, *gathered.against), attested=attested, progress=progress)
    progress.clear()
    if gathered.looked or gathered.unread.count:
        out.write("".join(f"{words(each)}\n" for each in gathered.told))
    out.write("".join(f"{words(each)}\n" for each in attested.told))
    against = attested.unmet if report.ok else report.say
    if against is None:
        out.write(f"sound: {words(report.say)}\n")
        return OK
    out.write(f"NOT SOUND: {words(against)}\ngood rows: {report.rows}\n")
    if report.first_bad_seq is not None:
        out.write(f"first bad row: {report.first_bad_seq}\n")
    return ALTERED


def unsound(folder: Path, words: Words, progress: Progress = SILENT) -> bool:
    """Return whether a ledger must not be read on from, and say why where mistakes are said.

    Raises LedgerError.
    """
    found = io.StringIO()
    code = verify(folder, found, words, progress=progress)
    sys.stderr.write(found.getvalue() if code else "")
    return code != OK


def show(folder: Path, out: TextIO, audit: str | None = None) -> int:
    """Write a table with a line an event, of all audits or of those that `audit` begins.

    Raises LedgerError.
    """
    with LedgerView.open(folder) as view:
        header = _COLUMNS.format("row", "UTC", "machine", "audit", "event", "actor", "data")
        out.write(header + "\n")
        names = view.people()
        for event in view.events():
            if audit is None or event.audit.startswith(audit):
                out.write(_line(event, names))
    return OK


def _line(event: Event, names: Mapping[str, str]) -> str:
    when = datetime.fromtimestamp(event.stamp.utc_us / 1e6, UTC).strftime("%Y-%m-%d %H:%M:%S")
    if not event.stamp.utc_trusted:
        when = when[:-3] + " ?"
    data = canonical({key: _called(value, names) for key, value in event.data.items()})
    cut = data if len(data) <= 80 or event.type in _WHOLE else data[:77] + "..."
    actor = names.get(event.actor, event.actor)
    row = (event.seq, when, event.machine, event.audit[:8], event.type, actor, cut)
    return _COLUMNS.format(*row).rstrip() + "\n"


def _called(value: object, names: Mapping[str, str]) -> object:
    """The name of whom a row names by an id; else what stands there."""
    return names.get(value, value) if isinstance(value, str) else value


def export(
    folder: Path,
    out: TextIO,
    words: Words,
    *,
    evidence: bool = False,
    progress: Progress = SILENT,
) -> int:
    """Write a JSON object a line: {"body","hash","seq"}, the body as the very text that was hashed.

    With `evidence`, {"bytes","digest"} lines follow, the bytes in base64; of what was let go
    {"digest","let_go"}, the row that says so. Of a ledger that is not sound nothing is written.
    Raises LedgerError.
    """
    if unsound(folder, words, progress):
        return ALTERED
    if out.isatty():  # what is written there tells how far it has come
        progress = SILENT
    with LedgerView.open(folder) as view:
        last, last_chunk = view.ends()
        progress.begin("written", last)
        for seq, body, stored in view.rows():
            if seq > last:
                break
            row = {"seq": seq, "hash": stored.hex(), "body": body.decode("utf-8")}
            out.write(canonical(row) + "\n")
            progress.at(seq)
        if evidence:
            _export_evidence(view, out, last, last_chunk, progress)
    return OK


def _export_evidence(
    view: LedgerView, out: TextIO, last: int, last_chunk: int, progress: Progress
) -> None:
    progress.begin("written", view.evidence()[0], "pieces of evidence")
    for done, (digest, chunk, gone) in enumerate(view.chunks(last_chunk), 1):
        if gone is not None and gone > last:
            raise LedgerError(of_file(view.path, said("let-go-meanwhile", row=str(gone))))
        out.write(canonical(_chunk_line(digest, chunk, gone)) + "\n")
        progress.at(done)


def _chunk_line(digest: bytes, chunk: bytes | None, row: int | None) -> Mapping[str, object]:
    if chunk is None:
        return {"digest": digest.hex(), "let_go": row}
    return {"digest": digest.hex(), "bytes": base64.b64encode(chunk).decode("ascii")}


def people(folder: Path, out: TextIO, correct: Sequence[str] = ()) -> int:
    """Write everybody a row names, an id and a name a line, after putting names right.

    Each of `correct` is ID=NAME; the service must not be running then. Raises LedgerError,
    ValueError.
    """
    if correct:
        with Ledger.open(folder) as ledger:
            for each in correct:
                person, _, name = each.partition("=")
                ledger.rename(person, name)
    with LedgerView.open(folder) as view:
        for person, name in view.people().items():
            out.write(f"{person}  {name}\n")
    return OK


def succeed(folder: Path, out: TextIO, words: Words, *, sure: bool) -> int:
    """Begin a new ledger in the place of one that is not sound, once somebody said so.

    Raises LedgerError.
    """
    old = looked_at(folder)
    out.write(f"{words(old.why)}\n{_DONE.format(old.ledger or 'unknown', old.rows, old.head)}\n")
    if not sure and input("Type yes to begin a new ledger: ").strip().lower() != "yes":
        out.write("Nothing was done.\n")
        return UNREADABLE
    out.write(f"The old files are in {carry_on(folder, old)}, unchanged.\n{_LOOK}\n")
    return OK


def copy(folder: Path, out: TextIO, words: Words, target: Path, progress: Progress = SILENT) -> int:
    """Copy the ledger, also while it is in use, into a new folder. Raises LedgerError."""
    report = backup(folder, target, progress)
    progress.clear()
    out.write(f"{target}: {words(report.say)}\n")
    return OK
