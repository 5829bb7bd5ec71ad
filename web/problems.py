"""What goes wrong, said as JSON to programs and as a page to people."""

from dataclasses import dataclass
from http import HTTPStatus
from typing import Final

from flask import Flask, Response, jsonify, make_response, render_template, request
from werkzeug.exceptions import HTTPException

from daq.words import Text
from web.rooms import rooms, words

PROGRAMS: Final = ("/api/", "/healthz", "/metrics")
"""How the addresses begin that no person reads."""


@dataclass(frozen=True)
class Problem:
    """Why a request was not carried out; `problems` lists every fault of a body."""

    code: str
    reason: Text
    problems: tuple[Text, ...] = ()


def problem(status: int, reason: Text, problems: tuple[Text, ...] = ()) -> Response:
    """Return a problem as a JSON answer."""
    code = HTTPStatus(status).phrase.lower().replace(" ", "-")
    answer = jsonify(rooms().told(Problem(code, reason, problems)))
    answer.status_code = status
    return answer


def page(status: int, reason: str) -> Response:
    """Return a problem as a page."""
    answer = make_response(render_template("problem.html", reason=reason, status=status))
    answer.status_code = status
    return answer


def _said(status: int) -> str:
    """A sentence for what the server found amiss by itself."""
    if status == HTTPStatus.NOT_FOUND:
        return words("nothing-here")
    if status == HTTPStatus.REQUEST_ENTITY_TOO_LARGE:
        return words("body-too-large")
    return words("not-answered", status=status)


def install(app: Flask) -> None:
    """Answer every HTTP error in the form its asker reads."""

    @app.errorhandler(HTTPException)
    def answer(error: HTTPException) -> Response:
        status = error.code or 500
        own = error.description != type(error).description
        reason = (own and error.description) or _said(status)
        for_program = request.path.startswith(PROGRAMS)
        response = problem(status, reason) if for_program else page(status, reason)
        for name, value in error.get_headers():
            if name.lower() not in ("content-type", "content-length"):
                response.headers[name] = value
        return response
