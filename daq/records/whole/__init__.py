"""An audit as its page and its API show it: texts unsaid, numbers with their units.

`shapes`: what a page gets; `view`: an audit's; a file a part of it: `results`, `facts`, `swept`.
"""
