"""Decisions: decide(shop, input) says which events follow, or refuses and says why.

One module a stretch of the audit: opening, sweeping, parking, moving, closing.
Each owns the handlers of its commands. A handler computes everything and returns
the events' data; it never changes state, reads a clock or looks into a file.
"""

from daq.audit.decide.common import Input, Refused, Want
from daq.audit.decide.table import decide, wants

__all__ = ["Input", "Refused", "Want", "decide", "wants"]
