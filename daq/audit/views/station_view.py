"""The view of one reading of a check that is none of the head."""

from dataclasses import dataclass
from typing import Literal

from daq.words import Text


@dataclass(frozen=True, slots=True)
class StationView:
    """Where a reading is taken, and what was read."""

    say: Text
    value: Text
    state: Literal["done", "next", "todo"]
