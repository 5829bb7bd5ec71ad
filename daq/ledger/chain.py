"""The hash chain: how a body becomes bytes, and how each row seals the one before it."""

import hashlib
import json
from collections.abc import Iterable
from typing import Final

GENESIS_PREV: Final = bytes(32)
"""What stands in for the previous hash in front of the first row."""

_ENCODER: Final = json.JSONEncoder(
    ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":")
)


def canonical(value: object) -> str:
    """Give `value` as the one JSON text that is stored and hashed.

    Compact, keys sorted, text as it is (no escapes beyond what JSON demands),
    floats in the shortest form that reads back the same. Raises ValueError for
    NaN, infinities, text that is not valid Unicode and keys that are not text,
    TypeError for what JSON cannot carry.
    """
    _refuse_other_keys(value)
    text = _ENCODER.encode(value)
    text.encode("utf-8")  # raises for half a surrogate pair
    return text


def _refuse_other_keys(value: object) -> None:
    """Raise ValueError for a key that is not text: json would turn 1 and "1" into one key."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if not isinstance(key, str):
                raise ValueError(f"key {key!r} is not text")
            _refuse_other_keys(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            _refuse_other_keys(inner)


def link(previous: bytes, body: bytes) -> bytes:
    """Give a row's hash: SHA-256 of the previous row's hash followed by this row's body."""
    return hashlib.sha256(previous + body).digest()


def digest_of(chunk: bytes) -> str:
    """Give the name a chunk of evidence is stored under: its SHA-256 in hex."""
    return hashlib.sha256(chunk).hexdigest()


def list_digest(digests: Iterable[bytes]) -> str:
    """Give the name of a set of chunks: SHA-256 of their digests one after the other, in order."""
    return digest_of(b"".join(sorted(digests)))


def digest_bytes(digest: str) -> bytes:
    """Read a chunk's name back into bytes.

    Raises ValueError unless it is 64 lower-case hex digits: one chunk has one name.
    """
    raw = bytes.fromhex(digest)
    if len(raw) != 32 or raw.hex() != digest:
        raise ValueError(f"found {digest!r}; allowed: a SHA-256 as 64 lower-case hex digits")
    return raw
