"""Setting the shop up from a phone: who does, a gauge, a machine, and what is there already."""

from collections.abc import Mapping
from typing import Final

from flask import Blueprint, render_template

from daq.metrology.presets import DEFAULT, PRESETS
from daq.plots.tape import Measured, TapeWords, tape
from daq.words import Said, Shown, said
from web.rights import needs
from web.rooms import rooms, set_up_or_404, words
from web.scan import Family

blueprint = Blueprint("set_up", __name__)
FAMILY = Family(blueprint, pairing_only=True)

_DRAWN: Final[Mapping[Measured, tuple[Said, Said]]] = {
    "surface": (said("set-up-surface"), said("set-up-surface-says")),
    "radius": (said("set-up-radius"), said("set-up-radius-says")),
    "side_pivot": (said("set-up-side-pivot"), said("set-up-side-pivot-says")),
    "side_height": (said("set-up-side-height"), said("set-up-side-height-says")),
    "nod_pivot": (said("set-up-nod-pivot"), said("set-up-nod-pivot-says")),
    "nod_height": (said("set-up-nod-height"), said("set-up-nod-height-says")),
}
"""What each drawing is called, and what is seen on it."""


@blueprint.get("/set-up")
@needs("work")
def set_up() -> str:
    """Lead through it; each thing is saved by itself."""
    access, there, says = rooms().access, set_up_or_404(), rooms().says
    first = access is not None and access.pins.nobody_sets_up
    names = {each: says.words(name) for each, (name, _) in _DRAWN.items()}
    drawn = {
        each: tape(each, TapeWords(names[each], says.words(seen), *_parts()))
        for each, (_, seen) in _DRAWN.items()
    }
    tolerances = [
        (p.key, words("set-up-square", name=p.name, limit=Shown(p.limit_mm, "mm", 3)))
        for p in sorted(PRESETS, key=lambda p: p.key != DEFAULT)
    ]
    view = rooms().told(there.view(first=first))
    return render_template(
        "set_up.html", view=view, drawn=drawn, lengths=names, tolerances=tolerances
    )


def _parts() -> tuple[str, str, str]:
    return words("set-up-at-spindle"), words("set-up-at-pivot"), words("set-up-at-swept")
