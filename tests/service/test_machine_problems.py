"""What no machine's file may say: each problem names the key, what was found, what is allowed."""

import re

import pytest


@pytest.mark.parametrize(
    ("section", "lines", "said"),
    [
        ("", 'seat = "cloth"', 'seat: found "cloth"; allowed: one of "ring", "plate", "table"'),
        (
            "",
            'spindle = "horizontal"',
            'spindle: found "horizontal"; allowed: "vertical": a horizontal spindle is squared to '
            "its travel another way, and this sweeps a table under a vertical one",
        ),
        ("", 'spindle = "tilted"', 'spindle: found "tilted"; allowed: one of "vertical"'),
        ("", 'z = "ram"', 'z: found "ram"; allowed: one of "knee", "quill", "powered"'),
        ("", 'drawbar = "air"', 'drawbar: found "air"; allowed: one of "hand", "power"'),
        ("", "brake = false", 'brake: found false; allowed: one of "none", "hand", "spring"'),
        ("", "air = 1", "air: found 1; allowed: true or false"),
        ("", "people = 3", "people: found 3; allowed: one of 1, 2"),
        ("", "people = true", "people: found true; allowed: one of 1, 2"),
        ("", 'after_crash.bolts = ["ram", "ram"]', "after_crash: bolts: found 'ram' twice"),
        ("", 'after_crash.bolts = [" "]', "after_crash: bolts: found one without a name"),
        ("", 'after_crash.bolts = "ram"', 'after_crash.bolts: found "ram"; allowed: a list'),
        (
            "[nod]",
            "tighten.torque = 60",
            'nod.tighten.torque: found 60; allowed: a torque such as "60 N m" or "45 lbf ft"',
        ),
        ("[nod]", 'tighten.torque = "60 mm"', 'nod.tighten.torque: found "60 mm"; allowed: a tor'),
        (
            "[nod]",
            'tighten.torque = "0 N m"',
            "nod.tighten.torque: found 0.0 N m; allowed: at least 0.1 N m and at most 5000 N m",
        ),
        ("[nod]", 'tighten.wrench = "7"', "nod.tighten.wrench: found without torque; allowed: bo"),
        (
            "",
            'table.slots = { width = "14 mm", pitch = "14 mm", offset = "0 mm", count = 2 }',
            "table.slots: width: found 14 mm; allowed: below pitch",
        ),
        (
            "",
            'table.slots = { width = "14 mm", pitch = "63 mm", count = 2 }',
            "table.slots.offset: missing; allowed: a length such",
        ),
        ("", "table.slots = 3", "table.slots: found 3; allowed: a table"),
        ("", 'loosen = "all"', 'loosen: found "all"; allowed: one of "one", "both"'),
        ("", 'ram_angle = "80 deg"', "ram_angle: found 80 deg; allowed: at least -60 deg"),
        ("", 'ram_angle = "20"', 'ram_angle: found "20"; allowed: an angle such as "15 deg"'),
        ("", "audit_every = 1.5", "audit_every: found 1.5; allowed: a whole number"),
        (
            "",
            'positions = ["right", "back", "left"]',
            "positions: found right, back, left; allowed: three places or more, always with "
            "front, right and left; missing: front",
        ),
        (
            "",
            'positions = ["front", "right", "left", "front"]',
            "positions: found front, right, left, front; allowed: each place once, and front "
            "stands there more than once",
        ),
        ("", 'positions = ["north"]', 'positions[0]: found "north"; allowed: one of "front", '),
        ("", "positions = []", "positions: found none; allowed: three places or more"),
        (
            "",
            'second_gauge = "far"',
            "second_radius: missing beside second_gauge = 'far'; allowed: from the spindle axis "
            "to its contact",
        ),
        (
            "",
            'second_radius = "90 mm"',
            "second_radius: found without second_gauge; allowed: both, for a bar with two gauges",
        ),
        ("[side]", 'one_sided = "front"', "side.one_sided: found 'front'; allowed: right, left"),
        ("[nod]", 'one_sided = "right"', "nod.one_sided: found 'right'; allowed: front, back"),
        ("[nod]", 'one_sided = "up"', 'nod.one_sided: found "up"; allowed: one of "", "right"'),
        (
            "[nod]",
            'one_sided = "front"\nlimit_low = "0.01 mm"',
            "nod.limit_low: found beside one_sided = 'front'; allowed: one of them",
        ),
        ("[nod]", 'limit_low = "0 mm"', "nod.limit_low: found 0.0 mm; allowed: at least 1e-05 mm"),
        ("[nod]", 'pivot_doubt = "0 mm"', "nod.pivot_doubt: found 0.0 mm; allowed: at least 0.1"),
        ("[side]", "coupling = 0.7", "side.coupling: found 0.7; allowed: at least -0.5 and at"),
        (
            "[side]",
            'adjust.finish_raising = "back"',
            "side.adjust.finish_raising: found 'back'; allowed: right, left",
        ),
        (
            "[nod]",
            'adjust.finish_raising = "left"',
            "nod.adjust.finish_raising: found 'left'; allowed: front, back",
        ),
        (
            "[nod]",
            'adjust.kind = "screw"',
            'nod.adjust.kind: found "screw"; allowed: one of "worm"',
        ),
        (
            "[nod]",
            'adjust.kind = "shim"',
            'nod.adjust: kind: found "shim" without bolt_spacing; allowed: both together',
        ),
        (
            "[nod]",
            'adjust.kind = "shim"\nadjust.bolt_spacing = "250 mm"\nadjust.shim_places = ["below"]',
            "nod.adjust: shim_places: found 1; allowed: two places with names",
        ),
        (
            "[nod]",
            'adjust.kind = "shim"\nadjust.bolt_spacing = "250 mm"\nadjust.backlash = "0.1 mm"',
            'nod.adjust.backlash: found with kind = "shim"; allowed: with a worm or a rack',
        ),
        (
            "[side]",
            'adjust.kind = "hand"\nadjust.lead = "0.1 mm/300 mm"',
            'side.adjust.lead: found with kind = "hand"; allowed: with a worm or a rack',
        ),
        (
            "[side]",
            'adjust.bolt_spacing = "250 mm"',
            'side.adjust.bolt_spacing: found with kind = "worm"; allowed: with kind = "shim"',
        ),
        (
            "[side]",
            'adjust.shims = ["0.1 mm"]',
            'side.adjust.shims: found with kind = "worm"; allowed: with kind = "shim"',
        ),
        (
            "[nod]",
            'adjust.kind = "hand"\nadjust.shim_step = "0.05 mm"',
            'nod.adjust.shim_step: found with kind = "hand"; allowed: with kind = "shim"',
        ),
        (
            "[nod]",
            'adjust = {kind = "shim", bolt_spacing = "9 in", shims = ["1 mm"], shim_step = "1 mm"}',
            "nod.adjust: shim_step: found beside shims; allowed: one of them",
        ),
        (
            "[nod]",
            'adjust = {kind = "shim", bolt_spacing = "9 in", shims = ["1 mm", "0 mm"]}',
            "nod.adjust.shims[1]: found 0.0 mm; allowed: at least 0.001 mm and at most 50 mm",
        ),
        ("[side]", 'adjust.lead = "0.1 mm"', 'side.adjust.lead: found "0.1 mm"; allowed: a slope'),
        (
            "[nod]",
            'tighten.bolts = ["left", "right", "left"]',
            "nod.tighten: bolts: found 'left' twice; allowed: a name of its own for each",
        ),
        ("[nod]", 'tighten.bolts = ["left", ""]', "nod.tighten: bolts: found one without a name"),
        ("[nod]", "tighten.passes = 0", "nod.tighten.passes: found 0; allowed: at least 1 and at"),
        ("", 'verdict.name = "lax"', 'verdict.name: found "lax"; allowed: one of "simple", '),
        ("", "verdict.coverage = 95", "verdict.coverage: found 95; allowed: at least 0.5 and at"),
        ("", 'verdict.together = "both"', 'verdict.together: found "both"; allowed: one of "each"'),
        ("", 'uncertainty.wegde = "1 mm"', "uncertainty: unknown key 'wegde'; nearest known: 'we"),
        ("", 'uncertainty.wedge = "2 mm"', "uncertainty.wedge: found 2.0 mm; allowed: at least 0"),
        ("", "uncertainty.wedge = 0.003", "uncertainty.wedge: found 0.003; allowed: a length such"),
        (
            "",
            'uncertainty.parallel = "40 deg"',
            "uncertainty.parallel: found 40 deg; allowed: at least 0 deg and at most 28.6479 deg",
        ),
        (
            "",
            "uncertainty.repeatability_dof = 0",
            "uncertainty.repeatability_dof: found 0; allowed: at least 1",
        ),
        (
            "",
            'work.cutter = "50 mm"\nwork.cut_width = "60 mm"',
            "work: cut_width: found 60 mm; allowed: up to the cutter's 50 mm",
        ),
        (
            "",
            'work.cut_width = "60 mm"',
            "work.cut_width: found without cutter; allowed: both, or cutter alone",
        ),
        ("", 'work.feed = "up"', 'work.feed: found "up"; allowed: one of "left-right", "front-'),
        (
            "",
            'work.hole_dept = "9 mm"',
            "work: unknown key 'hole_dept'; nearest known: 'hole_depth'",
        ),
    ],
)
def test_a_problem_is_told_with_its_key_and_what_is_allowed(mill_file, section, lines, said):
    (found,) = mill_file.put(lines, section).problems()
    assert found.startswith(said)


def test_a_pivot_right_under_the_only_place_to_park_at_is_told(mill_file):
    mill_file.put('positions = ["front", "right", "left"]')
    nod = re.search(r'pivot_distance = "[^"]*"', mill_file.text[mill_file.text.index("[nod]") :])
    radius = re.search(r'sweep_radius = "([^"]*)"', mill_file.text)
    (found,) = mill_file.change(nod[0], f'pivot_distance = "-{radius[1]}"').problems()
    assert found.startswith("nod.pivot_distance: found -")
    assert found.endswith(
        "mm, where a gauge parked at front stands and sees no move; allowed: elsewhere, or "
        "positions with back"
    )
