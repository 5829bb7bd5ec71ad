"""What `headsweep gauge` understands; the rooms of the gauges and of the service do it."""

import argparse
from functools import partial
from pathlib import Path
from typing import Literal

from daq.cli.report import add_language, language_of


def add(p: argparse.ArgumentParser) -> None:
    """Add its actions."""
    actions = p.add_subparsers(dest="action", required=True, metavar="ACTION")
    _add_learn(actions.add_parser("learn", help="find out how a gauge talks and write its file"))
    _add_listen(actions.add_parser("listen", help="show a gauge's frames as they come"))
    kept = actions.add_parser("test", help="decode again what gauges were learned from")
    kept.add_argument("--config", type=Path, required=True, help="the folder, or one gauge's file")
    kept.set_defaults(act=_test)
    one = actions.add_parser("list", help="list the serial ports and which gauge claims each")
    one.add_argument("--config", type=Path, help="folder with the gauges' files")
    one.set_defaults(act=_ports)
    _add_certificate(actions.add_parser("certificate", help="print what a gauge's check came to"))
    _add_check(actions.add_parser("check", help="step a gauge through known lengths and judge it"))


def _add_learn(p: argparse.ArgumentParser) -> None:
    p.add_argument("--port", required=True, help="the port, best by its name under by-id")
    p.add_argument("-o", "--output", type=Path, help="the file to write; else it is only shown")
    p.add_argument("--request", metavar="TEXT", help=r"what the gauge is asked with, such as 'R\r'")
    p.add_argument("--key", action="store_true", help="it sends when its key is pressed")
    p.add_argument("--baud", type=int, action="append", help="try this speed only; may be repeated")
    p.add_argument("--name", help="what screens and reports call it")
    p.add_argument("--serial-number", help="the number on its housing")
    p.add_argument("--kind", choices=("plunger", "lever"), help="how its contact moves")
    p.add_argument("--resolution", metavar="LENGTH", help="one step of its last digit")
    p.add_argument("--travel", metavar="LENGTH", help="how far its contact can move")
    p.add_argument("--max-error", metavar="LENGTH", help="the most it may be wrong")
    p.add_argument("--calibration-due", metavar="DATE", help="year-month-day")
    p.set_defaults(act=_learn)


def _add_listen(p: argparse.ArgumentParser) -> None:
    p.add_argument("--config", type=Path, required=True, help="the gauge's file, or the folder")
    p.add_argument("--gauge", metavar="KEY", help="which gauge of the folder")
    p.add_argument("--port", default="", help="another port than the file's")
    p.add_argument("--count", type=int, default=0, help="stop after so many frames")
    p.add_argument(
        "--data", type=Path, default=Path(), help="the folder in which a relative port lies"
    )
    p.set_defaults(act=_hear)


def _add_check(p: argparse.ArgumentParser) -> None:
    p.add_argument("--gauge", required=True, metavar="KEY", help="a file's name in gauges/")
    p.add_argument("--config", type=Path, required=True, help="folder with shop.toml")
    p.add_argument("--data", type=Path, required=True, help="folder for the record")
    p.add_argument(
        "--blocks", metavar="KEY", help="the set of gauge blocks: a file's name in blocks/"
    )
    p.add_argument(
        "--over", type=_span, metavar="SPAN",
        help='what of its travel is checked, such as "5 mm" or "1 mm to 1.8 mm" (all of it)',
    )  # fmt: skip
    p.add_argument(
        "--turn", type=_length, metavar="LENGTH",
        help="one turn of its pinion, gone through in ten steps (0.2 mm)",
    )  # fmt: skip
    p.add_argument(
        "--lengths", type=_lengths, metavar="LIST",
        help='the known lengths, such as "0 mm, 1 mm, 2 mm, 5 mm", instead of ten steps each',
    )  # fmt: skip
    p.add_argument("--down", action="store_true", help="come back down as well; always with blocks")
    p.add_argument(
        "--repeats", type=_repeats, metavar="N", help="go through them N times (1; with blocks 2)"
    )
    p.add_argument("--state", choices=("found", "left"), default="", help="as found, or as left")
    p.add_argument(
        "--temperature", type=_warm, metavar="T", help='of the blocks, such as "20.5 °C"'
    )
    p.add_argument("--rested", type=_time, metavar="TIME", help='side by side for, such as "2 h"')
    p.add_argument("--done-by", default="", metavar="NAME", help="who does it, for the record")
    p.add_argument("--yes", action="store_true", help="record the result without asking")
    p.set_defaults(act=_check)


def _span(text: str) -> tuple[float, float]:
    from daq.service.bench_plan import span

    return span(text)


def _quantity(text: str, kind: Literal["length", "temperature", "time"]) -> float:
    from daq.units import UnitError, parse

    try:
        return parse(text, kind)
    except UnitError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


_length = partial(_quantity, kind="length")
_warm = partial(_quantity, kind="temperature")
_time = partial(_quantity, kind="time")


def _add_certificate(p: argparse.ArgumentParser) -> None:
    p.add_argument("--gauge", required=True, metavar="KEY", help="a file's name in gauges/")
    p.add_argument("--data", type=Path, required=True, help="the data folder; may be in use")
    p.add_argument("--row", type=int, metavar="N", help="the check's row (the latest)")
    p.add_argument("-o", "--output", metavar="FILE", help="the file to write: .pdf or .html")
    add_language(p)
    p.set_defaults(act=_certificate)


def _lengths(text: str) -> dict[float, str]:
    from daq.service.bench_plan import lengths

    return lengths(text)


def _repeats(text: str) -> int:
    from daq.service.bench_plan import repeats

    return repeats(text)


def _learn(args: argparse.Namespace) -> int:
    from daq.gauges.learn.command import learn
    from daq.says import words

    return learn(args, words)


def _test(args: argparse.Namespace) -> int:
    from daq.gauges.learn.command import test
    from daq.says import words

    return test(args, words)


def _hear(args: argparse.Namespace) -> int:
    from daq.gauges.commands import hear
    from daq.says import words

    return hear(args, words)


def _ports(args: argparse.Namespace) -> int:
    from daq.gauges.commands import ports
    from daq.says import words

    return ports(args, words)


def _certificate(args: argparse.Namespace) -> int:
    from daq.report.gauge_check import run

    args.language = language_of(args)
    return run(args)


def _check(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.bench_command import run

    return run(args, words)
