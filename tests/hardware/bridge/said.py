"""What a bridge is told and what comes out of it, as the tests of its program use it."""

import binascii
import re

from tests.hardware.bridge.wires import Wires, binary, digits, lines

VALUE = re.compile(r"gauge (\S+) ([+-][\d.]+ (?:mm|in)) (\d{4}) ([0-9A-F]{4})")
KINDS = ("24 bits", "48 bits", "52 bits")


def random_frame(kind, chance):
    """The bits of a frame, and the value it has."""
    inch = chance.random() < 0.3
    if kind == "24 bits":
        count = chance.randrange(-(2**20) + 1, 2**20)
        step, places = (5, 4) if inch else (1, 2)
        bits, shown = binary(count, inch=inch), count * step
    else:
        count, places = chance.randrange(-999_999, 1_000_000), chance.randrange(1, 6)
        bits, shown = digits(count, places, inch=inch, ones=3 + (kind == "52 bits")), count
    return bits, f"{shown / 10**places:+.{places}f} {'in' if inch else 'mm'}"


def ready(**about):
    """A bridge that was given its gauge's number, and what it said to that."""
    wires = Wires(**about)
    wires.typed("number 1024-E\r")
    if wires.rising:
        wires.typed("edge rising\r")
    return wires


def values(said):
    """The values among the lines; each with the right count and check value."""
    found = [match for match in map(VALUE.fullmatch, said) if match]
    assert [int(match[3]) for match in found] == [n % 10_000 for n in range(len(found))]
    for match in found:
        assert match[1] == "1024-E"
        assert int(match[4], 16) == binascii.crc_hqx(match[0][:-4].encode(), 0xFFFF)
    return [match[2] for match in found]


def sent(program, wires, many, kind, spoil=lambda changes, nth: (changes, True)):
    """(what came out, what must, what was meant). Out must come each frame that was well, as was
    the one before it. `spoil` gives the changes that arrive, and whether the frame is well."""
    meant, must, before = [], [], False
    for nth in range(many):
        bits, value = random_frame(kind, wires.chance)
        changes, well = spoil(wires.edges(bits), nth)
        wires.take(changes)
        meant.append(value)
        must += [value] if well and before else []
        before = well
    return values(lines(program, wires)), must, meant


def asked(program, wires):
    """When it asked and when it let go, in µs."""
    said = lines(program, wires)
    return [int(line.strip("()").split()[-1]) for line in said if line[0] == "("]
