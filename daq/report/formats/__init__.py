"""The formats of a report: a file each, found by scanning this folder.

A format's module exports one constant, FORMAT, that satisfies `Format`. It owns whatever it needs
to make its bytes and imports no other format: all take what they show from the `AuditReport`, so
that a figure is the same in each. What it does with a text that means something in it (markup, a
formula) is its own business: names and notes are anybody's words.
"""

import importlib
import pkgutil
from collections.abc import Mapping
from functools import cache
from typing import Protocol

from daq.report.report import AuditReport


class Format(Protocol):
    """What a format's module exports as FORMAT."""

    @property
    def ending(self) -> str:
        """How a file of it ends, without the first dot; no two formats share one."""

    @property
    def media(self) -> str:
        """What it is, as the web says it."""

    @property
    def policy(self) -> str:
        """What a browser that shows it may do: its Content-Security-Policy."""

    def made(self, report: AuditReport) -> bytes:
        """Return the report as a file's bytes: the same each time, wherever it is made."""


@cache
def formats() -> Mapping[str, Format]:
    """Return every format by its ending, the longest ending first."""
    names = sorted(each.name for each in pkgutil.iter_modules(__path__))
    found: list[Format] = [importlib.import_module(f"{__name__}.{name}").FORMAT for name in names]
    return {each.ending: each for each in sorted(found, key=lambda each: -len(each.ending))}
