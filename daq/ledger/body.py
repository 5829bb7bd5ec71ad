"""An event as the text stored in a row, and back."""

import json
from typing import Final

from daq.ledger.chain import canonical
from daq.words import Draft, Event, Stamp


def encode(draft: Draft, ledger: str, seq: int) -> str:
    """Give the body of row `seq`. Errors as for `canonical`."""
    return canonical(
        {
            "ledger": ledger,
            "seq": seq,
            "type": draft.type,
            "v": draft.v,
            "machine": draft.machine,
            "audit": draft.audit,
            "stamp": {
                "mono_ns": draft.stamp.mono_ns,
                "utc_us": draft.stamp.utc_us,
                "boot": draft.stamp.boot,
                "utc_trusted": draft.stamp.utc_trusted,
            },
            "actor": draft.actor,
            "cause": dict(draft.cause),
            "data": dict(draft.data),
            "evidence": list(draft.evidence),
        }
    )


def decode(body: str | bytes) -> Event:
    """Give the event a body holds. Raises ValueError if it is not what `encode` writes.

    What else than Python reads a body must take the same for an event: so it is UTF-8, has no
    NaN, and each field is of its kind.
    """
    try:
        found = _DECODER.decode(body if isinstance(body, str) else body.decode("utf-8"))
        stamp = Stamp(**found.pop("stamp"))
        kinds = {key: type(value) for key, value in found.items()}
        if kinds != _KIND:
            raise TypeError(f"found {', '.join(f'{k} {v.__name__}' for k, v in kinds.items())}")
        evidence = tuple(found.pop("evidence"))
        return Event(**found, stamp=stamp, evidence=evidence)
    except (AttributeError, KeyError, TypeError, RecursionError) as error:
        raise ValueError(f"this is JSON, but not an event: {error}") from error


def _no_number(name: str) -> float:
    raise ValueError(f"found {name}; allowed: numbers")


_DECODER: Final = json.JSONDecoder(parse_constant=_no_number)
_KIND: Final[dict[str, type]] = {
    **dict.fromkeys(("ledger", "type", "machine", "audit", "actor"), str),
    **dict.fromkeys(("seq", "v"), int),
    **dict.fromkeys(("cause", "data"), dict),
    "evidence": list,
}
