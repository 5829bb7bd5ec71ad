"""What a request may do: each route says which right it needs, and one that does not is refused.

A screen keeps a token in a cookie that no script can read. Its pages carry another one, made of
that: a request that would change something brings it along in a header, which no page of another
site can. In practice there is nothing to be paired, and everybody may do everything.
"""

import hashlib
import hmac
from collections.abc import Callable, Mapping
from typing import Any, Final, Literal, TypeVar

from flask import Flask, Response, abort, g, request, url_for
from werkzeug.exceptions import TooManyRequests

from daq.service.people import PERSONS
from daq.service.rights.access import RANK, Access, Right, RightsNow
from daq.service.rights.limits import Buckets
from daq.service.rights.pins import LockedOut
from daq.service.rights.store import Screen, StoreDamaged
from daq.words import Asker, Proved
from web.client import SCREEN, address, by_https, who
from web.problems import PROGRAMS, page, problem
from web.rooms import rooms, words

Needs = Literal["open", "look", "work", "own"]
"""`open`: whoever comes, before the first pairing, too: to be paired, that is."""

NEEDS: Final = "needs"
COOKIE: Final = "headsweep"
HEADER: Final = "X-Page-Token"
KEPT_S: Final = 400 * 24 * 3600
"""As long as browsers keep a cookie at most."""

READING: Final = ("GET", "HEAD", "OPTIONS")

View = TypeVar("View", bound=Callable[..., Any])


def needs(right: Needs) -> Callable[[View], View]:
    """Say what right a view needs."""

    def say(view: View) -> View:
        setattr(view, NEEDS, right)
        return view

    return say


def install(app: Flask, access: Access | None) -> None:
    """Look at every request; without `access` there is nothing but practice."""
    needs("open")(app.view_functions["static"])

    @app.errorhandler(StoreDamaged)
    def damaged(error: StoreDamaged) -> Response:
        for_program = request.path.startswith("/api/")
        why = rooms().says.words(error.said)
        return problem(503, error.said) if for_program else page(503, why)

    @app.before_request
    def check() -> Response | None:
        there = request.url_rule is not None
        needed: Needs | None = getattr(app.view_functions.get(request.endpoint or ""), NEEDS, None)
        if there and needed is None:
            abort(403, description=words("right-not-declared"))
        if access is None or request.endpoint == "static":
            return None
        found = g.standing = access.standing(request.cookies.get(COOKIE, ""))
        setattr(g, SCREEN, found.screen)
        if needed != "open" and RANK[found.right] < RANK[needed or "look"]:
            return _refused(found)
        if request.method not in READING:
            _check_press(access, found, needed)
        return None


def _refused(found: RightsNow) -> Response:
    """To the pairing page where nothing else is served yet, or why not."""
    for_program = request.path.startswith(PROGRAMS)
    if found.right != "nothing" or request.method not in READING or for_program:
        why = words("own-wall-only") if found.right == "work" else words("pair-first")
        abort(403, description=why)
    return Response(status=303, headers={"Location": url_for("pair.pair")})


def _check_press(access: Access, found: RightsNow, needed: Needs | None) -> None:
    """What would change something comes from a page of ours, and not too often."""
    if RANK[found.right] >= RANK["work"]:
        brought = request.headers.get(HEADER, "").encode("utf-8", "replace")
        if not hmac.compare_digest(brought, page_token().encode()):
            abort(403, description=words("not-from-our-page"))
    if needed != "open":  # those that pair are limited more closely, by themselves
        limit(access.presses)


def limit(bucket: Buckets) -> None:
    """Answer 429 where whoever asks has asked too often."""
    wait_s = bucket.take(who())
    if wait_s:
        raise TooManyRequests(words("too-often", seconds=wait_s), retry_after=wait_s)


def standing() -> RightsNow | None:
    """What whoever asks may do; None in practice."""
    found = g.get("standing")
    return found if isinstance(found, RightsNow) else None


def may_work() -> bool:
    """Whether whoever asks may work here; in practice everybody may."""
    return _may("work")


def may_look() -> bool:
    """The same of looking."""
    return _may("look")


def _may(right: Right) -> bool:
    found = standing()
    return found is None or RANK[found.right] >= RANK[right]


def page_token() -> str:
    """What this screen's pages bring along; whoever does not keep its token cannot make it."""
    token = request.cookies.get(COOKIE, "").encode("utf-8", "replace")
    return hmac.new(token, b"page", hashlib.sha256).hexdigest()


def on_page() -> Mapping[str, Any]:
    """What the page's scripts are told: the right, the token, and who may sign."""
    found, access = standing(), rooms().access
    if found is None or access is None:
        return {"right": "free"}
    if RANK[found.right] < RANK["work"]:
        return {"right": found.right}
    return {"right": found.right, "token": page_token(), "signers": _signers(access)}


def _signers(access: Access) -> list[str]:
    """Who may sign; nobody is known where the file is damaged, and the own wall works on."""
    try:
        return [each.name for each in access.pins.people()]
    except StoreDamaged:
        return []


def paired() -> tuple[Screen, ...]:
    """The paired screens, for one that may work; nobody else is told of them."""
    found, access = standing(), rooms().access
    if found is None or access is None or RANK[found.right] < RANK["work"]:
        return ()
    return access.store.kept().screens


def asker(proved: Mapping[str, Proved] | None = None) -> Asker:
    """Who asks, for the record."""
    found = standing()
    role = "practice" if found is None else "sign" if proved else "work"
    screen = "" if found is None else "own wall" if found.right == "own" else found.screen
    return Asker(role=role, screen=screen, address=address())


def proofs(kind: str, payload: Mapping[str, Any], pins: Mapping[str, Any]) -> Mapping[str, Proved]:
    """Who proved to be the people whom a command names; in practice nobody has to.

    Raises:
        WrongPin: somebody did not; LockedOut: was wrong too often.
    """
    access = rooms().access
    if access is None:
        return {}
    named = {field: payload.get(field) for field in PERSONS.get(kind, ())}
    return {
        field: access.pins.proved(name, pins.get(field), screen=asker().screen)
        for field, name in named.items()
        if isinstance(name, str) and name.strip()
    }


def locked(error: LockedOut) -> TooManyRequests:
    """The answer to somebody who was wrong too often."""
    return TooManyRequests(rooms().says.words(error.said), retry_after=error.seconds)


def keep(response: Response, token: str) -> Response:
    """Have the browser keep a token, or with "" forget it."""
    age = KEPT_S if token else 0
    response.set_cookie(
        COOKIE, token, max_age=age, httponly=True, samesite="Strict", secure=by_https()
    )
    return response
