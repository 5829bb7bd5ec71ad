"""The ledger: events and evidence go in as bytes, chained by hash, and come out unchanged.

Here live the file format (schema.sql, chain.py, body.py), the one writer
(store.py), read-only views (view.py), the proof that nothing was altered
(verify.py), copies (backup.py) and the commands a person runs on a ledger
(commands.py).

What may not live here: any knowledge of what an event means. This room knows
no event type but those about the record itself (its first row, evidence let
go, a row signed by people, one signed by the shop's key), and no gauge, audit
or machine. Nothing
here or elsewhere opens the ledger's files except through apsw: a plain open()
and close() of a database file inside the writer's process drops the writer's
locks.
"""

from daq.ledger.chain import digest_of
from daq.ledger.errors import LedgerError, NotKnown, NotRecorded
from daq.ledger.room import Room
from daq.ledger.store import Ledger
from daq.ledger.view import LedgerView

__all__ = ["Ledger", "LedgerError", "LedgerView", "NotKnown", "NotRecorded", "Room", "digest_of"]
