"""`headsweep records`: the list of all audits, as a table or as JSON."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final, TextIO

from daq.records.look import look
from daq.records.shown import shown
from daq.records.wanted import Wanted

Told = Callable[[object, Mapping[str, str]], Any]
"""Makes a JSON-ready copy of what is shown, in words, with people's names."""

_COLUMNS: Final = "{:<7}  {:<10}  {:<16}  {:<11}  {:<18}  {:<19}  {:>5}  {}"


def as_json(data: Path, wanted: Wanted, out: TextIO, told: Told) -> None:
    """Write a list of objects, one an audit, newest first. Raises LedgerError."""
    out.write("[")
    between = "\n"
    for found, names in look(data, wanted):
        for line in told(shown(found, 0), names)["records"]:
            out.write(between + json.dumps(line, ensure_ascii=False))
            between = ",\n"
    out.write("\n]\n")


def as_table(data: Path, wanted: Wanted, out: TextIO, told: Told) -> None:
    """Write a line an audit, newest first, after what the failed checks come to.

    Raises LedgerError.
    """
    header: tuple[object, ...] = (
        "audit", "day", "machine", "kind", "verdict", "gauge", "moves", "who",
    )  # fmt: skip
    count = 0
    for found, names in look(data, wanted):
        view = told(shown(found, 0), names)
        if header:
            out.writelines(f"{each['say']}\n" for each in view["failed"])
            out.write(_COLUMNS.format(*header) + "\n")
            header = ()
        out.writelines(map(_line, view["records"]))
        count += len(view["records"])
    out.write(f"{count} {'audit' if count == 1 else 'audits'}\n")


def _line(line: Mapping[str, Any]) -> str:
    numbers = ", ".join(each["number"] or each["key"] for each in line["gauges"])
    notes = [f"{line[key]} {say}" for key, say in _NOTES.items() if line[key]]
    marks = (*(["practice"] if line["practice"] else []), *notes)
    who = " / ".join(filter(None, (line["done_by"], line["reviewed_by"])))
    last = "; ".join(filter(None, (who, *marks)))
    day = line["day"] + ("" if line["sure"] else "?")
    row = (line["short"], day, line["machine"], line["kind"], line["verdict"] or line["state"])
    return _COLUMNS.format(*row, numbers, line["moves"], last).rstrip() + "\n"


_NOTES: Final = {"taken_back": "taken back", "addenda": "added since"}
