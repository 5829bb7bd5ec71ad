"""A milling machine that is not there: its head, its gauge, its wire and its person.

For the demo, for training and for the tests. The head is worked out exactly,
with rotation matrices; the gauge in front of it speaks through a real
pseudo-terminal, so that everything behind the port is what a shop runs. `Machinist`
does what a console says at any `Workplace`; `Hands` lets one work the practice mill.
`VirtualGauge` is usable without a mill.

May live here: physics, gauges' electronics, wires and lines, physical
operations, the machinist who obeys, lessons and the score of what was truly
done. May not live here: anything that measures or advises, or judges a head by
readings. This room imports nothing of metrology, checks, squaring, gauges,
audit or service, because a mill that shared code with the advice would share
its mistakes and agree with them.
"""

from daq.virtual.gauge import VirtualGauge
from daq.virtual.hands import Hands
from daq.virtual.machinist import Hand, Machinist
from daq.virtual.mill import VirtualMill
from daq.virtual.model import GaugeModel
from daq.virtual.simulated import HeadModel, Simulated
from daq.virtual.spec import GaugeSpec, JointSpec, MillSpec
from daq.virtual.store import StateFileError
from daq.virtual.tty import PtyLine
from daq.virtual.workplace import CannotError, Workplace

__all__ = [
    "CannotError",
    "GaugeModel",
    "GaugeSpec",
    "Hand",
    "Hands",
    "HeadModel",
    "JointSpec",
    "Machinist",
    "MillSpec",
    "PtyLine",
    "Simulated",
    "StateFileError",
    "VirtualGauge",
    "VirtualMill",
    "Workplace",
]
