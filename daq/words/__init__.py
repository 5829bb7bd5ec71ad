"""The words every room shares: what crosses a boundary, as frozen dataclasses.

Here live types without behaviour beyond checking themselves. Nothing here
imports another room, does I/O or reads a clock.
"""

from daq.words.both import Both
from daq.words.choices import Unit, Word
from daq.words.command import Ack, Asker, Command, Proved
from daq.words.event import Draft, Event, Stamp
from daq.words.passed import Passed
from daq.words.place import AXES, FOUR_POSITIONS, OPPOSITE, OTHER, PARKED, POSITIONS, Axis, Position
from daq.words.reading import Reading
from daq.words.said import Figure, Person, Said, Shown, Text, in_a_row, said
from daq.words.sample import Against, GaugeStatus, Live, Sample, Snapshot, Strip
from daq.words.trouble import CannotBe, SaidTrouble, Trouble

__all__ = [
    "AXES",
    "FOUR_POSITIONS",
    "OPPOSITE",
    "OTHER",
    "PARKED",
    "POSITIONS",
    "Ack",
    "Against",
    "Asker",
    "Axis",
    "Both",
    "CannotBe",
    "Command",
    "Draft",
    "Event",
    "Figure",
    "GaugeStatus",
    "Live",
    "Passed",
    "Person",
    "Position",
    "Proved",
    "Reading",
    "Said",
    "SaidTrouble",
    "Sample",
    "Shown",
    "Snapshot",
    "Stamp",
    "Strip",
    "Text",
    "Trouble",
    "Unit",
    "Word",
    "in_a_row",
    "said",
]
