"""Which of several full sweeps shows how a head is left, and what a signature lists."""

from tests.audit.conftest import Bench, setup_of

PAST = {"last_good": "2026-01-05", "disposition": "none made since"}
OUT = {"front": 1.200, "right": 1.160, "back": 1.120, "left": 1.160}
IN = {"front": 1.161, "right": 1.160, "back": 1.160, "left": 1.161}


def audit():
    """A bench with limits of 0.025 over 300, the nod pivot 150 behind."""
    return Bench(setup_of(limit=0.025, height=400.0))


def proved_three_times(b):
    """As found out; nod squared and tight; then three sweeps of which only the third is in."""
    b.start()
    b.sweep(**OUT)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.200] * 10)
    b.do("stopped", {}, [1.100] * 10)
    b.do("tightened")
    b.take("front", 1.160)
    b.take("back", 1.160)
    b.sweep(**{**OUT, "front": 1.190, "back": 1.130})
    b.do("again", {"why": "the ring was not wiped"})
    b.sweep(**{**OUT, "front": 1.180, "back": 1.140})
    b.do("again", {"why": "the arm was loose"})
    b.sweep(**IN)
    b.do("cleared")
    return b


def test_of_three_final_sweeps_the_first_decides():
    b = proved_three_times(audit())
    b.do("sign", {"done_by": "T", **PAST})
    signed = b.shop.machine("mill").last.signed
    finals = [each for each in signed.sweeps if each.purpose == "final"]
    assert [(each.number, each.nod, each.as_left) for each in finals] == [
        (2, "out", True),
        (3, "out", False),
        (4, "in", False),
    ]
    assert [each.why for each in finals] == ["", "the ring was not wiped", "the arm was loose"]
    assert signed.as_found[1].word == "out"
    assert (signed.as_left[1].word, signed.verdict) == ("out", "does not conform")


def test_another_final_sweep_decides_only_with_a_reason():
    b = proved_three_times(audit())
    said = b.refused("sign", {"done_by": "T", **PAST, "as_left": 4})
    assert "as_left_why: found nothing" in said and "sweep 2" in said
    assert "as_left_why" in b.refused(
        "sign", {"done_by": "T", **PAST, "as_left": 4, "as_left_why": "  "}
    )
    assert "allowed: 2, 3, 4" in b.refused(
        "sign", {"done_by": "T", **PAST, "as_left": 1, "as_left_why": "better"}
    )
    b.do("sign", {"done_by": "T", **PAST, "as_left": 4, "as_left_why": "chip under the ring"})
    signed = b.shop.machine("mill").last.signed
    assert (signed.verdict, signed.as_left_why) == ("conforms", "chip under the ring")
    assert [each.number for each in signed.sweeps if each.as_left] == [4]
    assert len(signed.sweeps) == 4


def test_the_screen_offers_the_choice_with_the_first_standing_first():
    b = proved_three_times(audit())
    (field,) = [f for f in b.console["actions"][0]["fields"] if f["name"] == "as_left"]
    assert [(int(c["key"]), c["say"]) for c in field["choices"]] == [
        (2, "Sweep 2: out"),
        (3, "Sweep 3: out"),
        (4, "Sweep 4: in"),
    ]


def test_bolts_touched_again_make_the_earlier_proofs_void():
    b = proved_three_times(audit())
    assert "allowed: 2, 3, 4" in b.refused(
        "sign", {"done_by": "T", **PAST, "as_left": 1, "as_left_why": "better"}
    )
    b.do("again", {"why": "not sure"})
    b.sweep(**OUT)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.200] * 10)
    b.do("tightened")
    b.take("front", 1.160)
    b.take("back", 1.160)
    assert b.job.step == "final" and b.job.proofs == ()
    b.sweep(**IN)
    b.do("cleared")
    said = b.refused("sign", {"done_by": "T", **PAST, "as_left": 4, "as_left_why": "it was in"})
    assert said == "as_left: found 4; allowed: 6"


def test_a_sweep_that_was_not_usable_is_listed_and_never_as_left():
    b = audit().start()
    bad = b.sweep(**{**IN, "again": 1.190})
    assert not bad.usable
    b.sweep(**IN)
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    signed = b.shop.machine("mill").last.signed
    assert [(each.number, each.usable, each.as_left) for each in signed.sweeps] == [
        (1, False, False),
        (2, True, True),
    ]
