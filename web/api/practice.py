"""The hands on the practice mill and its lessons; these routes exist only with one."""

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
        do = rooms().page(machine, "console").get("do", {})
        return arranged(_panel().state(machine), do)
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


@dataclass(frozen=True)
class Beginning:
    """A lesson by its key, "" for the one of the run before, and whose run it is, "" for nobody's.

    `side_mm`, `nod_mm`: the error of lesson "known", across the sweep, right or front low.
    """

    lesson: str
    learner: str = ""
    side_mm: float = 0.0
    nod_mm: float = 0.0


@dataclass(frozen=True)
class Showing:
    """The number of a run whose truth is to be seen; 0 for all."""

    nth: int = 0


@blueprint.get("/api/machines/<machine>/practice/lessons")
@needs("look")
@typed()
def lessons(machine: str) -> Mapping[str, Any]:
    """Return the lessons there are, the run of now, and the class with its scores."""
    _state(machine)
    return _panel().lessons(machine)


@blueprint.post("/api/machines/<machine>/practice/lessons")
@needs("work")
@typed(answers={200: Mapping[str, Any], 422: Problem})
def begin(machine: str, body: Beginning) -> Mapping[str, Any] | Response:
    """Begin a lesson for a learner: an open audit is given up, and one of practice is opened."""
    _state(machine)
    try:
        _panel().begin(machine, body.lesson, body.learner, (body.side_mm, body.nod_mm))
    except SaidTrouble as error:
        return problem(422, error.said)
    return _panel().lessons(machine)


@blueprint.post("/api/machines/<machine>/practice/truth")
@needs("work")
@typed()
def show(machine: str, body: Showing) -> Mapping[str, Any]:
    """Let the truth of a signed run be seen, or of all; that of an open one never is."""
    _state(machine)
    _panel().show(machine, body.nth)
    return _panel().lessons(machine)
