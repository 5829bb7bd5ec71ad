"""A number among two that look alike, so that it is picked by whoever has read it."""

import hashlib
import string
from typing import Final

_RINGS: Final = (string.digits, string.ascii_uppercase, string.ascii_lowercase)


def alike(number: str, audit: str) -> tuple[str, str, str]:
    """The number and two that differ from it in one place, none of them marked by where it stands.

    `audit`: its id, which the order and the two others follow from, alike for any number.
    """
    draw = hashlib.sha256(audit.encode()).digest()
    steps = (1 + draw[0] % 4, 5 + draw[1] % 4)
    found = [number, *(_turned(number, step) for step in steps)]
    first, way = draw[2] % 3, 1 + draw[3] % 2
    return found[first], found[(first + way) % 3], found[(first + 2 * way) % 3]


def _turned(number: str, by: int) -> str:
    """The number with its last digit or letter so many further on; without one, a digit more."""
    for at in range(len(number) - 1, -1, -1):
        for ring in _RINGS:
            place = ring.find(number[at])
            if place >= 0:
                other = ring[(place + by) % len(ring)]
                return number[:at] + other + number[at + 1 :]
    return number + string.digits[by]
