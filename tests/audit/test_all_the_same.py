"""A verdict signed on a gauge or a date that something speaks against carries that, and why."""

from dataclasses import replace

import pytest

from daq.audit import events as e
from daq.audit.apply import apply
from daq.audit.codec import encode
from daq.audit.recompute import differences
from daq.words import said
from tests.audit.conftest import Bench, setup_of
from tests.words import en

DUE, TODAY = "2028-01-01", "2026-06-01"
WHO = {"done_by": "T"}
WHY = {"all_the_same": "no other gauge in the shop today"}
STEPPED = e.ClockStepped(1_780_315_200_000_000, 1_780_318_800_000_000)


class Dated(Bench):
    """A bench whose clock may be unsure, and whose ledger may hold rows of no audit."""

    def of_shop(self, data):
        kind, version, fields = encode(data)
        last = self.events[-1]
        cause = {"id": f"shop-{len(self.events)}", "kind": kind, "payload": {}}
        row = replace(
            last, seq=last.seq + 1, type=kind, v=version, data=fields, machine="", audit="",
            cause=cause, evidence=(),
        )  # fmt: skip
        self.events.append(row)
        self.shop = apply(self.shop, row)

    def stamp(self):
        return replace(super().stamp(), utc_trusted=self.sure)


def checked(passed, serial="P-1"):
    return e.GaugeChecked(
        "arm", serial, "", TODAY, 0.004, (), 0.006, None, None, passed, said("gauge-checked")
    )


def at_sign(sure=True, **papers):
    setup = setup_of()
    b = Dated(replace(setup, gauge=replace(setup.gauge, **papers)))
    b.sure = sure
    b.start()
    b.sweep(0.5, 0.5, 0.5, 0.5)
    b.do("cleared")
    assert b.job.step == "sign"
    return b


def asked(b):
    button = next(each for each in b.console["actions"] if each["kind"] == "sign")
    return {field["name"]: field["say"] for field in button["fields"]}


def agrees(b):
    return list(differences(b.events, b.chunks.__getitem__)) == []


def test_nothing_is_asked_of_a_good_gauge_by_a_sure_clock():
    b = at_sign()
    assert "all_the_same" not in asked(b)
    (signed,) = b.do("sign", WHO | WHY)
    assert (signed.against, signed.all_the_same) == ((), "")


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"calibration_due": "2026-05-31"}, "calibration-overdue"),
        ({"calibrated_on": "2026-06-02"}, "calibrated-ahead"),
        ({"checked_on": "2026-05-04", "check_passed": False}, "check-was-failed"),
        ({"sure": False}, "due-not-judged"),
        ({"sure": False, "calibration_due": "2026-05-31"}, "calibration-overdue"),
    ],
)
def test_each_of_them_asks_a_reason_and_the_verdict_carries_both(given, code):
    b = at_sign(**given)
    assert "Arm gauge (P-1)" in asked(b)["all_the_same"]
    said = b.refused("sign", WHO)
    assert said.code == b.refused("sign", WHO | {"all_the_same": "  "}).code == "no-reason-to-sign"
    assert "Arm gauge (P-1)" in en(said)
    (signed,) = b.do("sign", WHO | WHY)
    assert [fact.code for fact in signed.against] == [code]
    assert signed.all_the_same == WHY["all_the_same"]
    assert WHY["all_the_same"] in " ".join(b.console["notes"])
    assert agrees(b)


@pytest.mark.parametrize("papers", [{"calibration_due": TODAY}, {"calibrated_on": TODAY}])
def test_the_last_day_is_good(papers):
    assert "all_the_same" not in asked(at_sign(**papers))


def test_the_latest_check_counts_whether_it_was_before_the_audit_or_meanwhile():
    b = at_sign(checked_on="2026-05-04", check_passed=False)
    b.of_shop(checked(True))
    assert "all_the_same" not in asked(b)
    b.of_shop(checked(False, serial="OTHER"))
    assert "2026-05-04" in asked(b)["all_the_same"]  # of another gauge: it says nothing
    b.of_shop(checked(False))
    assert TODAY in asked(b)["all_the_same"]
    assert b.refused("sign", WHO).code == "no-reason-to-sign"
    (signed,) = b.do("sign", WHO | WHY)
    assert [fact.code for fact in signed.against] == ["check-was-failed"]
    assert agrees(b)


def test_a_clock_set_meanwhile_is_told_with_both_its_times():
    b = at_sign()
    b.of_shop(STEPPED)
    assert "from 2026-06-01 12:00:00 to 2026-06-01 13:00:00" in asked(b)["all_the_same"]
    (signed,) = b.do("sign", WHO | WHY)
    assert [fact.code for fact in signed.against] == ["clock-set-meanwhile"]
    assert agrees(b)
    b.start()
    b.sweep(0.5, 0.5, 0.5, 0.5)
    b.do("cleared")
    assert "all_the_same" not in asked(b)  # that was before this audit


def test_a_signature_that_left_out_what_speaks_against_it_differs():
    b = at_sign(calibration_due="2026-05-31")
    b.do("sign", WHO | WHY)
    last = b.events[-1]
    b.events[-1] = replace(last, data={**last.data, "against": []})
    (difference,) = differences(b.events, b.chunks.__getitem__)
    assert difference.seq == last.seq


def test_a_verdict_says_what_it_is_of_and_by_which_rule():
    b = at_sign()
    (signed,) = b.do("sign", WHO)
    assert signed.rule == b.setup.machine.verdict
    told = " ".join(b.console["stands"])
    assert "the spindle's axis against what the ring stands on, over this circle (Ø 200" in told
    assert "Arm gauge (P-1)" in told and "Probability of conformity: Side to side" in told
    assert "Rule: Guarded: 95 % sure" in told
