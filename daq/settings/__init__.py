"""From a table (TOML or JSON) to the dataclass it is handed, and back.

Here live the walk along a dataclass's hints, the marks a hint may carry and the
reading of a TOML file. Nothing here knows a key: every room owns the dataclass
of its own settings, and its hints say what may stand in the file.
"""

from daq.settings.build import build
from daq.settings.marks import Angle, Length, Quantity, Range, Seconds, Slope, Torque, Warmer
from daq.settings.plain import plain
from daq.settings.problems import SettingsError
from daq.settings.say import cut, found, quoted, shown
from daq.settings.toml import read_toml, toml_value

__all__ = [
    "Angle",
    "Length",
    "Quantity",
    "Range",
    "Seconds",
    "SettingsError",
    "Slope",
    "Torque",
    "Warmer",
    "build",
    "cut",
    "found",
    "plain",
    "quoted",
    "read_toml",
    "shown",
    "toml_value",
]
