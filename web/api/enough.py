"""Whether the head is good enough for a job, by a drawing's callout; nothing is recorded."""

from collections.abc import Mapping
from dataclasses import dataclass

from flask import Blueprint, Response

from daq.audit.answers import Callout
from daq.audit.input import Refused
from daq.settings import SettingsError, build
from daq.words import said
from daq.words.enough import EnoughView
from web.problems import Problem, problem
from web.rights import needs
from web.rooms import rooms, trends_or_404, words
from web.scan import Family
from web.typed import WithStatus, typed

blueprint = Blueprint("api_enough", __name__)
FAMILY = Family(blueprint)

REFUSED = 422
"""The status where no sweep can answer."""


@dataclass(frozen=True)
class CalloutBody:
    """One callout, every length as text with its unit ("25 mm", "1 in").

    `bore`: depth, zone. `wall`: height, zone, and faces: right-left, front-back or any. `face`:
    width, zone, cutter, pass_step if it takes several, to: flat or parallel, feed: left-right or
    front-back.
    """

    bore: Mapping[str, str] | None = None
    wall: Mapping[str, str] | None = None
    face: Mapping[str, str] | None = None


@blueprint.post("/api/machines/<machine>/enough")
@needs("look")
@typed(answers={200: EnoughView, REFUSED: Problem})
def enough(machine: str, body: CalloutBody) -> EnoughView | WithStatus | Response:
    """Return whether the head is good enough for a callout, by its last sweep.

    What the head contributes alone. To keep the answer, hand in the command `keep-answer` with
    the same callout and the answer's `audit`.
    """
    sent = {key: value for key, value in vars(body).items() if value is not None}
    try:
        callout = build(Callout, sent, said("in-callout"))
    except SettingsError as error:
        return problem(400, words("callout-not-so"), error.problems)
    try:
        return trends_or_404().good_enough(machine, callout)
    except Refused as refused:
        return WithStatus(Problem("refused", rooms().says.words(refused.said)), REFUSED)
