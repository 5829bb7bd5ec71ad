"""Frame definitions at random, and an encoder of its own: what they say on the wire.

It shares nothing with the decoder but the words of a layout.
"""

import struct
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from daq.gauges.frames.shared.checked import CRCS, Check

MARK = "bytes a5 5a"
LETTERS = "GHJKQRVWXYZ"
ENDS = ("\r\n", "\r", "\n", "\x03", "\r\n\x04")


@dataclass
class Definition:
    """A frame's table, and how a number is written in its frames."""

    table: dict[str, Any]
    lows: int
    highs: int
    sealed: bool = False
    steps: list[Any] = field(default_factory=list)

    def wire(self, count: int) -> bytes:
        """The frame of so many counts, without its terminator."""
        if not any(isinstance(step, str) for step in self.steps):
            raw = b"".join(step(count) for step in self.steps)
        else:
            bits = "".join(s if isinstance(s, str) else s(count) for s in self.steps)
            raw = bytes.fromhex(MARK[6:].replace(" ", ""))
            raw += b"".join(
                int(bits[at : at + 8], 2).to_bytes(1, "big") for at in range(0, len(bits), 8)
            )
        if self.sealed:
            raw += Check(**self.table["check"]).written(raw)
        return raw + self.table.get("terminator", "").encode("latin-1")

    def value(self, count: int) -> float:
        """What a frame of so many counts says."""
        exact = Fraction(count)
        if "scale" in self.table:
            exact = exact * Fraction(str(self.table["scale"])) + Fraction(
                str(self.table.get("offset", 0))
            )
        else:
            exact /= 10 ** self.table["places"]
        return float(exact)


def _number_in_text(draw: Any, places: int, table: dict[str, Any]) -> list[Any]:
    """The fields of a number in text, its sign before or behind it."""
    words = draw(
        st.sampled_from(
            [
                {"+": "+", "-": "-"},
                {"R": "+", "L": "-"},
                {"": "+", "-": "-"},
                {"PLUS": "+", "MINUS": "-"},
            ]
        )
    )
    table["signs"] = words
    by_meaning = {meaning: word.encode() for word, meaning in words.items()}
    pointed = draw(st.booleans()) or "scale" in table
    width = draw(st.sampled_from([0, 0, 8]))
    decimal = table["decimal"] = draw(st.sampled_from([".", ","]))

    def digits(count: int) -> bytes:
        text = f"{abs(count):0{places + 1}d}"
        if pointed and "scale" not in table and places:
            text = f"{text[:-places]}{decimal}{text[-places:]}"
        return text.rjust(width).encode()

    item = f"number {width}" if width else "number"
    table["layout"] += ["sign", item] if draw(st.booleans()) else [item, "blanks 1", "sign"]
    steps: list[Any] = [lambda count: by_meaning["-" if count < 0 else "+"], digits]
    return steps if table["layout"][-1] == item else [digits, lambda _: b" ", steps[0]]


@st.composite
def texts(draw: Any) -> Definition:
    """A frame of text, closed by a terminator: words, fields, number, unit, check value."""
    places = draw(st.integers(0, 5))
    table: dict[str, Any] = {"terminator": draw(st.sampled_from(ENDS)), "layout": []}
    if draw(st.booleans()):
        table |= {"scale": draw(st.sampled_from([0.001, 2.5, -0.00125])), "offset": -1.5}
    else:
        table["places"] = places
    steps: list[Any] = []
    if draw(st.booleans()):
        word = draw(st.text(LETTERS, min_size=1, max_size=4)) + ";"
        table["layout"] += [f"text {word}"]
        steps += [lambda _: word.encode()]
    if draw(st.booleans()):
        table["layout"] += ["any", "text ;"]
        steps += [lambda count: b"10:07:%d;" % (count % 60)]
    steps += _number_in_text(draw, places, table)
    if draw(st.booleans()):
        table |= {"units": {"MM": "mm", "I": "in"}}
        table["layout"] += ["blanks", "unit"]
        steps += [lambda count: b" " * (count % 3) + (b"MM", b"I")[count % 2]]
    else:
        table["unit"] = "mm"
    if draw(st.booleans()):
        table["layout"] += ["text *", "any", "text *"]
        steps += [lambda count: b"*%x*" % abs(count)]
    sealed = draw(st.booleans())
    if sealed:
        table["layout"] += ["check"]
        table["check"] = {"kind": draw(st.sampled_from(["xor", "sum-16", *CRCS]))}
        if table["layout"][-2].startswith("number"):  # else its digits would go on
            table["layout"].insert(-1, "text *")
            steps += [lambda _: b"*"]
    return Definition(table, -99_999, 99_999, sealed, steps)


def _of_counts(width: int, way: str, order: str) -> Any:
    def bits(count: int) -> str:
        sent = count + (1 << width - 1) if way == "offset" else count % (1 << width)
        text = f"{sent:0{width}b}"
        if not order:
            return text
        whole = [text[at : at + 8] for at in range(0, width, 8)]
        return "".join(whole[::-1]) if width % 8 == 0 else text[::-1]

    return bits


@st.composite
def counts(draw: Any) -> Definition:
    """A frame of bits and bytes: marks, other bits, a count, a CRC."""
    way = draw(st.sampled_from(["unsigned", "signed", "offset", "bcd"]))
    order = draw(st.sampled_from(["", " low-first"]))
    width = draw(st.integers(8, 32)) if way != "bcd" else 24
    table: dict[str, Any] = {"layout": [MARK], "places": draw(st.integers(0, 6)), "unit": "in"}
    highs = (1 << width - (way in ("signed", "offset"))) - 1
    lows = -highs if way in ("signed", "offset") else 0
    steps: list[Any] = []
    if way in ("unsigned", "bcd") and draw(st.booleans()):
        table["layout"] += ["sign 1 bit"]
        steps += [lambda count: "01"[count < 0]]
        lows = -highs
    before = draw(st.integers(0, 9))
    if before:
        table["layout"] += [f"any {before} bits"]
        steps += ["10" * 5][:1] if before == 10 else [("10" * 5)[:before]]
    if way == "bcd":
        highs, lows = min(highs, 999_999), max(lows, -999_999)

        def digits(count: int) -> str:
            text = f"{abs(count):06d}"
            return f"{int(text[::-1] if order else text, 16):024b}"

        steps += [digits]
    elif way == "unsigned":
        unsigned = _of_counts(width, way, order)
        steps += [lambda count: unsigned(abs(count))]
    else:
        steps += [_of_counts(width, way, order)]
    table["layout"] += [f"bcd 6{order}" if way == "bcd" else f"{way} {width}{order}"]
    taken = width + before + ("sign 1 bit" in table["layout"])
    if taken % 8:
        table["layout"] += ["bits " + "1" * (-taken % 8)]
        steps += ["1" * (-taken % 8)]
    steps += [""]  # bits, even where all are made by functions
    sealed = draw(st.booleans())
    if sealed:
        sent = draw(st.sampled_from(["low-first", "high-first", "hex"]))
        table |= {"check": {"kind": draw(st.sampled_from(list(CRCS))), "sent": sent}}
        table["layout"] += ["check"]
    table["apart"] = "pause"
    return Definition(table, lows, highs, sealed, steps)


@st.composite
def floats(draw: Any) -> Definition:
    """A float of either size and any order, with a CRC of two bytes that tells frames apart."""
    size, form = draw(st.sampled_from([(32, "f"), (64, "d")]))
    order = draw(st.sampled_from(["", " low-first", " low-word-first", " swapped-bytes"]))
    places = 3
    table: dict[str, Any] = {
        "layout": [MARK, f"float {size}{order}", "check"],
        "places": places,
        "unit": "mm",
        "check": {"kind": "crc-16/x-25", "sent": "high-first"},
    }

    def raw(count: int) -> bytes:
        big = struct.pack(f">{form}", count / 10**places)
        words = [big[at : at + 2] for at in range(0, len(big), 2)]
        return {
            "": big,
            " low-first": big[::-1],
            " low-word-first": b"".join(words[::-1]),
            " swapped-bytes": b"".join(word[::-1] for word in words),
        }[order]

    return Definition(table, -99_999, 99_999, True, [lambda _: b"\xa5\x5a", raw])
