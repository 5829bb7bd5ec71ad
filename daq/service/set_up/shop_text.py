"""shop.toml of a shop that has none: the shipped one, with nothing left of the practice shop."""

from typing import Any, Final

from daq.service.set_up.text import changed

_OWN: Final[dict[str, Any]] = {"papers.address": None, "papers.method": None}
_OWN["papers.revision"] = None


def shop_text(name: str, shipped: str) -> str:
    """The whole file. Raises NotChangedError where the shipped one lacks what it has."""
    return changed(shipped, {"name": name, **_OWN})
