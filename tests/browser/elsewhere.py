"""`headsweep` where serial ports are below a folder of the test's: FOLDER, then its arguments."""

import sys
from pathlib import Path

from daq.cli import main
from daq.service.set_up.heard import Ears

ports = Path(sys.argv[1])
given = Ears.__init__.__defaults__
assert given is not None
Ears.__init__.__defaults__ = (ports, *given[1:])
sys.exit(main(sys.argv[2:]))
