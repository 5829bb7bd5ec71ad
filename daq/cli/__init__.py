"""The `headsweep` command: it only parses, and says what went wrong.

Each command imports what it needs once it is chosen; `gauge`, `ledger` and `rights` hold theirs.
"""

import argparse
import logging
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from daq import __version__
from daq.cli import doctor, gauge, ledger, records, report, rights
from daq.words import SaidTrouble, Trouble

DATA = Path("~/.local/share/headsweep")
HERE = "127.0.0.1"
"""Where the pages are served unless somebody chooses otherwise: to this computer alone."""


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    top = argparse.ArgumentParser(
        prog="headsweep", description="Square a milling machine's head to its table, on record."
    )
    top.add_argument("--version", action="version", version=f"headsweep {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    _add_demo(commands.add_parser("demo", help="square a practice mill from the browser"))
    _add_run(commands.add_parser("run", help="run the service on real gauges"))
    _add_power(commands.add_parser("power", help="power the Pi off by a button, or without mains"))
    doctor.add(commands.add_parser("doctor", help="look at this computer and all that hangs on it"))
    gauge.add(commands.add_parser("gauge", help="work on one gauge at the bench"))
    ledger.add(commands.add_parser("ledger", help="check, show or export the record"))
    records.add(commands.add_parser("records", help="list the audits on record"))
    report.add(commands.add_parser("report", help="make an audit's report as a file"))
    told = commands.add_parser("messages", help="print the JSON schema of what a broker is told")
    told.set_defaults(act=_messages)
    rights.add(commands, _rights, _address)
    return top


def _add_demo(p: argparse.ArgumentParser) -> None:
    p.add_argument("--port", type=_number(0, 65535, int), default=8642, help="TCP port (8642)")
    p.add_argument("--data", type=Path, default=DATA / "demo", help="where it keeps its record")
    p.add_argument("--no-browser", action="store_true", help="do not open a browser")
    p.add_argument(
        "--speed", type=_number(0.1, 100, float), default=1.0, help="how fast things happen (1)"
    )
    p.add_argument(
        "--hands", choices=("person", "auto"), default="person", help="who works the practice mill"
    )
    p.add_argument("--seed", type=int, default=None, help="the same number gives the same mill")
    p.set_defaults(act=_demo)


def _add_run(p: argparse.ArgumentParser) -> None:
    p.add_argument("--config", type=Path, required=True, help="folder with shop.toml")
    p.add_argument("--data", type=Path, required=True, help="folder for the record")
    p.add_argument(
        "--listen", type=_address, default=(HERE, 8642), metavar="HOST:PORT",
        help=f"address of the pages ({HERE}:8642)",
    )  # fmt: skip
    p.add_argument(
        "--data-in-memory", action="store_true",
        help="allow a data folder that is gone with the power",
    )  # fmt: skip
    p.set_defaults(act=_run)


def _add_power(p: argparse.ArgumentParser) -> None:
    p.add_argument("--config", type=Path, required=True, help="folder with shop.toml")
    p.set_defaults(act=_power)


def _number(lo: float, hi: float, kind: type[int] | type[float]) -> Callable[[str], float]:
    def parse(text: str) -> float:
        try:
            value = kind(text)
        except ValueError:
            value = kind(lo) - 1
        if not lo <= value <= hi:
            raise argparse.ArgumentTypeError(f"found {text!r}; allowed: {lo:g} to {hi:g}")
        return value

    return parse


def _address(text: str) -> tuple[str, int]:
    host, colon, port = text.rpartition(":")
    if not colon or not port.isdecimal() or int(port) > 65535:
        raise argparse.ArgumentTypeError(
            f"found {text!r}; allowed: HOST:PORT such as {HERE}:8642 or [::1]:8642"
        )
    return host.strip("[]") or HERE, int(port)


def _tell(address: str) -> None:
    print(f"headsweep {__version__} is at {address}", flush=True)


def _demo(args: argparse.Namespace) -> int:
    from daq.demo import demo

    return demo(
        args.data.expanduser(),
        args.port,
        _tell,
        browser=not args.no_browser,
        speed=args.speed,
        hands=args.hands == "auto",
        seed=args.seed,
    )


def _run(args: argparse.Namespace) -> int:
    from daq.run import run

    host, port = args.listen
    return run(args.config, args.data, host, port, _tell, in_memory=args.data_in_memory)


def _power(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.powering import run

    return run(args.config, words)


def _messages(_: argparse.Namespace) -> int:
    import json

    from daq.service.messages.published import message_schema

    print(json.dumps(message_schema(), indent=1, ensure_ascii=False))
    return 0


def _rights(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.rights.commands import run

    return run(args, words)


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command; the exit code is 0 when all is well, 2 when it cannot be done.

    What else a command finds has a code of its own; see `ledger.EXIT_CODES`.
    """
    args = parser().parse_args(argv)
    logging.basicConfig(level=logging.WARNING, format="headsweep: %(message)s")
    # Each open stream holds a thread, so requests that wait a moment for one are no news.
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    try:
        code: int = args.act(args)
    except (Trouble, OSError) as error:
        from daq.says import words
        from daq.service.not_ours import not_ours

        said = words(error.said) if isinstance(error, SaidTrouble) else str(error)
        print(f"headsweep: {not_ours(error, vars(args).get('data')) or said}", file=sys.stderr)
        return 2
    return code
