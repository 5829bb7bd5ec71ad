"""The walk along a dataclass's hints that turns a table into it."""

import dataclasses
import datetime
import math
import types
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import (
    Annotated,
    Any,
    Final,
    Literal,
    TypeVar,
    Union,
    cast,
    get_args,
    get_origin,
)

from daq import units
from daq.settings import say
from daq.settings.generic import dataclass_of, hints_of
from daq.settings.marks import Quantity, Range, mark
from daq.settings.problems import SettingsError
from daq.words import CannotBe, Said, said
from daq.words.said import Value

T = TypeVar("T")


class _BadValueError(Exception):
    """One value does not fit; `said`: what was found and what is allowed."""

    def __init__(self, found: Value, allowed: Value) -> None:
        """Say so."""
        self.said = said("found-allowed", found=found, allowed=allowed)
        super().__init__()


def _misfit(hint: object, value: object) -> _BadValueError:
    return _BadValueError(say.shown(value), say.allowed(hint))


_known: dict[int, tuple[object, object, tuple[Any, ...]]] = {}
"""Hints by where they lie, which is quicker than what they hold; kept, they lie there for good."""


def _opened(hint: object) -> tuple[object, object, tuple[Any, ...]]:
    """A hint, its origin and arguments; a ledger asks for the same few a million times."""
    if (known := _known.get(id(hint))) is None:
        known = _known[id(hint)] = hint, get_origin(hint), get_args(hint)
    return known


@cache
def _fields(cls: type) -> Mapping[str, dataclasses.Field[Any]]:
    return {each.name: each for each in dataclasses.fields(cls) if each.init}


@cache
def _must(cls: type) -> frozenset[str]:
    missing = dataclasses.MISSING
    fields = _fields(cls).values()
    return frozenset(f.name for f in fields if f.default is f.default_factory is missing)


_PLAIN: Final = 2**64


@cache
def _taken(hint: object, bare: bool) -> frozenset[type]:
    """The types whose values a hint takes as they are; `bare`: whatever its marks say."""
    _, origin, arguments = _opened(hint)
    if origin is Annotated:
        return _taken(arguments[0], bare) if bare else frozenset()
    if origin in (Union, types.UnionType):
        others = [each for each in arguments if each is not types.NoneType]
        alone = len(others) == 1 < len(arguments)
        return _taken(others[0], bare) | {types.NoneType} if alone else frozenset()
    return frozenset(each for each in (str, int, float, bool) if hint is each)


def _fits(taken: frozenset[type], value: object) -> bool:
    """Whether a value is plainly what a hint says: most of a ledger's are."""
    kind = type(value)
    if kind not in taken:
        return False
    if kind is float:
        return math.isfinite(cast(float, value))
    return kind is not int or -_PLAIN < cast(int, value) < _PLAIN  # one of a hundred digits is none


@cache
def _parts(cls: type, hint: object, bare: bool) -> tuple[tuple[str, Any, frozenset[type]], ...]:
    """The fields of a dataclass, each with its hint and the types it takes as they are."""
    hints = hints_of(hint)
    return tuple((name, hints[name], _taken(hints[name], bare)) for name in _fields(cls))


def _at(path: str, name: str) -> str:
    return f"{path}.{name}" if path else name


def _has_keys(hint: object, table: Mapping[str, object]) -> bool:
    """Whether a hint is a dataclass that a table with these keys may be."""
    cls = dataclass_of(hint)
    return cls is not None and _must(cls) <= table.keys() <= _fields(cls).keys()


@dataclass
class _Builder:
    """Gathers every problem on its way; a value with a problem becomes None."""

    where: str | Said
    quantities: Literal["text", "plain"]
    limits: bool
    problems: list[Said] = field(default_factory=list)

    @property
    def bare(self) -> bool:
        """Whether the marks of a hint change nothing."""
        return self.quantities == "plain" and not self.limits

    def report(self, path: str, what: Said) -> None:
        if path:
            fault = said("fault-at", where=self.where, path=path, what=what)
        else:
            fault = said("fault", where=self.where, what=what)
        self.problems.append(fault)

    def record(self, cls: type, hint: object, table: Mapping[str, object], path: str) -> object:
        before = len(self.problems)
        known = _fields(cls)
        for key in table:
            if key not in known:
                self.report(path, say.unknown(str(key), list(known)))
        values = {}
        for name, of, taken in _parts(cls, hint, self.bare):
            if name in table:
                value = table[name]
                fits = _fits(taken, value)
                values[name] = value if fits else self.value(of, value, _at(path, name))
            elif name in _must(cls):
                self.report(_at(path, name), said("missing-key", allowed=say.allowed(of)))
        if len(self.problems) > before:
            return None
        if not self.limits:
            return _unchecked(cls, known.values(), values)
        try:
            return cls(**values)
        except CannotBe as error:  # what the dataclass itself checks across its fields
            self.report(path, error.said)
        except ValueError as error:
            self.report(path, said("in-their-words", words=str(error)))
        return None

    def value(self, hint: object, value: object, path: str) -> object:
        try:
            return self.convert(hint, value, path)
        except _BadValueError as bad:
            self.report(path, bad.said)
            return None

    def convert(self, hint: object, value: object, path: str) -> object:
        _, origin, arguments = _opened(hint)
        if hint is Any:
            return value
        if origin is Annotated:
            return self.marked(hint, arguments[0], value, path)
        if origin is types.UnionType or origin is Union:
            return self.either(hint, arguments, value, path)
        if origin is tuple and isinstance(value, list | tuple):
            of, taken = arguments[0], _taken(arguments[0], self.bare)
            return tuple(
                v if _fits(taken, v) else self.value(of, v, f"{path}[{i}]")
                for i, v in enumerate(value)
            )
        if type(value) is dict or isinstance(value, Mapping):
            if origin in (dict, Mapping):
                named = ((k, v, f"{path}.{say.cut(str(k))}") for k, v in value.items())
                return {k: self.value(arguments[1], v, below) for k, v, below in named}
            cls = dataclass_of(hint)
            if cls is not None:
                return self.record(cls, hint, value, path)
        if origin is Literal and any(v == value and type(v) is type(value) for v in arguments):
            return value
        return _simple(hint, value)

    def marked(self, hint: object, bare: object, value: object, path: str) -> object:
        """Convert what carries marks: text to a quantity, a number within its limits."""
        quantity, limits = mark(hint, Quantity), mark(hint, Range)
        if quantity and self.quantities == "text":
            if not isinstance(value, str):
                raise _misfit(hint, value)
            try:
                value = units.parse(value, quantity.kind)
            except units.UnitError:
                example = said("allows-quantity", kind=quantity.kind)
                raise _BadValueError(say.shown(value), example) from None
        result = self.convert(bare, value, path)
        if limits and self.limits and not limits.holds(cast(float, result)):
            outside = say.outside(cast(float, value), quantity)
            raise _BadValueError(outside, say.within(limits, quantity))
        return result

    def either(self, hint: object, choices: tuple[object, ...], value: object, path: str) -> object:
        """Convert by the first choice that fits; `X | None` reports as X would.

        So does the only dataclass that has a table's keys.
        """
        if value is None and types.NoneType in choices:
            return None
        others = [each for each in choices if each is not types.NoneType]
        if isinstance(value, Mapping):
            shaped = [each for each in others if _has_keys(each, value)]
            others = shaped if len(shaped) == 1 else others
        if len(others) == 1:
            return self.convert(others[0], value, path)
        if isinstance(value, str) and str in others:
            return value
        for each in others:
            trial = _Builder(self.where, self.quantities, self.limits)
            result = trial.value(each, value, path)
            if not trial.problems:
                return result
        raise _misfit(hint, value)


def _unchecked(
    cls: type, fields: Iterable[dataclasses.Field[Any]], values: Mapping[str, object]
) -> object:
    """Return a dataclass with these values and its defaults, its own checks left out."""
    made: Any = object.__new__(cls)
    for each in fields:
        if each.name in values:
            value = values[each.name]
        elif each.default is not dataclasses.MISSING:
            value = each.default
        else:
            value = cast(Callable[[], object], each.default_factory)()
        object.__setattr__(made, each.name, value)
    return made


def _simple(hint: object, value: object) -> object:
    """Return a value without parts.  A bool is no number; NaN and infinity are none either."""
    if isinstance(value, bool) or hint is bool:
        if isinstance(value, bool) and hint is bool:
            return value
    elif isinstance(value, int | float) and not _is_finite(value):
        pass
    elif hint is float and isinstance(value, int | float):
        return float(value)
    elif hint in (int, str, datetime.date) and type(value) is hint:
        return value
    elif hint is datetime.date and isinstance(value, str):
        try:
            return datetime.date.fromisoformat(value)
        except ValueError:
            raise _misfit(hint, value) from None
    raise _misfit(hint, value)


def _is_finite(value: float) -> bool:
    """Whether it is a number; a whole one beyond any float is a slip of the hand and none."""
    try:
        return math.isfinite(value)
    except OverflowError:
        return False


def build(
    cls: type[T],
    table: Mapping[str, Any],
    where: str | Said,
    *,
    quantities: Literal["text", "plain"] = "text",
    limits: bool = True,
    under: str = "",
) -> T:
    """Return `cls` filled from a table; `where` names the file in messages.

    Understood hints: str, int, float, bool, datetime.date, Literal, X | None and other
    unions, tuple[X, ...], dict[str, X], Mapping[str, X], dataclasses (of something, too), Any,
    and Annotated with Quantity or Range. With `quantities="plain"` a Quantity is a number
    in the house's units, as `plain` writes it. What stands under Any is passed as it is.
    Without `limits` types and shapes are checked and nothing else, neither Range nor
    `__post_init__`: what was allowed when it was written is read whatever is allowed today.
    A table that is part of a larger one has its key there in `under`.

    Raises:
        SettingsError: with every problem of the table.
    """
    builder = _Builder(where, quantities, limits)
    result = builder.value(cls, table, under)
    if builder.problems:
        raise SettingsError(builder.problems)
    return cast(T, result)
