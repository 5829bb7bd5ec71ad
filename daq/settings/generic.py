"""Dataclasses that are told of what: `Both[float]`."""

import dataclasses
from functools import cache
from typing import Any, get_args, get_origin, get_type_hints


@cache
def dataclass_of(hint: object) -> type | None:
    """The dataclass that a hint names, whatever it is told to be of; None for another hint."""
    cls = get_origin(hint) or hint
    return cls if isinstance(cls, type) and dataclasses.is_dataclass(cls) else None


@cache
def hints_of(hint: Any) -> dict[str, Any]:  # noqa: ANN401 - any hint
    """The hints of a dataclass's fields, marks included, with what it is told to be of in them."""
    cls = get_origin(hint) or hint
    told = dict(zip(getattr(cls, "__parameters__", ()), get_args(hint), strict=True))
    return {k: told.get(v, v) for k, v in get_type_hints(cls, include_extras=True).items()}
