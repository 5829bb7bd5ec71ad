"""A report bears one anchor, its own: what people typed must not be taken for another.

Whoever gathers anchors looks for them in a file's bytes (`daq.ledger.anchors`). A note that holds
one, of another hash, would make a sound record look like one that was cut off.
"""

from dataclasses import fields, is_dataclass, replace
from typing import Any, Final, TypeVar, cast

from daq.ledger.anchors import BEGINS

T = TypeVar("T")

_APART: Final = f"{BEGINS[:-1]} {BEGINS[-1]}"


def without_anchors(value: T) -> T:
    """Return the same frozen dataclass, tuple, mapping or text, with no text that is an anchor."""
    return cast(T, _apart(value))


def _apart(value: Any) -> Any:  # noqa: ANN401 - whatever a report is made of
    if isinstance(value, str):
        return value.replace(BEGINS, _APART)
    if isinstance(value, tuple):
        return tuple(map(_apart, value))
    if isinstance(value, dict):
        return {key: _apart(each) for key, each in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        now = {each.name: getattr(value, each.name) for each in fields(value) if each.init}
        new = {name: _apart(each) for name, each in now.items()}
        return replace(value, **new) if new != now else value
    return value
