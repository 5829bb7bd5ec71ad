"""A capture: what once came over a gauge's wire, as a text file.

It begins with a header, a key and its value a line ("cable: USB adapter"). After an
empty line come the bytes in hexadecimal; a line "pause" stands for a silence. After a line
"numbers", if there is one, stand the numbers that were read of them, one a line.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

SUFFIX: Final = ".cap"
_KEY: Final = re.compile(r"([a-z][a-z ]*): (.*)")
_PAUSE: Final = "pause"
_NUMBERS: Final = "numbers"
_A_LINE: Final = 32


@dataclass(frozen=True, slots=True)
class Capture:
    """The header, the bytes in pieces with a silence between one and the next, the numbers."""

    header: Mapping[str, str]
    pieces: tuple[bytes, ...]
    numbers: tuple[str, ...] = ()

    def __str__(self) -> str:
        """Return the text of its file."""
        lines = [f"{key}: {value}" for key, value in self.header.items()]
        lines.append("")
        for nth, piece in enumerate(self.pieces):
            lines += [_PAUSE] if nth else []
            lines += [piece[at : at + _A_LINE].hex(" ") for at in range(0, len(piece), _A_LINE)]
        return "\n".join([*lines, _NUMBERS, *self.numbers]) + "\n"


def parse(text: str, where: str) -> Capture:
    """Return the capture in a file's text; `where` names the file in messages.

    Raises:
        ValueError: says the line, what was found in it and what is allowed.
    """
    head, empty, body = text.partition("\n\n")
    if not empty:
        raise ValueError(f"{where}: found no empty line; allowed: one between header and bytes")
    header = {}
    for number, line in enumerate(head.splitlines(), 1):
        hit = _KEY.fullmatch(line)
        if hit is None:
            raise ValueError(f'{where}:{number}: found {line!r}; allowed: such as "cable: USB"')
        header[hit[1]] = hit[2]
    body, _, numbers = body.partition(f"{_NUMBERS}\n")
    pieces = [b""]
    for number, line in enumerate(body.splitlines(), head.count("\n") + 3):
        if line.strip() == _PAUSE:
            pieces.append(b"")
            continue
        try:
            pieces[-1] += bytes.fromhex(line)
        except ValueError:
            raise ValueError(
                f'{where}:{number}: found {line!r}; allowed: bytes such as "2b 30 0d", or "pause"'
            ) from None
    return Capture(header, tuple(pieces), tuple(numbers.splitlines()))


def captures(config: Path) -> list[Path]:
    """Return what gauges were learned from: beside one's file, or of all in a folder."""
    if config.is_file():
        return [config.with_suffix(SUFFIX)]
    folder = config / "gauges" if (config / "gauges").is_dir() else config
    return sorted(each for each in folder.glob(f"*{SUFFIX}") if each.with_suffix(".toml").exists())
