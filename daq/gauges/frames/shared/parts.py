"""A frame said field by field: each entry of its layout as a pattern of bytes.

A part that may vary in length takes all it can and gives nothing back; what it may hold and
what may follow it have no byte in common, so that there is one way to read a frame, and the
time to match it is in proportion to its bytes.
"""

import difflib
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from daq.gauges.frames.shared.bitfields import BitField, Run
from daq.gauges.frames.shared.checked import Check
from daq.gauges.frames.shared.fixed import LONGEST, Places
from daq.settings import found as shown

ANY: Final = frozenset(range(256))
DIGITS: Final = frozenset(b"0123456789")
_HEX: Final = frozenset(b"0123456789abcdefABCDEF")
_ESCAPE: Final = re.compile(r"\\(x[0-9A-Fa-f]{2}|[rnt0\\])")
_ESCAPES: Final = {"r": "\r", "n": "\n", "t": "\t", "0": "\0", "\\": "\\"}

FORMS: Final[Mapping[str, tuple[str, str]]] = {
    "text": (r".+", 'allowed: "text ID"'),
    "bytes": (r"[0-9A-Fa-f]{2}(?: ?[0-9A-Fa-f]{2})*", 'allowed: "bytes 02 0d"'),
    "any": (r"(?:\d+(?:-\d+)?(?: bits?)?)?", 'allowed: "any", "any 3", "any 2-8" or "any 3 bits"'),
    "blanks": (r"\d*", 'allowed: "blanks" or "blanks 3"'),
    "number": (r"(?:\d+(?:\.\d+)?)?", 'allowed: "number", "number 6" or "number 2.3"'),
    "exponent": (r"", 'allowed: "exponent"'),
    "hex": (r"\d+(?: signed| offset)?", 'allowed: "hex 4", "hex 4 signed" or "hex 4 offset"'),
    "sign": (r"(?:\d+ bits?)?", 'allowed: "sign" or "sign 1 bit"'),
    "unit": (r"(?:\d+ bits?)?", 'allowed: "unit" or "unit 4 bits"'),
    "flags": (r"(?:\d+ bits?)?", 'allowed: "flags" or "flags 4 bits"'),
    "places": (r"\d+ bits?", 'allowed: "places 4 bits"'),
    "check": (r"", 'allowed: "check"'),
    "bits": (r"[01]+", 'allowed: "bits 1001"'),
    "unsigned": (r"\d+(?: low-first)?", 'allowed: "unsigned 16" or "unsigned 16 low-first"'),
    "signed": (r"\d+(?: low-first)?", 'allowed: "signed 16" or "signed 16 low-first"'),
    "offset": (r"\d+(?: low-first)?", 'allowed: "offset 16" or "offset 16 low-first"'),
    "float": (
        r"(?:32|64)(?: low-first| low-word-first| swapped-bytes)?",
        'allowed: "float 32", "float 64", "float 32 low-first", low-word-first or swapped-bytes',
    ),
    "bcd": (r"\d+(?: low-first)?", 'allowed: "bcd 6" or "bcd 6 low-first"'),
}
"""What may follow each word of a layout, and how it is told."""

_BY_WORDS: Final = ("sign", "unit", "flags")
"""Which of the words it is shows without what follows: the longest is taken."""
_OF_BITS: Final = ("bits", "places", "unsigned", "signed", "offset", "float", "bcd")

Tables = Mapping[str, Iterable[str]]
"""What sign, unit and flags may be, by role."""


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of a frame: its pattern, and the bytes that may stand in it.

    `places` says it byte by byte where its length is fixed. `first` is what it may begin with;
    `free` that it may be any of its bytes but those that follow.
    """

    item: str
    pattern: str
    chars: frozenset[int]
    first: frozenset[int]
    places: tuple[frozenset[int], ...] | None = None
    empty: bool = False
    free: tuple[int, int] | None = None
    role: str = ""


def taken_apart(layout: Sequence[str], tables: Tables, check: Check | None) -> list[Part | Run]:
    """Return the parts of a layout; what is said in bits is gathered to whole bytes.

    Raises:
        ValueError: in plain words, what was found and what is allowed.
    """
    found: list[Part | Run] = []
    run: list[BitField] = []
    for item in layout:
        word, _, rest = item.partition(" ")
        form = FORMS.get(word)
        if form is None or not re.fullmatch(form[0], rest, re.DOTALL):
            raise _unknown(item, word)
        if word in _OF_BITS or rest.endswith((" bit", " bits")):
            run.append(BitField.of(word, rest, tables.get(word, ())))
            continue
        if run:
            found.append(Run.of(run, len(found)))
            run = []
        found.append(_MADE.get(word, _fixed)(item, rest, tables, check))
    if run:
        found.append(Run.of(run, len(found)))
    return found


def joined(parts: Sequence[Part | Run], end: bytes) -> str:
    """Return the pattern of a whole frame without its terminator.

    Raises:
        ValueError: a part of which it could not be said where it ends.
    """
    follows, pattern = frozenset(end[:1]), ""
    for part in reversed(parts):
        own, first, empty = part.pattern, part.first, False
        if isinstance(part, Part):
            empty = part.empty
            if part.free is not None:
                first = part.chars - follows - frozenset(end[:1])
                if not first:
                    raise _goes_on(part)
                own = f"{byte_class(first)}{{{part.free[0]},{part.free[1]}}}+"
                own = f"(?P<{part.role}>{own})" if part.role else own
            elif part.places is None and part.role not in _BY_WORDS and part.chars & follows:
                raise _goes_on(part)
        pattern = own + pattern
        follows = first | follows if empty else first
    return pattern


def byte_class(may: Iterable[int]) -> str:
    """Return the pattern of a byte that may be one of these."""
    return "[" + "".join(f"\\x{byte:02x}" for byte in sorted(may)) + "]"


def _goes_on(part: Part) -> ValueError:
    return ValueError(
        f"found {shown(part.item)} in layout before what may begin as it goes on; "
        "allowed: something else between them, or how many characters it has"
    )


def _unknown(item: str, word: str) -> ValueError:
    if word in FORMS:
        return ValueError(f"found {shown(item)} in layout; {FORMS[word][1]}")
    near = difflib.get_close_matches(word[:20], FORMS, n=1)
    nearest = f"; nearest: {near[0]}" if near else ""
    return ValueError(f"found {shown(item)} in layout; allowed: {', '.join(FORMS)}{nearest}")


def _of_places(item: str, places: Places, role: str = "") -> Part:
    if not 1 <= len(places) <= LONGEST:
        raise ValueError(
            f"found {shown(item)} in layout; allowed: 1 to {LONGEST} characters in each"
        )
    pattern = "".join(map(byte_class, places))
    chars = frozenset[int]().union(*places)
    return Part(
        item,
        f"(?P<{role}>{pattern})" if role else pattern,
        chars,
        places[0],
        tuple(places),
        role=role,
    )


def _fixed(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    raw = unescaped(rest) if item.startswith("text ") else bytes.fromhex(rest)
    return _of_places(item, [frozenset([byte]) for byte in raw])


def unescaped(text: str) -> bytes:
    r"""Return the bytes of a text in which \r, \n, \t, \0, \\ and \xHH stand for those.

    Raises:
        ValueError: characters of more than one byte.
    """

    def one(hit: re.Match[str]) -> str:
        name = hit[1]
        return chr(int(name[1:], 16)) if len(name) == 3 else _ESCAPES[name]

    found = _ESCAPE.sub(one, text)
    if any(ord(character) > 255 for character in found):
        raise ValueError(f"found {shown(text)} in layout; allowed: characters of one byte each")
    return found.encode("latin-1")


def _any(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    low, dash, high = rest.partition("-")
    if low and not dash:
        return _of_places(item, [ANY] * min(int(low), LONGEST + 1))
    bounds = (min(int(low or 0), LONGEST), min(int(high or LONGEST), LONGEST))
    if bounds[0] > bounds[1]:
        raise ValueError(f"found {shown(item)} in layout; allowed: the lower number first")
    return Part(item, "", ANY, ANY, None, not bounds[0], bounds)


def _blanks(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    blank = frozenset(b" ")
    if rest:
        return _of_places(item, [blank] * min(int(rest), LONGEST + 1))
    return Part(item, "[ ]*+", blank, blank, None, empty=True)


def _number(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    point = frozenset("".join(tables["point"]).encode())
    whole, dot, decimals = rest.partition(".")
    if dot:
        counts = [min(int(count), LONGEST) for count in (whole, decimals)]
        return _of_places(item, [DIGITS] * counts[0] + [point] + [DIGITS] * counts[1], "value")
    may = DIGITS | point
    if whole:
        blank = frozenset(b" ")
        count = min(int(whole), LONGEST + 1)
        return _of_places(item, [may | blank] * count, "value")
    return Part(item, f"(?P<value>{byte_class(may)}++)", may, may, role="value")


def _exponent(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    letters = frozenset(b"eE")
    chars = letters | DIGITS | frozenset(b"+-")
    pattern = "(?P<exponent>[eE][-+]?+[0-9]{1,2}+)"
    return Part(item, pattern, chars - letters, letters, role="exponent")


def _hex(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    return _of_places(item, [_HEX] * min(int(rest.split()[0]), LONGEST + 1), "value")


def _check(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    if check is None:
        raise ValueError('found "check" in layout but no check; allowed: both or neither')
    may = _HEX if check.sent.startswith("hex") else ANY
    return _of_places(item, [may] * check.size, "check")


def _words(item: str, rest: str, tables: Tables, check: Check | None) -> Part:
    words = sorted((unescaped(word) for word in tables[item]), key=len, reverse=True)
    if not words:
        raise ValueError(f"found {item} in layout but nothing it may be; allowed: both or neither")
    if len(set(map(len, words))) == 1 and words[0]:
        places = [frozenset(column) for column in zip(*words, strict=True)]
        options = "|".join(_exactly(word) for word in words)
        first = places[0]
        chars = frozenset(b"".join(words))
        return Part(item, f"(?P<{item}>{options})", chars, first, tuple(places), role=item)
    options = "|".join(map(_exactly, words))
    return Part(
        item,
        f"(?P<{item}>(?>{options}))",
        frozenset(b"".join(words)),
        frozenset(word[0] for word in words if word),
        empty=not words[-1],
        role=item,
    )


def _exactly(word: bytes) -> str:
    return "".join(f"\\x{byte:02x}" for byte in word)


_MADE: Final[Mapping[str, Callable[[str, str, Tables, Check | None], Part]]] = {
    "any": _any,
    "blanks": _blanks,
    "number": _number,
    "exponent": _exponent,
    "hex": _hex,
    "check": _check,
    "sign": _words,
    "unit": _words,
    "flags": _words,
}
