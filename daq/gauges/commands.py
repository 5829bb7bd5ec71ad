"""What a person can ask of gauges at the command line: learn one, listen to one, list ports.

Each gives an exit code: 0 all is well, 1 the gauge was not understood or not heard, 2 it
cannot be done at all.
"""

import argparse
import datetime
import sys
from pathlib import Path
from typing import Final, TextIO

from daq import settings
from daq.gauges import listen, ports_list
from daq.gauges.config import GaugeConfig, read
from daq.gauges.errors import LearnError, LinkError
from daq.gauges.identity import SERIAL_TREE
from daq.gauges.learn.live import answers
from daq.gauges.learn.live.person import AtTerminal, Person, Silent

OK: Final = 0
NOT_UNDERSTOOD: Final = 1
NOT_DONE: Final = 2


Actions = argparse._SubParsersAction  # the library gives what add_subparsers returns no other name


def add(actions: "Actions[argparse.ArgumentParser]") -> None:
    """Add the commands below `gauge`; each sets `act`, a function of the arguments."""
    _add_learn(actions.add_parser("learn", help="find out how a gauge talks and write its file"))
    _add_listen(actions.add_parser("listen", help="show a gauge's frames as they come"))
    one = actions.add_parser("list", help="list the serial ports and which gauge claims each")
    one.add_argument("--config", type=Path, help="folder with the gauges' files")
    one.set_defaults(act=ports, root=SERIAL_TREE)


def _add_learn(p: argparse.ArgumentParser) -> None:
    p.add_argument("--port", required=True, help="the port, best by its name under by-id")
    p.add_argument("-o", "--output", type=Path, help="the file to write; else it is only shown")
    p.add_argument("--push", metavar="LENGTH", help='the known push, such as "1.000 mm"')
    p.add_argument("--yes", action="store_true", help="ask nothing: take what is proposed")
    p.add_argument("--request", metavar="TEXT", help=r"what the gauge is asked with, such as 'R\r'")
    p.add_argument("--key", action="store_true", help="it sends when its key is pressed")
    p.add_argument("--baud", type=int, action="append", help="try this speed only; may be repeated")
    p.add_argument(
        "--minus-at-rest", choices=("yes", "no"),
        help="whether its face shows a minus with the contact free",
    )  # fmt: skip
    p.add_argument("--name", help="what screens and reports call it")
    p.add_argument("--serial-number", help="the number on its housing")
    p.add_argument("--kind", choices=("plunger", "lever"), help="how its contact moves")
    p.add_argument("--resolution", metavar="LENGTH", help="one step of its last digit")
    p.add_argument("--travel", metavar="LENGTH", help="how far its contact can move")
    p.add_argument("--max-error", metavar="LENGTH", help="the most it may be wrong")
    p.add_argument("--calibration-due", metavar="DATE", help="year-month-day")
    p.set_defaults(act=learn)


def _add_listen(p: argparse.ArgumentParser) -> None:
    p.add_argument("--config", type=Path, required=True, help="the gauge's file, or the folder")
    p.add_argument("--gauge", metavar="KEY", help="which gauge of the folder")
    p.add_argument("--port", default="", help="another port than the file's")
    p.add_argument("--count", type=int, default=0, help="stop after so many frames")
    p.add_argument(
        "--data", type=Path, default=Path(), help="the folder in which a relative port lies"
    )
    p.set_defaults(act=hear)


def learn(args: argparse.Namespace, out: TextIO | None = None, err: TextIO | None = None) -> int:
    """Learn a gauge and write its file."""
    out, err = out or sys.stdout, err or sys.stderr
    talks = not args.yes and sys.stdin.isatty()
    person: Person = AtTerminal(out, sys.stdin.readline) if talks else Silent(out)
    if args.output is not None and args.output.exists():
        err.write(f"{args.output}: found a file; allowed: a name that is not taken\n")
        return NOT_DONE
    try:
        text = answers.learned(args, person, datetime.date.today())
    except LearnError as error:
        err.write(f"{error}\n")
        return NOT_UNDERSTOOD
    except (LinkError, settings.SettingsError, ValueError) as error:
        err.write(f"{error}\n")
        return NOT_DONE
    except KeyboardInterrupt:
        return NOT_UNDERSTOOD
    if args.output is None:
        out.write("Not written to a file: say where with -o.\n")
    else:
        args.output.write_text(text, encoding="utf-8")
        out.write(f"Written to {args.output}. Look it through, then listen with it.\n")
    return OK


def hear(args: argparse.Namespace, out: TextIO | None = None, err: TextIO | None = None) -> int:
    """Show a gauge's frames until Ctrl-C."""
    out, err = out or sys.stdout, err or sys.stderr
    try:
        config = read(_file(args.config, args.gauge))
        found = listen.listen(
            config, listen.url_of(config, args.port, args.data), out, max(0, args.count)
        )
    except KeyboardInterrupt:
        return OK
    except (LinkError, settings.SettingsError) as error:
        err.write(f"{error}\n")
        return NOT_DONE
    return OK if found else NOT_UNDERSTOOD


def ports(args: argparse.Namespace, out: TextIO | None = None, err: TextIO | None = None) -> int:
    """List the ports; a gauge's file that cannot be read is said and left out."""
    out, err = out or sys.stdout, err or sys.stderr
    gauges: dict[str, GaugeConfig] = {}
    code = OK
    for path in sorted(_gauges(args.config).glob("*.toml")) if args.config else ():
        try:
            gauges[path.stem] = read(path)
        except settings.SettingsError as error:
            err.write(f"{error}\n")
            code = NOT_UNDERSTOOD
    for line in ports_list.lines(ports_list.ports(gauges, args.root)):
        out.write(f"{line}\n")
    return code


def _gauges(folder: Path) -> Path:
    return folder / "gauges" if (folder / "gauges").is_dir() else folder


def _file(config: Path, key: str | None) -> Path:
    """Return a gauge's file.  Raises SettingsError when it is not said which."""
    if not config.is_dir():
        return config
    if key is None:
        raise settings.SettingsError(
            [f"{config}: found a folder; allowed: one with --gauge KEY, or a gauge's file"]
        )
    return _gauges(config) / f"{key}.toml"
