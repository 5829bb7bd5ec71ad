"""`headsweep ledger recheck`: what today's decisions would have said, by code."""

import json
import sys
from argparse import Namespace
from collections.abc import Iterator
from typing import Any, Final

from daq.audit.recompute import Change, Difference, NotAgain
from daq.ledger import commands as ledger
from daq.ledger.commands import Words
from daq.ledger.progress import Progress
from daq.records.recheck import recheck
from daq.settings import plain

LONGEST: Final = 120
"""Characters of one value in a line; `--json` has all of it."""


def run(args: Namespace, words: Words) -> int:
    """Make every decision of `args.data` again, say what differs, and give the exit code."""
    with Progress(sys.stderr) as progress:
        if ledger.unsound(args.data, words, progress):
            return ledger.ALTERED
        told = _as_json if args.json else _as_text
        differ = gone = 0
        for found in recheck(args.data, progress):
            if isinstance(found, NotAgain):
                gone += 1
            elif found is not None:
                differ += 1
                progress.clear()
                sys.stdout.writelines(f"{line}\n" for line in told(found, words))
    if args.json:
        sys.stdout.write(json.dumps({"differ": differ, "let_go": gone}) + "\n")
    else:
        if gone:
            sys.stdout.write(f"{gone} not made again: their samples were let go\n")
        outcome = f"{differ} differ" if differ else "every decision comes out as recorded"
        sys.stdout.write(f"{outcome}\n")
    return ledger.DIFFER if differ else ledger.OK


def _as_text(found: Difference, words: Words) -> Iterator[str]:
    start = f"row {found.seq}: recorded {found.type}, "
    if found.refused is not None:
        yield f"{start}now refused: {words(found.refused)} ({found.refused.code})"
    elif found.what == "unreadable":
        yield f"{start}but its input or evidence is not what headsweep writes ({found.why})"
    for change in found.changes:
        yield f"row {change.seq}: {_changed(change)}"
    if found.more:
        yield f"row {found.seq}: and {found.more} more"


def _changed(change: Change) -> str:
    recorded, now = _figure(change.recorded), _figure(change.now)
    if not change.path:
        return f"recorded {recorded}, now {now}"
    return f"{change.path}: recorded {recorded}, now {now}"


def _figure(value: object) -> str:
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 3]}..."


def _as_json(found: Difference, words: Words) -> Iterator[str]:
    line: dict[str, Any] = {
        "row": found.seq,
        "type": found.type,
        "what": found.what,
        "changes": [plain(change) for change in found.changes],
        "more": found.more,
    }
    if found.refused is not None:
        line |= {"code": found.refused.code, "say": words(found.refused)}
    if found.why:
        line |= {"why": found.why}
    yield json.dumps(line, ensure_ascii=False)
