"""The practice mill's state, arranged for a panel of buttons."""

from collections.abc import Mapping
from typing import Any

from daq.words import AXES, Said, said

Plain = dict[str, Any]

GAUGE, STATIONS, TROUBLE = "gauge", "stations", "trouble"
GROUPS = ("nod", "side", GAUGE, STATIONS, TROUBLE)
ELSEWHERE = ("bar", "edge", "jaw")
VERBS = {
    "spindle": STATIONS,
    "table": STATIONS,
    **dict.fromkeys(("unplug", "replug", "fault"), TROUBLE),
}


NEXT = {
    "free": ("free",),
    "push": ("push", "free"),
    "swing": ("set",),
    "turn-ring": ("ring", "free"),
    "turn-arm": ("arm", "free"),
    "loosen": ("loosen",),
    "turn": ("turn",),
    "nudge": ("turn",),
    "tighten": ("tighten",),
    "bolt": ("bolt",),
}
"""What hands need for what the console says is to be done. Where to swing to is for them to see."""


def arranged(state: Mapping[str, Any], do: Mapping[str, Any]) -> Plain:
    """Return the sentence, the facts and the operations, each with its place on the panel.

    `place`: beside that position of the circle. `group`: the heading it stands
    under. `hold`: repeats while held down. `on`: how it stands now, nothing to do.
    `now`: it is needed for what the console says is to be done (`do`).
    """
    position = str(state["position"])
    operations = [_operation(each, do) for each in sorted(state["operations"], key=_rank)]
    if position != "swinging" and state["set_up"] == "ring":
        here = said("panel-place", place=position)
        at = {"verb": "", "args": {}, "say": here, "place": position, "group": ""}
        operations.append({**at, "hold": False, "on": True, "now": False})
    return {**state, "say": _sentence(state), "operations": operations}


def _operation(given: Mapping[str, Any], do: Mapping[str, Any]) -> Plain:
    group = said("panel-group", group=_group(given))
    place, hold = given["args"].get("position", ""), given["verb"] == "turn"
    now = given["verb"] in NEXT.get(do.get("kind", ""), ()) and _meant(given["args"], do)
    return {**given, "place": place, "group": group, "hold": hold, "on": False, "now": now}


def _meant(args: Mapping[str, Any], do: Mapping[str, Any]) -> bool:
    """Whether it is of the axis meant, and of the bolt; a shop may call that "nod bolt 1"."""
    axis = "axis" not in args or do.get("both") or args["axis"] == do.get("axis")
    bolt = str(do.get("bolt", "")).rpartition(" ")[2]
    return bool(axis and ("bolt" not in args or args["bolt"] == bolt))


def _group(given: Mapping[str, Any]) -> str:
    axis = given["args"].get("axis")
    return axis if axis in AXES else VERBS.get(given["verb"], GAUGE)


def _rank(given: Mapping[str, Any]) -> int:
    return GROUPS.index(_group(given))


def _sentence(state: Mapping[str, Any]) -> Said:
    position, set_up = str(state["position"]), str(state["set_up"])
    bolts: Mapping[str, str] = state["bolts"]
    loose = tuple(said("panel-loose", axis=axis) for axis, how in bolts.items() if how != "tight")
    return said(
        "panel-says",
        where=set_up if set_up in ELSEWHERE and position != "swinging" else position,
        contact=str(state["contact"]),
        bolts=said("panel-bolts", n=len(loose), loose=loose),
        cable="in" if state["plugged"] else "out",
        fault=str(state["fault"]) or "none",
    )
