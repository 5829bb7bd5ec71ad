"""What `headsweep access` and `headsweep wall` understand; `daq.service.rights` does it."""

import argparse
from collections.abc import Callable
from pathlib import Path

Act = Callable[[argparse.Namespace], int]


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]", act: Act) -> None:
    """Add both; `act` carries either out."""
    access = commands.add_parser("access", help="who may sign, and which screens are paired")
    _access(access.add_subparsers(dest="action", required=True, metavar="ACTION"), act)
    wall = commands.add_parser("wall", help="open the pages on the Pi's own wall")
    wall.add_argument("--data", type=Path, required=True, help="the data folder of the service")
    wall.add_argument(
        "--address", default="http://127.0.0.1:8642", help="where it serves (this computer's 8642)"
    )
    wall.add_argument("--machine", default="", metavar="KEY", help="open this machine's wall page")
    wall.add_argument("--link", action="store_true", help="print the address; it holds a minute")
    wall.add_argument("--code", action="store_true", help="print a code that pairs a screen")
    wall.set_defaults(act=act, action="wall")


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
