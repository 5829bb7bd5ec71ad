"""The practice mill's panel, alone and beside the console, its lessons and its class."""

from collections.abc import Mapping
from typing import Any

from flask import Blueprint, abort, render_template

from daq.service.hub import Served
from daq.settings import quoted
from web.rights import needs
from web.rooms import has_practice, machine_or_404, rooms, words
from web.scan import Family

blueprint = Blueprint("practice", __name__)
FAMILY = Family(blueprint, practice_only=True)


@blueprint.get("/machines/<machine>/practice")
@needs("look")
def panel(machine: str) -> str:
    """Show the practice mill alone."""
    return render_template("practice.html", machine=_practice_or_404(machine))


@blueprint.get("/machines/<machine>/bench")
@needs("look")
def bench(machine: str) -> str:
    """Show console and practice mill side by side, for one person at one screen."""
    found = _practice_or_404(machine)
    view = rooms().page(machine, "console")
    return render_template("bench.html", machine=found, view=view)


@blueprint.get("/machines/<machine>/lessons")
@needs("look")
def lessons(machine: str) -> str:
    """Show the lessons, and what the run of now was worth."""
    return render_template("lessons.html", machine=_practice_or_404(machine), **_told(machine))


@blueprint.get("/machines/<machine>/class")
@needs("look")
def learners(machine: str) -> str:
    """Show whoever teaches the class, and let an error be set."""
    return render_template("class.html", machine=_practice_or_404(machine), **_told(machine))


def _told(machine: str) -> Mapping[str, Any]:
    practice = rooms().practice
    told: Mapping[str, Any] = rooms().told({} if practice is None else practice.lessons(machine))
    return told


def _practice_or_404(machine: str) -> Served:
    found = machine_or_404(machine)
    if not has_practice(machine):
        abort(404, description=words("is-a-real-machine", machine=quoted(machine)))
    return found
