"""What the screens show of one machine: frozen views of codes and numbers, one a page.

A view reads what the state and its stage say; it computes no lean, no advice and no verdict,
and it says nothing: `daq.says` puts it into words at the edge. Every number is a text in the
gauge's own unit by then, so that no page needs to know units or signs.
"""

from daq.audit.views.shapes import Console, Pages, WallView
from daq.screens.console import console
from daq.screens.wall import wall

__all__ = ["Console", "Pages", "WallView", "console", "wall"]
