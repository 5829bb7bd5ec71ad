"""The Flask application: a short factory."""

from pathlib import Path

from flask import Flask

from web import guard, problems
from web.ports import Desk, Hub, PracticePanel, Setup, Trends
from web.rooms import EXTENSION, Rooms, Settling, StreamGate, has_practice
from web.scan import families

HERE = Path(__file__).parent
LARGEST_BODY = 16 * 1024
"""Bytes; the longest note on a signature is far below."""


def create_app(
    hub: Hub,
    desk: Desk,
    practice: PracticePanel | None = None,
    *,
    setup: Setup | None = None,
    trends: Trends | None = None,
    hosts: tuple[str, ...] = (),
    max_streams: int = 40,
) -> Flask:
    """Return the application serving these rooms.

    `hosts` are the names (besides IP addresses and localhost) under which the
    Pi may be called; `max_streams` caps the open event streams. Families for
    practice exist only when `practice` is given; the setup page and the trends answer
    only with `setup` and `trends`.
    """
    app = Flask("web", root_path=str(HERE), static_folder="static", template_folder="templates")
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY
    app.jinja_options = {"trim_blocks": True, "lstrip_blocks": True}
    gate = StreamGate(max_streams)
    app.extensions[EXTENSION] = Rooms(hub, desk, practice, gate, Settling(), setup, trends)
    app.jinja_env.globals["has_practice"] = has_practice
    guard.install(app, hosts)
    problems.install(app)
    for package in ("web.pages", "web.api"):
        for family in families(package):
            if practice is not None or not family.practice_only:
                app.register_blueprint(family.blueprint)
    return app
