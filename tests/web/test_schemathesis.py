"""Requests made from the OpenAPI document, as nobody, looker, worker and signer.

schemathesis makes them, good and bad ones. No answer is a 5xx but those the document names for a
service that is not well, none has a status or a body that the document does not name, and nothing
is changed without the right to.
"""

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
from tests.web.scenes import MACHINE
from web import openapi
from web.app import create_app
from web.rights import COOKIE, HEADER

CASES = 12
"""Requests for each operation and each of the four."""

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
def app(hub, inbox, access):
    return create_app(hub, inbox, access=access)


def as_whom(role, app):
    """What the role sends along."""
    if role == "nobody":
        return {}
    client, token = paired(app)
    if role == "looker":
        return {}
    return {"Cookie": f"{COOKIE}={client.get_cookie(COOKIE).value}", HEADER: token}


def sent(case, role):
    """A case as that role would send it."""
    if case.path_parameters and "machine" in case.path_parameters:
        case.path_parameters["machine"] = MACHINE
    if role == "signer" and isinstance(case.body, dict) and case.path.endswith("/commands"):
        case.body |= {"kind": "sign", "payload": {"done_by": ANN}, "pins": {"done_by": PIN}}
    return case


@pytest.mark.parametrize("role", ["nobody", "looker", *WORKING])
def test_whatever_is_asked_is_answered_as_documented(role, app, access, inbox):
    headers = as_whom(role, app)
    kept, statuses = access.store.kept(), Counter()
    schema = schemathesis.openapi.from_dict(document(app))
    schema.app = app
    for found in schema.get_all_operations():
        operation = found.ok()
        if operation.path == STREAM:
            continue

        @settings(
            max_examples=CASES,
            deadline=None,
            database=None,
            derandomize=True,
            phases=[Phase.explicit, Phase.generate],
            suppress_health_check=list(HealthCheck),
        )
        @given(case=operation.as_strategy())
        def asked(case):
            answer = sent(case, role).call(headers=headers)
            statuses[answer.status_code] += 1
            case.validate_response(answer, checks=CHECKS)

        asked()
    print(role, dict(statuses))
    if role not in WORKING:
        assert inbox.got == []
        assert access.store.kept() == kept
    assert all(not each.proved or role == "signer" for each in inbox.got)


def document(app):
    """The document, asked for by whoever may."""
    with app.test_request_context():
        return openapi.document(app)
