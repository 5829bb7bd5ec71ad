"""What /healthz tells, and whom."""

import pytest

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from tests.entry import paired
from web.app import create_app


@pytest.mark.parametrize("well", [True, False])
def test_a_stranger_is_told_whether_all_is_well_and_no_more(hub, inbox, tmp_path, well):
    hub.ok = well
    app = create_app(hub, inbox, access=Access(tmp_path, SystemClock()))
    stranger = app.test_client()
    answer = stranger.get("/healthz")
    assert (answer.status_code, answer.json) == (200 if well else 503, {"ok": well})
    screen, _ = paired(app)
    for who in (screen, stranger):  # once a screen is paired, looking is free
        assert "gauges" in who.get("/healthz").json["service"]
