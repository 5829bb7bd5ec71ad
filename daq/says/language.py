"""From a code and its numbers to words in one language."""

import logging
import re
import warnings
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType
from typing import Any, Final, cast, get_args, get_type_hints

from fluent.runtime import FluentBundle, FluentResource
from fluent.runtime.types import fluent_number
from fluent.syntax.ast import Junk, Message

from daq.settings import plain
from daq.units import show
from daq.words import Figure, Person, Said, Shown
from daq.words.said import Value

Names = Mapping[str, str]
"""What people are called, by id."""

_NOBODY: Final[Names] = MappingProxyType({})
_ID_SHOWN: Final = 8
"""Characters shown of an id that has no name."""

_SENTENCE: Final = re.compile(r".*?[.!?](?=\s|$)", re.DOTALL)
_DAY: Final = re.compile(r"(\d{4})-(\d\d)-(\d\d)\b")
_LONGEST: Final = 110
"""Characters of a refusal that stand on a wall in letters to be read from the machine."""

FIRST: Final = "en"
"""The language that has every sentence: what another one lacks is said in this one."""

HERE: Final = files("daq.says")
_ENDING: Final = ".ftl"
_NAME: Final = re.compile(r"^language-name = (.+)$", re.MULTILINE)
_log = logging.getLogger(__name__)


class Language:
    """The sentences of one language."""

    def __init__(self, name: str, sentences: str, instead: "Language | None" = None) -> None:
        """Take the sentences as a Fluent document; what it lacks is said by `instead`.

        Raises:
            ValueError: the document has a line that is none, or says a code twice.
        """
        self.name = name
        resource = FluentResource(sentences)
        bad = [entry.content for entry in resource.body if isinstance(entry, Junk)]
        codes = [entry.id.name for entry in resource.body if isinstance(entry, Message)]
        twice = sorted({code for code in codes if codes.count(code) > 1})
        if bad or twice:
            raise ValueError(f"{name}: found {bad or twice}; allowed: each code once")
        self.codes = frozenset(codes)
        self.missing = frozenset() if instead is None else instead.codes - self.codes
        """The codes that have no sentence here."""
        self._instead = instead
        self._made: dict[tuple[object, ...], str] = {}
        """The sentences made lately: a screen says most of them again each time it is drawn."""
        functions: dict[str, Any] = {"CAP": _capital, "LOWER": _lower, "FIRST": _first}
        functions |= {"PLACE": self._place, "DAY": self._day}
        self._bundle = FluentBundle([name, FIRST], functions=functions, use_isolating=False)
        self._bundle.add_resource(resource)

    def words(self, said: Said | None, names: Names = _NOBODY) -> str:
        """The sentence; nothing for nothing. `names`: what the people in it are called.

        What has no sentence here is said in the first language, and what has none there is
        shown as its code with a warning: a screen never fails for want of words.
        """
        if said is None:
            return ""
        if not said.of and (text := self._made.get((said.code,))) is not None:
            return text
        given = {name: self._given(value, names) for name, value in said.of.items()}
        of = (said.code, *((name, value, type(value)) for name, value in given.items()))
        if of not in self._made:
            if len(self._made) >= _MOST_MADE:
                self._made.clear()
            self._made[of] = self._put(said, given)
        return self._made[of]

    def _put(self, said: Said, given: dict[str, Any]) -> str:
        """The sentence with what stands in it, made words already."""
        problem, text = "no sentence for", ""
        if said.code in self.codes:
            pattern = self._bundle.get_message(said.code).value
            made, problems = self._bundle.format_pattern(cast(Any, pattern), given)
            if not problems:
                return str(made)
            problem, text = f"{problems[0]!r} in", str(made)
        text = text or str(said)
        if self._instead is None or said.code not in self.missing:
            warnings.warn(f"{self.name}: {problem} {said}", stacklevel=3)
        return text if self._instead is None else self._instead._put(said, given)

    def told(self, shown: Any, names: Names = _NOBODY) -> Any:  # noqa: ANN401 - JSON
        """A JSON-ready copy of a view, its sentences in words; a text that is None is "".

        `names`: what the people in it are called.
        """
        kind = cast(Any, type(shown))
        if kind in _AS_IT_IS:
            return shown
        if kind in _SAID:
            return self._given(shown, names)
        if isinstance(shown, list | tuple):
            return [self.told(each, names) for each in shown]
        if (known := _fields(kind)) is not None:
            given = ((name, text, getattr(shown, name)) for name, text in known)
            return {
                name: "" if value is None and text else self.told(value, names)
                for name, text, value in given
            }
        if isinstance(shown, Mapping):
            return {str(key): self.told(value, names) for key, value in shown.items()}
        return plain(shown)

    def _given(self, value: Value, names: Names) -> Any:  # noqa: ANN401 - the library's own type leaves out text
        """One thing that stands in a sentence."""
        if type(value) is str:
            return value
        if isinstance(value, Said):
            return self.words(value, names)
        if isinstance(value, Person):
            return names.get(value.id, value.id[:_ID_SHOWN])
        if isinstance(value, Shown):
            return show(value.mm, value.unit, value.digits, plus=value.plus)
        if isinstance(value, Figure):
            text = f"{value.value:{'+' if value.plus else ''}.{value.digits}f}"
            return text.lstrip("+-") if float(text) == 0.0 else text
        if isinstance(value, tuple | list):
            return self._list([self.words(each, names) for each in value])
        return fluent_number(value, useGrouping=False) if isinstance(value, int) else value

    def _place(self, position: Any) -> Any:  # noqa: ANN401 - the library's own type leaves out text
        """A position's code by its name; any other text as it is."""
        return self.words(Said("told-place", {"place": position}))

    def _day(self, text: Any) -> Any:  # noqa: ANN401 - the library's own type leaves out text
        """A text that begins with a day, year first (ISO 8601), with it as is usual here."""
        found = _DAY.match(text)
        if found is None:
            return text
        iso, month, day = found[0], int(found[2]), int(found[3])
        of: dict[str, Value] = {"iso": iso, "year": found[1], "month": month, "day": day}
        return self.words(Said("a-day", of)) + text[found.end() :]

    def _list(self, parts: list[str]) -> str:
        """Several things one after the other: "a, b and c" in English."""
        if len(parts) < 2:
            return "".join(parts)
        first = parts[0]
        for part in parts[1:-1]:
            first = self.words(Said("list-more", {"before": first, "next": part}))
        return self.words(Said("list-last", {"before": first, "last": parts[-1]}))


@cache
def _fields(cls: type[Any]) -> tuple[tuple[str, bool], ...] | None:
    """The fields of a view, and whether each holds a text; None of what is told otherwise."""
    if not is_dataclass(cls) or issubclass(cls, Mapping):
        return None
    hints = get_type_hints(cls)
    return tuple((each.name, Said in get_args(hints[each.name])) for each in fields(cls))


def _capital(text: Any) -> Any:  # noqa: ANN401 - the library's own type leaves out text
    return f"{text[:1].upper()}{text[1:]}"


def _lower(text: Any) -> Any:  # noqa: ANN401 - the library's own type leaves out text
    return f"{text[:1].lower()}{text[1:]}"


def _first(text: Any) -> Any:  # noqa: ANN401 - the library's own type leaves out text
    """The first sentence, and of a long one its beginning: enough for a wall."""
    found = _SENTENCE.match(text)
    why = found[0] if found else text
    return f"{why[:_LONGEST].rsplit(' ', 1)[0]}…" if len(why) > _LONGEST else why


def language(name: str = FIRST, folder: Traversable = HERE) -> Language:
    """The language whose sentences the file of that name in the folder holds.

    Raises:
        ValueError: there is none of that name; says which there are.
    """
    # Not functools.cache: that keeps one more where the name was left out.
    of = (name, str(folder))
    if of not in _KEPT:
        _KEPT[of] = _read(name, folder)
    return _KEPT[of]


@cache
def own_names() -> Names:
    """What each language there is calls itself, by its tag; of each file one line is read."""
    found = {tag: _NAME.search(each.read_text(encoding="utf-8")) for tag, each in _files(HERE)}
    return {tag: name[1] if name else tag for tag, name in found.items()}


def _files(folder: Traversable) -> list[tuple[str, Traversable]]:
    """The languages of a folder, by tag, in order."""
    there = [each for each in folder.iterdir() if each.name.endswith(_ENDING)]
    return sorted((each.name.removesuffix(_ENDING), each) for each in there)


_AS_IT_IS: Final = frozenset((str, int, bool, float, type(None)))
_SAID: Final = frozenset((Said, Shown, Figure, Person))
"""Most of what a view holds, told from the rest at once."""
_MOST_MADE: Final = 2000
"""Sentences kept, about 0.5 MB."""
_KEPT: Final[dict[tuple[str, str], Language]] = {}


def _read(name: str, folder: Traversable) -> Language:
    known = dict(_files(folder))
    if name not in known:
        raise ValueError(f"language: found {name!r}; allowed: {', '.join(sorted(known))}")
    instead = None if (name, folder) == (FIRST, HERE) else language()
    found = Language(name, known[name].read_text(encoding="utf-8"), instead)
    if found.missing:
        _log.warning("%s: %d sentences are missing and said in English", name, len(found.missing))
    return found


def words(said: Said) -> str:
    """The sentence as a terminal shows it, in the first language."""
    return language().words(said)
