"""shop.toml of a shop that has none: the shipped one, with nothing left of the practice shop."""

from typing import Any, Final

from daq.service.set_up.text import changed

_OWN: Final[dict[str, Any]] = {"papers.address": None, "papers.method": None}
_OWN["papers.revision"] = None


def shop_text(name: str, language: str, shipped: str) -> str:
    """The whole file; `language`: its tag.

    Raises:
        NotChangedError: the shipped one lacks what it has.
    """
    return changed(shipped, {"name": name, "language": language, **_OWN})
