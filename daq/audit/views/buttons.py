"""What may be pressed at a step, as the console's page takes it."""

from typing import Any

from daq.words import Said

Plain = dict[str, Any]


def action(kind: str, say: str | Said, payload: Plain | None = None, **more: Any) -> Plain:  # noqa: ANN401 - JSON
    """One button: the command it sends, and what stands on it."""
    plain = {"kind": kind, "say": say, "payload": payload or {}, "primary": False, "key": ""}
    return {**plain, "fields": [], "confirm": "", **more}


def field(name: str, say: str, kind: str = "text", *, required: bool = True) -> Plain:
    """One thing to be filled in before a button's command is sent."""
    plain = {"name": name, "say": say, "type": kind, "required": required}
    return {**plain, "choices": [], "value": ""}


def keyed(actions: list[Plain]) -> list[Plain]:
    """Enter for the primary action, u for taking back, digits for the others in order."""
    digit = 0
    for each in actions:
        if each["primary"]:
            each["key"] = "Enter"
        elif not each["key"]:
            digit += 1
            each["key"] = str(digit) if digit < 10 else ""
    return actions
