"""The Flask application: a short factory."""

from pathlib import Path

from flask import Flask

from daq.says import language
from daq.service.setup import Setup
from daq.service.trends import Trends
from web import guard, problems
from web.ports import Hub, Inbox, PracticePanel
from web.rooms import EXTENSION, PressGate, Rooms, StreamGate, has_practice
from web.scan import families
from web.sentences import sentences, words
from web.settling import Settling
from web.streams import Streams

HERE = Path(__file__).parent
LARGEST_BODY = 16 * 1024
"""Bytes; the longest note on a signature is far below."""


def create_app(
    hub: Hub,
    inbox: Inbox,
    practice: PracticePanel | None = None,
    *,
    setup: Setup | None = None,
    trends: Trends | None = None,
    shop: str = "",
    hosts: tuple[str, ...] = (),
    max_streams: int = 40,
    wall_pedal: bool = True,
) -> Flask:
    """Return the application serving these rooms.

    `shop` is the shop's name. `hosts` are the names (besides IP addresses and
    localhost) under which the Pi may be called; `max_streams` caps the open event
    streams; `wall_pedal`: a pedal that types presses the big button from the wall
    screen's page too. Families for practice exist only when `practice` is given; the setup page
    and the trends answer only with `setup` and `trends`.
    """
    app = Flask("web", root_path=str(HERE), static_folder="static", template_folder="templates")
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY
    app.jinja_options = {"trim_blocks": True, "lstrip_blocks": True}
    gate, settling = StreamGate(max_streams), Settling()
    streams = Streams(hub, settling)
    shared = Rooms(hub, inbox, practice, gate, PressGate(), settling, streams, setup, trends)
    app.extensions[EXTENSION] = shared
    shown = {
        "has_practice": has_practice,
        "shop": shop,
        "wall_pedal": wall_pedal,
        "language": language().name,
    }
    app.jinja_env.globals |= shown | {"words": words, "sentences": sentences}
    guard.install(app, hosts)
    problems.install(app)
    for package in ("web.pages", "web.api"):
        for family in families(package):
            if practice is not None or not family.practice_only:
                app.register_blueprint(family.blueprint)
    return app
