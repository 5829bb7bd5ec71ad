"""What was found and what is allowed, in plain words."""

import datetime
import difflib
import json
import types
from collections.abc import Mapping, Sequence
from typing import Annotated, Final, Literal, Union, get_args, get_origin

from daq import units
from daq.settings.marks import SAID, Quantity, Range, mark

MOST: Final = 120
"""Characters of what was found that a message repeats: about a line."""
_DIGITS: Final = 100

_SIMPLE: Final[dict[object, str]] = {
    str: "text",
    int: "a whole number",
    float: "a number",
    bool: "true or false",
    datetime.date: "a date such as 2028-03-31",
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
        return f"a number of more than {_DIGITS} digits"
    return "nothing" if value is None else str(value)


def allowed(hint: object) -> str:
    """Say what a hint allows."""
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is Annotated:
        quantity, limits = mark(hint, Quantity), mark(hint, Range)
        words = units.EXAMPLES[quantity.kind] if quantity else allowed(arguments[0])
        return f"{words}, {within(limits, quantity)}" if limits else words
    if origin is Literal:
        return "one of " + ", ".join(found(choice) for choice in arguments)
    if origin in (Union, types.UnionType):
        return " or ".join(allowed(each) for each in arguments if each is not types.NoneType)
    if origin is tuple:
        return f"a list, each item {allowed(arguments[0])}"
    return _SIMPLE.get(hint, "a table")


def within(limits: Range, quantity: Quantity | None) -> str:
    """Say the limits of a number, or of a quantity in the unit messages name."""
    return limits.say(*SAID[quantity.kind]) if quantity else limits.say()


def outside(value: float, quantity: Quantity | None) -> str:
    """Say a number that is outside its limits, in the same unit."""
    if quantity is None:
        return found(value)
    unit, per = SAID[quantity.kind]
    return f"{found(value) if per == 1.0 else f'{value * per:g}'}{unit}"


def unknown(key: str, known: Sequence[str]) -> str:
    """Say that a key is not known, and which known one it most resembles."""
    near = difflib.get_close_matches(cut(key), known, n=1)
    hint = f"nearest known: {near[0]!r}" if near else f"known: {', '.join(known)}"
    return f"unknown key {quoted(key)}; {hint}"
