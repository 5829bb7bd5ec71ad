"""Which of several full sweeps shows how a head is found and left; what a signature lists."""

from tests.audit import pupil
from tests.audit.conftest import Bench, setup_of
from tests.words import en

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
    assert [(each.number, each.words.nod, each.as_left) for each in finals] == [
        (2, "out", True),
        (3, "out", False),
        (4, "in", False),
    ]
    assert [each.why for each in finals] == ["", "the ring was not wiped", "the arm was loose"]
    assert signed.as_found.nod.word == "out"
    assert (signed.as_left.nod.word, signed.verdict) == ("out", "does-not-conform")


def test_another_final_sweep_decides_only_with_a_reason():
    b = proved_three_times(audit())
    said = b.refused("sign", {"done_by": "T", **PAST, "as_left": 4})
    assert en(said) == (
        "as_left_why: found nothing; allowed: why sweep 4 counts and not the first after the last "
        "tightening, which is sweep 2"
    )
    blank = {"done_by": "T", **PAST, "as_left": 4, "as_left_why": "  "}
    assert b.refused("sign", blank) == said
    said = b.refused("sign", {"done_by": "T", **PAST, "as_left": 1, "as_left_why": "better"})
    assert (said.code, said.of["allowed"]) == ("no-such-sweep", "2, 3, 4")
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
    said = b.refused("sign", {"done_by": "T", **PAST, "as_left": 1, "as_left_why": "better"})
    assert (said.code, said.of["allowed"]) == ("no-such-sweep", "2, 3, 4")
    b.do("again", {"why": "not sure"})
    b.prepare()
    b.sweep(**OUT)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.200] * 10)
    b.do("tightened")
    b.take("front", 1.160)
    b.take("back", 1.160)
    assert b.job.step == "final" and b.job.sweeps.proofs == ()
    b.sweep(**IN)
    b.do("cleared")
    said = b.refused("sign", {"done_by": "T", **PAST, "as_left": 4, "as_left_why": "it was in"})
    assert en(said) == "as_left: found 4; allowed: 6"


def test_no_sweep_is_begun_while_bolts_are_loose():
    """So none of those since the last loosening was taken before the tightening."""
    b = Bench(pupil.setup())
    m = pupil.audit(b, pupil.head_at(0.3, -0.5)).work("loosen")
    loose = set()
    while b.job.step != "final":
        m.step()
        if b.job.loose:
            loose.add(b.job.step)
            for kind in ("again", "stop-here"):
                b.refused(kind, {"why": "not sure"})
    assert loose == {"move", "check", "park", "tighten"}
    b.do("again", {"why": "not sure"})


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


CLOSE = {"front": 1.168, "right": 1.160, "back": 1.152, "left": 1.160}


def found_three_times(b, first=OUT, second=IN, third=IN):
    """Three sweeps of the head as it was found, nothing loosened; ready to sign."""
    b.start()
    b.sweep(**first)
    for why, values in (("the ring was not wiped", second), ("the arm was loose", third)):
        b.do("again", {"why": why})
        b.sweep(**values)
    b.do("cleared")
    return b


def signed_of(b, **more):
    b.do("sign", {"done_by": "T", **PAST, **more})
    return b.shop.machine("mill").last.signed


def flags(signed):
    return [(each.number, each.as_found, each.as_left) for each in signed.sweeps]


def test_of_three_sweeps_as_found_the_first_is_signed_for():
    b = found_three_times(audit())
    assert b.job.sweeps.as_found == b.job.sweeps.as_left == b.job.sweeps.done[0]
    signed = signed_of(b)
    assert flags(signed) == [(1, True, True), (2, False, False), (3, False, False)]
    assert signed.as_found == signed.as_left and signed.as_found.nod.word == "out"
    assert (signed.verdict, signed.as_found_why) == ("does-not-conform", "")


def test_sweeping_again_until_it_is_in_does_not_take_the_question_about_past_work_away():
    b = found_three_times(audit())
    assert b.refused("sign", {"done_by": "T"}).code == "last-good-no-date"
    chosen = {"as_found": 3, "as_found_why": "the arm was loose"}
    assert b.refused("sign", {"done_by": "T", **chosen}).code == "last-good-no-date"


def test_a_later_sweep_as_found_that_is_out_asks_for_past_work_too():
    b = found_three_times(audit(), first=CLOSE, second=OUT)
    assert b.job.sweeps.as_found.results.nod.word != "out"
    assert b.refused("sign", {"done_by": "T"}).code == "last-good-no-date"


def test_sweeps_as_found_that_are_all_in_ask_nothing():
    b = found_three_times(audit(), first=IN)
    b.do("sign", {"done_by": "T"})
    assert b.shop.machine("mill").last.signed.verdict == "conforms"


def test_another_sweep_as_found_counts_only_with_a_reason():
    b = found_three_times(audit())
    said = b.refused("sign", {"done_by": "T", **PAST, "as_found": 3})
    assert en(said) == (
        "as_found_why: found nothing; allowed: why sweep 3 counts and not the first before "
        "anything was loosened, which is sweep 1"
    )
    blank = {"done_by": "T", **PAST, "as_found": 3, "as_found_why": " "}
    assert b.refused("sign", blank) == said
    said = b.refused("sign", {"done_by": "T", **PAST, "as_found": 4, "as_found_why": "better"})
    assert en(said) == "as_found: found 4; allowed: 1, 2, 3"


def test_with_nothing_loosened_one_choice_is_for_both():
    for chosen in (
        {"as_found": 3, "as_found_why": "chip"},
        {"as_left": "3", "as_left_why": "chip"},
        {"as_found": "3", "as_found_why": "chip", "as_left": 3},
    ):
        signed = signed_of(found_three_times(audit()), **chosen)
        assert flags(signed) == [(1, False, False), (2, False, False), (3, True, True)]
        assert (signed.as_found_why, signed.as_left_why) == ("chip", "chip")
        assert signed.as_found == signed.as_left


def test_with_nothing_loosened_the_record_cannot_contradict_itself():
    b = found_three_times(audit())
    both = {"as_found": 3, "as_found_why": "chip", "as_left": 1}
    said = b.refused("sign", {"done_by": "T", **PAST, **both})
    assert en(said).startswith("as_left: found 1; allowed: 3, because nothing was loosened")


def test_a_sweep_after_the_bolts_were_loosened_is_no_choice_of_as_found():
    b = proved_three_times(audit())
    said = b.refused("sign", {"done_by": "T", **PAST, "as_found": 4, "as_found_why": "better"})
    assert en(said) == "as_found: found 4; allowed: 1"
    assert flags(signed_of(b)) == [
        (1, True, False),
        (2, False, True),
        (3, False, False),
        (4, False, False),
    ]


def test_a_sweep_with_the_ring_turned_completes_the_first_as_found():
    b = audit().start()
    b.sweep(**OUT)
    b.do("again", {"turned": "ring"})
    b.sweep(**{**OUT, "front": 1.204, "back": 1.116})
    assert b.job.sweeps.as_found.number == 2 and b.job.sweeps.as_found.turned == "ring"
    b.do("again", {"why": "not sure"})
    b.sweep(**IN)
    b.do("again", {"turned": "ring"})
    b.sweep(**IN)
    assert (b.job.sweeps.as_found.number, b.job.sweeps.as_left.number) == (2, 2)
