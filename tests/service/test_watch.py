from daq.service.watch import GaugeWatch
from daq.words import GaugeStatus


def status(code, run="r1"):
    return GaugeStatus("practice", code, f"it is {code}", run, 0, 0, 0)


def test_one_notice_when_lost_and_one_when_back():
    watch = GaugeWatch()
    assert watch.change(status("ok"), "mill") is None
    lost = watch.change(status("unplugged"), "mill")
    assert (lost.kind, lost.payload["code"]) == ("gauge-fault", "unplugged")
    assert watch.change(status("silent"), "mill") is None
    back = watch.change(status("ok", "r2"), "mill")
    assert (back.kind, dict(back.payload)) == ("gauge-back", {"run": "r2", "gauge": "practice"})
    assert watch.change(status("ok", "r2"), "mill") is None


def test_a_gauge_no_audit_depends_on_is_not_recorded():
    watch = GaugeWatch()
    watch.change(status("ok"), None)
    assert watch.change(status("unplugged"), None) is None
