"""A view as its page gets it: sentences in words, numbers as text, the rest as it is."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from daq.says import Language
from daq.settings.schema import Schemas
from daq.words import Figure, Said, Shown, Text

SENTENCES = "sweep = Sweep { $number }: { $by }\n"


@dataclass(frozen=True)
class Part:
    """Part of a view."""

    say: Text
    key: str


@dataclass(frozen=True)
class View:
    """A view."""

    title: Text
    note: Text
    count: int
    parts: tuple[Part, ...]
    more: Part | None
    notes: tuple[Text, ...]
    payload: Mapping[str, Any]
    only: Said | None = None


VIEW = View(
    title=Said("sweep", {"number": 2, "by": Shown(0.012, "mm", 3, plus=True)}),
    note=None,
    count=3,
    parts=(Part(Figure(1.25, 2), "k"), Part("The mill", "")),
    more=None,
    notes=(Said("sweep", {"number": 1, "by": "T"}),),
    payload={"position": None},
)


def test_a_view_is_told_as_json():
    assert Language("en", SENTENCES).told(VIEW) == {
        "title": "Sweep 2: +0.012",
        "note": "",
        "count": 3,
        "parts": [{"say": "1.25", "key": "k"}, {"say": "The mill", "key": ""}],
        "more": None,
        "notes": ["Sweep 1: T"],
        "payload": {"position": None},
        "only": "",
    }


def test_a_text_is_documented_as_a_string():
    schemas = Schemas()
    schemas.of(View)
    fields = schemas.named["View"]["properties"]
    text = {"type": "string", "description": "a sentence"}
    assert [fields[name] for name in ("title", "note", "only")] == [text] * 3
    assert fields["notes"] == {"type": "array", "items": text}
    assert fields["more"] == {"anyOf": [{"$ref": "#/components/schemas/Part"}, {"type": "null"}]}
