"""Evidence that was let go on purpose: what the row that says so must say, and be said of.

The digest stays in the rows that named it and in the file, with the number of the row that let it
go; that row, in the chain as any other, holds how many there were and the SHA-256 of their list.
So one more, or one less, is as much an alarm as evidence that is missing.
"""

from typing import Final

from daq.ledger.chain import list_digest
from daq.ledger.errors import LedgerError, LetGo
from daq.ledger.reads import Reads
from daq.settings import quoted
from daq.words import Event, Said, said

LET_GO_TYPE: Final = "SamplesLetGo"
"""Such a row's `data` has `count`, `digest` (of the list) and `up_to`: no later row names any."""


def evidence_fault(reads: Reads, seq: int, digest: str) -> Said | None:
    """What is wrong with evidence that row `seq` names; None if it is there, or rightly let go."""
    try:
        reads.chunk(digest)
    except LetGo as gone:
        row = reads.event(gone.row)
        if row is None or row.type != LET_GO_TYPE or not seq <= up_to(row) < row.seq:
            return said("let-go-by-none", seq=seq, why=gone.said)
    except LedgerError as error:
        return said("row-and-why", seq=seq, why=error.said)
    except (ValueError, TypeError):
        return said("row-misnames-evidence", seq=seq, found=quoted(digest))
    return None


def list_fault(reads: Reads, row: Event) -> Said | None:
    """What is wrong with what a row let go: the file must list as much as it says, and no other."""
    found = reads.let_go_by(row.seq)
    if row.data.get("count") != len(found) or row.data.get("digest") != list_digest(found):
        return said("let-go-otherwise", seq=row.seq, found=len(found))
    return None


def up_to(row: Event) -> int:
    """Give the row after which none names what such a row let go; 0 where it says none."""
    found = row.data.get("up_to")
    return found if isinstance(found, int) else 0
