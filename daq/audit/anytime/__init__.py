"""What may come at every stage of an audit, and how the audit then stands.

Here lives what the service says by itself of the gauge, its zero and a restart, what a person
may say anywhere (given up, handed over, taken back, not zeroed), what several stages let a
person wish for, and how the events of more than one stage fold. Nothing here names a stage's file.
"""

from collections.abc import Mapping
from typing import Final

from daq.audit import handover
from daq.audit.anytime import ending, gauge, restart, zero
from daq.audit.stage import Handler

COMMANDS: Final[Mapping[str, Handler | str]] = {
    "abandon": Handler(ending.abandon),
    "put-aside": "put-aside",
    "hand-over": Handler(handover.hand_over),
    "undo": Handler(ending.undo),
    "not-zeroed": Handler(zero.not_zeroed),
    "gauge-fault": Handler(gauge.gauge_fault),
    "gauge-back": Handler(gauge.gauge_back),
    "gauge-noted": Handler(gauge.noted),
    "restarted": Handler(restart.restarted),
}
"""Commands that belong to every stage; a key is the stage's that decides it."""

ZEROED: Final = Handler(zero.zeroed)
"""The gauge was zeroed: at every stage that heeds it."""
