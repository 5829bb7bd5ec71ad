"""Rows in which the shop's key signs a row that people signed: what it signs, and the check.

Ed25519 (RFC 8032). What is signed is a text that anybody can put together from the row; the
library that checks it is loaded with the first such row.
"""

import hashlib
from collections import Counter
from collections.abc import Collection
from typing import Final

from daq.words import Event, Said, said

ATTESTED_TYPE: Final = "AuditAttested"
"""Such a row's `data` has `row`, `hash` (of that row), `key` and `signature`, all of them hex but
the first."""
SIGNED_TYPE: Final = "Signed"

_DIGITS: Final = {"hash": 64, "key": 64, "signature": 128}


def statement(ledger: str, row: int, head: str) -> bytes:
    """The bytes that are signed: that row of that ledger, by its hash (hex)."""
    return f"headsweep-signed:{ledger}:{row}:{head}".encode("ascii")


def fingerprint(key: str) -> str:
    """A public key (hex) in few digits: the first sixteen of its SHA-256, in fours."""
    digits = hashlib.sha256(bytes.fromhex(key)).hexdigest()
    return " ".join(digits[at : at + 4] for at in range(0, 16, 4))


def public_key(text: str) -> str:
    """A public key as somebody typed it, as its 64 hex digits. Raises ValueError."""
    key = "".join(text.split()).lower()
    if not _hex(key, 64):
        raise ValueError(f"found {text!r}; allowed: a public key, 64 digits (0-9, a-f)")
    return key


class Attested:
    """Checks such rows, one after the other; `keys`: those it must be by, if any are named."""

    def __init__(self, keys: Collection[str] = ()) -> None:
        """Nothing was looked at yet."""
        self._keys = frozenset(keys)
        self._signed: dict[int, str] = {}
        self._by: dict[int, str] = {}

    def look(self, event: Event, head: str) -> Said | None:
        """What is wrong with a row (of hash `head`) as far as signatures by a key go."""
        if event.type == SIGNED_TYPE:
            self._signed[event.seq] = head
        if event.type != ATTESTED_TYPE:
            return None
        data = event.data
        row, key = data.get("row"), data.get("key")
        if type(row) is not int or not all(_hex(data.get(k), n) for k, n in _DIGITS.items()):
            return said("attests-nothing", seq=event.seq)
        if self._signed.get(row) != data["hash"]:
            return said("attests-no-such-row", seq=event.seq, row=row)
        if self._keys and key not in self._keys:
            return said("attested-by-other", seq=event.seq, row=row, key=fingerprint(str(key)))
        if not verified(
            str(key), str(data["signature"]), statement(event.ledger, row, data["hash"])
        ):
            return said("attested-falsely", seq=event.seq, row=row)
        self._by[row] = str(key)
        return None

    @property
    def missing(self) -> tuple[int, ...]:
        """The rows that people signed and no key did."""
        return tuple(row for row in self._signed if row not in self._by)

    @property
    def told(self) -> tuple[Said, ...]:
        """What is to be said of it; nothing where no key signed anything."""
        of, missing = len(self._signed), self.missing
        told = [
            said("attested-by", n=n, of=of, key=fingerprint(key))
            for key, n in Counter(self._by.values()).items()
        ]
        if missing and told:
            told.append(said("attested-by-none", n=len(missing), of=of, row=missing[0]))
        return tuple(told)

    @property
    def unmet(self) -> Said | None:
        """What a whole record lacks that must be signed by one of the keys named."""
        missing, of = self.missing, len(self._signed)
        if not self._keys or not missing:
            return None
        return said("attested-by-none", n=len(missing), of=of, row=missing[0])


def verified(key: str, signature: str, text: bytes) -> bool:
    """Whether a signature under a text is that key's, both hex."""
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    try:
        Ed25519PublicKey.from_public_bytes(bytes.fromhex(key)).verify(
            bytes.fromhex(signature), text
        )
    except (InvalidSignature, ValueError):
        return False
    return True


def _hex(value: object, digits: int) -> bool:
    return isinstance(value, str) and len(value) == digits and set(value) <= set("0123456789abcdef")
