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
HOUR_US, DAY_US = 3_600_000_000, 86_400_000_000
NOON_US = 1_780_315_200_000_000
"""Of that day, UTC."""


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


def at_sign(sure=True, reason="scheduled", **papers):
    setup = setup_of()
    b = Dated(replace(setup, gauge=replace(setup.gauge, **papers)))
    b.sure = sure
    b.start(reason=reason)
    b.sweep(0.5, 0.5, 0.5, 0.5)
    b.do("cleared")
    assert b.job.step == "sign"
    return b


def asked(b):
    button = next(each for each in b.console["actions"] if each["kind"] == "sign")
    fields = {field["name"]: field["say"] for field in button["fields"]}
    assert bool(button["confirm"]) == ("all_the_same" in fields)
    return fields | {key: button["confirm"] for key in fields if key == "all_the_same"}


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


def test_a_clock_that_nobody_is_sure_of_is_noted_and_asks_nothing():
    b = at_sign(sure=False)
    assert "all_the_same" not in asked(b)
    assert "the day it says, 2026-06-01" in " ".join(b.console["stands"])
    (signed,) = b.do("sign", WHO)
    assert [fact.code for fact in signed.noted] == ["clock-not-sure"]
    assert (signed.against, signed.all_the_same) == ((), "")
    assert "the day it says, 2026-06-01" in " ".join(b.console["stands"])
    assert agrees(b)


@pytest.mark.parametrize(
    ("papers", "by_us"),
    [
        ({"calibration_due": "2026-06-03"}, 3 * DAY_US),  # from overdue to good
        ({"calibration_due": "2026-06-03"}, 100 * DAY_US),
        ({"calibrated_on": "2026-05-20"}, -20 * DAY_US),  # from before it was calibrated
    ],
)
def test_a_clock_set_across_the_last_good_day_asks_a_reason_with_both_its_times(papers, by_us):
    b = at_sign(**papers)
    b.of_shop(e.ClockStepped(NOON_US + by_us, NOON_US))
    assert "to 2026-06-01 12:00:00 UTC" in asked(b)["all_the_same"]
    assert b.refused("sign", WHO).code == "no-reason-to-sign"
    (signed,) = b.do("sign", WHO | WHY)
    assert [fact.code for fact in signed.against] == ["clock-set-meanwhile"]
    assert agrees(b)
    b.start()
    b.sweep(0.5, 0.5, 0.5, 0.5)
    b.do("cleared")
    assert "all_the_same" not in asked(b)  # that was before this audit


@pytest.mark.parametrize("by_us", [HOUR_US, -HOUR_US, 40 * DAY_US])
def test_a_clock_set_where_no_gauge_is_judged_otherwise_is_noted(by_us):
    b = at_sign()
    b.of_shop(e.ClockStepped(NOON_US, NOON_US + by_us))
    assert "all_the_same" not in asked(b)
    assert "from 2026-06-01 12:00:00 to " in " ".join(b.console["stands"])
    (signed,) = b.do("sign", WHO)
    assert [fact.code for fact in signed.noted] == ["clock-set-meanwhile"]
    assert agrees(b)


def test_practice_asks_nothing_and_notes_nothing():
    b = at_sign(sure=False, reason="practice", calibration_due="2026-05-31")
    b.of_shop(checked(False))
    assert "all_the_same" not in asked(b)
    (signed,) = b.do("sign", WHO)
    assert (signed.against, signed.noted) == ((), ())


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
