"""`headsweep wall`: the pages on the Pi's own screen, kept there; the code that pairs others."""

import argparse
import sys
import webbrowser
from collections.abc import Callable

from daq.service.kept_wall import keep
from daq.service.manager import Manager
from daq.service.own_line import OwnLine
from daq.words import Said, SaidTrouble, said


def run(args: argparse.Namespace, words: Callable[[Said], str]) -> int:
    """Carry it out. Raises SaidTrouble and OSError where that cannot be."""
    line = OwnLine(args.data, _address(args))
    if args.code:
        code, seconds = _code(line)
        code_line = said("code-printed", code=code, seconds=seconds)
        sys.stdout.write(f"{words(code_line)}\n")
    elif args.keep:
        keep(line, args.machine, args.browser, Manager())
    elif args.link:
        sys.stdout.write(f"{line.link(args.machine)}\n")
    elif not webbrowser.open(line.link(args.machine)):
        raise SaidTrouble(said("no-browser"))
    return 0


def _address(args: argparse.Namespace) -> str:
    """Where a service that listens at `args.listen` is found on this computer."""
    if args.listen is None:
        return str(args.address)
    host, port = args.listen
    here = "127.0.0.1" if host in ("0.0.0.0", "::") else host
    return f"http://{f'[{here}]' if ':' in here else here}:{port}"


def _code(line: OwnLine) -> tuple[str, int]:
    """A pairing code, asked of the running service in the own wall's name."""
    line.enter()
    line.post("/api/pairing/ask")
    shown = line.get("/api/pairing")
    return str(shown.get("code", "")), int(shown.get("seconds", 0))
