"""What a person can do about rights at the Pi itself: people and PINs, screens."""

import argparse
import getpass
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.service.rights import pins
from daq.service.rights.store import Kept, Role, Screen, Store
from daq.words import Said, SaidTrouble, said

Words = Callable[[Said], str]


def run(args: argparse.Namespace, words: Words) -> int:
    """Carry one out. Raises SaidTrouble and OSError where that cannot be."""
    store = Store(args.data)
    if args.action == "add":
        return _add(store, args, words)
    if args.action == "remove":
        return _remove(store, args.name, words)
    return _show(store.kept(), words)


def _say(text: str) -> None:
    sys.stdout.write(f"{text}\n")


def _show(kept: Kept, words: Words) -> int:
    for person in kept.people:
        may = said("may-do", role=person.role)
        _say(words(said("access-person", name=person.name, may=may)))
    for screen in kept.screens:
        line = said(
            "access-screen", name=screen.name, since=screen.since, seen=screen.last, id=screen.id
        )
        _say(words(line))
    if not (kept.people or kept.screens):
        _say(words(said("access-nobody")))
    return 0


def _add(store: Store, args: argparse.Namespace, words: Words) -> int:
    first = _typed(words(said("pin-ask", name=args.name)))
    if first != _typed(words(said("pin-again"))):
        raise SaidTrouble(said("pins-differ"))
    role: Role = "set-up" if args.set_up else "sign"
    pins.enrol(store, args.name, first, role, _named(args.data))
    _say(words(said("pin-kept", name=args.name, may=said("may-do", role=role))))
    return 0


def _typed(asked: str) -> str:
    """What is typed without being shown; from a file or a pipe, its next line."""
    return getpass.getpass(asked) if sys.stdin.isatty() else sys.stdin.readline().strip()


def _named(data: Path) -> dict[str, str]:
    """Whom the ledger names, by id; nobody where there is none yet."""
    try:
        with LedgerView.open(data) as view:
            return view.people()
    except LedgerError:
        return {}


def _remove(store: Store, name: str, words: Words) -> int:
    def called_so(screen: Screen) -> bool:
        return screen.id == name or pins.folded(screen.name) == pins.folded(name)

    had = pins.withdraw(store, name)
    if not had and not any(called_so(each) for each in store.kept().screens):
        raise SaidTrouble(said("access-unknown", name=name))
    store.change(
        lambda kept: replace(kept, screens=tuple(s for s in kept.screens if not called_so(s)))
    )
    _say(words(said("access-removed", name=name)))
    return 0
