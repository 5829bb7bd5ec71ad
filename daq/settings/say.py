"""What was found and what is allowed: as codes, and as texts for what only a terminal reads."""

import datetime
import difflib
import json
import types
from collections.abc import Mapping, Sequence
from functools import reduce
from typing import Annotated, Final, Literal, Union, get_args, get_origin

from daq.settings.marks import SAID, Quantity, Range, mark
from daq.words import Said, said
from daq.words.said import Value

MOST: Final = 120
"""Characters of what was found that a message repeats: about a line."""
_DIGITS: Final = 100

_SIMPLE: Final[dict[object, Said]] = {
    str: said("allows-text"),
    int: said("allows-whole-number"),
    float: said("allows-number"),
    bool: said("allows-true-false"),
    datetime.date: said("allows-date"),
}


def cut(text: str) -> str:
    """A text as a message repeats it: of one longer than a line, its beginning and its end."""
    return text if len(text) <= MOST else f"{text[:80]} … {text[-30:]}"


def quoted(value: object) -> str:
    """Say what was found, a text in single quotes."""
    return cut(repr(value)) if isinstance(value, str) else found(value)


def found(value: object) -> str:
    """Say what stood in the table."""
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list | tuple):
        return "a list"
    if isinstance(value, str | bool):
        return cut(json.dumps(value, ensure_ascii=False))
    if isinstance(value, int) and abs(value) >= 10**_DIGITS:
        return f"over {_DIGITS} digits"
    return "nothing" if value is None else str(value)


def shown(value: object) -> Value:
    """What stood in the table, as a sentence says it: a text in double quotes."""
    if isinstance(value, Mapping):
        return said("found-table")
    if isinstance(value, list | tuple):
        return said("found-list")
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) >= 10**_DIGITS:
        return said("found-digits", digits=_DIGITS)
    return said("found-nothing") if value is None else found(value)


def allowed(hint: object) -> Said:
    """What a hint allows."""
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is Annotated:
        quantity, limits = mark(hint, Quantity), mark(hint, Range)
        bare = said("allows-quantity", kind=quantity.kind) if quantity else allowed(arguments[0])
        return said("allows-within", what=bare, limits=within(limits, quantity)) if limits else bare
    if origin is Literal:
        return said("allows-one-of", choices=", ".join(found(choice) for choice in arguments))
    if origin in (Union, types.UnionType):
        each = (allowed(one) for one in arguments if one is not types.NoneType)
        return reduce(lambda first, other: said("allows-or", first=first, other=other), each)
    if origin is tuple:
        return said("allows-list", item=allowed(arguments[0]))
    return _SIMPLE.get(hint, said("allows-table"))


def within(limits: Range, quantity: Quantity | None) -> Said:
    """The limits of a number, or of a quantity in the unit messages name."""
    unit, per = SAID[quantity.kind] if quantity else ("", 1.0)
    told = []
    if limits.lo is not None:
        told.append(said("limit-least", limit=f"{limits.lo * per:g}{unit}"))
    if limits.above is not None:
        told.append(said("limit-above", limit=f"{limits.above * per:g}{unit}"))
    if limits.hi is not None:
        told.append(said("limit-most", limit=f"{limits.hi * per:g}{unit}"))
    return reduce(lambda first, other: said("limit-both", first=first, other=other), told)


def outside(value: float, quantity: Quantity | None) -> Value:
    """A number that is outside its limits, in the same unit."""
    if quantity is None:
        return shown(value)
    unit, per = SAID[quantity.kind]
    return f"{found(value) if per == 1.0 else f'{value * per:g}'}{unit}"


def unknown(key: str, known: Sequence[str]) -> Said:
    """That a key is not known, and which known one it most resembles."""
    near = difflib.get_close_matches(cut(key), known, n=1)
    if near:
        return said("unknown-key-near", key=quoted(key), near=repr(near[0]))
    return said("unknown-key", key=quoted(key), known=", ".join(known))
