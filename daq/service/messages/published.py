"""The published form of every message: a JSON schema (draft 2020-12)."""

from typing import Any, get_args

from daq.service.messages.shapes import Message
from daq.settings.schema import Schemas


def message_schema() -> dict[str, Any]:
    """The schema that each message is one kind of."""
    schemas = Schemas("#/$defs/", in_words=False)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A message of headsweep to the shop's broker",
        "oneOf": [schemas.of(each) for each in get_args(Message)],
        "$defs": schemas.named,
    }
