"""What `headsweep report` understands; `daq.report.commands` does it."""

import argparse
from pathlib import Path

from daq.cli.doctor import CONFIG


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
    add_language(p)
    p.add_argument("--schema", action="store_true", help="print the JSON report's schema")
    p.set_defaults(act=_report)


def add_language(p: argparse.ArgumentParser) -> None:
    """Add which language a report is in: whoever asks for one need not be at a screen."""
    p.add_argument("--language", metavar="TAG", help="which language it is in (the shop's)")
    p.add_argument("--config", type=Path, help=f"folder with shop.toml, which says it ({CONFIG})")


def language_of(args: argparse.Namespace) -> str:
    """The language named, or else the shop file's; English where no shop's file is.

    Raises:
        SettingsError: the shop's file cannot be read; says why.
    """
    from daq.settings import read_toml

    path = (args.config or CONFIG) / "shop.toml"
    if args.language or (args.config is None and not path.exists()):
        return str(args.language or "en")
    return str(read_toml(path).get("language", "en"))


def _report(args: argparse.Namespace) -> int:
    from daq.report.commands import run

    args.language = language_of(args)
    return run(args)
