"""A ledger as rows and evidence that may be altered at will, told as a file and as an export."""

import base64
import copy
import hashlib
import json
from dataclasses import dataclass, field

import apsw
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from daq.ledger import Ledger, LedgerView, digest_of
from daq.ledger.attested import statement
from daq.ledger.chain import list_digest
from daq.ledger.let_go import LET_GO_TYPE
from daq.ledger.verify import verify
from tests.independent.verify_export import Check, NoExport, Unsound
from tests.ledger.conftest import make_draft, raw_hand

KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
PUBLIC = KEY.public_key().public_bytes_raw().hex()
CHUNKS = tuple(f"samples {n}".encode() * 20 for n in range(4))
DIGESTS = tuple(map(digest_of, CHUNKS))
STRAY = "ab" * 32


@dataclass
class Kept:
    """Rows (number, body, hash), evidence by its digest, and what was let go by which row."""

    rows: list = field(default_factory=list)
    chunks: dict = field(default_factory=dict)
    gone: dict = field(default_factory=dict)

    def copy(self):
        return copy.deepcopy(self)

    def chained(self, at=0):
        """With hashes that follow, from the row in place `at` on: what who has the file can do."""
        head = self.rows[at - 1][2] if at else bytes(32)
        for place in range(at, len(self.rows)):
            seq, body, _ = self.rows[place]
            head = hashlib.sha256(head + body).digest()
            self.rows[place] = (seq, body, head)
        return self

    def with_body(self, at, **changes):
        seq, body, stored = self.rows[at]
        event = json.loads(body) | changes
        text = json.dumps(event, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        self.rows[at] = (seq, text.encode(), stored)
        return self

    def lines(self):
        rows = [
            {"body": body.decode(), "hash": stored.hex(), "seq": seq}
            for seq, body, stored in self.rows
        ]
        rows += [
            {"bytes": base64.b64encode(chunk).decode(), "digest": digest}
            for digest, chunk in self.chunks.items()
        ]
        rows += [{"digest": digest, "let_go": row} for digest, row in self.gone.items()]
        return [json.dumps(row, separators=(",", ":"), ensure_ascii=False) + "\n" for row in rows]

    @property
    def fits_a_file(self):
        """Whether the database takes it: rows in order; evidence it has, or none is named."""
        seqs = [seq for seq, *_ in self.rows]
        once = not set(self.chunks) & set(self.gone)
        return seqs == sorted(set(seqs)) and once and bool(self.chunks or self.gone)


def made(folder):
    """Twelve rows: evidence named once and twice, some let go, two signed, one by the key too."""
    with Ledger.open(folder) as ledger:
        for n, chunk in enumerate(CHUNKS):
            ledger.append([make_draft(n, evidence=(DIGESTS[n],))], [chunk])
        ledger.append([make_draft(5, evidence=(DIGESTS[3],)), make_draft(6, type="Signed")])
        ledger.append([attested(ledger.uuid, 7, ledger.head)])
        data = {"count": 1, "digest": list_digest([bytes.fromhex(DIGESTS[0])]), "up_to": 4}
        ledger.let_go(make_draft(8, type=LET_GO_TYPE, machine="", data=data), DIGESTS[:1])
        ledger.append([make_draft(9, type="Signed"), make_draft(10), make_draft(11)])
    return kept(folder)


def attested(ledger, row, head, **changes):
    data = {"row": row, "hash": head, "key": PUBLIC}
    data["signature"] = KEY.sign(statement(ledger, row, head)).hex()
    return make_draft(7, type="AuditAttested", machine="", audit="", data=data | changes)


def kept(folder):
    with LedgerView.open(folder) as view:
        found = Kept(list(view.rows()))
        for digest, chunk, row in view.chunks(view.ends()[1]):
            where, what = (found.chunks, chunk) if row is None else (found.gone, row)
            where[digest.hex()] = what
        return found


def put(folder, what):
    """Write it into the file in `folder`; whether the database takes it."""
    with raw_hand(folder) as connection:
        connection.pragma("synchronous", 0)
        try:
            with connection:
                for table in ("events", "chunks"):
                    connection.execute(f"DELETE FROM {table}")
                rows = [(seq, body.decode(), stored) for seq, body, stored in what.rows]
                connection.executemany("INSERT INTO events (seq, body, hash) VALUES (?,?,?)", rows)
                chunks = [(bytes.fromhex(d), c, None) for d, c in what.chunks.items()]
                chunks += [(bytes.fromhex(d), None, row) for d, row in what.gone.items()]
                connection.executemany(
                    "INSERT INTO chunks (digest, bytes, let_go) VALUES (?,?,?)", chunks
                )
        except (apsw.SQLError, apsw.ConstraintError):  # such as a body that is no JSON
            return False
    return True


def by_file(folder, anchors):
    report = verify(folder, anchors)
    return ("sound" if report.ok else "unsound"), report.first_bad_seq


def by_script(lines, anchors, keys=()):
    check = Check([(each.seq, each.head) for each in anchors], keys)
    try:
        check.all(line.encode() for line in lines)
    except NoExport:
        return "none", None
    except Unsound as error:
        return "unsound", error.row
    return "sound", None
