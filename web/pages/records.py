"""The list of all audits on record, and one machine's."""

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, Final

from flask import Blueprint, render_template, request, url_for
from werkzeug.exceptions import BadRequest

from daq.audit.parts import Verdict
from daq.checks.kinds import kind, names
from daq.records.index import Index
from daq.records.listed import SQUARING
from daq.records.shown import failed_shown, shown
from daq.records.wanted import Failed, Wanted, answer, failed_since
from daq.service.listing import NoList
from daq.settings import SettingsError
from web.drawings import runs
from web.rights import needs
from web.rooms import listing_or_404, machine_or_404, rooms, words
from web.scan import Family
from web.typed import from_query

blueprint = Blueprint("records", __name__)
FAMILY = Family(blueprint)

SHOWN: Final = 25
OPEN: Final = 10
RECENT: Final = datetime.timedelta(days=90)
"""So long a check that a gauge failed is told of by itself."""

FAILED: Final = 5
VERDICTS: Final[tuple[Verdict, ...]] = (
    "conforms", "does-not-conform", "cannot-be-decided", "nothing-moved", "look-closer",
)  # fmt: skip
NAMED: Final = 100
"""So many names are proposed to whoever fills in the form."""


@blueprint.get("/records")
@needs("look")
def records() -> str:
    """List the machines, what is open and the newest audits, or those that are asked for."""
    listing, shared = listing_or_404(), rooms()
    wanted = _wanted()
    given: dict[str, Any] = {"asked": request.args, "machines": _machines()}
    try:
        with listing.asked() as index:
            found = answer(index, wanted, shared.hub.people)
            still = answer(index, Wanted(open="yes", limit=OPEN), shared.hub.people)
            given |= {
                "view": shared.told(shown(found, listing.behind)),
                "open": shared.told(shown(still, 0))["records"],
                "failed": [_linked(each) for each in _failed(index)],
                "choices": _choices(index),
            }
    except NoList as error:
        given["missing"] = shared.told(error.said)
    return render_template("records.html", older=_older(given.get("view"), "records"), **given)


@blueprint.get("/machines/<machine>/records")
@needs("look")
def of_machine(machine: str) -> str:
    """List a machine's audits of every kind; one whose file is gone has some, too."""
    listing, shared = listing_or_404(), rooms()
    wanted = replace(_wanted(), machine=machine)
    try:
        with listing.asked() as index:
            found = answer(index, wanted, shared.hub.people)
            view, missing = shared.told(shown(found, listing.behind)), None
    except NoList as error:
        view, missing = None, shared.told(error.said)
    known = {each.key: each.say for each in shared.hub.machines()}
    if machine not in known and not (view and view["records"]):
        machine_or_404(machine)
    name = known.get(machine) or (view["records"][0]["name"] if view else machine)
    return render_template(
        "machine_records.html",
        machine=machine,
        name=name,
        served=machine in known,
        due=_due(machine) if machine in known else (),
        pictures=runs(machine) if machine in known else {},
        view=view,
        missing=missing,
        older=_older(view, "of_machine", machine=machine),
    )


def _wanted() -> Wanted:
    """What the address asks for; a form's fields that were left empty ask for nothing."""
    try:
        return replace(from_query(Wanted, blank=False), limit=SHOWN)
    except SettingsError as error:
        says = rooms().says
        raise BadRequest(" ".join(says.words(each) for each in error.problems)) from error


def _machines() -> list[dict[str, Any]]:
    machines = rooms().hub.machines()
    return [{"key": each.key, "say": each.say, "due": _due(each.key)} for each in machines]


def _due(machine: str) -> Any:  # noqa: ANN401 - JSON
    trends = rooms().trends
    return () if trends is None else rooms().told(trends.due(machine))


def _failed(index: Index) -> tuple[Failed, ...]:
    trends = rooms().trends
    if trends is None:
        return ()
    recent = datetime.date.fromisoformat(trends.today) - RECENT
    return failed_since(index, recent)[:FAILED]


def _linked(failed: Failed) -> dict[str, str]:
    to = url_for("records.records", failed_check=failed.day, gauge=failed.number or failed.gauge)
    return {"say": rooms().told(failed_shown(failed))["say"], "to": to}


def _choices(index: Index) -> Mapping[str, Sequence[tuple[str, str]]]:
    """What each field of the form offers, as far as the list knows: a key, and its words."""
    shared = rooms()
    named = {each.key: each.say for each in shared.hub.machines()}
    people = sorted(set(shared.hub.people.values()))[:NAMED]
    return {
        "machine": [(key, named.get(key, key)) for key in index.different("machine")],
        "kind": [(key, _check(key)) for key in index.different("kind")],
        "verdict": [(each, words("listed-came", came=each)) for each in VERDICTS],
        "gauge": [(each, each) for each in index.different("number")[:NAMED]],
        "by": [(each, each) for each in people],
    }


def _check(key: str) -> str:
    """What a check is called, by its key; of a kind that this release does not have, the key."""
    if key == SQUARING:
        return words("check-head")
    return str(rooms().told(kind(key).name)) if key in names() else key


def _older(view: Mapping[str, Any] | None, endpoint: str, **more: str) -> str | None:
    """Where the audits before these are."""
    if view is None or view["more"] is None:
        return None
    asked = {key: value for key, value in request.args.items() if value}
    return url_for(f"records.{endpoint}", **{**asked, **more, "before": view["more"]})
