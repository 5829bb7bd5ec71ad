"""What the doctor found of this computer and all that hangs on it."""

from dataclasses import dataclass

from flask import Blueprint

from web.examined import Examination, examination
from web.problems import Problem
from web.rights import needs
from web.rooms import doctor_or_404
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_doctor", __name__)
FAMILY = Family(blueprint)


@dataclass(frozen=True)
class LookAgainBody:
    """An empty object."""


@blueprint.get("/api/doctor")
@needs("look")
@typed(answers={200: Examination, 404: Problem})
def doctor() -> Examination:
    """Return what was found; the first look is begun by whoever asks first."""
    return examination(doctor_or_404())


@blueprint.post("/api/doctor")
@needs("work")
@typed(answers={200: Examination, 404: Problem})
def look_again(body: LookAgainBody) -> Examination:
    """Have everything looked at again; what was found before stands until that is done."""
    found = doctor_or_404()
    found.ask()
    return examination(found)
