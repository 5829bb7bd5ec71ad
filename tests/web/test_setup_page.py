"""The setup page and its JSON: what the shop is made of, readable without a script."""

import re
from dataclasses import replace

import pytest

from daq.service.setup import Setup
from daq.settings import plain
from daq.words.setup import (
    CheckCard,
    Fact,
    FactGroup,
    GaugeCard,
    LedgerCard,
    MachineCard,
    RawBytes,
    SetupView,
    ShopCard,
    WireCard,
)
from tests.web.scenes import scene
from web.app import create_app

FRAME = RawBytes("2b 31 2e 30 3c 62 3e", "+1.0<b>")
CHECK = CheckCard("2026-05-04", False, "0.006 mm", "0.004 mm", "Kit", "Not good.")
WIRE = WireCard(1234, 37, 5, (FRAME,), FRAME, None)
READ = GaugeCard(
    "arm",
    "Arm gauge",
    "garbled",
    "garbled: 37 bad frames in the last 5 s, none good: wrong speed or framing?",
    ("Arm gauge (P-1) is overdue: its calibration was good until 2026-01-31.",),
    (Fact("serial_number", "Number on it", "P-1"), Fact("travel", "Travel", "12.7 mm")),
    CHECK,
    WIRE,
)
SPARE = GaugeCard("spare", "Spare", "not-read", "No machine's file names it.", (), (), None, None)
LEARNED = FactGroup(
    "learned",
    "Learned of this head",
    "From 3 audits.",
    (Fact("learned.nod.pivot", "Nod: pivot acts at", "7.20 ± 0.04 in"),),
)
MILL = MachineCard(
    "mill-1", "Big <mill>", (Fact("sweep_radius", "Sweep radius", "4 in"),), (LEARNED,)
)
LEDGER = LedgerCard(41, "ab12" * 16, "9.7 GB free", "")
SHOP = ShopCard(
    (Fact("address", "Address", "Long <Lane> 1"),),
    (FactGroup("tools", "Tools", "", (Fact("tools.w7", "Torque wrench 7", "none"),)),),
)
VIEW = SetupView((READ, SPARE), (MILL,), LEDGER, SHOP, ())


class FakeSetup(Setup):
    def __init__(self):
        self.now = VIEW

    def view(self):
        return self.now


@pytest.fixture
def setup():
    return FakeSetup()


@pytest.fixture
def client(hub, inbox, setup):
    return create_app(hub, inbox, setup=setup).test_client()


def test_the_page_says_everything_before_any_script_runs(client):
    text = client.get("/setup").text
    for said in (
        READ.say,
        READ.warnings[0],
        "P-1",
        "12.7 mm",
        "gauges/arm.toml",
        "on 2026-05-04: errors span 0.006 mm, allowed 0.004 mm (Kit)",
        "None on record for this gauge.",
        '<strong data-part="good">1234</strong> good',
        '<strong data-part="bad">37</strong> bad',
        '<strong data-part="damaged">5</strong> of these damaged on their way',
        FRAME.hex,
        "Big &lt;mill&gt;",
        "4 in",
        "<h4>Learned of this head</h4>",
        "From 3 audits.",
        "7.20 ± 0.04 in",
        "9.7 GB free",
        LEDGER.head,
        '<dd data-part="rows">41</dd>',
    ):
        assert said.replace("'", "&#39;") in text, said
    assert "Not passed" in text


def test_bytes_from_a_wire_are_text_and_never_markup(client):
    text = client.get("/setup").text
    assert "+1.0&lt;b&gt;" in text
    assert "<b>" not in text


def test_the_page_uses_only_files_of_the_pi_and_nothing_inline(client):
    text = client.get("/setup").text
    assert not re.search(r"<script(?![^>]*\bsrc=)", text)
    assert not re.search(r"<style|\sstyle=|\son\w+=|javascript:", text)
    for target in re.findall(r'(?:src|href)="([^"]+)"', text):
        assert target.startswith("/"), target
        with client.get(target) as answer:
            assert answer.status_code == 200, target


def test_nothing_on_the_page_can_be_sent(client):
    assert not re.search(r"<(?:form|button|input)", client.get("/setup").text)
    assert client.post("/api/setup", json={}).status_code == 405


def test_a_problem_with_the_record_is_shown(client, setup):
    setup.now = replace(VIEW, ledger=replace(LEDGER, problem="the disk is read-only"))
    assert 'data-part="problem">the disk is read-only' in client.get("/setup").text


def test_a_check_that_was_passed_is_told_so(client, setup):
    passed = replace(READ, check=replace(CHECK, passed=True, done_by=""))
    setup.now = replace(VIEW, gauges=(passed,))
    text = client.get("/setup").text
    assert "✓ Passed</strong> on 2026-05-04: errors span 0.006 mm, allowed 0.004 mm</p>" in text


def test_the_json_is_the_view(client):
    assert client.get("/api/setup").json == plain(VIEW)


def test_the_document_describes_it(client):
    document = client.get("/api/openapi.json").json
    answers = document["paths"]["/api/setup"]["get"]["responses"]
    shown = answers["200"]["content"]["application/json"]["schema"]
    assert shown == {"$ref": "#/components/schemas/SetupView"}
    assert "404" in answers


def test_the_first_page_links_to_it(client, hub, inbox):
    assert 'href="/setup"' in client.get("/").text
    without = create_app(hub, inbox).test_client()
    assert 'href="/setup"' not in without.get("/").text
    assert without.get("/setup").status_code == 404
    assert without.get("/api/setup").json["code"] == "not-found"


def test_without_machines_the_first_page_still_leads_to_the_setup(client, hub):
    hub.names = ()
    assert 'href="/setup"' in client.get("/").text


def test_a_machine_that_is_not_safe_to_run_is_named_there_too(client, hub):
    assert "NOT SAFE" not in client.get("/setup").text
    hub.current = scene("unsafe")
    assert "Practice mill: NOT SAFE TO RUN: side bolts loose" in client.get("/setup").text
