"""The way back: from a dataclass to what JSON can hold."""

import dataclasses
import datetime
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, overload

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


@overload
def plain(obj: "DataclassInstance") -> dict[str, Any]: ...


@overload
def plain(obj: object) -> object: ...


def plain(obj: object) -> object:
    """Return a JSON-ready copy: dataclasses as dicts, tuples as lists, dates as ISO text.

    `build(cls, plain(obj), where, quantities="plain")` gives an equal object back.

    Raises:
        TypeError: something in it has no JSON form.
    """
    if obj is None or isinstance(obj, str | bool | int | float):
        return obj
    if isinstance(obj, Mapping):
        return {str(key): plain(value) for key, value in obj.items()}
    if isinstance(obj, list | tuple):
        return [plain(value) for value in obj]
    if type(obj) is datetime.date:
        return obj.isoformat()
    if dataclasses.is_dataclass(obj) and not isinstance(obj, type):
        return {each.name: plain(getattr(obj, each.name)) for each in dataclasses.fields(obj)}
    raise TypeError(f"{type(obj).__name__} has no JSON form")
