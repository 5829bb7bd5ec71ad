"""An instance of any event with something in every field: each number and each text another."""

import dataclasses
import types
from collections.abc import Iterator, Mapping
from itertools import count
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from daq.words import Both, Said, said

Ready = Mapping[object, object]
"""What is put in for a type that cannot be filled field by field."""
STEP_MM = 0.001
"""A face of three decimals shows every number whole."""


def filled(hint: Any, ready: Ready, numbers: Iterator[int] | None = None) -> Any:
    """Something of that type; a number is 0.101 mm, the next one 0.102, or 101 where it is whole.

    A choice is its first, a list has one item, nothing is left out and all that may be false is.
    """
    numbers = count(101) if numbers is None else numbers
    origin, arguments = get_origin(hint), get_args(hint)
    if hint in ready:
        return ready[hint]
    if hint is bool:
        return False
    if hint in (int, float):
        return next(numbers) * (1 if hint is int else STEP_MM)
    if hint is str:
        return f"text-{next(numbers)}"
    if hint is Said:
        return said("name", name=f"said-{next(numbers)}")
    if origin is Literal:
        return next(each for each in arguments if each)
    if origin is Annotated:
        return filled(arguments[0], ready, numbers)
    if origin in (Union, types.UnionType):
        wanted = [each for each in arguments if each is not type(None)]
        return filled(wanted[-1], ready, numbers)
    if origin is Both or (isinstance(origin, type) and issubclass(origin, Both)):
        return Both.of(lambda axis: filled(arguments[0], ready, numbers))
    if origin is tuple:
        return tuple(filled(each, ready, numbers) for each in arguments if each is not ...)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return {filled(arguments[0], ready, numbers): filled(arguments[1], ready, numbers)}
    if dataclasses.is_dataclass(hint) and isinstance(hint, type):
        hints = get_type_hints(hint, include_extras=True)
        fields = {each.name: hints[each.name] for each in dataclasses.fields(hint)}
        return hint(**{name: filled(kind, ready, numbers) for name, kind in fields.items()})
    if isinstance(hint, TypeVar):
        raise TypeError(f"{hint}: of what?")
    return filled(Any, ready, numbers) if hint is not Any else None


def leaves(value: object, left_out: Mapping[str, set[str]]) -> Iterator[str | float]:
    """Every number and text in it, but for the fields that `left_out` names by their class."""
    if isinstance(value, Said):
        yield from leaves(value.of, left_out)
    elif dataclasses.is_dataclass(value):
        skipped = left_out.get(type(value).__name__, set())
        if "*" in skipped:
            return
        for each in dataclasses.fields(value):
            if each.name not in skipped:
                yield from leaves(getattr(value, each.name), left_out)
    elif isinstance(value, Mapping):
        for each in value.values():
            yield from leaves(each, left_out)
    elif isinstance(value, tuple):
        for each in value:
            yield from leaves(each, left_out)
    elif (isinstance(value, float | int) and not isinstance(value, bool)) or (
        isinstance(value, str) and value.startswith(("text-", "said-"))
    ):
        yield value
