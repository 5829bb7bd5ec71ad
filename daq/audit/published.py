"""The published form of a row: a JSON schema (draft 2020-12) of every event there is."""

from typing import Any, Final

from daq.audit.codec import TYPES, VERSION
from daq.settings.schema import Schemas
from daq.words import Stamp

_DIGEST: Final = {"type": "string", "pattern": "^[0-9a-f]{64}$"}


def row_schema() -> dict[str, Any]:
    """The schema of `body`, as an export has it: what every row holds, and each event's data."""
    schemas = Schemas("#/$defs/", in_words=False)
    kinds = [_kind(name, VERSION, schemas.of(cls)) for name, cls in sorted(TYPES.items())]
    kinds.append(_kind("LedgerBegan", 1, {"type": "object"}))
    common = {
        "ledger": {"type": "string", "description": "the UUID of the ledger the row belongs to"},
        "seq": {"type": "integer", "minimum": 1},
        "type": {"type": "string"},
        "v": {"type": "integer"},
        "machine": {"type": "string"},
        "audit": {"type": "string"},
        "stamp": schemas.of(Stamp),
        "actor": {"type": "string"},
        "cause": {"type": "object", "description": "the whole input that led to the event"},
        "data": {"type": "object"},
        "evidence": {"type": "array", "items": _DIGEST},
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "The body of a row in a headsweep ledger",
        "type": "object",
        "properties": common,
        "required": sorted(common),
        "additionalProperties": False,
        "oneOf": kinds,
        "$defs": schemas.named,
    }


def _kind(name: str, version: int, data: dict[str, Any]) -> dict[str, Any]:
    return {"properties": {"type": {"const": name}, "v": {"const": version}, "data": data}}
