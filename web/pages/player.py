"""A recorded audit again, on the wall's own page and on the console's: marked as what it is."""

from collections.abc import Mapping
from typing import Any

from flask import Blueprint, render_template, url_for

from daq.records.played import moment
from daq.records.record import AuditRecord
from daq.service.hub import Served
from daq.words import said
from web.recorded import record_or_404
from web.rights import needs
from web.rooms import on_record_or_404, rooms
from web.scan import Family
from web.sentences import sentences

blueprint = Blueprint("player", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/records/<audit>/play")
@needs("look")
def play(audit: str) -> str:
    """Play it on the wall's page."""
    found = record_or_404(audit)
    other = url_for("player.play_console", audit=found.audit)
    return render_template("wall.html", **_of(found, "wall", other))


@blueprint.get("/records/<audit>/play/console")
@needs("look")
def play_console(audit: str) -> str:
    """Play it on the console's page, with nothing on it to press."""
    found = record_or_404(audit)
    other = url_for("player.play", audit=found.audit)
    return render_template("console.html", **_of(found, "console", other))


def _of(record: AuditRecord, page: str, other: str) -> Mapping[str, Any]:
    """What a page is drawn with: how the audit began; `recorded` makes it no live one."""
    shared, first = rooms(), moment(record, 0, on_record_or_404().samples)
    recorded = {
        "audit": record.audit,
        "mark": shared.told(first.mark),
        "other": other,
        "words": {**sentences(shared.says), **shared.told(_words())},
    }
    return {
        "machine": Served("", record.opened.setup.machine.name, "", None),
        "view": shared.told(first.snapshot.pages[page]),
        "recorded": recorded,
    }


def _words() -> Mapping[str, Any]:
    """What the scripts say otherwise than where a machine is live."""
    return {
        "live": said("play-not-live"),
        "not_live": said("play-not-live"),
        "no_live": said("play-no-number"),
        "no_connection": said("play-unread"),
    }
