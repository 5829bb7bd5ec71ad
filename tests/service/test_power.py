"""When the Pi powers off: every second is counted by a clock that the test turns.

A supply that flaps neither ends the Pi nor strands it with an empty store; it is scripted as on
the mains (+), on its store (-) and silent (?), each for so many seconds.
"""

import os
import signal
import threading

import pytest

from daq.cli import main
from daq.service import powers_off
from daq.service.power import Power, PowerOptions
from daq.service.wiring import Turned, Wiring
from daq.settings import SettingsError, build
from daq.words import said
from tests import pinchip
from tests.patience import until
from tests.service.console import MILL, Console
from tests.words import en, faults

BUTTON, MAINS = 3, 27
BOTH = PowerOptions(button=BUTTON, mains_gone=MAINS)
S = 10**9
TICK_NS = 50_000_000


class Supply:
    """A supply and a button, and what the Pi does meanwhile."""

    def __init__(self, options=BOTH, comes_off=True):
        self.now_ns = 100 * S
        self.options, self.comes_off = options, comes_off
        self.begun = []
        self.told = []
        self.power = Power(options, self.off, lambda what, at_ns: self.told.append((what, at_ns)))
        self.reached = False

    @property
    def now_s(self):
        return (self.now_ns - 100 * S) / S

    def off(self):
        self.begun.append(self.now_s)
        return self.comes_off

    def says(self, mains):
        """The signal's level: closed to ground while there is mains."""
        if mains == "?":
            self.reached = False
            self.power.unreached(said("pins-no-chip", chip="none"))
        elif self.reached:
            self.power.turned(Turned(MAINS, mains == "+", self.now_ns))
        else:
            self.reached = True
            self.power.reached({MAINS: mains == "+", BUTTON: False}, self.now_ns)

    def button(self, closed):
        self.power.turned(Turned(BUTTON, closed, self.now_ns))

    def passes(self, seconds, looks=True):
        """Time passes; whoever waits looks when it is due, and now and then besides."""
        end_ns = self.now_ns + round(seconds * S)
        while self.now_ns < end_ns:
            due_ns = self.power.due_ns
            soon = [end_ns, self.now_ns + TICK_NS, *([] if due_ns is None else [due_ns])]
            self.now_ns = max(self.now_ns, min(soon))
            if looks and self.reached:
                self.power.look(self.now_ns)

    def script(self, text):
        """Such as "+10 -0.5 +3": what the supply says, and for how long."""
        for part in text.split():
            self.says(part[0])
            self.passes(float(part[1:]))
        return self.begun


@pytest.mark.parametrize(
    ("script", "begun"),
    [
        ("+10 -0.5 +60", []),  # a bounce
        ("+10 -4.9 +60", []),  # it comes back in time
        ("+10 -60", [15.0]),  # it does not
        ("+10 " + "-0.5 +0.5 " * 60, []),  # flapping half of the time ends no Pi
        ("+10 " + "-4.5 +0.1 " * 60, [15.2]),  # hardly ever back does
        ("+10 -4 +4 -4 +4 -4 +4", []),  # what the store lost it gets back
        ("+10 -4 +1 -4", [17.0]),  # but no sooner
        ("+10 ?60", []),  # silence is told and not acted on
        ("+10 -4 ?60", []),  # be it in the middle
        ("+10 -4 ?1 -60", [20.0]),  # what was missed is not counted
        ("+10 -4 ?1 +60", []),
        ("?5 +10 -60", [20.0]),
        ("-60", []),  # stuck, or not plugged in: the Pi stays on
        ("-60 ?5 -60", []),
        ("-60 +1 -60", [66.0]),  # now it is known to tell
        ("+10 -60 +60 -60", [15.0]),  # once begun it is not begun again
        ("+10 -60 ?5 +5 -60", [15.0]),
    ],
)
def test_a_flapping_supply_neither_ends_the_pi_nor_strands_it(script, begun):
    assert Supply().script(script) == pytest.approx(begun)


def test_after_is_the_shops_to_choose():
    options = PowerOptions(mains_gone=MAINS, after=60.0)
    assert Supply(options).script("+1 -59.9 +9") == []
    assert Supply(options).script("+1 -90") == pytest.approx([61.0])


def test_a_late_look_changes_nothing():
    """What the kernel stamps counts, not when this program came to look."""
    supply = Supply()
    supply.script("+10")
    supply.says("-")
    supply.passes(0.5, looks=False)
    supply.says("+")
    supply.passes(30, looks=False)
    supply.says("-")
    supply.passes(4.9)
    assert supply.begun == []
    supply.passes(0.1)
    assert supply.begun == pytest.approx([45.5])


@pytest.mark.parametrize(("held_s", "begun"), [(0.99, 0), (1.0, 1), (5.0, 1)])
def test_the_button_is_held_for_a_second(held_s, begun):
    supply = Supply()
    supply.script("+10")
    supply.button(True)
    supply.passes(held_s)
    supply.button(False)
    supply.passes(5)
    assert supply.begun == ([11.0] if begun else [])


def test_a_button_that_is_closed_from_the_first_or_was_not_seen_to_open_is_not_held():
    supply = Supply(PowerOptions(button=BUTTON))
    supply.power.reached({BUTTON: True}, supply.now_ns)
    supply.passes(5)
    supply.button(True)
    supply.power.unreached(said("pins-no-chip", chip="none"))
    supply.power.reached({BUTTON: True}, supply.now_ns)
    supply.passes(5)
    assert supply.begun == []


def test_what_does_not_come_off_is_told_again_and_tried_again():
    supply = Supply(comes_off=False)
    assert supply.script("+10 -14") == pytest.approx([15.0, 20.0])
    supply.comes_off = True
    supply.passes(20)
    assert len(supply.begun) == 3


def test_what_is_told_and_when_it_ends():
    supply = Supply()
    supply.script("-5 +5 -2 +1 -2 ?1 +1 -9")
    codes = [(None if what is None else what.code, at_ns) for what, at_ns in supply.told]
    starts = [(None if code is None else code, at and (at - 100 * S) / S) for code, at in codes]
    assert starts == [
        ("mains-gone-from-first", None),
        (None, None),
        ("mains-gone", 15.0),
        (None, None),
        ("mains-gone", 17.0),
        ("power-not-watched", None),
        (None, None),
        ("mains-gone", 22.0),
        ("off-by-mains", 22.0),
    ]
    assert en(supply.told[-1][0]) == "The mains was gone for 5 s: the Pi powers off."


@pytest.mark.parametrize(
    ("mains_gone_is", "closes_to", "gone_when_closed"),
    [("open", "ground", False), ("ground", "ground", True), ("3.3 V", "3.3 V", True)],
)
def test_what_the_signal_joins_its_pin_to(mains_gone_is, closes_to, gone_when_closed):
    options = PowerOptions(mains_gone=MAINS, mains_gone_is=mains_gone_is)
    assert options.wiring == Wiring({MAINS: closes_to})
    assert options.gone(True) is gone_when_closed
    assert options.gone(False) is not gone_when_closed


@pytest.mark.parametrize(
    ("table", "told"),
    [
        ({"button": 3, "mains_gone": 3}, "found pin 3 twice; allowed: a pin for each"),
        ({"button": 28}, "button: found 28; allowed: at least 0 and at most 27"),
        ({"after": "0.5 s"}, "after: found 0.5 s; allowed: at least 1 s and at most 600 s"),
        (
            {"mains_gone_is": "high"},
            'mains_gone_is: found "high"; allowed: one of "open", "ground", "3.3 V"',
        ),
    ],
)
def test_mistakes_are_told(table, told):
    with pytest.raises(SettingsError) as error:
        build(PowerOptions, table, "shop.toml", under="power")
    assert told in "\n".join(faults(error.value))


def shop_of(folder, text):
    (folder / "shop.toml").write_text(text, encoding="utf-8")
    return ["power", "--config", str(folder)]


@pytest.fixture
def chip(tmp_path):
    (tmp_path / "dev").mkdir()
    with pinchip.kernel(tmp_path / "dev") as kernel:
        yield kernel.chip()


@pytest.mark.parametrize("comes_off", [True, False])
def test_the_command_tells_the_service_manager_once(tmp_path, chip, monkeypatch, capsys, comes_off):
    manager = tmp_path / "systemctl"
    manager.write_text(f'#!/bin/sh\necho "$@" >>{tmp_path}/told\nexit {int(not comes_off)}\n')
    manager.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:{os.environ['PATH']}")
    monkeypatch.setattr("daq.service.power.HELD_NS", 10_000_000)
    monkeypatch.setattr("daq.service.powering.FOLDER", tmp_path)
    chip.drive(MAINS, 0)

    def hands():
        chip.until_held(BUTTON)
        chip.drive(BUTTON, 0)
        until((tmp_path / "told").exists)
        chip.drive(BUTTON, None)
        os.kill(os.getpid(), signal.SIGTERM)

    thread = threading.Thread(target=hands)
    thread.start()
    # What else is wrong in the file is the service's to tell.
    asked = shop_of(tmp_path, f"nmae = 1\n[power]\nbutton = {BUTTON}\nmains_gone = {MAINS}\n")
    assert main(asked) == 0
    thread.join()
    assert (tmp_path / "told").read_text() == "poweroff\n"
    printed = capsys.readouterr().out.splitlines()
    assert printed[0] == "The button was held: the Pi powers off."
    assert comes_off == (len(printed) == 1)
    assert comes_off or printed[1].startswith("It cannot be powered off: ")
    assert chip.requests == []
    assert (tmp_path / powers_off.NAME).exists() is comes_off


def test_every_screen_says_how_long_the_pi_still_runs(tmp_path, monkeypatch, clock):
    monkeypatch.setattr(powers_off, "FOLDER", tmp_path)
    with Console(clock) as console:
        screens = powers_off.PowersOff(console.hub, clock.mono_ns)

        def said_after(seconds):
            clock.ns += round(seconds * S)
            screens.look()
            return [en(fault["say"]) for fault in console.hub.snapshot(MILL).faults]

        assert said_after(0) == []
        powers_off.leave_word(tmp_path, clock.ns + 5 * S)
        assert said_after(0.9) == ["The mains is gone: the Pi powers off in 5 s."]
        assert said_after(0.2) == ["The mains is gone: the Pi powers off in 4 s."]
        assert said_after(3.9) == ["The Pi powers off."]
        powers_off.leave_word(tmp_path, None)
        assert said_after(0) == [], "the mains came back"
        powers_off.leave_word(tmp_path, clock.ns - 60 * S)
        assert said_after(0) == [], "it did not come off"
        (tmp_path / powers_off.NAME).write_text("no number")
        assert said_after(0) == []


def test_without_pins_there_is_nothing_to_watch(tmp_path, capsys):
    assert main(shop_of(tmp_path, 'name = "Shop"\n')) == 0
    assert capsys.readouterr().out.startswith("shop.toml names no pin under [power]")


def test_a_mistake_of_its_own_ends_it(tmp_path, capsys):
    assert main(shop_of(tmp_path, "power = 3\n")) == 2
    assert "power: found 3" in capsys.readouterr().err
