"""Views that take and return dataclasses, so that their documentation is their hints."""

import functools
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar, get_type_hints

from flask import Response, jsonify, request
from werkzeug.exceptions import BadRequest

from daq.settings import SettingsError, build
from daq.words import Said, SaidTrouble, said
from web.problems import Problem, problem
from web.rooms import machine_or_404, rooms, words

CONTRACT = "contract"

T = TypeVar("T")

_WHOLE = re.compile(r"-?[0-9]{1,20}")


@dataclass(frozen=True)
class WithStatus:
    """What a view returns when its status is not 200."""

    value: object
    status: int


@dataclass(frozen=True)
class Contract:
    """What one view takes and returns: `answers` gives the type under each status."""

    body: type | None
    query: type | None
    answers: Mapping[int, Any]


def _contract(view: Callable[..., object], answers: Mapping[int, Any] | None) -> Contract:
    hints = get_type_hints(view)
    body, query = hints.get("body"), hints.get("query")
    every: dict[int, Any] = dict(answers or {200: hints["return"]})
    every[403] = Problem
    if "machine" in hints:
        every[404] = Problem
    if body is not None:
        every |= dict.fromkeys((400, 413, 415), Problem)
        every[429] = every[429] | Problem if 429 in every else Problem
    if query is not None:
        every[400] = Problem
    return Contract(body, query, every)


def typed(
    answers: Mapping[int, Any] | None = None,
) -> Callable[[Callable[..., object]], Callable[..., Response]]:
    """Make a view of a function of plain values.

    A parameter `machine` is checked to exist; a parameter `body` is built from
    the JSON sent, and a parameter `query` from what follows the address's question mark; the
    dataclass returned is sent as JSON, its sentences in words (a Response passes as it is).
    `answers` names the types under each status where there is more than the return type under
    200.
    """

    def wrap(view: Callable[..., object]) -> Callable[..., Response]:
        contract = _contract(view, answers)

        @functools.wraps(view)
        def call(**parts: object) -> Response:
            if "machine" in parts:
                machine_or_404(str(parts["machine"]))
            if contract.body is not None:
                try:
                    parts["body"] = _built(contract.body, _sent(), said("in-body"))
                except SettingsError as error:
                    return problem(400, words("body-not-expected"), error.problems)
                except SaidTrouble as error:
                    return problem(400, words("body-not-expected"), (error.said,))
            if contract.query is not None:
                try:
                    parts["query"] = from_query(contract.query)
                except SettingsError as error:
                    return problem(400, words("address-not-expected"), error.problems)
            return _send(view(**parts))

        setattr(call, CONTRACT, contract)
        return call

    return wrap


def _built(cls: type[T], table: Mapping[str, Any], where: Said) -> T:
    return build(cls, table, where, quantities="plain")


def from_query(cls: type[T], *, blank: bool = True) -> T:
    """What stands behind the question mark; a whole number as one, but where a text is wanted.

    Not `blank`: a field of a form that was left empty is not there. Raises SettingsError.
    """
    asked, hints = request.args.to_dict(), get_type_hints(cls)
    whole = {k for k, v in asked.items() if hints.get(k) is not str and _WHOLE.fullmatch(v)}
    table = {k: int(v) if k in whole else v for k, v in asked.items() if v or blank}
    return _built(cls, table, said("in-query"))


def _sent() -> Mapping[str, Any]:
    try:
        sent = request.get_json()
    except (BadRequest, RecursionError):
        raise SaidTrouble(said("body-not-json")) from None
    if not isinstance(sent, dict):
        raise SaidTrouble(said("body-no-object", found=type(sent).__name__))
    return sent


def _send(value: object) -> Response:
    if isinstance(value, Response):
        return value
    if isinstance(value, WithStatus):
        response = jsonify(rooms().told(value.value))
        response.status_code = value.status
        return response
    return jsonify(rooms().told(value))
