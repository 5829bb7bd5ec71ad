"""The Flask application: a short factory."""

from itertools import chain
from pathlib import Path
from typing import Any

from flask import Flask

from daq.doctor.rounds import Rounds
from daq.says import Language, language, own_names
from daq.service.gauge_bench import GaugeBench
from daq.service.hub import Hub
from daq.service.inbox import Inbox
from daq.service.listing import Listing
from daq.service.metrics import Metrics
from daq.service.no_record import NoRecord
from daq.service.on_record import OnRecord
from daq.service.rights.access import Access
from daq.service.set_up.shop_set_up import ShopSetUp
from daq.service.setup import Setup
from daq.service.trends import Trends
from web import guard, problems, rights
from web.in_words import InWords
from web.ports import PracticePanel
from web.rooms import EXTENSION, Gate, Rooms, has_practice, rooms, words
from web.scan import families
from web.sentences import sentences
from web.settling import Settling
from web.streams import Streams

HERE = Path(__file__).parent
STREAMS, STREAMS_EACH = 240, 40
"""Event streams, in all and of one client."""
PRESSES, PRESSES_EACH = 24, 16
"""Presses that wait for their answer."""
LARGEST_BODY = 16 * 1024
"""Bytes; the longest note on a signature is far below."""


def create_app(
    hub: Hub,
    inbox: Inbox | NoRecord,
    practice: PracticePanel | None = None,
    *,
    setup: Setup | None = None,
    trends: Trends | None = None,
    shop: str = "",
    hosts: tuple[str, ...] = (),
    proxies: tuple[str, ...] = (),
    max_streams: int = STREAMS,
    wall_pedal: bool = True,
    wall_far: float = 1.0,
    says: Language | None = None,
    access: Access | None = None,
    listing: Listing | None = None,
    on_record: OnRecord | None = None,
    doctor: Rounds | None = None,
    set_up: ShopSetUp | None = None,
    metrics: Metrics | None = None,
    bench: GaugeBench | None = None,
) -> Flask:
    """Return the application serving these rooms.

    `shop` is the shop's name, `hosts` are the names (besides addresses and localhost) under which
    the Pi may be called; `proxies`: the addresses of those whose word for whom they ask is
    believed; `max_streams` caps the event streams; `wall_pedal`: a pedal presses the big button
    from its page too; `wall_far`: how large its letters are; `says`: the shop's language, and of
    screens that chose no other; `access`: who may do what, without which nobody has to be paired.
    What has a room of its own answers only with it. `set_up` writes the shop's files.
    """
    app = Flask("web", root_path=str(HERE), static_folder="static", template_folder="templates")
    gate, presses = Gate(max_streams, STREAMS_EACH), Gate(PRESSES, PRESSES_EACH)
    settling, says = Settling(), says or language()
    streams = Streams(hub, settling, InWords(hub, says))
    shared = Rooms(
        says, hub, inbox, practice, gate, presses, settling, streams, setup, trends,
        frozenset(proxies), access, listing, on_record, doctor, set_up, metrics, bench,
    )  # fmt: skip
    _count_screens(gate, doctor)
    app.extensions[EXTENSION] = shared
    _arm_templates(app, shop=shop, wall_pedal=wall_pedal, wall_far=wall_far)
    _watch_over(app, hosts, access)
    _register(app, practice=practice is not None, pairing=access is not None)
    return app


def _watch_over(app: Flask, hosts: tuple[str, ...], access: Access | None) -> None:
    """Who may ask what, how much at a time, and what goes wrong in their own form."""
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY
    guard.install(app, hosts)
    rights.install(app, access)
    problems.install(app)


def _count_screens(gate: Gate, doctor: Rounds | None) -> None:
    """The doctor is told how many screens are open."""
    if doctor is not None:
        doctor.screens = lambda: (gate.open, gate.most)


def _register(app: Flask, *, practice: bool, pairing: bool) -> None:
    """Every family, but for those of what is not there."""
    for family in chain(families("web.pages"), families("web.api")):
        left_out = family.practice_only and not practice
        if not left_out and (pairing or not family.pairing_only):
            app.register_blueprint(family.blueprint)


def _arm_templates(app: Flask, **shown: str | float) -> None:
    """What every template may say and ask, besides what its page gives it."""
    app.jinja_options = {"trim_blocks": True, "lstrip_blocks": True}
    asked = {"has_practice": has_practice, "rights": rights.on_page, "standing": rights.standing}
    said: dict[str, Any] = {"words": words, "languages": own_names}
    said |= {"sentences": lambda: sentences(rooms().says), "spoken": lambda: rooms().says.name}
    app.jinja_env.globals |= shown | asked | said
