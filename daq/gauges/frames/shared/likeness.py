"""What bytes look like in which no good frame was found."""

import re
from collections.abc import Sequence
from typing import Final

from daq.gauges.frames import Amiss

_MOST_DIGITS: Final = 2
"""A word in place of the number may hold so many digits, as an error's number."""
_WRITTEN: Final = re.compile(rb"[\x02\x03\t\n\r -~]+")
_ANY_DIGIT: Final = re.compile(rb"[0-9]")


def without_number(frames: Sequence[bytes]) -> bool:
    """Return whether all frames are text, or blank, without a number in it.

    What is heard at a wrong speed or parity is not text for long: bytes of 128 and above, and
    those that are 0, which stand for a wrong parity or stop bit, are in no text.
    """
    return bool(frames) and all(
        _WRITTEN.fullmatch(frame) and len(_ANY_DIGIT.findall(frame)) <= _MOST_DIGITS
        for frame in frames
    )


def marked(odd: Sequence[frozenset[int]], number: frozenset[int], marks: int) -> Amiss | None:
    """Return what is amiss in frames with symbols at `odd` places that may not stand there.

    The number is at the places `number`; at most so many `marks` elsewhere make a unit, the
    same in all frames.
    """
    if not odd or not all(odd):
        return None
    if all(each <= number for each in odd):
        return "number"
    same = len(set(odd)) == 1
    return "unit" if same and len(odd[0]) <= marks and not odd[0] & number else None
