"""The check of a gauge while the service runs: begun by who may set up, answered step by step."""

from dataclasses import dataclass

from flask import Blueprint, Response
from werkzeug.exceptions import NotFound

from daq.ledger.errors import LedgerError
from daq.service.gauge_bench import CheckAsked
from daq.service.rights.pins import LockedOut, WrongPin
from daq.words import SaidTrouble
from daq.words.gauge_check import GaugeCheckView
from web.api.report import content_type
from web.problems import Problem, problem
from web.recorded import unread
from web.rights import asker, locked, needs
from web.rooms import bench_or_404, on_record_or_404, rooms
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_gauge_check", __name__)
FAMILY = Family(blueprint, pairing_only=True)


@dataclass(frozen=True)
class CheckBody:
    """Who checks, by their PIN, and what is to be checked by what."""

    person: str
    pin: str
    check: CheckAsked


@dataclass(frozen=True)
class BenchAnswer:
    """The answer to the question of that number, as one of its choices has it."""

    number: int
    typed: str


class CertificateResponse(Response):
    """A gauge's certificate in the format of its ending."""

    default_mimetype = "application/pdf"
    kinds = ("application/pdf", "text/html")


@blueprint.get("/api/gauge-check")
@needs("work")
@typed({200: GaugeCheckView, 404: Problem})
def gauge_check() -> GaugeCheckView:
    """Return what may be checked, and where the check under way is."""
    return bench_or_404().view()


@blueprint.post("/api/gauge-check/begin")
@needs("work")
@typed({200: GaugeCheckView, 404: Problem, 422: Problem})
def begin(body: CheckBody) -> object:
    """Begin a check, by somebody who may set up."""
    bench, access = bench_or_404(), rooms().access
    if access is None:  # never where there is a bench
        raise LookupError
    by = asker()
    try:
        person = access.pins.proved(body.person, body.pin, "set-up", screen=by.screen)
        bench.begin(body.check, person, by)
    except LockedOut as error:
        raise locked(error) from None
    except WrongPin as error:
        return problem(403, error.said)
    except SaidTrouble as error:
        return problem(422, error.said)
    return bench.view()


@blueprint.post("/api/gauge-check/answer")
@needs("work")
@typed({200: GaugeCheckView, 404: Problem, 409: Problem})
def answer(body: BenchAnswer) -> object:
    """Answer what is asked; another question by now is told."""
    bench = bench_or_404()
    try:
        bench.answer(body.number, body.typed)
    except SaidTrouble as error:
        return problem(409, error.said)
    return bench.view()


@blueprint.get("/api/gauge-check/<gauge>/<row>/certificate.<ending>")
@needs("look")
@typed({200: CertificateResponse, 404: Problem, 503: Problem})
def certificate(gauge: str, row: str, ending: str) -> CertificateResponse:
    """Return the certificate of a gauge's check, by its row in the record: pdf or html."""
    from daq import __version__
    from daq.ledger.view import LedgerView
    from daq.report.gauge_check import certificate_of

    there = on_record_or_404().data
    try:
        with LedgerView.open(there) as view:
            found = certificate_of(view, gauge, row, ending, rooms().of_shop, __version__)
    except LedgerError as error:
        raise unread(error) from error
    except SaidTrouble as trouble:
        raise NotFound(rooms().says.words(trouble.said)) from trouble
    sent = CertificateResponse(found.content, content_type=content_type(found.media))
    sent.headers["Content-Disposition"] = f'inline; filename="{found.name}"'
    sent.headers["Content-Security-Policy"] = found.policy
    return sent
