"""`headsweep doctor`: what it understands, and how its findings stand on a terminal or as JSON."""

import argparse
import json
import textwrap
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from daq.words import Said, SaidTrouble, said

if TYPE_CHECKING:
    from daq.doctor.diagnosis import Diagnosis

CONFIG: Final = Path("/etc/headsweep")
DATA: Final = Path("/var/lib/headsweep")
"""Where `hardware/install` puts them."""

EXIT_CODES: Final = "Exit codes: 0 all is fine, 1 look at something, 2 it cannot be done."
WIDE: Final = 80
Words = Callable[[Said], str]


def add(p: argparse.ArgumentParser) -> None:
    """Add what it understands."""
    p.epilog = EXIT_CODES
    p.add_argument("--config", type=Path, help=f"folder with shop.toml ({CONFIG})")
    p.add_argument("--data", type=Path, help=f"folder of the record ({DATA})")
    p.add_argument("--json", action="store_true", help="as a list of objects, for programs")
    p.set_defaults(act=_doctor)


def _doctor(args: argparse.Namespace) -> int:
    from daq.doctor.examine import examine
    from daq.doctor.patient import Patient
    from daq.doctor.service import asked_service
    from daq.says import words

    if args.config is not None and not args.config.is_dir():
        raise SaidTrouble(said("doctor-no-folder", folder=str(args.config)))
    patient = Patient(args.config or CONFIG, args.data or DATA)
    found = examine(replace(patient, running=asked_service(patient)))
    if args.json:
        print(json.dumps(objects(found, words), ensure_ascii=False, indent=1))
    else:
        print("\n".join(lines(found, words)))
    return 0 if all(each.fine for each in found) else 1


def objects(found: "Iterable[Diagnosis]", words: Words) -> list[dict[str, Any]]:
    """The findings for programs: words, and the codes they were made of ("" for nothing to do)."""
    return [
        {
            "about": each.about,
            "fine": each.fine,
            "found": words(each.found),
            "todo": words(each.todo) if each.todo else "",
            "found_code": each.found.code,
            "todo_code": each.todo.code if each.todo else "",
        }
        for each in found
    ]


def lines(found: "Iterable[Diagnosis]", words: Words) -> list[str]:
    """The findings for people: what somebody is to look at, and under it what to do."""
    told = []
    for each in found:
        begins = words(said("doctor-fine") if each.fine else said("doctor-look-here"))
        about = words(said("doctor-about", it=each.about))
        told += _wrapped(f"{begins:<11}", f"{about}: {words(each.found)}")
        if each.todo is not None:
            told += _wrapped(" " * 11 + "> ", words(each.todo))
    return told


def _wrapped(first: str, text: str) -> list[str]:
    return textwrap.wrap(
        text, WIDE, initial_indent=first, subsequent_indent=" " * len(first),
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
