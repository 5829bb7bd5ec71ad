"""The `headsweep` command: it only parses, and says what went wrong.

Each command imports what it needs once it is chosen; `gauge` and `rights` hold theirs.
"""

import argparse
import logging
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from daq import __version__
from daq.cli import gauge, rights
from daq.words import SaidTrouble, Trouble

DATA = Path("~/.local/share/headsweep")
HERE = "127.0.0.1"
"""Where the pages are served unless somebody chooses otherwise: to this computer alone."""

EXIT_CODES = (
    "Exit codes: 0 all is well, 2 the ledger or the command cannot be read,"
    " 3 the ledger is altered or damaged, 4 a decision differs; 1 is a mistake in the program."
)


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    top = argparse.ArgumentParser(
        prog="headsweep", description="Square a milling machine's head to its table, on record."
    )
    top.add_argument("--version", action="version", version=f"headsweep {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    _add_demo(commands.add_parser("demo", help="square a practice mill from the browser"))
    _add_run(commands.add_parser("run", help="run the service on real gauges"))
    gauge.add(commands.add_parser("gauge", help="work on one gauge at the bench"))
    _add_ledger(commands.add_parser("ledger", help="check, show or export the record"))
    rights.add(commands, _rights)
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


def _add_ledger(p: argparse.ArgumentParser) -> None:
    actions = p.add_subparsers(dest="action", required=True, metavar="ACTION")
    for name, say in (
        ("verify", "check every row; names the first bad one"),
        ("show", "list what is recorded"),
        ("export", "print every row exactly as stored"),
        ("backup", "copy a ledger that may be in use"),
        ("carry-on", "begin a new ledger in the place of one that is damaged or gone"),
        ("recheck", "make every decision again from what was recorded"),
        ("people", "list who is named in the record, or put a name right"),
        ("key", "make the shop's key, which signs each audit"),
        ("schema", "print the JSON schema of a row's body"),
    ):
        one = actions.add_parser(name, help=say, epilog=EXIT_CODES)
        if name == "schema":
            one.set_defaults(act=_schema)
            continue
        one.add_argument("--data", type=Path, required=True, help="the data folder")
        one.set_defaults(
            act=_ledger, anchor=[], anchors=[], key=[], audit=None, evidence=False, yes=False
        )
        if name == "verify":
            one.add_argument(
                "--anchor", action="append", metavar="ROW:HASH", help="a row's printed hash"
            )
            one.add_argument(
                "--key", action="append", metavar="PUBLIC",
                help="a public key that each signed audit must be signed by",
            )  # fmt: skip
            one.add_argument(
                "--anchors", action="append", metavar="FOLDER", type=Path,
                help="a folder of reports and exports, whose hashes it must have",
            )  # fmt: skip
        if name == "show":
            one.add_argument("--audit", help="only this audit's UUID")
        if name == "backup":
            one.add_argument("--to", type=Path, required=True, help="a folder to be made")
        if name == "carry-on":
            one.add_argument("--yes", action="store_true", help="begin it without asking")
        if name == "people":
            one.add_argument(
                "--correct", action="append", default=[], metavar="ID=NAME", help="a name put right"
            )
        if name == "key":
            one.set_defaults(act=_key)
        if name == "recheck":
            one.set_defaults(act=_recheck)
        if name == "export":
            one.add_argument("--evidence", action="store_true", help="with every sample")


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


def _rights(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.rights.commands import run

    return run(args, words)


def _ledger(args: argparse.Namespace) -> int:
    from daq.ledger.commands import run
    from daq.says import words

    return run(args, words)


def _recheck(args: argparse.Namespace) -> int:
    from daq.app import recheck
    from daq.ledger import commands as ledger
    from daq.says import words

    if ledger.unsound(args.data, words):
        return ledger.ALTERED
    found = recheck(args.data)
    for difference in found:
        print(f"row {difference.seq}: {difference.say}")
    print("every decision comes out as recorded" if not found else f"{len(found)} differ")
    return ledger.DIFFER if found else ledger.OK


def _key(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.shop_key import run

    return run(args.data, words)


def _schema(_: argparse.Namespace) -> int:
    import json

    from daq.audit.published import row_schema

    print(json.dumps(row_schema(), indent=1, ensure_ascii=False))
    return 0


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command; the exit code is 0 when all is well, 2 when it cannot be done.

    What else a command finds has a code of its own; see `EXIT_CODES`.
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
