"""The list for whoever asks a ledger beside its service: nothing is written."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from daq.ledger.errors import LedgerError, of_file
from daq.ledger.view import LedgerView
from daq.records.index import INDEX_NAME, Index, Unusable
from daq.records.wanted import Found, Wanted, answer


def look(data: Path, wanted: Wanted) -> Iterator[tuple[Found, Mapping[str, str]]]:
    """Give what is wanted of the list, page by page, each with what people are called, by id.

    What the service wrote down is taken, if it is of use, and what came since is read. The folder
    may be one that nothing can be written to, and its ledger in use.

    Raises:
        LedgerError: the ledger cannot be read, or not by this release.
    """
    with LedgerView.open(data) as view, _known(data, view) as index:
        try:
            index.catch_up(view)
            names = view.people()
            while True:
                found = answer(index, wanted, names)
                yield found, names
                if found.more is None:
                    return
                wanted = replace(wanted, before=found.more)
        except Unusable as error:
            raise LedgerError(of_file(data / INDEX_NAME, str(error))) from error


def _known(data: Path, view: LedgerView) -> Index:
    """A copy in memory of what is there, or an empty one."""
    try:
        with Index.at(data / INDEX_NAME) as there:
            index = there.in_a_copy()
        index.require_fit(view, whole=True)
        return index
    except Unusable:
        return Index.in_memory()
