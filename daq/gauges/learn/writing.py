"""The text of a learned gauge's file."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from daq.gauges.config import SerialLine
from daq.gauges.learn.evidence import Proposal, Table
from daq.gauges.talk import Mode
from daq.settings import toml_value

_TABLES: Final = ("signs", "units", "flags")
_SAID: Final[Mapping[str, str]] = {
    "apart": "frames are told apart by what may stand in them, or by the pause after each",
    "coding": "the count carries its own sign",
    "decimal": "the decimal sign in the number",
    "layout": "the roles in the order sent; what never changed must stay as it was",
    "length": "bytes in a frame: nothing closes it",
    "lowest_first": "the lowest digit or bit comes first",
    "order": "which part of a byte comes first",
    "packing": "how the symbols are carried",
    "pattern": "a frame without what closes it, as a regular expression",
    "places": "how many of the digits are decimals",
    "shape": "what a frame is",
    "step": "what one count is worth",
    "terminator": "what closes a frame",
    "unit": "the unit, which is not in the frame",
}


@dataclass(frozen=True, slots=True)
class Particulars:
    """What is not on the wire.  Lengths as they are written in the file."""

    name: str
    serial_number: str
    kind: str
    resolution: str
    travel: str
    max_error: str
    calibration_due: str
    guessed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Habits:
    """When the gauge sends.  Times in seconds; `pause_s` None for the usual one."""

    mode: Mode
    interval_s: float
    request: bytes = b""
    pause_s: float | None = None


def file(answers: Particulars, line: SerialLine, habits: Habits, proposal: Proposal) -> str:
    """Return the whole file."""
    parts = [
        "# Learned from the gauge itself. Keys are explained in example-inch.toml,",
        "# example-bcd.toml and example-bits.toml; compare the file with the gauge's manual.",
        *(f"# Mind: {note}" for note in proposal.notes),
        "",
        *_about(answers, proposal),
        "",
        "[line]",
        *_line(line),
        "",
        "[talk]",
        *_talk(habits),
        "",
        *_frame(proposal.table),
    ]
    return "\n".join(parts) + "\n"


def _about(answers: Particulars, proposal: Proposal) -> list[str]:
    def stated(key: str, note: str = "") -> str:
        note = "not told: put in what the gauge's papers say" if key in answers.guessed else note
        value = getattr(answers, key)
        return _noted(f"{key} = {value if key == 'calibration_due' else toml_value(value)}", note)

    up = "true" if proposal.counts_up else "false"
    return [
        stated("name"),
        stated("serial_number"),
        stated("kind"),
        _noted(f"counts_up = {up}", "whether its number grew when the contact was pushed in"),
        stated("resolution", "the smallest step that was seen"),
        stated("travel"),
        stated("max_error"),
        stated("calibration_due"),
    ]


def _line(line: SerialLine) -> list[str]:
    found = [f"port = {toml_value(line.port)}", f"baud = {line.baud}"]
    found += [f"bits = {line.bits}", f"parity = {toml_value(line.parity)}"]
    return [*found, _noted(f"stop = {line.stop}", "one and two sound the same")]


def _talk(habits: Habits) -> list[str]:
    found = [f"mode = {toml_value(habits.mode)}"]
    if habits.mode != "key":
        found.append(f'interval = "{habits.interval_s * 1000.0:.3g} ms"')
    if habits.request:
        found.append(f"request_hex = {toml_value(habits.request.hex(' '))}")
    if habits.pause_s is not None:
        found.append(f'pause = "{habits.pause_s * 1000.0:.3g} ms"')
    return found


def _frame(table: Table) -> list[str]:
    found = ["[frame]"]
    found += [
        _noted(f"{key} = {toml_value(value)}", _SAID[key])
        for key, value in table.items()
        if key not in _TABLES
    ]
    for name in _TABLES:
        if name in table:
            found += ["", f"[frame.{name}]"]
            found += [
                f"{toml_value(key)} = {toml_value(value)}" for key, value in table[name].items()
            ]
    return found


def _noted(text: str, note: str) -> str:
    return f"{text:<32} # {note}" if note else text
