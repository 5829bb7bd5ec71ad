"""What frames are that the gauge's file does not understand, yet that were received rightly.

A wrong speed or parity gives no lines of text: bytes of 128 and above are in them, and zeros.
Pure: bytes in, a word out.
"""

import re
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Any, Final, Literal

from daq.gauges import frames
from daq.gauges.frames import Amiss

Misfit = Amiss | Literal["digits", "other", "other-unchecked"]
"""What is amiss: besides what the decoder tells, digits that are missing, or other frames."""

_LINES: Final = re.compile(rb"[\r\n]+")
_TEXT: Final = re.compile(rb"[\x02\x03\t -~]+")
_NUMBER: Final = re.compile(rb"[0-9]+(?:[.,][0-9]+)?")
_FORM: Final = re.compile(rb"[-+ ]*[0-9]+|[ ]+")
_LEAST_LINES: Final = 2
_LEAST_DIGITS: Final = 3
_MOST_NUMBERS: Final = 6
_MISSING: Final = (b"0", b"00")
"""So many of the last digits a face may leave out."""


def misfit(data: bytes, table: Mapping[str, Any], found: Amiss | None) -> Misfit | None:
    """Return what the frames in these bytes are, of which the gauge's file understands none.

    `table` is the file's `frame`, `found` what its own decoder says of them; None when they are
    no text of one form, which a wrong speed is more likely to have made.
    """
    ends = [end.end() for end in _LINES.finditer(data)]
    data = data[ends[0] : ends[-1]] if ends else b""  # whole lines
    if found not in (None, "unit") or not _of_one_form(data):
        return found
    decoder = frames.decoder(table, "frame")
    decoder.gap()  # the first line counts
    for filled in _filled(data):
        before = decoder.bad, decoder.damaged
        good = len(decoder.feed(filled))
        bad, damaged = decoder.bad - before[0], decoder.damaged - before[1]
        if bad == damaged and good + damaged >= _LEAST_LINES:
            return "digits"
        decoder.gap()
    return found or ("other-unchecked" if "check" in table else "other")


def _of_one_form(data: bytes) -> bool:
    """Whether these are lines of text with a number in each, alike but for their digits."""
    lines = [line for line in _LINES.split(data) if line]
    forms = {_FORM.sub(b"0", line) for line in lines}
    return (
        len(lines) >= _LEAST_LINES
        and len(forms) == 1
        and all(map(_TEXT.fullmatch, lines))
        and all(sum(map(len, re.findall(rb"[0-9]+", line))) >= _LEAST_DIGITS for line in lines)
    )


def _filled(data: bytes) -> Iterator[bytes]:
    """The same with zeros behind the first number of each line, behind the second, and so on."""
    numbers = max(len(_NUMBER.findall(line)) for line in _LINES.split(data))
    for nth in range(min(numbers, _MOST_NUMBERS)):
        for zeros in _MISSING:
            yield re.sub(rb"[^\r\n]+", partial(_with, nth, zeros), data)


def _with(nth: int, zeros: bytes, found: re.Match[bytes]) -> bytes:
    line = found[0]
    ends = [number.end() for number in _NUMBER.finditer(line)]
    return line if nth >= len(ends) else line[: ends[nth]] + zeros + line[ends[nth] :]
