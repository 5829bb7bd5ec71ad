"""A milling machine that is not there: its head, its gauge, its wire and its person.

For the demo, for training and as a test rig. The head is worked out exactly,
with rotation matrices; the gauge in front of it speaks text frames through a
real pseudo-terminal, so that everything behind the port is what a shop runs.
`Hands` does what the console says, as a person would.

May live here: physics, the gauge's electronics and wire, physical operations,
the practice hands. May not live here: anything that measures, judges or
advises. This room imports nothing of metrology, checks, squaring, gauges,
audit or service, because a mill that shared code with the advice would share
its mistakes and agree with them.
"""

from daq.virtual.hands import Hands
from daq.virtual.mill import VirtualMill
from daq.virtual.spec import GaugeSpec, JointSpec, MillSpec
from daq.virtual.store import StateFileError

__all__ = ["GaugeSpec", "Hands", "JointSpec", "MillSpec", "StateFileError", "VirtualMill"]
