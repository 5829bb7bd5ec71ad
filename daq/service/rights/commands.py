"""What a person can do about rights at the Pi itself: people and PINs, screens, the own wall."""

import argparse
import getpass
import http.client
import json
import sys
import time
import webbrowser
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from http import HTTPStatus
from pathlib import Path
from typing import Any
from urllib.parse import urlencode, urlsplit

from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.service.rights import pins, wall
from daq.service.rights.store import Kept, Role, Screen, Store
from daq.words import Said, SaidTrouble, said

Words = Callable[[Said], str]
ANSWERS_S = 10.0


def run(args: argparse.Namespace, words: Words) -> int:
    """Carry one out. Raises SaidTrouble and OSError where that cannot be."""
    if args.action == "wall":
        return _wall(args, words)
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


def _wall(args: argparse.Namespace, words: Words) -> int:
    ticket = wall.ticket(wall.key(args.data), time.monotonic_ns())
    if args.code:
        code, seconds = _code(args.address, ticket)
        _say(words(said("code-printed", code=code, seconds=seconds)))
        return 0
    query = {"ticket": ticket} | ({"machine": args.machine} if args.machine else {})
    link = f"{args.address.rstrip('/')}/own?{urlencode(query)}"
    if args.link:
        _say(link)
    elif not webbrowser.open(link):
        raise SaidTrouble(said("no-browser"))
    return 0


def _code(address: str, ticket: str) -> tuple[str, int]:
    """A pairing code, asked of the running service in the own wall's name."""
    there = urlsplit(address)
    if there.scheme != "http" or not there.hostname:
        raise SaidTrouble(said("address-not-so", found=address))
    line = http.client.HTTPConnection(there.hostname, there.port or 80, timeout=ANSWERS_S)
    with closing(line):
        cookie = _asked(line, "GET", f"/own?{urlencode({'ticket': ticket})}", {})[0]
        told = {"Cookie": cookie}
        token = _asked(line, "GET", "/api/screen", told)[1].get("token", "")
        sent = {**told, "X-Page-Token": token, "Content-Type": "application/json"}
        _asked(line, "POST", "/api/pairing/ask", sent)
        shown = _asked(line, "GET", "/api/pairing", told)[1]
    return str(shown.get("code", "")), int(shown.get("seconds", 0))


def _asked(
    line: http.client.HTTPConnection, method: str, path: str, sent: dict[str, str]
) -> tuple[str, Any]:
    line.request(method, path, "{}" if method == "POST" else None, sent)
    with line.getresponse() as answer:
        body = answer.read()
        if answer.status == HTTPStatus.TOO_MANY_REQUESTS:
            wait_s = int(answer.getheader("Retry-After") or 0)
            raise SaidTrouble(said("codes-spoilt", seconds=wait_s))
        cookie = (answer.getheader("Set-Cookie") or "").partition(";")[0]
        if answer.status >= 400:
            raise SaidTrouble(said("service-refuses", status=answer.status))
        return cookie, json.loads(body) if body else {}
