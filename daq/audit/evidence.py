"""The samples behind a decision, as the bytes the ledger keeps, and back again.

JSON lines: an object names the gauge and the opening of its port; each array below
it is one sample: n, mono_ns, text, unit, value_mm, flags, raw (one character a byte).
"""

import hashlib
import json
from collections.abc import Iterable, Iterator

from daq.words import Sample


def encode(samples: Iterable[Sample]) -> bytes:
    """The samples as stored bytes; no samples make no bytes."""
    return "".join(_lines(samples)).encode()


def _lines(samples: Iterable[Sample]) -> Iterator[str]:
    head = None
    for s in samples:
        if head != (s.gauge, s.run):
            head = (s.gauge, s.run)
            yield _line({"gauge": s.gauge, "run": s.run})
        raw = s.raw.decode("latin-1")
        yield _line([s.n, s.mono_ns, s.text, s.unit, s.value_mm, list(s.flags), raw])


def _line(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"


def decode(chunk: bytes) -> tuple[Sample, ...]:
    """The samples of a stored chunk.

    Raises:
        ValueError: the bytes are not such a chunk.
    """
    samples = []
    head: dict[str, str] = {}
    # Not splitlines(): a frame's byte 0x85 stands in its line as a character that it splits at.
    for line in chunk.decode().split("\n")[:-1]:
        value = json.loads(line)
        if isinstance(value, dict):
            head = value
            continue
        n, mono_ns, text, unit, value_mm, flags, raw = value
        samples.append(
            Sample(
                gauge=head["gauge"],
                run=head["run"],
                n=n,
                mono_ns=mono_ns,
                text=text,
                unit=unit,
                value_mm=value_mm,
                flags=tuple(flags),
                raw=raw.encode("latin-1"),
            )
        )
    return tuple(samples)


def digest(chunk: bytes) -> str:
    """SHA-256 of a chunk, hex: how events name it."""
    return hashlib.sha256(chunk).hexdigest()
