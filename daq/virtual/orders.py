"""What a console page asks a person for: which button to press, and what to write."""

import datetime
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

REASON: Final = "scheduled"
DAYS_BACK: Final = 30
"""How long ago the machine was last known good, when the audit asks for a date."""

Plain = Mapping[str, Any]


def asked(page: Plain, answers: Sequence[str] = (), *, again: bool = False) -> Plain | None:
    """Return the action to press, or None where there is none.

    That is an answer where something is asked, a scheduled audit where none is open, else the
    primary action. Of answers it is the usual one, else the first of these keys that is
    offered; without keys the first one, or the second where the same is asked `again`.
    """
    actions: list[Plain] = list(page.get("actions", ()))
    primary = [action for action in actions if action.get("primary")]
    if page.get("question"):
        offered = {_key(action): action for action in actions if _key(action)}
        if answers:
            wanted = [offered[key] for key in answers if key in offered]
            return next(iter([*primary, *wanted]), None)
        return next(iter(list(offered.values())[again and len(offered) > 1 :]), None)
    opening = [action for action in actions if action["kind"] == "open"]
    scheduled = [action for action in opening if action["payload"].get("reason") == REASON]
    return next(iter([*scheduled, *opening, *primary, *actions]), None)


def _key(action: Plain) -> str:
    """Which answer this is; empty for what is no answer."""
    payload = action.get("payload", {})
    if action["kind"] == "answer":
        return str(payload["key"])
    return "on-purpose" if payload.get("on_purpose") else ""


def payload(
    action: Plain, name: str, today: datetime.date, number: Callable[[], str]
) -> dict[str, Any]:
    """Return what to send with `action`: its own payload and the fields that must be filled.

    `number`: reads what stands on the gauge, where that is asked.
    """
    asked = action.get("fields", ())
    fields = [field for field in asked if field.get("required") or field.get("type") == "tick"]
    filled = {each["name"]: _written(each, name, today, number) for each in fields}
    return {**action.get("payload", {}), **filled}


def _written(
    field: Plain, name: str, today: datetime.date, number: Callable[[], str]
) -> str | bool:
    if field["name"] == "serial_number":
        return number()
    match field.get("type"):
        case "tick":
            return True
        case "choice":
            return str(field["choices"][0]["key"])
        case "date":
            return (today - datetime.timedelta(days=DAYS_BACK)).isoformat()
        case _:
            return name
