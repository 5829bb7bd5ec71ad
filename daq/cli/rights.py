"""What `headsweep access` and `headsweep wall` understand; `daq.service.rights` does it."""

import argparse
from collections.abc import Callable
from pathlib import Path

Act = Callable[[argparse.Namespace], int]
Address = Callable[[str], tuple[str, int]]


def add(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]", act: Act, address: Address
) -> None:
    """Add both; `act` carries out what is about rights, `address` reads HOST:PORT."""
    access = commands.add_parser("access", help="who may sign, and which screens are paired")
    _access(access.add_subparsers(dest="action", required=True, metavar="ACTION"), act)
    wall = commands.add_parser("wall", help="open the pages on the Pi's own wall")
    wall.add_argument("--data", type=Path, required=True, help="the data folder of the service")
    where = wall.add_mutually_exclusive_group()
    where.add_argument(
        "--address", default="http://127.0.0.1:8642", help="where it serves (this computer's 8642)"
    )
    where.add_argument(
        "--listen", type=address, metavar="HOST:PORT", help="the same, as `run` was told it"
    )
    wall.add_argument("--machine", default="", metavar="KEY", help="open this machine's wall page")
    wall.add_argument("--link", action="store_true", help="print the address; it holds a minute")
    wall.add_argument("--code", action="store_true", help="print a code that pairs a screen")
    wall.add_argument(
        "--keep", action="store_true",
        help="keep a browser there: once the service answers, and anew when its page stands still",
    )  # fmt: skip
    wall.add_argument(
        "browser", nargs="*", default=["chromium", "--kiosk"], metavar="BROWSER",
        help="with --keep: after --, the browser's command; the page's address is put at its end",
    )  # fmt: skip
    wall.set_defaults(act=_wall)


def _access(actions: "argparse._SubParsersAction[argparse.ArgumentParser]", act: Act) -> None:
    for name, say in (
        ("show", "list the people with a PIN, and the paired screens"),
        ("add", "give somebody a PIN for signing, or another one"),
        ("remove", "take somebody's PIN or a screen's right away"),
    ):
        one = actions.add_parser(name, help=say)
        one.add_argument("--data", type=Path, required=True, help="the data folder")
        if name == "add":
            one.add_argument("name", help="their name, as it is to stand on record")
            one.add_argument("--set-up", action="store_true", help="they may unpair screens, too")
        if name == "remove":
            one.add_argument("name", help="a person's name, or a screen's name or id")
        one.set_defaults(act=act)


def _wall(args: argparse.Namespace) -> int:
    from daq.says import words
    from daq.service.wall_command import run

    return run(args, words)
