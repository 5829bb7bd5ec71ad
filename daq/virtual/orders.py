"""What a console page asks a person for: which button to press, what to write, how far to go."""

import datetime
from collections.abc import Iterable, Mapping
from typing import Any, Final

from daq.virtual.wires.scale import MM_PER_INCH
from daq.words import Live

NAME: Final = "Practice hands"
REASON: Final = "scheduled"
DAYS_BACK: Final = 30
"""How long ago the practice mill was last known good, when the audit asks for a date."""


def asked(console: Mapping[str, Any]) -> Mapping[str, Any] | None:
    """Return the action to press: the first answer, a scheduled audit, or the primary one."""
    actions: list[Mapping[str, Any]] = list(console.get("actions", ()))
    question = console.get("question")
    if question:
        key = question["answers"][0]["key"]
        answers = [a for a in actions if a["kind"] == "answer"]
        return answers[0] if answers else {"kind": "answer", "payload": {"key": key}}
    opening = [a for a in actions if a["kind"] == "open"]
    scheduled = [a for a in opening if a.get("payload", {}).get("reason") == REASON]
    primary = [a for a in actions if a.get("primary")]
    return next(iter([*scheduled, *opening, *primary, *actions]), None)


def payload(action: Mapping[str, Any]) -> dict[str, Any]:
    """Return what to send with `action`: its own payload and the fields that must be filled."""
    return {**action.get("payload", {}), **_filled(action.get("fields", ()))}


def to_go_mm(live: Live, stop_at: str) -> float | None:
    """Return how far the gauge's face must still change, mm: as shown, or from the two texts.

    None when neither can be read.
    """
    if live.to_go_mm is not None:
        return live.to_go_mm
    try:
        left = float(stop_at) - float(live.text)
    except ValueError:
        return None
    return left * MM_PER_INCH if live.unit == "in" else left


def _filled(fields: Iterable[Mapping[str, Any]]) -> dict[str, str]:
    return {f["name"]: _written(f) for f in fields if f.get("required")}


def _written(field: Mapping[str, Any]) -> str:
    match field.get("type"):
        case "choice":
            return str(field["choices"][0]["key"])
        case "date":
            day = datetime.datetime.now(tz=datetime.UTC).date()
            return (day - datetime.timedelta(days=DAYS_BACK)).isoformat()
        case _:
            return NAME
