"""`/metrics`: off until asked for, read back by Prometheus's own parser, by its conventions."""

import re
from types import SimpleNamespace

import pytest
from prometheus_client.parser import text_string_to_metric_families

from daq import __version__
from daq.audit.state import Shop
from daq.gauges.ring import Ring
from daq.gauges.wire import Wire
from daq.service.delivery.courier import WayOut
from daq.service.metrics import MetricFamily, Metrics
from daq.words import GaugeStatus, Sample, said
from tests.house.conftest import ROOT
from tests.web.scenes import MACHINE
from tests.words import en
from web.api.metrics import FORMAT, exposition
from web.app import create_app

SECOND_NS = 1_000_000_000
BASE_UNITS = ("_seconds", "_bytes", "_total", "_info")
"""How a name ends that has a unit: seconds and bytes, no multiples of them."""
OTHER_UNITS = re.compile(r"_(ms|us|ns|minutes|hours|kb|mb|kilobytes|percent)(_|$)")


def reader(code="ok", good=420, bad=3):
    """A gauge's reader, and its last number of two seconds ago."""
    ring = Ring()
    ring.append(Sample("arm", "run-1", 7, 3 * SECOND_NS, "0.012", "mm", 0.012, (), b"x"))
    status = GaugeStatus("arm", code, None, "run-1", 0, 0, 0)
    wire = Wire("run-1", good, bad, bad * 2 // 3)
    return SimpleNamespace(ring=ring, status=status, wire=wire)


@pytest.fixture
def metrics(hub):
    silent = SimpleNamespace(**{**vars(reader("silent", 0, 0)), "ring": Ring()})
    readers = {"arm": reader(), 'back"slash\\': silent}
    hub.held = ("sealer",)
    ways = {"broker": WayOut("x", 4, said("nothing-here")), "folder": WayOut("y", 0)}
    return Metrics(
        __version__, hub, readers, lambda: 812, Shop, lambda: ways, lambda: 5 * SECOND_NS
    )


@pytest.fixture
def answer(hub, inbox, metrics):
    return create_app(hub, inbox, metrics=metrics).test_client().get("/metrics")


@pytest.fixture
def found(answer):
    """Every number, by its name and labels, as Prometheus's parser reads them."""
    return {
        (each.name, *sorted(each.labels.items())): each.value
        for family in text_string_to_metric_families(answer.text)
        for each in family.samples
    }


def test_what_is_counted_comes_back_from_prometheus_own_parser(answer, found):
    assert (answer.status_code, answer.headers["Content-Type"]) == (200, FORMAT)
    arm = ("gauge", "arm")
    odd = ("gauge", 'back"slash\\')
    assert found["headsweep_build_info", ("version", __version__)] == 1
    assert (found["headsweep_frames_total", arm], found["headsweep_bad_frames_total", arm]) == (
        420,
        3,
    )
    assert found["headsweep_damaged_frames_total", arm] == 2
    assert found["headsweep_sample_age_seconds", arm] == 2.0
    assert ("headsweep_sample_age_seconds", odd) not in found
    assert (found["headsweep_gauge_reading", arm], found["headsweep_gauge_reading", odd]) == (1, 0)
    assert found["headsweep_ledger_rows",] == 812
    assert (found["headsweep_threads_held",], found["headsweep_screens",]) == (1, 0)
    assert found["headsweep_recording", ("machine", MACHINE)] == 1
    assert found["headsweep_audit_open", ("machine", MACHINE)] == 0
    assert found["headsweep_owed_rows", ("way", "broker")] == 4
    assert found["headsweep_way_failing", ("way", "broker")] == 1
    assert found["headsweep_way_failing", ("way", "folder")] == 0


def test_what_is_said_of_this_process_is_what_the_kernel_says(found):
    """Within what changes between two looks; proc(5) is where both come from."""
    with open("/proc/self/status", encoding="utf-8") as file:  # noqa: PTH123
        resident = int(re.search(r"VmRSS:\s+(\d+) kB", file.read())[1]) * 1024
    assert 0.5 < found["process_resident_memory_bytes",] / resident < 2
    assert 0 < found["process_cpu_seconds_total",] < 1e6
    assert found["process_start_time_seconds",] > 1_500_000_000
    assert 3 <= found["process_open_fds",] < 10_000


def test_every_number_keeps_the_conventions(answer):
    """Prometheus, "Metric and label naming" and "Text-based format", from memory."""
    families = list(text_string_to_metric_families(answer.text))
    names = re.findall(r"^# TYPE (\S+) (\S+)$", answer.text, re.MULTILINE)
    assert [name.removesuffix("_total") for name, _ in names] == [
        f.name.removesuffix("_total") for f in families
    ]
    assert len(names) == len({name for name, _ in names}) >= 16
    for family, (name, kind) in zip(families, names, strict=True):
        assert re.fullmatch(r"(headsweep|process)_[a-z]+(_[a-z]+)*", name)
        assert family.documentation and f"# HELP {name} {family.documentation}\n" in answer.text
        assert (kind == "counter") == name.endswith("_total") and family.type == kind
        assert not OTHER_UNITS.search(name)
        labels = {label for each in family.samples for label in each.labels}
        assert labels <= {"gauge", "machine", "way", "version"}
        assert len({tuple(each.labels.items()) for each in family.samples}) == len(family.samples)
    assert answer.text.endswith("\n") and "\r" not in answer.text
    assert {name for name, _ in names if "age" in name or "time" in name} <= {
        name for name, _ in names if name.endswith(BASE_UNITS)
    }


def test_a_number_is_written_so_that_it_comes_back_as_it_was():
    odd = {"gauge": 'a "quoted\\name"\nand a line'}
    values = (0.1 + 0.2, 1e-7, 12345678901.0, 3.0)
    of = MetricFamily(
        "headsweep_x", "gauge", said("metric-age"), tuple((odd | {"n": str(v)}, v) for v in values)
    )
    (back,) = text_string_to_metric_families(exposition([of], en))
    assert [each.value for each in back.samples] == [*values]
    assert {each.labels["gauge"] for each in back.samples} == {odd["gauge"]}
    assert exposition([MetricFamily("headsweep_x", "gauge", said("metric-age"), ())], en) == ""


def test_the_readme_shows_what_is_served(answer):
    """Its example line by line but for values and whose they are; and every name is told there."""
    readme = (ROOT / "README.md").read_text("utf-8")
    (example,) = re.findall(r"```text\n(# HELP .*?)```", readme, re.DOTALL)
    served = {re.sub(r'"[^"]*"|\S+$', "", line) for line in answer.text.splitlines()}
    assert {re.sub(r'"[^"]*"|\S+$', "", line) for line in example.splitlines()} <= served
    assert [*text_string_to_metric_families(example)]
    names = re.findall(r"^# TYPE (\S+)", answer.text, re.MULTILINE)
    short = [re.sub("^(headsweep|process)", "", name) for name in names]
    assert [
        n for n, s in zip(names, short, strict=True) if n not in readme and s not in readme
    ] == []


def test_until_a_shop_asks_for_it_there_is_none_and_a_foreign_host_is_refused(hub, inbox, metrics):
    off = create_app(hub, inbox).test_client().get("/metrics")
    assert off.status_code == 404 and "metrics = true" in off.json["reason"]
    on = create_app(hub, inbox, metrics=metrics).test_client()
    assert on.get("/metrics", headers={"Host": "example.org"}).status_code == 403
