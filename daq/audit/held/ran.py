"""How the spindle was run before it was locked out."""

from dataclasses import dataclass
from typing import Final

RAN: Final = "power"
"""What an audit keeps it by."""


@dataclass(frozen=True)
class Ran:
    """Warm, or left cold; `minutes`: how long, None where nobody said."""

    warm: bool
    minutes: int | None = None
