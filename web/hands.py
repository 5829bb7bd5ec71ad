"""The practice mill's state, arranged for a panel of buttons."""

from collections.abc import Mapping
from typing import Any

Plain = dict[str, Any]

AXES = {"nod": "Nod", "side": "Side to side"}
GAUGE, STATIONS, TROUBLE = "Gauge and head", "Other checks", "Trouble to practise on"
GROUPS = (*AXES.values(), GAUGE, STATIONS, TROUBLE)
ELSEWHERE = {
    "bar": "The gauge stands beside a bar in the spindle",
    "edge": "The gauge stands on an edge on the table",
}
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
    operations = sorted(map(_operation, state["operations"]), key=_rank)
    if position != "swinging" and state["set_up"] == "ring":
        here = {"verb": "", "args": {}, "say": position.capitalize(), "place": position}
        operations.append({**here, "group": "", "hold": False, "on": True})
    return {**state, "say": _sentence(state), "operations": operations}


def _operation(given: Mapping[str, Any]) -> Plain:
    args = given["args"]
    place = args.get("position", "")
    say = str(place).capitalize() if place else given["say"]
    hold = given["verb"] == "turn"
    return {**given, "say": say, "place": place, "group": _group(given), "hold": hold, "on": False}


def _group(given: Mapping[str, Any]) -> str:
    axis = given["args"].get("axis")
    if axis in AXES:
        return AXES[axis]
    return VERBS.get(given["verb"], GAUGE)


def _rank(operation: Plain) -> int:
    return GROUPS.index(operation["group"])


def _sentence(state: Mapping[str, Any]) -> str:
    position = state["position"]
    bolts: Mapping[str, str] = state["bolts"]
    where = ELSEWHERE.get(state["set_up"], f"The gauge stands at the {position}")
    if position == "swinging":
        where = "The gauge is swinging"
    contact = "contact in the air" if state["contact"] == "free" else "contact on the surface"
    loose = [AXES.get(axis, axis).lower() for axis, how in bolts.items() if how != "tight"]
    held = f"Loose: {' and '.join(loose)}." if loose else "All bolts are tight."
    wire = "" if state["plugged"] else " The cable is out."
    fault = "" if state["fault"] in ("", "none") else f" Trouble on the wire: {state['fault']}."
    return f"{where}, {contact}. {held}{wire}{fault}"
