"""headsweep's daemon: from the gauge's wire to the ledger and the next move.

The rooms below are layered; import-linter holds the order in the test run
(see DEVELOPERS.md for the picture). Nothing lives in this file but the version.
"""

from importlib.metadata import PackageNotFoundError, version

try:
    __version__ = version("headsweep")
except PackageNotFoundError:  # run from a source tree that was never installed
    __version__ = "0+source"
