"""What each event of an audit says to a reader, with its numbers; one file a subject.

An event that a stage owns says it in the stage's own file (`Took.detail`).
"""

from collections.abc import Callable, Mapping
from typing import Any

from daq.audit.stages import TOOK
from daq.audit.state import Job
from daq.records.telling.ends import ENDS
from daq.records.telling.gauge import GAUGE
from daq.records.telling.moves import MOVES
from daq.records.telling.reads import READS
from daq.words import Said

DETAILS: Mapping[type, Callable[[Job, Any], tuple[Said, ...]]] = {
    **{cls: took.detail for cls, took in TOOK.items()},
    **READS,
    **MOVES,
    **GAUGE,
    **ENDS,
}
"""By the event's type: what else there is to say, of the audit as the event came upon it."""
