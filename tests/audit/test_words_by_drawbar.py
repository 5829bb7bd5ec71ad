"""What takes the arm out is told as the machine's drawbar works: no wrench on one without."""

import json

import pytest

from tests.audit.conftest import Bench
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.shapes import machine
from tests.audit.stations import GOOD, offering, opened, read

WRENCH, BY_POWER = "wrench off the drawbar", ("drawbar empty", "by its drawbar")


def told(b: Bench) -> str:
    """Every word of the console, its buttons and their boxes among them."""
    return json.dumps(b.console).casefold()


def ways_out(b: Bench) -> list[str]:
    """What stands there, and what does once it is given up, or put aside and left either way."""
    kept, said = b.shop, [told(b)]
    for presses in (
        [("abandon", {"why": "w", "left": "as-is"})],
        [("put-aside", {"why": "w"}), ("rest", {"left": "as-is"}), ("rest", {"left": "safe"})],
    ):
        b.shop = kept
        for kind, payload in presses:
            if kind == "rest" and b.job.step not in ("put-aside", "unsafe"):
                continue
            b.do(kind, payload)
            said.append(told(b))
    b.shop = kept
    return said


def walk(drawbar: str) -> list[str]:
    m = Machinist(
        Bench(changed(machine(), machine={"drawbar": drawbar})), RigidHead(mill(), 0.2, -0.3)
    )
    m.bench.do("open", {"reason": "scheduled"})
    said, seen = [], set()
    while m.bench.job is not None:
        if m.bench.job.step not in seen:
            seen.add(m.bench.job.step)
            said += ways_out(m.bench)
        m.step()
    return said


def check(drawbar: str, kind: str) -> list[str]:
    b = opened(Bench(changed(offering(), machine={"drawbar": drawbar})), kind)
    said = ways_out(b)
    read(b, GOOD[kind])
    assert b.job.step == "clear"
    return said + ways_out(b)


@pytest.mark.parametrize("kind", ["", *GOOD])
@pytest.mark.parametrize("drawbar", ["hand", "power"])
def test_every_way_the_arm_comes_out_is_told_in_the_words_of_the_drawbar(drawbar, kind):
    said = check(drawbar, kind) if kind else walk(drawbar)
    by_hand = [text for text in said if WRENCH in text]
    by_power = [text for text in said if any(words in text for words in BY_POWER)]
    assert (bool(by_hand), bool(by_power)) == (drawbar == "hand", drawbar == "power")


def test_put_aside_a_power_drawbar_is_given_power_with_hands_clear_and_nothing_started():
    b = opened(Bench(changed(offering(), machine={"drawbar": "power"})), "runout")
    b.do("put-aside", {"why": "w"})
    cautions = " ".join(b.console["cautions"])
    assert "for the drawbar alone" in cautions and "Nobody starts the spindle" in cautions
