"""The OpenAPI 3.1 document, made from the routes and the hints of their views."""

import inspect
from collections.abc import Mapping
from http import HTTPStatus
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from flask import Flask, Response
from werkzeug.routing import Rule

from daq.screens import Pages
from daq.service.delivery import webhook
from daq.service.delivery.note import Note
from daq.settings.schema import Schemas
from daq.words import Snapshot
from web.typed import CONTRACT, Contract

TOLD: Mapping[type, Mapping[str, object]] = {Snapshot: {"pages": Pages}}
"""A page's view is put into words before it is published."""

METHODS = ("GET", "POST", "PUT", "PATCH", "DELETE")


def document(app: Flask) -> dict[str, Any]:
    """Return the document: every route whose view has a contract, and no other."""
    schemas = Schemas(told=TOLD)
    paths: dict[str, dict[str, Any]] = {}
    for rule in sorted(app.url_map.iter_rules(), key=lambda each: each.rule):
        view = app.view_functions[rule.endpoint]
        contract = getattr(view, CONTRACT, None)
        if not isinstance(contract, Contract):
            continue
        for method in sorted(set(METHODS) & (rule.methods or set())):
            entry = _operation(rule, inspect.getdoc(view) or "", contract, schemas)
            paths.setdefault(_path(rule), {})[method.lower()] = entry
    return {
        "openapi": "3.1.0",
        "info": {"title": "headsweep", "version": _version()},
        "paths": paths,
        "webhooks": {"signed": {"post": _note(schemas)}},
        "components": {"schemas": schemas.named},
    }


def _note(schemas: Schemas) -> dict[str, Any]:
    """What is posted to the shop's own address."""
    summary, _, rest = (inspect.getdoc(webhook) or "").partition("\n")
    schema = {"application/json": {"schema": schemas.of(Note)}}
    return {
        "operationId": "signed",
        "summary": summary.rstrip("."),
        "description": rest.strip(),
        "requestBody": {"required": True, "content": schema},
        "responses": {"2XX": {"description": HTTPStatus.OK.phrase}},
    }


def _version() -> str:
    try:
        return version("headsweep")
    except PackageNotFoundError:  # run from a source tree
        return "0"


def _path(rule: Rule) -> str:
    return "".join(
        f"{{{part}}}" if is_variable else part
        for is_variable, part in (
            (chunk.startswith("<"), chunk.strip("<>")) for chunk in _chunks(rule.rule)
        )
    )


def _chunks(text: str) -> list[str]:
    return text.replace("<", "\0<").replace(">", ">\0").split("\0")


def _operation(rule: Rule, doc: str, contract: Contract, schemas: Schemas) -> dict[str, Any]:
    summary, _, rest = doc.partition("\n")
    operation: dict[str, Any] = {
        "operationId": rule.endpoint.rpartition(".")[2],
        "summary": summary.rstrip("."),
        "responses": {
            str(status): _response(status, hint, schemas)
            for status, hint in sorted(contract.answers.items())
        },
    }
    if rest.strip():
        operation["description"] = rest.strip()
    parameters = [
        {"name": name, "in": "path", "required": True, "schema": {"type": "string"}}
        for name in sorted(rule.arguments)
    ]
    if contract.query is not None:
        parameters += schemas.parameters(contract.query)
    if parameters:
        operation["parameters"] = parameters
    if contract.body is not None:
        operation["requestBody"] = {
            "required": True,
            "content": {"application/json": {"schema": schemas.of(contract.body)}},
        }
    return operation


def _response(status: int, hint: object, schemas: Schemas) -> dict[str, Any]:
    if isinstance(hint, type) and issubclass(hint, Response):
        kinds = getattr(hint, "kinds", (hint.default_mimetype or "application/octet-stream",))
        content = {kind: {"schema": {"type": "string"}} for kind in kinds}
        return {"description": inspect.getdoc(hint) or "", "content": content}
    return {
        "description": HTTPStatus(status).phrase,
        "content": {"application/json": {"schema": schemas.of(hint)}},
    }
