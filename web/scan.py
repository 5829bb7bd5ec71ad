"""Page and API families, found by looking into their folders."""

import pkgutil
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module

from flask import Blueprint


@dataclass(frozen=True)
class Family:
    """One family of pages or API routes; its module exports it as `FAMILY`."""

    blueprint: Blueprint
    practice_only: bool = False
    pairing_only: bool = False


def families(package: str) -> Iterator[Family]:
    """Yield the family of every module in a package, by name.

    Raises:
        TypeError: a module there exports no `FAMILY`.
    """
    folder = import_module(package)
    for found in sorted(pkgutil.iter_modules(folder.__path__), key=lambda each: each.name):
        module = import_module(f"{package}.{found.name}")
        family = getattr(module, "FAMILY", None)
        if not isinstance(family, Family):
            raise TypeError(f"{module.__name__} exports no FAMILY of type web.scan.Family")
        yield family
