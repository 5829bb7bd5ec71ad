"""Choices that many rooms share."""

from typing import Literal

Unit = Literal["mm", "in"]
"""What a gauge shows in, and a machine's file is told in."""
Word = Literal["in", "out", "close"]
"""A verdict: inside its limits, beyond them, or too close to call."""
