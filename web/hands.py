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


def arranged(state: Mapping[str, Any]) -> Plain:
    """Return the sentence, the facts and the operations, each with its place on the panel.

    `place`: beside that position of the circle. `group`: the heading it stands
    under. `hold`: repeats while held down. `on`: how it stands now, nothing to do.
    """
    position = str(state["position"])
    operations = [_operation(each) for each in sorted(state["operations"], key=_rank)]
    if position != "swinging" and state["set_up"] == "ring":
        here = said("panel-place", place=position)
        at = {"verb": "", "args": {}, "say": here, "place": position, "group": ""}
        operations.append({**at, "hold": False, "on": True})
    return {**state, "say": _sentence(state), "operations": operations}


def _operation(given: Mapping[str, Any]) -> Plain:
    group = said("panel-group", group=_group(given))
    place, hold = given["args"].get("position", ""), given["verb"] == "turn"
    return {**given, "place": place, "group": group, "hold": hold, "on": False}


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
