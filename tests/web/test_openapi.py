"""The OpenAPI document: valid, complete, and nothing in it that is not served."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

import pytest
from jsonschema import Draft202012Validator
from openapi_spec_validator import OpenAPIV31SpecValidator

from daq.screens import Pages, console, wall
from daq.settings.schema import Schemas
from daq.words import Both
from tests.audit.scenes import scenes
from tests.words import told


@pytest.fixture
def document(client):
    return client.get("/api/openapi.json").json


def served(app):
    """Every API route and method there is, in the document's spelling of paths."""
    return {
        (re.sub(r"<(\w+)>", r"{\1}", rule.rule), method.lower())
        for rule in app.url_map.iter_rules()
        if rule.rule.startswith(("/api", "/healthz", "/metrics"))
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    }


def test_the_document_is_valid(document):
    assert list(OpenAPIV31SpecValidator(document).iter_errors()) == []


def test_every_route_is_documented_and_every_documented_one_exists(app, document):
    documented = {
        (path, method) for path, methods in document["paths"].items() for method in methods
    }
    assert documented == served(app)
    assert ("/api/machines/{machine}/commands", "post") in documented


def test_every_operation_says_what_it_does_and_what_comes_back(document):
    for methods in document["paths"].values():
        for operation in methods.values():
            assert len(operation["summary"].split()) >= 3
            assert "403" in operation["responses"]


def test_a_command_is_documented_by_its_dataclasses(document):
    operation = document["paths"]["/api/machines/{machine}/commands"]["post"]
    schemas = document["components"]["schemas"]
    body = operation["requestBody"]["content"]["application/json"]["schema"]
    assert body == {"$ref": "#/components/schemas/CommandBody"}
    assert schemas["CommandBody"]["required"] == ["id", "kind"]
    ack = {"$ref": "#/components/schemas/Ack"}
    for status in ("200", "409", "422", "503"):
        assert operation["responses"][status]["content"]["application/json"]["schema"] == ack
    assert {"400", "404", "413", "415"} <= set(operation["responses"])


def test_the_stream_is_documented_as_one(document):
    stream = document["paths"]["/api/machines/{machine}/stream"]["get"]["responses"]
    assert "text/event-stream" in stream["200"]["content"]
    assert "text/html" in stream["503"]["content"]


@pytest.mark.parametrize("nth", [4, pytest.param(1, marks=pytest.mark.long)])
def test_every_page_is_what_the_document_says(document, nth):
    """Wherever an audit stands: each field there, none besides, each of its type."""
    reference = document["components"]["schemas"]["Snapshot"]["properties"]["pages"]
    assert reference == {"$ref": "#/components/schemas/Pages"}
    valid = Draft202012Validator({**reference, "components": document["components"]})
    for state in scenes()[::nth]:
        pages = told(Pages(wall(state, "Mill"), console(state, "Mill")))
        assert [f"{e.json_path}: {e.message}" for e in valid.iter_errors(pages)] == []
    for page, wrong in (("wall", {"title": None}), ("console", {"colour": "red"})):
        assert not valid.is_valid({**pages, page: {**pages[page], **wrong}})


@dataclass(frozen=True)
class Leaf:
    """A leaf."""

    size: float
    kind: Literal["round", "long"] = "round"


@dataclass(frozen=True)
class Branch:
    """A branch, with leaves and perhaps branches."""

    leaves: tuple[Leaf, ...]
    more: "tuple[Branch, ...]" = ()
    names: Mapping[str, int] | None = None


def test_hints_become_schemas():
    schemas = Schemas()
    assert schemas.of(Branch) == {"$ref": "#/components/schemas/Branch"}
    branch = schemas.named["Branch"]["properties"]
    assert branch["leaves"] == {"type": "array", "items": {"$ref": "#/components/schemas/Leaf"}}
    assert branch["more"] == {"type": "array", "items": {"$ref": "#/components/schemas/Branch"}}
    number = {"type": "object", "additionalProperties": {"type": "integer"}}
    assert branch["names"] == {"anyOf": [number, {"type": "null"}]}
    assert schemas.named["Leaf"]["required"] == ["size"]
    assert schemas.named["Leaf"]["properties"]["kind"] == {"enum": ["round", "long"]}
    assert schemas.of(Any) == {}
    pair = schemas.of(Both[Leaf | None])
    leaf = {"anyOf": [{"$ref": "#/components/schemas/Leaf"}, {"type": "null"}]}
    assert (pair["properties"], pair["required"]) == ({"side": leaf, "nod": leaf}, ["side", "nod"])


def test_two_dataclasses_of_one_name_are_refused():
    schemas = Schemas()
    schemas.of(Leaf)
    with pytest.raises(TypeError, match="two schemas named Leaf"):
        schemas.of(dataclass(type("Leaf", (), {"__doc__": "Another."})))


def test_a_hint_without_a_json_form_is_refused():
    with pytest.raises(TypeError, match="no JSON schema"):
        Schemas().of(complex)
