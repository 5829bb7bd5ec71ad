"""Requests made from the OpenAPI document, as nobody, looker, worker and signer.

schemathesis makes them, good and bad ones. No answer is a 5xx but those the document names for a
service that is not well, none has a status or a body that the document does not name, and nothing
is changed without the right to.
"""

import uuid
from collections import Counter

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from daq.service.rights.limits import Buckets
from tests.entry import PIN, enrolled, paired
from tests.web.conftest import shop_set_up
from tests.web.scenes import MACHINE
from web import openapi
from web.app import create_app
from web.rights import COOKIE, HEADER

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
ANN = "Anna Kelln"
STREAM = "/api/machines/{machine}/stream"
"""Has no end."""

WORKING = ("worker", "signer")


@pytest.fixture
def access(tmp_path):
    made = Access(tmp_path, SystemClock())
    enrolled(tmp_path, ANN, "set-up")
    # Limits have tests of their own: here everything is to be reached.
    made.presses = made.pairings = made.askings = Buckets(10**6, 1.0, SystemClock().mono_ns)
    return made


@pytest.fixture
def app(hub, inbox, access, tmp_path):
    return create_app(hub, inbox, access=access, set_up=shop_set_up(tmp_path / "config"))


def as_whom(role, app):
    """The cookies and headers that the role sends along."""
    if role == "nobody":
        return {}
    client, token = paired(app)
    if role == "looker":
        return {}
    return {"cookies": {COOKIE: client.get_cookie(COOKIE).value}, "headers": {HEADER: token}}


def sent(case, role):
    """A case as that role would send it."""
    if case.path_parameters and "machine" in case.path_parameters:
        case.path_parameters["machine"] = MACHINE
    if isinstance(case.body, dict) and case.path.endswith("/commands"):
        # What is no UUID is refused; a document cannot say of it what is allowed.
        case.body["id"] = str(uuid.uuid4())
        if role == "signer":
            case.body |= {"kind": "sign", "payload": {"done_by": ANN}, "pins": {"done_by": PIN}}
    return case


def ask(operation, cases, role, along, statuses):
    """One operation, so many times."""

    @settings(
        max_examples=cases,
        deadline=None,
        database=None,
        derandomize=True,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy())
    def asked(case):
        answer = sent(case, role).call(**along)
        statuses[answer.status_code] += 1
        case.validate_response(answer, checks=CHECKS)

    asked()


@pytest.mark.parametrize("cases", [12, pytest.param(200, marks=pytest.mark.long)])
@pytest.mark.parametrize("role", ["nobody", "looker", *WORKING])
def test_whatever_is_asked_is_answered_as_documented(role, cases, app, access, inbox):
    """So many requests for each operation."""
    along = as_whom(role, app)
    kept, statuses = access.store.kept(), Counter()
    schema = schemathesis.openapi.from_dict(document(app))
    schema.app = app
    for found in schema.get_all_operations():
        operation = found.ok()
        if operation.path == STREAM:
            continue
        if role in WORKING:  # an operation may sign it out
            along = as_whom(role, app)

        ask(operation, cases, role, along, statuses)
    print(role, dict(statuses))
    if role not in WORKING:
        assert inbox.got == []
        assert access.store.kept() == kept
    else:
        assert inbox.got
    assert any(each.proved for each in inbox.got) == (role == "signer")


def document(app):
    """The document, asked for by whoever may."""
    with app.test_request_context():
        return openapi.document(app)
