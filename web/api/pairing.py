"""Pairing: a screen asks for a code, the own wall shows it, the screen's person types it."""

from dataclasses import dataclass

from flask import Blueprint, Response, abort, jsonify
from werkzeug.exceptions import TooManyRequests

from daq.service.rights.access import Access
from daq.service.rights.pins import LockedOut, WrongPin
from web.problems import Problem, problem
from web.rights import asker, keep, limit, locked, needs, on_page, paired, standing
from web.rooms import rooms, words
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_pairing", __name__)
FAMILY = Family(blueprint, pairing_only=True)


@dataclass(frozen=True)
class EmptyBody:
    """An empty object."""


@dataclass(frozen=True)
class PairingAsked:
    """Where the code is shown."""

    say: str


@dataclass(frozen=True)
class PairBody:
    """The `code` as typed, and what to call this screen."""

    code: str
    name: str = ""


@dataclass(frozen=True)
class Code:
    """The code to type, and for how many seconds more; "" while nobody asks for one."""

    code: str = ""
    seconds: int = 0


@dataclass(frozen=True)
class ThisScreen:
    """What the asking screen may do: `look`, `work`, or `own` for the Pi's own wall.

    `token` goes with whatever it sends, as the header X-Page-Token.
    """

    right: str
    name: str = ""
    token: str = ""
    signers: tuple[str, ...] = ()


@dataclass(frozen=True)
class ScreenEntry:
    """A paired screen, since which day, and when it was used last."""

    id: str
    name: str
    since: str
    seen: str


@dataclass(frozen=True)
class UnpairBody:
    """Which screen, and whose PIN says so."""

    screen: str
    person: str
    pin: str


@dataclass(frozen=True)
class Done:
    """Nothing more is to be said."""

    say: str


def _access() -> Access:
    access = rooms().access
    if access is None:
        abort(404)
    return access


@blueprint.post("/api/pairing/ask")
@needs("open")
@typed()
def ask_code(body: EmptyBody) -> PairingAsked:
    """Have the Pi's own wall show a code, for two minutes and five tries."""
    limit(_access().askings)
    wait_s = _access().ask_code()
    if wait_s:
        raise TooManyRequests(words("codes-spoilt", seconds=wait_s), retry_after=wait_s)
    return PairingAsked(words("code-is-shown"))


@blueprint.post("/api/pairing")
@needs("open")
@typed({200: Done, 503: Problem})
def pair(body: PairBody) -> Response:
    """Pair this screen by the code that the own wall shows."""
    limit(_access().pairings)
    try:
        token = _access().pair(body.code, body.name)
    except OSError as error:
        return problem(503, words("not-paired-disk", why=str(error.strerror)))
    if token is None:
        return problem(403, words("wrong-code"))
    return keep(jsonify(rooms().told(Done(words("screen-paired")))), token)


@blueprint.get("/api/pairing")
@needs("own")
@typed()
def code() -> Code:
    """Return the code to type; to the Pi's own wall alone."""
    shown = _access().shown
    return Code() if shown is None else Code(shown.code, shown.seconds)


@blueprint.get("/api/screen")
@needs("look")
@typed()
def this_screen() -> ThisScreen:
    """Return what the asking screen may do, and its token."""
    found = standing()
    page = on_page()
    return ThisScreen(
        page["right"], found.name if found else "", page.get("token", ""),
        tuple(page.get("signers", ())),
    )  # fmt: skip


@blueprint.post("/api/screen/leave")
@needs("work")
@typed({200: Done, 503: Problem})
def leave(body: EmptyBody) -> Response:
    """Sign this screen out: from now on it may only look."""
    found = standing()
    if found is not None and found.screen:
        try:
            _access().unpair(found.screen)
        except OSError as error:
            return problem(503, words("not-unpaired-disk", why=str(error.strerror)))
    return keep(jsonify(rooms().told(Done(words("screen-left")))), "")


@blueprint.get("/api/screens")
@needs("work")
@typed()
def screens() -> tuple[ScreenEntry, ...]:
    """List the paired screens."""
    return tuple(ScreenEntry(each.id, each.name, each.since, each.last) for each in paired())


@blueprint.post("/api/screens/unpair")
@needs("work")
@typed({200: Done, 404: Problem, 503: Problem})
def unpair(body: UnpairBody) -> Done | Response:
    """Take a screen's right away; by the PIN of somebody who may set up."""
    try:
        _access().pins.proved(body.person, body.pin, "set-up", screen=asker().screen)
    except LockedOut as error:
        raise locked(error) from None
    except WrongPin as error:
        return problem(403, error.said)
    try:
        there = _access().unpair(body.screen)
    except OSError as error:
        return problem(503, words("not-unpaired-disk", why=str(error.strerror)))
    return Done(words("screen-unpaired")) if there else problem(404, words("no-such-screen"))
