"""What a text frame's pattern may hold, and what follows from it for the bytes of a frame."""

import re
from collections.abc import Mapping
from functools import cache
from typing import Final

from daq.settings import cut

NAMES: Final = ("sign", "value", "unit", "status")

_ESCAPE = r"\\(?:[^\w]|[dwtrnf]|x[0-9A-Fa-f]{2})"
_CLASS = rf"\[\]?(?:{_ESCAPE}|[^\]\\^])(?:{_ESCAPE}|[^\]\\])*\]"
_OPENING = rf"\(\?:|\(\?P<(?:{'|'.join(NAMES)})>"
_TIMES = r"[*+?]|\{(?:\d+(?:,\d*)?|,\d*)\}"
_MOST_CHOICES: Final = 12
"""Outside a repeat each | may double the time that a frame takes: so many are harmless."""

# What says which bytes a frame has, neither looking round it nor letting any byte pass,
# its terminator among them.
_DEFINITE: Final = re.compile(rf"(?:{_ESCAPE}|{_CLASS}|{_OPENING}|[^\\\[(^$.])*")
_TOKEN: Final = re.compile(
    rf"(?P<open>{_OPENING})|(?P<times>{_TIMES})[?+]?|(?P<atom>{_ESCAPE}|{_CLASS})|(?P<one>.)",
    re.DOTALL,
)
_BODY: Final = r"\(\?P<{}>((?:\\.|\[[^\]]*\]|\(\?:[^()]*\)|[^()\\\[])*)\)"

_SIGNS: Final = re.compile(r"[-+ \\\[\]|?]+")
_DIGITS: Final = {
    sign: re.compile(rf"(?:\\d|\[0-9\]|{written}\(\?:|[0-9*+?|)]|\{{\d+(?:,\d*)?\}})+")
    for sign, written in ((".", r"\\\.|\[\.\]|"), (",", ",|"), ("", ""))
}
_EXAMPLES: Final = {".": r"\d+\.\d+", ",": r"\d+,\d+", "": r"\d{6}"}
_NUMBER: Final = "[0-9]+(?:[.,][0-9]+)?"
_WORD: Final = "(?:[A-Za-z\"']*)"
_LETTERS: Final = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ\"'")

Spans = Mapping[int, tuple[frozenset[int], ...]]
"""For each length a part of a pattern may have: the bytes that may stand at each place."""


def groups(pattern: str) -> frozenset[str]:
    """Return the named groups of a pattern.

    Raises:
        ValueError: in plain words, why it cannot be used.
    """
    definite = _DEFINITE.match(pattern)
    if definite and definite.end() < len(pattern):
        raise ValueError(
            f"found {pattern[definite.end() :][:3]!r} in pattern; allowed: characters, classes "
            r"such as [A-Z] or \d, repeats, and the groups (?P<sign>…), (?P<value>…), (?P<unit>…), "
            "(?P<status>…) and (?:…)"
        )
    choices = sum(token["one"] == "|" for token in _TOKEN.finditer(pattern))
    if choices > _MOST_CHOICES:
        raise ValueError(f"found {choices} times | in pattern; allowed: at most {_MOST_CHOICES}")
    if repeated := _repeated_group(pattern):
        raise ValueError(
            f"found {cut(repeated)}…) repeated in pattern; allowed: a repeat inside the group, or ?"
        )
    try:
        return frozenset(re.compile(possessive(pattern).encode("ascii")).groupindex)
    except (re.error, UnicodeEncodeError, OverflowError, RecursionError) as error:
        raise ValueError(
            f"found pattern {cut(f'{pattern!r} ({error})')}; allowed: a regular expression in ASCII"
        ) from None


def _repeated_group(pattern: str) -> str | None:
    """Return the opening of a named group that is repeated: of such only the last is kept."""
    opened: list[str] = []
    closed = ""
    for token in _TOKEN.finditer(pattern):
        if closed and token["times"] not in (None, "?"):
            return closed
        closed = ""
        if token["open"]:
            opened.append("" if token[0] == "(?:" else token[0])
        elif token["one"] == ")" and opened:
            closed = opened.pop()
            if opened:  # what is repeated round it, repeats it too
                opened[-1] = opened[-1] or closed
    return None


def check_number(pattern: str, point: str) -> None:
    """Refuse a pattern whose groups of value and sign may hold anything else.

    `point` is the decimal sign, "" where none is sent.

    Raises:
        ValueError: in plain words, what was found and what is allowed.
    """
    if not _holds("value", pattern, _DIGITS[point]):
        raise ValueError(
            f"found no group (?P<value>…) of digits {'and the decimal sign ' if point else ''}"
            f"alone in pattern; allowed: one such as (?P<value>{_EXAMPLES[point]})"
        )
    if "(?P<sign>" in pattern and not _holds("sign", pattern, _SIGNS):
        raise ValueError(
            "found other signs in the group (?P<sign>…) of pattern; "
            "allowed: plus, minus and blank, such as (?P<sign>[+-]?)"
        )


def _holds(name: str, pattern: str, allowed: re.Pattern[str]) -> bool:
    """Return whether the pattern has that group and nothing but `allowed` in it."""
    body = re.search(_BODY.format(name), pattern)
    return body is not None and allowed.fullmatch(body[1]) is not None


def possessive(pattern: str) -> str:
    """Return the pattern with repeats that take all they can and give nothing back.

    The time to match it is then in proportion to the bytes.
    """
    return _TOKEN.sub(lambda token: token["times"] + "+" if token["times"] else token[0], pattern)


def loosened(pattern: str) -> str:
    """Return the pattern for a frame of any unit: with any number, and any word for the unit."""
    value = re.search(_BODY.format("value"), pattern)
    if value is None:
        return pattern
    head, tail = pattern[: value.start()], pattern[value.end() :]
    unit = re.compile(_BODY.format("unit"))
    if unit.search(head) or unit.search(tail):
        return unit.sub(_WORD, head) + _NUMBER + unit.sub(_WORD, tail)
    found, replaced = "", False
    for token in _TOKEN.finditer(tail):
        word = (token["one"] or "") in _LETTERS
        found += token[0] if not word else "" if replaced else _WORD
        replaced |= word
    return head + _NUMBER + ("" if replaced else _WORD) + found


def places(pattern: str, length: int) -> tuple[frozenset[int], ...] | None:
    """Return the bytes that may stand at each place of a frame of that length; None if none fits.

    The pattern is one that `groups` has accepted.
    """
    return _Walk(pattern, length).choice().get(length)


@cache
def _bytes(atom: str) -> frozenset[int]:
    fits = re.compile(atom.encode()).fullmatch
    return frozenset(byte for byte in range(256) if fits(bytes([byte])))


class _Walk:
    """Goes through a pattern once; no part is followed past the frame's length."""

    def __init__(self, pattern: str, length: int) -> None:
        self._tokens = list(_TOKEN.finditer(pattern))[::-1]
        self._length = length

    def choice(self) -> Spans:
        """Take what stands up to the end of a group, its | included."""
        found = self._sequence()
        while self._tokens and self._tokens[-1]["one"] == "|":
            self._tokens.pop()
            found = _either(found, self._sequence())
        if self._tokens:
            self._tokens.pop()  # the closing bracket
        return found

    def _sequence(self) -> Spans:
        whole: Spans = {0: ()}
        while self._tokens and self._tokens[-1]["one"] not in ("|", ")"):
            token = self._tokens.pop()
            part = self.choice() if token["open"] else {1: (_bytes(token[0]),)}
            if self._tokens and (times := self._tokens[-1]["times"]):
                self._tokens.pop()
                part = self._repeated(part, times)
            whole = self._joined(whole, part)
        return whole

    def _repeated(self, part: Spans, times: str) -> Spans:
        least, comma, most = {"*": "0,", "+": "1,", "?": "0,1"}.get(times, times[1:-1]).partition(
            ","
        )
        low = int(least or 0)
        high = min(int(most or self._length) if comma else low, self._length)
        once: Spans = {0: ()}
        for _ in range(low):
            once = self._joined(once, part)
        found = once
        for _ in range(high - low):
            once = self._joined(once, part)
            found = _either(found, once)
        return found

    def _joined(self, first: Spans, second: Spans) -> Spans:
        found: Spans = {}
        for a, head in first.items():
            for b, tail in second.items():
                if a + b <= self._length:
                    found = _either(found, {a + b: head + tail})
        return found


def _either(first: Spans, second: Spans) -> Spans:
    found = dict(first)
    for length, may in second.items():
        both = zip(found.get(length, may), may, strict=True)
        found[length] = tuple(one | other for one, other in both)
    return found
