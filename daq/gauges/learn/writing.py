"""The text of a learned gauge's file."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from daq.gauges.config import SerialLine
from daq.gauges.learn.evidence import Table
from daq.gauges.talk import Mode
from daq.settings import toml_value

_TABLES: Final = ("signs", "units", "check")
_SAID: Final[Mapping[str, str]] = {
    "apart": "frames are told apart by what may stand in them, or by the pause after each",
    "decimal": "the decimal sign in the number",
    "layout": "in the order sent; what never changed must stay as it was",
    "lowest_first": "the lowest digit comes first",
    "offset": "what is added to the scaled number",
    "order": "which part of a byte comes first",
    "packing": "how the symbols are carried",
    "places": "how many decimals there are",
    "scale": "what one count is worth",
    "shape": "what a frame is",
    "terminator": "what closes a frame",
    "unit": "the unit, which is not in the frame",
}
_WIDEST: Final = 96
_EXAMPLES: Final = {
    "name": '"Arm gauge"', "serial_number": '"1024-A"', "travel": '"12.7 mm"',
    "max_error": '"0.004 mm"', "calibration_due": "2028-03-31",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Particulars:
    """What is not on the wire, as it is written in the file; None: not told.

    `step_sure`: whether the resolution was told, or seen for sure.
    """

    name: str | None
    serial_number: str | None
    kind: str
    counts_up: bool
    resolution: str
    travel: str | None
    max_error: str | None
    calibration_due: str | None
    step_sure: bool = True

    @property
    def missing(self) -> tuple[str, ...]:
        """The keys that were not told."""
        keys = ("name", "serial_number", "travel", "max_error", "calibration_due")
        return tuple(key for key in keys if getattr(self, key) is None)


@dataclass(frozen=True, slots=True)
class Habits:
    """When the gauge sends.  Times in seconds; `pause_s` None for the usual one."""

    mode: Mode
    interval_s: float
    request: bytes = b""
    pause_s: float | None = None
    start: bytes = b""
    echo: bool = False


def file(
    about: Particulars, line: SerialLine, habits: Habits, table: Table, notes: Sequence[str] = ()
) -> str:
    """Return the whole file; what was not told stands in it commented out, and is said."""
    parts = [
        "# Learned from the gauge and its face. Keys are explained in example-fields.toml,",
        "# example-bcd.toml and example-inch.toml; compare the file with the gauge's manual.",
        *(f"# Mind: {note}" for note in notes),
        "",
        *_about(about),
        "",
        "[line]",
        *_line(line),
        "",
        "[talk]",
        *_talk(habits),
        "",
        *_frame(table),
    ]
    return "\n".join(parts) + "\n"


_SURE: Final = "one step of its last digit"
_UNSURE: Final = "its last digit going on by one: too few numbers came to tell; see its manual"


def _about(about: Particulars) -> list[str]:
    def stated(key: str, note: str = "") -> str:
        value = getattr(about, key)
        if value is None:
            return _noted(f"# {key} = {_EXAMPLES[key]}", "missing: put in what its papers say")
        return _noted(f"{key} = {value if key == 'calibration_due' else toml_value(value)}", note)

    up = "true" if about.counts_up else "false"
    return [
        stated("name"),
        stated("serial_number"),
        stated("kind"),
        _noted(f"counts_up = {up}", "whether its number grew when the contact was pushed in"),
        stated("resolution", _SURE if about.step_sure else _UNSURE),
        stated("travel"),
        stated("max_error"),
        stated("calibration_due"),
    ]


def _line(line: SerialLine) -> list[str]:
    found = [f"port = {toml_value(line.port)}", f"baud = {line.baud}"]
    found += [f"bits = {line.bits}", f"parity = {toml_value(line.parity)}"]
    alike = "one and two" if line.stop == 1 else "a parity that is always 1 and this"
    return [*found, _noted(f"stop = {line.stop}", f"{alike} sound the same")]


def _talk(habits: Habits) -> list[str]:
    found = [f"mode = {toml_value(habits.mode)}"]
    if habits.mode != "key":
        found.append(f'interval = "{habits.interval_s * 1000.0:.3g} ms"')
    if habits.request:
        found.append(f"request_hex = {toml_value(habits.request.hex(' '))}")
    if habits.start:
        text = "".join(f"\\x{byte:02x}" for byte in habits.start)
        found.append(f"start = {toml_value([text])}")
    if habits.echo:
        found.append("echo = true")
    if habits.pause_s is not None:
        found.append(f'pause = "{habits.pause_s * 1000.0:.3g} ms"')
    return found


def _frame(table: Table) -> list[str]:
    found = ["[frame]"]
    for key, value in table.items():
        if key in _TABLES:
            continue
        text = f"{key} = {toml_value(value)}"
        if len(text) > _WIDEST and key == "layout":
            text = "layout = [\n" + "".join(f"  {toml_value(item)},\n" for item in value) + "]"
        found.append(_noted(text, _SAID[key]))
    for name in _TABLES:
        if name in table:
            found += ["", f"[frame.{name}]"]
            found += [
                f"{key if name == 'check' else toml_value(key)} = {toml_value(value)}"
                for key, value in table[name].items()
            ]
    return found


def _noted(text: str, note: str) -> str:
    return f"{text:<32} # {note}" if note else text
