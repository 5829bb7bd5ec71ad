"""Values changed in a TOML file's text: its comments, its order and all else stay as they are."""

import re
import tomllib
from collections.abc import Mapping
from typing import Any, Final

from daq.settings import toml_value

_TABLE: Final = re.compile(r"\s*\[([\w.-]+)\]\s*(?:#.*)?")
_LINE: Final = re.compile(
    r"""(?P<key>[\w-]+)\s*=\s*
        (?P<value>"(?:[^"\\]|\\.)*"|'[^']*'|[^\s"'\[{\#][^\#]*?)
        (?P<note>\s*\#.*)?""",
    re.VERBOSE,
)


class NotChangedError(Exception):
    """`key` does not stand in the text in a way that can be changed without a person's eyes."""

    def __init__(self, key: str) -> None:
        """`key` as in "nod.tolerance"."""
        super().__init__(key)
        self.key = key


def changed(text: str, values: Mapping[str, Any]) -> str:
    """The text with these values in the places of those that stand there.

    A key is named with its table, as "line.port". None takes the value out of force: its line
    becomes a comment, so that the key has its default.

    Raises:
        NotChangedError: a key does not stand there on a line of its own, or what came of it would
            say anything else differently.
    """
    lines, table, left = [], "", dict(values)
    for line in text.splitlines():
        if heading := _TABLE.fullmatch(line):
            table = heading[1]
        found = _LINE.fullmatch(line)
        key = f"{table}.{found['key']}" if found and table else found["key"] if found else ""
        lines.append(_line(line, found, left.pop(key)) if found and key in left else line)
    made = "\n".join(lines) + "\n"
    if left:
        raise NotChangedError(next(iter(left)))
    if _read(made) != _with(_read(text), values):
        raise NotChangedError(", ".join(values))
    return made


def put_in(text: str, key: str, value: object) -> str:
    """The text with a value for a key that stands in it commented out, above all tables.

    Raises:
        NotChangedError: it is in force already, or does not stand there so.
    """
    lines = text.splitlines()
    for at, line in enumerate(lines):
        found = _LINE.fullmatch(line.removeprefix("# "))
        if _TABLE.fullmatch(line):
            break
        if found and found["key"] == key and line.startswith("# "):
            lines[at] = f"{key} = {toml_value(value)}"
            made = "\n".join(lines) + "\n"
            if key not in _read(text) and _read(made) == _with(_read(text), {key: value}):
                return made
    raise NotChangedError(key)


def _line(line: str, found: re.Match[str], value: object) -> str:
    if value is None:
        return f"# {line}"
    return f"{found['key']} = {toml_value(value)}{found['note'] or ''}"


def _read(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except ValueError:  # somebody wrote it who made a slip elsewhere
        raise NotChangedError("") from None


def _with(table: dict[str, Any], values: Mapping[str, Any]) -> dict[str, Any]:
    """The table that must come of it."""
    for key, value in values.items():
        *path, name = key.split(".")
        inner = table
        for each in path:
            inner = inner[each]
        if value is None:
            del inner[name]
        else:
            inner[name] = value
    return table
