"""The hands on the practice mill; these routes exist only with one."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from flask import Blueprint, Response, abort

from daq.settings import quoted
from daq.words import SaidTrouble
from web.hands import arranged
from web.ports import PracticePanel
from web.problems import Problem, problem
from web.rights import needs
from web.rooms import rooms, words
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_practice", __name__)
FAMILY = Family(blueprint, practice_only=True)


@dataclass(frozen=True)
class Operation:
    """One thing done by hand, as `operations` of the state offer it."""

    verb: str
    args: Mapping[str, Any] = field(default_factory=dict)


def _panel() -> PracticePanel:
    panel = rooms().practice
    if panel is None:
        abort(404, description=words("no-practice-mill-here"))
    return panel


def _state(machine: str) -> Mapping[str, Any]:
    try:
        return arranged(_panel().state(machine))
    except KeyError:
        abort(404, description=words("is-a-real-machine", machine=quoted(machine)))


@blueprint.get("/api/machines/<machine>/practice")
@needs("look")
@typed()
def state(machine: str) -> Mapping[str, Any]:
    """Return how the practice mill stands and what hands can do to it."""
    return _state(machine)


@blueprint.post("/api/machines/<machine>/practice")
@needs("work")
@typed(answers={200: Mapping[str, Any], 422: Problem})
def operate(machine: str, body: Operation) -> Mapping[str, Any] | Response:
    """Do one operation on the practice mill and return how it stands then."""
    _state(machine)
    try:
        _panel().do(machine, body.verb, body.args)
    except SaidTrouble as error:
        return problem(422, error.said)
    return _state(machine)
