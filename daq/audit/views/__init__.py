"""What the screens show: plain, JSON-ready views of one machine's state, one a page.

A view only words what the events already carry; it computes no lean, no advice and
no verdict. Every number is text in the gauge's own unit, so that no page needs to
know units or signs.
"""

from daq.audit.views.aim import Aim, aim
from daq.audit.views.console import console
from daq.audit.views.wall import wall

__all__ = ["Aim", "aim", "console", "wall"]
