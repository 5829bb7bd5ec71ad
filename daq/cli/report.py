"""What `headsweep report` understands; `daq.report.commands` does it."""

import argparse
from pathlib import Path


def add(p: argparse.ArgumentParser) -> None:
    """Add its arguments."""
    p.add_argument("audit", nargs="*", help="UUIDs, how they begin, or short forms such as A-7PBQ")
    p.add_argument("--data", type=Path, help="the data folder; its service may be running")
    p.add_argument(
        "-o", "--output", metavar="FILE",
        help="the file to write, its format by its ending; a folder for several; - for stdout",
    )  # fmt: skip
    p.add_argument("--as", dest="ending", metavar="ENDING", help="pdf, html, json, csv, xlsx, ...")
    p.add_argument("--machine", metavar="KEY", help="every audit of this machine")
    p.add_argument("--number", help="an earlier report that was amended since, such as A-7PBQ-1")
    p.add_argument("--language", default="en", metavar="TAG", help="which language it is in (en)")
    p.add_argument("--schema", action="store_true", help="print the JSON report's schema")
    p.set_defaults(act=_report)


def _report(args: argparse.Namespace) -> int:
    from daq.report.commands import run

    return run(args)
