"""An event as the text stored in a row, and back."""

import json

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
    """Give the event a body holds. Raises ValueError if it is not what `encode` writes."""
    try:
        found = json.loads(body)
        stamp = Stamp(**found.pop("stamp"))
        evidence = tuple(found.pop("evidence"))
        return Event(**found, stamp=stamp, evidence=evidence)
    except (AttributeError, KeyError, TypeError) as error:
        raise ValueError(f"this is JSON, but not an event: {error}") from error
