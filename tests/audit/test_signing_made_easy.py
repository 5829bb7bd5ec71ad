"""What a signature asks is proposed from the record: who, since when, what becomes of the work."""

from dataclasses import replace
from datetime import date

import pytest

from daq.audit import seal
from daq.audit.apply import fold
from daq.audit.history import LastGood
from daq.audit.shop_papers import ShopPapers, Tool
from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import changed
from tests.cards import READY
from tests.words import en

OUT = (1.2, 1.1, 1.0, 1.1)
"""The front is low by 0.2 mm; at the front, right, back, left."""
IN = (1.0, 1.0, 1.0, 1.0)
DAY_US = 86_400_000_000


class Dated(Bench):
    """A bench whose clock goes on by days, and may be unsure."""

    days, sure = 0, True

    def stamp(self):
        found = super().stamp()
        return replace(found, utc_us=found.utc_us + self.days * DAY_US, utc_trusted=self.sure)


def at_sign(b, reads=IN, reason="scheduled"):
    """Nothing is loosened: found and left as it reads."""
    b.start(reason=reason)
    b.sweep(*reads)
    if b.job.step != "clear":
        b.do("stop-here", {"why": "no time today"})
    b.do("cleared")
    return b


def fields(b, kind="sign"):
    button = next(each for each in b.console["actions"] if each["kind"] == kind)
    return {each["name"]: each for each in button["fields"]}


def sign(b, done_by="Ann", **more):
    b.do("sign", {"done_by": done_by, **more})
    return b


PAST = {"last_good": "2026-01-05", "disposition": "none"}


def test_of_a_machine_nobody_knows_nothing_is_proposed():
    asked = fields(at_sign(Dated(setup_of()), OUT))
    assert [asked[name]["suggests"] for name in ("done_by", "reviewed_by")] == [[], []]
    assert (asked["last_good"]["value"], asked["last_good"]["note"]) == ("", "")
    assert asked["disposition"]["suggests"] == list(ShopPapers().dispositions)


def test_the_last_audit_that_left_it_good_is_proposed_with_its_reason():
    b = sign(at_sign(Dated(setup_of())))
    short = b.state.last.short
    b.days = 3
    sign(at_sign(b, OUT), **PAST)  # left out: good no more, and not since then
    b.days = 9
    sign(at_sign(b, IN, reason="practice"))  # practice says nothing of the machine
    asked = fields(at_sign(b, OUT))
    assert asked["last_good"]["value"] == "2026-06-01"
    told = f"From the record: audit {short} left it in tolerance that day."
    assert asked["last_good"]["note"] == told
    assert b.job.meanwhile.good == LastGood(short, "2026-06-01", True)
    sign(b, last_good="2026-05-20", disposition="in words of my own")  # changeable
    assert b.state.last.signed.last_good == "2026-05-20"


def test_a_day_by_a_clock_nobody_had_set_says_so():
    b = Dated(setup_of())
    b.sure = False
    sign(at_sign(b))
    note = fields(at_sign(b, OUT))["last_good"]["note"]
    assert note.endswith("that day, by a clock that nobody had set.")


def test_those_who_signed_here_are_proposed_the_latest_first():
    b = sign(at_sign(Dated(setup_of())), "Ann", reviewed_by="Bea")
    at_sign(b)
    b.do("hand-over", {"left_by": "Ann", "taken_by": "Cy"})
    assert fields(b, "hand-over")["taken_by"]["suggests"] == ["Cy", "Ann", "Bea"]
    sign(b, "Bea")
    assert fields(b, "add-to-signed")["done_by"]["suggests"] == ["Bea", "Cy", "Ann"]
    added = {"audit": b.state.last.id, "kind": "other", "text": "x", "done_by": "Dee"}
    b.do("add-to-signed", added)
    assert fields(at_sign(b))["done_by"]["suggests"] == ["Dee", "Bea", "Cy", "Ann"]
    for nth in range(9):
        sign(b, f"P{nth}")
        at_sign(b)
    assert fields(b)["done_by"]["suggests"] == [f"P{nth}" for nth in range(8, 0, -1)]
    what = seal.decode(seal.encode(seal.sealed(b.shop)))
    rows = lambda audit: (event for event in b.events if event.audit == audit)  # noqa: E731
    assert seal.restored(what, b.events[-1].seq, rows) == b.shop == fold(b.events)


def test_the_choices_are_those_of_the_files_the_audit_was_opened_with():
    setup = setup_of()
    tools = (Tool("wrench", "7"), Tool("thermometer", "3"), Tool("wrench", "8"))
    shop = ShopPapers(dispositions=("Held", "Sent back"))
    b = Dated(replace(setup, shop=shop, tools=tools))
    b.open("scheduled")
    card = fields(b, "readied")
    assert (card["wrench"]["suggests"], card["thermometer"]["suggests"]) == (["7", "8"], ["3"])
    b.setup = changed(setup, machine={"thermometer": "9"}, nod={"tighten": Tighten(wrench="8")})
    b.abandon("to begin anew")
    b.setup = replace(b.setup, tools=tools)
    b.open("scheduled")
    card = fields(b, "readied")
    assert (card["wrench"]["suggests"], card["thermometer"]["suggests"]) == (["8", "7"], ["9", "3"])
    b = at_sign(Dated(replace(setup, shop=shop)), OUT)
    assert fields(b)["disposition"]["suggests"] == ["Held", "Sent back"]


@pytest.mark.parametrize(("due", "overdue"), [("2026-06-01", False), ("2026-05-31", True)])
def test_a_tool_that_was_overdue_that_day_is_told_to_whoever_signs(due, overdue):
    """The last day on which it is due is a good one, as of a gauge."""
    tools = (Tool("wrench", "7", due=date.fromisoformat(due)),)
    b = Dated(replace(setup_of(), tools=tools))
    b.open("scheduled")
    b.do("readied", {"wrench": "7", **READY})
    b.prepare()
    b.sweep(*IN)
    b.do("cleared")
    told = f"Torque wrench 7 is overdue: its calibration was good until {due}."
    assert (told in b.console["notes"]) == overdue


@pytest.mark.parametrize(
    "typed", ["31.03.2026", "03/31/2026", "20260331", "2026-W14-2", "2026-02-30", "٢٠٢٦-٠٣-٣١", "x"]
)
def test_a_day_is_year_first_whatever_the_browser_speaks(typed):
    """ISO 8601's calendar date in its extended form, and no other."""
    b = at_sign(Dated(setup_of()), OUT)
    why = b.refused("sign", {"done_by": "T", **PAST, "last_good": typed})
    assert why.code == "last-good-no-date" and "year first, such as 2026-03-31" in en(why)


def test_a_day_still_to_come_is_refused_by_a_clock_that_is_sure_alone():
    b = at_sign(Dated(setup_of()), OUT)
    ahead = {"done_by": "T", **PAST, "last_good": "2026-06-02"}
    assert b.refused("sign", ahead).code == "last-good-ahead"
    behind = Dated(setup_of())
    behind.sure = False  # no time server reached: it may be any day
    sign(at_sign(behind, OUT), **ahead)
    assert behind.state.last.signed.last_good == "2026-06-02"
