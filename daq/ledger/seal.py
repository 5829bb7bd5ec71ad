"""A seal: what the rows up to one of them come to, kept beside the ledger.

It saves time and nothing else. Its text is handed in and given back as it is; what is asked
here is whether it is whole and belongs to the ledger as it now stands. One that does not is
as good as none.
"""

import hashlib
import json
import os
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Annotated, Final

from daq.ledger.folder import flush_folder
from daq.ledger.reads import Reads
from daq.settings import Range, build

SEAL_NAME: Final = "ledger.seal"
FORMAT: Final = 1
"""Of the file: a line with the SHA-256 of all that follows, a line that says of what, the text."""


class Unfit(Exception):
    """This seal is of no use; the text says why."""


@dataclass(frozen=True, slots=True)
class Seal:
    """`text` is what the rows of `ledger` up to row `seq`, of hash `head` (hex), come to.

    `engine`: the release that worked it out.
    """

    ledger: str
    seq: Annotated[int, Range(1, 2**63 - 1)]
    head: str
    engine: str
    text: str


def write_seal(folder: Path, seal: Seal) -> None:
    """Put a seal beside the ledger, in place of the one there is: whole, or not at all.

    Raises OSError.
    """
    about = {key: value for key, value in asdict(seal).items() if key != "text"}
    rest = f"{json.dumps({'format': FORMAT, **about})}\n{seal.text}".encode()
    path = folder / SEAL_NAME
    part = path.with_name(f"{SEAL_NAME}.part")
    with part.open("wb") as file:
        file.write(hashlib.sha256(rest).hexdigest().encode("ascii") + b"\n" + rest)
        file.flush()
        os.fsync(file.fileno())
    part.replace(path)
    flush_folder(folder)


def remove_seal(folder: Path) -> None:
    """Take the seal away: the next start reads the whole ledger. Raises OSError."""
    (folder / SEAL_NAME).unlink(missing_ok=True)


def read_seal(folder: Path, engine: str) -> Seal:
    """Give the seal in `folder`, if it is whole and of this release. Raises Unfit."""
    try:
        raw = (folder / SEAL_NAME).read_bytes()
    except FileNotFoundError:
        raise Unfit("there is none") from None
    except OSError as error:
        raise Unfit(f"it cannot be read ({error.strerror})") from error
    digest, _, rest = raw.partition(b"\n")
    if digest != hashlib.sha256(rest).hexdigest().encode("ascii"):
        raise Unfit("it is damaged: its digest is another one")
    head, _, text = rest.partition(b"\n")
    try:
        about = json.loads(head)
        found = about.pop("format")
        if found != FORMAT:
            raise Unfit(f"found format {found}; allowed: {FORMAT}")
        seal = build(Seal, {**about, "text": text.decode("utf-8")}, "head")
    except (AttributeError, KeyError, TypeError, ValueError) as error:
        raise Unfit(f"it is no seal ({error})") from error
    if seal.engine != engine:
        raise Unfit(f"found one of headsweep {seal.engine}; allowed: {engine}")
    return seal


def require_fit(seal: Seal, reads: Reads) -> None:
    """Raise Unfit unless the ledger has the sealed row, or LedgerError if it cannot be asked."""
    ledger = reads.name()
    if seal.ledger != ledger:
        raise Unfit(f"it is of ledger {seal.ledger}; this is {ledger}")
    head = reads.hash_of(seal.seq)
    if head is None:
        raise Unfit(f"it was made at row {seal.seq}, which the ledger does not have")
    if head != seal.head:
        raise Unfit(f"row {seal.seq} is not the one it was made at")
