"""headsweep's daemon: from the gauge's wire to the ledger and the next move.

The rooms below are layered; import-linter holds the order in the test run
(see DEVELOPERS.md for the picture). Nothing lives in this file but the version and one
setting that must stand before numpy is imported.
"""

import os
from importlib.metadata import PackageNotFoundError, version

# The matrices here are small: more threads of linear algebra only wait for each other, and
# each keeps memory of its own.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

try:
    __version__ = version("headsweep")
except PackageNotFoundError:  # run from a source tree that was never installed
    __version__ = "0+source"
