"""The [checks.NAME] tables of a machine's file: each kind's own options, and how often."""

import difflib
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from daq.audit.setup import CheckSetup
from daq.checks.kinds import OfHead, kind, names
from daq.checks.linear import solve
from daq.checks.station import Table, Taken
from daq.settings import SettingsError, build, plain, quoted
from daq.words import Said

_OFTEN: Final = "every_days"


def checks(tables: object, where: str) -> tuple[dict[str, CheckSetup], list[Said | str]]:
    """Return the checks that a file offers, and every problem of their tables, a line each."""
    if not isinstance(tables, Mapping):
        return {}, [f"{where}: checks: found {quoted(tables)}; allowed: tables: {_known()}"]
    found: dict[str, CheckSetup] = {}
    problems: list[Said | str] = []
    for name, table in tables.items():
        try:
            found[name] = _check(name, table, where)
        except SettingsError as error:
            problems += error.problems
    return found, problems


def _check(name: str, table: object, where: str) -> CheckSetup:
    path = f"checks.{name}"
    if name not in names():
        near = difflib.get_close_matches(name, names(), 1, 0.0)[0]
        known = f"allowed: {', '.join(names())}; nearest known: {near!r}"
        raise SettingsError([f"{where}: checks: found {quoted(name)}; {known}"])
    if not isinstance(table, Mapping):
        raise SettingsError([f"{where}: {path}: found {quoted(table)}; allowed: a table"])
    own = {key: value for key, value in table.items() if key != _OFTEN}
    often = {key: value for key, value in table.items() if key == _OFTEN}
    problems: list[Said | str] = []
    made = setup = None
    try:
        setup = build(CheckSetup, {"options": {}, **often}, where, under=path)
    except SettingsError as error:
        problems += error.problems
    try:
        made = build(kind(name).options, own, where, under=path)
        if not isinstance(kind(name), OfHead):
            table = kind(name).table(made, "mm")
            problems += [f"{where}: {path}: {each}" for each in _cannot(table)]
    except SettingsError as error:
        problems += error.problems
    if problems or setup is None:
        raise SettingsError(problems)
    options: Mapping[str, Any] = plain(made)  # type: ignore[assignment]
    return replace(setup, options=options)


def _cannot(table: Table) -> list[str]:
    """What makes a check of it impossible, however well it is read."""
    if table.tightest_mm is None:
        return ["found no limit; allowed: one at least: an audit ends in a verdict"]
    try:
        solve(table, [Taken(each.key, 0.0, at) for at, each in enumerate(table.sequence)])
    except ValueError as error:
        return [str(error)]
    return []


def _known() -> str:
    return ", ".join(f"[checks.{name}]" for name in names())
