"""What to begin with: bytes that a target understands, made of what the tests have already."""

import json
from collections.abc import Callable, Iterator

from tests.fuzz import targets
from tests.fuzz.golden import commits
from tests.gauges.captures.captured import load


def decoders() -> Iterator[bytes]:
    for n, path in enumerate(targets.gauges()):
        captured = path.with_suffix(".cap").exists()
        sent = b"".join(load(path.stem).pieces) if captured else b"+001.234\r"
        yield bytes([n, 6]) + sent[:400]


def config() -> Iterator[bytes]:
    for n, (_, was) in enumerate(targets.files()):
        yield bytes([n]) + was


def bodies() -> Iterator[bytes]:
    for n, (event, *_) in enumerate(commits()):
        sent = {key: event.cause[key] for key in ("id", "kind", "payload")}
        yield bytes([0, n]) + json.dumps(sent).encode()
    yield bytes([1, 0]) + b'{"bore": {"depth": "25 mm", "zone": "0.01 mm"}}'
    yield bytes([2, 0]) + b'{"verb": "turn", "args": {"axis": "nod", "amount_mm": 0.01}}'


def ledgers() -> Iterator[bytes]:
    for n in range(len(targets.ACTIONS)):
        yield bytes([n])
        for file in range(len(targets.FILES)):
            yield bytes([n, file, 4]) + (4096).to_bytes(3) + b"\x00\xff\x0d\x0a"


SEEDS: dict[str, Callable[[], Iterator[bytes]]] = {
    "decoders": decoders,
    "config": config,
    "bodies": bodies,
    "ledgers": ledgers,
}
