"""Whatever is pressed, no screen says that a machine is free while it is not safe to run.

What is loose and where the arm is, is kept here by what hands do before they press, as the
buttons and cards say it; what the audit itself believes is not looked at.
"""

import pickle
from dataclasses import dataclass, field
from functools import cache

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from daq.words import AXES
from tests.audit.conftest import Bench
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.shapes import machine

STARTS = {
    "prepare": set(),
    "as-found": set(),
    "park": set(),
    "loosen": set(),
    "move": {"nod"},
    "check": {"nod"},
    "tighten": {"nod"},
    "final": set(),
    "clear": set(),
    "sign": set(),
}
"""Where a walk begins, and which bolts are loose there."""

FREE = ("idle", "signed", "aside", "sign")
"""Screens at which the machine may run, or its power be back."""
PRESSES = 20
UNARMED = ("prepare", "sign")
COMES_OUT = ("clear", "power", "arm-out-closer", "arm-out-shim")
"""Cards that say the arm comes out, or is to be out."""
ANSWERS = {"last_good": "2026-01-05"}
OF_SERVICE = ("zeroed", "unplugged", "restarted")


@dataclass
class Floor:
    """A person at a machine: the hands work first, then a button says so.

    `eager`: the hands do what a card says as soon as it is read, before anything is pressed.
    """

    m: Machinist
    eager: bool
    loose: set[str] = field(default_factory=set)
    arm: bool = False
    run: int = 1

    def reads(self, page) -> None:
        """What eager hands do when they read the card."""
        step = page["step"]
        if not self.eager:
            return
        # Whoever reads that the spindle is to be run warm leaves no arm in it.
        self.arm = step in ("prepare", "arm-back") or (self.arm and step not in COMES_OUT)
        if step == "loosen":
            self.loose.add(page["do"]["axis"])
        if step == "closer":
            self.loose |= set(AXES)

    def works(self, page, action, payload) -> None:
        """What the hands do before this button is pressed truthfully."""
        kind, said = action["kind"], f"{action['say']} {action['confirm'] or ''}".casefold()
        if kind in ("prepared", "arm-back"):
            self.arm = True
        if kind == "prepared" and payload.get("cracked"):
            self.loose |= {axis for axis in AXES if f"{axis} bolts" in said}
        if kind == "loosened":
            self.loose |= {axis for axis in AXES if f"{axis} bolts" in said}
        if kind in ("closer", "made-safe") or payload.get("left") == "safe":
            self.loose = set()
        if kind in ("cleared", "arm-out", "made-safe") or payload.get("left") == "safe":
            self.arm = False
        if kind == "tightened" and action["primary"]:
            said += page["title"].casefold()
        if kind not in ("abandon", "rest") and ("tight" in said):
            self.loose -= {axis for axis in AXES if f"{axis} bolts" in said}
        tight = f"{page['title']} {page['detail']}".casefold()
        swept = page["step"] in ("as-found", "final")
        if kind == "take" and (swept or "still tight" in tight):
            self.loose = set()
        if kind in ("take", "pushed"):
            self.arm = True

    def press(self, page, action, draw) -> None:
        payload = {**action["payload"], **self.fields(action, draw)}
        if action["primary"]:
            self.m.obedient.obey(page)
        elif payload.get("position"):
            self.m.place = payload["position"]
        before = (set(self.loose), self.arm)
        self.works(page, action, payload)
        if not self.m.press(action["kind"], payload).accepted:
            self.loose, self.arm = before[0] & self.loose, before[1] and self.arm

    def fields(self, action, draw):
        found = {}
        for each in action["fields"]:
            if each["type"] == "choice" and each["name"] == "arm":
                found["arm"] = "in" if self.arm else "out"
            elif each["type"] == "choice":
                found[each["name"]] = draw(st.sampled_from([c["key"] for c in each["choices"]]))
            elif each["required"]:
                found[each["name"]] = ANSWERS.get(each["name"], "x")
        return found

    def service(self, what: str) -> None:
        b, face = self.m.bench, self.m.shown()
        if what == "unplugged":
            self.run += 1
            self.tell("gauge-fault", {"code": "unplugged"})
            self.tell("gauge-back", {"run": f"run-{self.run}", "gauge": b.setup.gauge.key})
        elif what == "zeroed":
            self.tell("zeroed", {}, [face + 0.8] * 12 + [0.0] * 6)
        else:
            self.tell("restarted", {})

    def tell(self, kind, payload, values=()) -> None:
        if self.m.bench.job is not None:
            self.m.decisions.press(kind, payload, lambda: values)

    def check(self, shown) -> None:
        if shown["step"] in FREE:
            assert (self.loose, self.arm) == (set(), False), shown["title"]
        if shown["step"] == "unsafe":
            for axis in self.loose:
                assert f"{axis} bolts loose" in shown["title"].casefold()
            assert not self.arm or "arm in the spindle" in shown["title"]
        if self.arm and shown["step"] != "unsafe":
            assert "Arm" in (shown["arm"] or ""), shown["title"]


@cache
def at(step: str) -> Machinist:
    setup = changed(machine(), both={"limit": 0.01, "over": 200.0})
    m = Machinist(Bench(setup), RigidHead(mill(nod=(170.0, 0.01)), 0.21, -0.34))
    m.bench.do("open", {"reason": "scheduled"})
    m.work(step)
    if step == "as-found":
        m.step()
    return m


@pytest.mark.parametrize("eager", [False, True])
@pytest.mark.parametrize("step", STARTS)
def test_no_walk_of_presses_leads_to_a_machine_said_to_be_free_that_is_not(step, eager):
    began = pickle.dumps(at(step))  # five times as fast as a copy

    @settings(max_examples=10, deadline=None, derandomize=True, phases=[Phase.generate])
    @given(st.data())
    def walk(data):
        floor = Floor(pickle.loads(began), eager, set(STARTS[step]), step not in UNARMED)
        for _ in range(PRESSES):
            page = floor.m.bench.console
            floor.reads(page)
            floor.check(page)
            actions = page["actions"]
            primary = [action for action in actions if action["primary"]]
            pick = data.draw(st.sampled_from([*primary * 3, *actions, *OF_SERVICE]))
            if isinstance(pick, str):
                floor.service(pick)
            else:
                floor.press(page, pick, data.draw)
        page = floor.m.bench.console
        floor.reads(page)
        floor.check(page)

    walk()
