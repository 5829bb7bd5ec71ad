"""Which audit is meant: by its id, by how that begins, or by the short form people say aloud."""

import re
from collections.abc import Iterator
from itertools import islice
from typing import Final

from daq.audit.opening import short_form
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.view import LedgerView
from daq.words import said

_SHORT: Final = re.compile(r"A-[A-Z0-9]{4}")
_NAMED: Final = 4
"""So many of the audits that fit are named."""


def find(view: LedgerView, text: str) -> str:
    """Return the id of the audit that `text` means: an id, its beginning, or a short form.

    Raises:
        LedgerError: no audit is called so, or several are; names some of them.
    """
    asked = text.strip()
    found = list(islice(_fitting(view, asked), _NAMED + 1)) if asked else []
    if len(found) == 1:
        return found[0]
    if not found:
        raise LedgerError(of_file(view.path, said("no-such-audit", audit=asked or "-")))
    more = "yes" if len(found) > _NAMED else "no"
    these = ", ".join(found[:_NAMED])
    several = said("several-audits", asked=asked, these=these, more=more)
    raise LedgerError(of_file(view.path, several))


def _fitting(view: LedgerView, asked: str) -> Iterator[str]:
    short = asked.upper()
    if _SHORT.fullmatch(short):
        return (audit for audit in view.audits() if short_form(audit) == short)
    return view.audits(asked.lower())
