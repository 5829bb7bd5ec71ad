"""The document that describes this API."""

from collections.abc import Mapping
from typing import Any

from flask import Blueprint, current_app

from web.openapi import document
from web.rights import needs
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_openapi", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/api/openapi.json")
@needs("look")
@typed()
def openapi() -> Mapping[str, Any]:
    """Return the OpenAPI document made from the routes served now."""
    return document(current_app)
