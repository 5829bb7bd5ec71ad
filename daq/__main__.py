"""`python -m daq`: the same as the headsweep command."""

from daq.cli import main

raise SystemExit(main())
