"""The page where a stranger checks an export; whoever saves it has all of it."""

from flask import Blueprint, Response

from web.check_page import check_page
from web.rights import needs
from web.rooms import rooms
from web.scan import Family

blueprint = Blueprint("check", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/check")
@needs("look")
def check() -> Response:
    """Hand out the page, by a policy of its own: what it runs stands in it."""
    page = check_page(rooms().says)
    headers = {"Content-Security-Policy": page.policy}
    return Response(page.html, mimetype="text/html", headers=headers)
