"""The figures of hardware/README.md, computed again; parts have the values the drawings show."""

import math
import re

from tests.house.conftest import ROOT

HARDWARE = ROOT / "hardware"
PREFIXES = {"": 1.0, "k": 1e3, "n": 1e-9, "µ": 1e-6}

SUPPLY_V = 3.3
LOW_V, HIGH_V = 0.8, 2.0
PULL_UP_LEAST, PULL_UP_MOST = 33e3, 73e3
PIN_F = 5e-12
"""Inputs of the Pi: its documentation's GPIO voltage specifications, the stricter of both tables;
the capacitance is told for one of them only."""
CABLE_F_M = 100e-12
COUPLED_F_M = 10e-12
DRIVE_V = 600.0
"""Common practice, no source: a cable's capacitance, what couples to a neighbour beside it, and the
step of a drive fed with 400 V."""
BASE_V, OFF_V, GAIN_LEAST, DIODE_V = 0.65, 0.5, 100, 0.7
"""A small silicon transistor and diode, from memory."""
GAUGE_OHM = 10e3
"""What a small gauge's output gives through: common practice, no source."""
LONGEST_LINE = "gauge ABCDEFGHIJKLMNOP -10485.75 mm 0042 A1B2\r\n"
PASSED_ON = 0.5
"""What a coupler passes on of its lamp's current, at least; from memory."""
RS232_V, RS232_RECEIVER = 5.0, (3e3, 5e3)
"""TIA-232, from memory: the least a driver gives into 3 kΩ; a receiver's least, and a usual one."""
COPPER = 1 / 58
"""Ω mm²/m at 20 °C: IEC 60028, from memory."""


def value(name, shown):
    """What a part of a drawing is worth, in Ω, F or V; it must be shown there."""
    svg = (HARDWARE / "drawings" / f"{name}.svg").read_text(encoding="utf-8")
    assert f">{shown}<" in svg, f"{name} shows no {shown}"
    number, unit = shown.split(" ")
    return float(number) * PREFIXES[unit[:-1]]


def to_high_s(ohms, farads):
    """How long a pulled-up pin takes from ground to what is surely high."""
    return ohms * farads * math.log(SUPPLY_V / (SUPPLY_V - HIGH_V))


def pressed_v(series, pull_up):
    return SUPPLY_V * series / (series + pull_up)


def pedal():
    series, pull_up = value("pedal", "470 Ω"), value("pedal", "4.7 kΩ")
    store = value("pedal", "100 nF")
    cable_m = 5
    coupled = COUPLED_F_M * cable_m
    bare = coupled + CABLE_F_M * cable_m
    step_v = DRIVE_V * coupled / (bare + store)
    assert step_v < (SUPPLY_V - HIGH_V) / 2
    assert pressed_v(series, pull_up) < LOW_V / 2
    high_s = to_high_s(pull_up, store + CABLE_F_M * cable_m)
    return {
        "pedal pressed: the pin": f"{pressed_v(series, pull_up):.2f} V",
        "pedal pressed: through its contact": f"{SUPPLY_V / (series + pull_up) * 1e3:.2f} mA",
        "pedal let go: until high": f"{high_s * 1e3:.2f} ms",
        "a drive's step on 5 m beside it, with 100 nF": f"{step_v:.2f} V",
        "the same without them": f"{DRIVE_V * coupled / bare:.0f} V",
    }


def take_switch():
    series = value("take_switch", "1 kΩ")
    assert value("collar", "1 kΩ") == series
    svg = (HARDWARE / "drawings" / "take_switch.svg").read_text(encoding="utf-8")
    assert f"{PULL_UP_LEAST / 1e3:.0f} to {PULL_UP_MOST / 1e3:.0f} kΩ" in svg
    return {
        "take switch pressed: the pin, at worst": f"{pressed_v(series, PULL_UP_LEAST):.2f} V",
        "take switch let go: until high, at worst": (
            f"{to_high_s(PULL_UP_MOST, CABLE_F_M + PIN_F) * 1e6:.1f} µs"
        ),
        "cable at which that takes a tenth of `bounce`": (
            f"{bounce_s() / 10 / to_high_s(PULL_UP_MOST, CABLE_F_M):.0f} m"
        ),
    }


def bounce_s():
    text = (ROOT / "config" / "shop.toml").read_text(encoding="utf-8")
    return float(re.search(r'^# bounce = "(\d+) ms"', text, re.MULTILINE)[1]) / 1e3


def level_shifter():
    into, across = value("level_shifter", "47 kΩ"), value("level_shifter", "100 kΩ")
    pull_up = value("level_shifter", "10 kΩ")
    drawn = (1.5 - BASE_V) / into
    base_a = (1.3 - BASE_V) / into - BASE_V / across
    gain = SUPPLY_V / pull_up / base_a
    rise_s = to_high_s(pull_up, 0.3 * CABLE_F_M + 2 * PIN_F)
    low_v = OFF_V * (1 + into / across)
    high_v = BASE_V + into * (BASE_V / across + SUPPLY_V / pull_up / GAIN_LEAST)
    late_s = 1.5 * CABLE_F_M * GAUGE_OHM * math.log(1.5 / (1.5 - high_v))
    assert 2 * gain < GAIN_LEAST
    return {
        "level shifter: drawn from the gauge at 1.5 V": f"{drawn * 1e6:.0f} µA",
        "level shifter: gain wanted at a cell of 1.3 V": f"{gain:.0f} of {GAIN_LEAST}",
        "level shifter: surely low up to": f"{low_v:.2f} V",
        "level shifter: surely high from": f"{high_v:.2f} V",
        "level shifter: late by 1.5 m of cable": f"{late_s * 1e6:.1f} µs",
        "level shifter: output's rise on 0.3 m": f"{rise_s * 1e6:.1f} µs",
    }


def bridge():
    base_a = (SUPPLY_V - BASE_V) / value("bridge", "47 kΩ")
    return {
        "bridge: into the request transistor": f"{base_a * 1e6:.0f} µA",
        "bridge: a value on its line": f"{len(LONGEST_LINE) * 10 / 38400 * 1e3:.0f} ms",
    }


def powered_interface():
    line_a = RS232_V / RS232_RECEIVER[0]
    rail_v = RS232_V - DIODE_V
    left = [(line_a - rail_v / ohms) * 1e3 for ohms in RS232_RECEIVER]
    return {
        "powered interface: a line gives at least": f"{line_a * 1e3:.2f} mA",
        "powered interface: its rails, at least": f"±{rail_v:.1f} V",
        "powered interface: left for itself": f"{left[0]:.2f} mA, usually {left[1]:.2f} mA",
        "serial: cable of 2500 pF": f"{2500e-12 / CABLE_F_M:.0f} m",
        "USB: cable of 26 ns": f"{26 / 5.2:.1f} m",
    }


def supply():
    series, pull_up = value("supply", "1.5 kΩ"), value("supply", "10 kΩ")
    zener_v, lamp_v = value("supply", "15 V"), 1.2
    lamp_a = (24 - zener_v - lamp_v) / series
    needed_a = SUPPLY_V / pull_up / PASSED_ON
    assert lamp_a > 3 * needed_a
    drop_v = 2 * 1.0 * COPPER * 5 / 0.75
    energy_j = 15 * 60
    return {
        "supply: lost on 1 m of 0.75 mm² at 5 A": f"{drop_v:.2f} V",
        "supply: longest of these that leaves 4.75 V": f"{(5.1 - 4.75) / drop_v:.1f} m",
        "coupler: its lamp": f"{lamp_a * 1e3:.1f} mA",
        "coupler: dark below": f"{zener_v + lamp_v + needed_a * series:.1f} V",
        "store: 15 W for 60 s": f"{energy_j} J",
        "store: capacitors from 24 down to 18 V": f"{2 * energy_j / (24**2 - 18**2):.1f} F",
    }


def arm():
    return {
        "cable: a clip 30 mm from the axis, in three quarters of a turn": (
            f"{0.75 * 2 * math.pi * 30:.0f} mm"
        )
    }


def test_each_figure_is_what_its_formula_gives():
    text = (HARDWARE / "README.md").read_text(encoding="utf-8")
    table = text.split("### Figures", 1)[1].split("\n## ", 1)[0]
    rows = re.findall(r"^\| (.+?) \| .+ \| (.+?) \|$", table, re.MULTILINE)
    told = {what: result for what, result in rows if what != "what" and set(what) != {"-"}}
    parts = (pedal, take_switch, level_shifter, bridge, powered_interface, supply, arm)
    computed = {what: result for part in parts for what, result in part().items()}
    assert told == computed


def test_the_levels_told_are_those_computed_with():
    text = (HARDWARE / "README.md").read_text(encoding="utf-8")
    pins = next(line for line in text.splitlines() if line.startswith("| the Pi's pins"))
    assert f"≤ {LOW_V} V" in pins
    assert f"≥ {HIGH_V} V, never above {SUPPLY_V} V" in pins
