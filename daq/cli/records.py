"""What `headsweep records` understands; `daq.records` does it."""

import argparse
import datetime
import sys
from pathlib import Path
from typing import Final

_YES: Final = ("voided", "practice", "open")


def add(p: argparse.ArgumentParser) -> None:
    """Add what can be asked of the list."""
    p.add_argument("--data", type=Path, required=True, help="the data folder")
    for name, say in (
        ("machine", "the key of a machine"),
        ("kind", "squaring, or the key of another check"),
        ("verdict", "in, out or close, or as a report has it, such as conforms"),
        ("gauge", "a gauge's key or its serial number"),
        ("by", "somebody's name, or a part of it"),
    ):
        p.add_argument(f"--{name}", default="", help=say)
    for name, key, say in (
        ("from", "since", "signed or ended on this day or later, such as 2026-01-31"),
        ("to", "until", "signed or ended on this day or before"),
        ("failed-check", "failed_check", "used a gauge that failed its check on this day or later"),
    ):
        p.add_argument(f"--{name}", dest=key, type=_day, metavar="DATE", help=say)
    p.add_argument("--voided", action="store_true", help="something of it was taken back")
    p.add_argument("--practice", action="store_true", help="practice alone")
    p.add_argument("--open", action="store_true", help="not signed and not given up")
    p.add_argument("--json", action="store_true", help="a list of objects, one an audit")
    p.set_defaults(act=_records)


def _day(text: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        allowed = "a day such as 2026-01-31"
        raise argparse.ArgumentTypeError(f"found {text!r}; allowed: {allowed}") from None


def _records(args: argparse.Namespace) -> int:
    from daq.records.commands import as_json, as_table
    from daq.records.wanted import Wanted
    from daq.says import language
    from daq.settings import build

    keys = ("machine", "kind", "verdict", "gauge", "by", "since", "until", "failed_check")
    asked = {key: getattr(args, key) for key in keys}
    asked |= {key: "yes" for key in _YES if getattr(args, key)}
    wanted = build(Wanted, {**asked, "limit": 200}, "headsweep records", quantities="plain")
    write = as_json if args.json else as_table
    write(args.data, wanted, sys.stdout, language().told)
    return 0
