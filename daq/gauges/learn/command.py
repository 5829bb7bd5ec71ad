"""`headsweep gauge learn`: find out how a gauge talks and write its file."""

import argparse
import datetime
import sys
from collections.abc import Callable
from typing import TextIO

from daq.gauges.commands import NOT_DONE, NOT_UNDERSTOOD, OK
from daq.gauges.config import SerialLine
from daq.gauges.errors import LearnError, LinkError
from daq.gauges.learn.live import answers
from daq.gauges.learn.live.ear import opened
from daq.gauges.learn.live.person import Attendant, AtTerminal, Silent
from daq.settings import SettingsError
from daq.words import Said


def learn(
    args: argparse.Namespace,
    words: Callable[[Said], str],
    out: TextIO | None = None,
    err: TextIO | None = None,
) -> int:
    """Learn a gauge and write its file; `words` makes words of what is said."""
    out, err = out or sys.stdout, err or sys.stderr
    talks = not args.yes and sys.stdin.isatty()
    person: Attendant = AtTerminal(out, sys.stdin.readline) if talks else Silent(out)
    if args.output is not None and args.output.exists():
        err.write(f"{args.output}: found a file; allowed: a name that is not taken\n")
        return NOT_DONE
    try:
        opened(SerialLine(args.port), args.port).close()  # amiss, it is said before any question
        text = answers.learn(args, person, datetime.date.today())
    except LearnError as error:
        err.write(f"{error}\n")
        return NOT_UNDERSTOOD
    except LinkError as error:
        err.write(f"{words(error.say)}\n")
        return NOT_DONE
    except (SettingsError, ValueError) as error:
        why = words(error.said) if isinstance(error, SettingsError) else str(error)
        err.write(f"{why}\n")
        return NOT_DONE
    except KeyboardInterrupt:
        return NOT_UNDERSTOOD
    if args.output is None:
        out.write("Not written to a file: say where with -o.\n")
    else:
        args.output.write_text(text, encoding="utf-8")
        out.write(f"Written to {args.output}. Look it through, then listen with it.\n")
    return OK
