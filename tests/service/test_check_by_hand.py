"""A check that is none of the head, through the service: from the shop's file to a sound ledger."""

from daq.audit.recompute import differences
from tests.service.rig import MILL, Rig
from tests.words import told

TRAVEL = """
[checks.travel]
axis = "x"
at = ["0 mm", "100 mm", "200 mm"]
slope = "0.05 mm/300 mm"
"""


def test_it_is_opened_read_and_signed_and_comes_out_the_same_again(tmp_path, config, clock, sample):
    path = config / "machines" / "practice-mill.toml"
    mill = path.read_text(encoding="utf-8").partition("\n[checks.")[0]
    path.write_text(mill + TRAVEL, encoding="utf-8")
    rig = Rig(tmp_path / "data", config, clock, sample)
    presses = iter(range(1000))

    def press(kind, payload=None, values=()):
        reply = rig.post(kind, payload, f"c{next(presses)}")
        rig.stream(values)
        ack = reply.result(0)
        assert ack.accepted, ack.reason
        return told(rig.hub.snapshot(MILL).pages["console"], rig.hub.people)

    press("open", {"reason": "scheduled", "check": "travel"})
    press("warmed", {"warm": True})
    press("prepared", {"serial_number": "P-0417"})
    press("take", {}, [-0.35] * 60)
    rig.stream([-0.35, 0.4, 1.0, 0.4, -0.35] * 4)
    shown = press("pushed", None, [-0.35] * 60)
    for value in (1.0, 1.004, 1.008, 1.0):
        (take,) = (a for a in shown["actions"] if a["primary"])
        shown = press(take["kind"], take["payload"], [value] * 60)
    assert shown["title"].startswith("Gauge and set-up out.")
    assert shown["axes"][0]["say"] == "Slope along X" and shown["axes"][0]["value"] == "0.008"
    press("cleared")
    shown = press("sign", {"done_by": "T"})
    assert shown["title"].startswith("Table along its travel: inside. Audit")
    assert shown["detail"] == "Done by T. Ready for the next one."
    assert list(differences(rig.ledger.events(), rig.ledger.chunk)) == []
    rig.decider.close("over")
