"""JSON schemas from the same hints."""

import dataclasses
import datetime
import inspect
import types
from collections.abc import Mapping
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from daq.settings.generic import dataclass_of, hints_of
from daq.words import Figure, Person, Said, Shown

_SIMPLE: dict[object, dict[str, Any]] = {
    str: {"type": "string"},
    int: {"type": "integer"},
    float: {"type": "number"},
    bool: {"type": "boolean"},
    types.NoneType: {"type": "null"},
    datetime.date: {"type": "string", "format": "date"},
    Any: {},
}
_IN_WORDS: dict[object, dict[str, Any]] = {
    Said: {"type": "string", "description": "a sentence"},
    Shown: {"type": "string", "description": "a number"},
    Figure: {"type": "string", "description": "a number"},
    Person: {"type": "string", "description": "a name"},
}
"""What the edge makes of these before it hands them out."""


class Schemas:
    """Turns hints into schemas; dataclasses are gathered in `named` and referred to."""

    def __init__(
        self,
        refer: str = "#/components/schemas/",
        told: Mapping[type, Mapping[str, object]] | None = None,
        *,
        in_words: bool = True,
    ) -> None:
        """Start with none; a dataclass is referred to by its name after `refer`.

        `told`: fields that are told before they are handed out, and of what. Not `in_words`:
        what is said stands there as its code and numbers.
        """
        self._simple = _SIMPLE | (_IN_WORDS if in_words else {})
        self.refer = refer
        self._told = told or {}
        self._classes: dict[str, type] = {}
        self.named: dict[str, dict[str, Any]] = {}

    def of(self, hint: object) -> dict[str, Any]:
        """Return the schema of a hint.

        Raises:
            TypeError: a hint that JSON has no form for, or a second dataclass of one name.
        """
        if hint in self._simple:
            return dict(self._simple[hint])
        origin, arguments = get_origin(hint), get_args(hint)
        if origin is Annotated:
            return self.of(arguments[0])
        if origin in (Union, types.UnionType):
            if Said in arguments and Said in self._simple:
                return self.of(Said)  # words by the time it is sent, "" for none
            return {"anyOf": [self.of(each) for each in arguments]}
        if origin is Literal:
            return {"enum": list(arguments)}
        if origin is tuple and arguments[1:] == (...,):
            return {"type": "array", "items": self.of(arguments[0])}
        if origin is tuple:
            each = [self.of(argument) for argument in arguments]
            return {"type": "array", "prefixItems": each, "items": False, "minItems": len(each)}
        if origin in (dict, Mapping):
            return {"type": "object", "additionalProperties": self.of(arguments[1])}
        cls = dataclass_of(hint)
        if cls is not None:
            return self._object(cls, hint) if arguments else self._reference(cls)
        raise TypeError(f"no JSON schema for {hint!r}")

    def parameters(self, cls: type) -> list[dict[str, Any]]:
        """Return what may stand behind the question mark of an address, each with a default."""
        hints = hints_of(cls)
        return [
            {
                "name": each.name,
                "in": "query",
                "required": False,
                "schema": self.of(hints[each.name]),
            }
            for each in dataclasses.fields(cls)
        ]

    def _reference(self, cls: type) -> dict[str, Any]:
        if self._classes.setdefault(cls.__name__, cls) is not cls:
            raise TypeError(f"two schemas named {cls.__name__}")
        if cls.__name__ not in self.named:
            self.named[cls.__name__] = {}  # a class may contain itself
            self.named[cls.__name__] = self._object(cls, cls)
        return {"$ref": f"{self.refer}{cls.__name__}"}

    def _object(self, cls: type, hint: object) -> dict[str, Any]:
        hints = {**hints_of(hint), **self._told.get(cls, {})}
        fields = dataclasses.fields(cls)
        missing = dataclasses.MISSING
        required = [each.name for each in fields if each.default is each.default_factory is missing]
        schema: dict[str, Any] = {
            "type": "object",
            "description": inspect.getdoc(cls) or "",
            "properties": {each.name: self.of(hints[each.name]) for each in fields},
            "additionalProperties": False,
        }
        if required:
            schema["required"] = required
        return schema
