"""`headsweep gauge learn` and `gauge test`: a gauge's file, and what it was learned from."""

import argparse
import sys
from collections.abc import Callable
from typing import TextIO

from daq.gauges.capture import SUFFIX, captures
from daq.gauges.commands import NOT_DONE, NOT_UNDERSTOOD, OK
from daq.gauges.errors import LearnError, LinkError
from daq.gauges.learn.live import answers
from daq.gauges.learn.live.kept import again, capture
from daq.gauges.learn.live.person import AtTerminal
from daq.settings import SettingsError
from daq.words import Said, said


def learn(
    args: argparse.Namespace,
    words: Callable[[Said], str],
    out: TextIO | None = None,
    err: TextIO | None = None,
) -> int:
    """Learn a gauge and write its file; `words` makes words of what is said."""
    out, err = out or sys.stdout, err or sys.stderr
    person = AtTerminal(out, words, sys.stdin)
    for path in () if args.output is None else (args.output, args.output.with_suffix(SUFFIX)):
        if path.exists():
            err.write(f"{path}: found a file; allowed: a name that is not taken\n")
            return NOT_DONE
        if not path.parent.is_dir():
            err.write(f"{path.parent}: found no such folder; allowed: one that is there\n")
            return NOT_DONE
    try:
        made = answers.learn(args, person)
    except (LearnError, LinkError) as error:
        err.write(f"{words(error.say)}\n")
        return NOT_UNDERSTOOD if isinstance(error, LearnError) else NOT_DONE
    except (SettingsError, ValueError) as error:
        why = words(error.said) if isinstance(error, SettingsError) else str(error)
        err.write(f"{why}\n")
        return NOT_DONE
    except KeyboardInterrupt:
        return NOT_UNDERSTOOD
    person.tell(said("learn-file", text=made.text))
    if args.output is None:
        person.tell(said("learn-not-written"))
        return OK
    args.output.write_text(made.text, encoding="utf-8")
    kept = args.output.with_suffix(SUFFIX)
    kept.write_text(capture(made.learned, made.config), encoding="utf-8")
    person.tell(said("learn-written", file=str(args.output), kept=kept.name))
    if made.missing:
        person.tell(said("learn-missing", keys=", ".join(made.missing)))
    return OK


def test(
    args: argparse.Namespace,
    words: Callable[[Said], str],
    out: TextIO | None = None,
    err: TextIO | None = None,
) -> int:
    """Decode again what each gauge was learned from, by its file as it is now."""
    out, err = out or sys.stdout, err or sys.stderr
    code = OK
    for kept in captures(args.config):
        try:
            found = again(kept)
        except (SettingsError, OSError, ValueError) as error:
            why = words(error.said) if isinstance(error, SettingsError) else str(error)
            err.write(f"{why}\n")
            code = NOT_DONE
            continue
        out.write(f"{words(found.say)}\n")
        code = code if found.same else max(code, NOT_UNDERSTOOD)
    return code
