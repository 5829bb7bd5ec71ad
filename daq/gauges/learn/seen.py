"""The number that is believed to stand on the face, from the last bytes that came."""

import re
from typing import Final

from daq.gauges.learn.cells import UNIT
from daq.gauges.learn.evidence import Pieces, Table
from daq.gauges.learn.judge import decoded

_NUMBER: Final = re.compile(rb"[-+]? *[0-9]*[.,][0-9]+(?:[eE][-+]?[0-9]+)?|[-+]?[0-9]{3,}")
_LATEST: Final = 8


def last_read(table: Table, pieces: Pieces) -> str:
    """Return the last number that a table reads, with its unit; "" for none."""
    read = decoded(table, pieces[-_LATEST:])
    return f"{read[-1].text} {read[-1].unit}" if read else ""


def believed(pieces: Pieces) -> str:
    """Return the last number that is written out, before anything is known of the frames."""
    lines = re.split(rb"[\r\n\x02-\x04]+", b"".join(pieces[-_LATEST:]))[1:-1] or pieces[-1:]
    for line in reversed(lines):
        found = sorted(_NUMBER.finditer(line), key=lambda hit: b"." in hit[0] or b"," in hit[0])
        if found:
            unit = UNIT.search(line)
            number = found[-1][0].decode().replace(" ", "")
            return f"{number} {unit[2].decode().lower() if unit else ''}".strip()
    return ""
