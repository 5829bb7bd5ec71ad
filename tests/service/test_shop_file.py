"""What shop.toml says for paper, and that an audit keeps it as it was when it was opened."""

import shutil
import subprocess
from datetime import date

import pytest

from daq.audit.setup import AuditSetup
from daq.audit.shop_papers import Tool, the_tool
from daq.service.files import digest, load
from daq.service.shop_facts import card
from daq.settings import SettingsError, build, plain
from tests.words import en, faults

TOOLS = """
[tools.wrench]
kind = "wrench"
number = "7"
certificate = "T-0112"
laboratory = "The measuring room"
calibrated_on = 2026-03-01
due = 2027-03-01

[tools.warm]
kind = "thermometer"
number = "3"
say = "Digital thermometer"

[rings.ground]
say = "Ground ring"
mark = "the dot"
certificate = "R-0031"
due = 2028-02-02
"""


@pytest.fixture
def add(config):
    """Adds lines to shop.toml or to the machine's file; the folder is given back."""

    def added(shop="", machine="", into=""):
        for name, text in (("shop.toml", shop), ("machines/practice-mill.toml", machine)):
            path = config / name
            path.write_text(path.read_text("utf-8") + text, "utf-8")
        if into:
            path = config / "machines" / "practice-mill.toml"
            path.write_text(into + path.read_text("utf-8"), "utf-8")
        return config

    return added


def problems(folder):
    with pytest.raises(SettingsError) as error:
        load(folder)
    return faults(error.value)


@pytest.mark.parametrize(
    ("more", "scale"),
    [
        ("", 1.0),
        ('wall_distance = "3 m"\nwall_size = "24 in"\n', 0.8),
        ('wall_distance = "1 m"\n', 0.6),
        ('wall_distance = "6 m"\nwall_size = "40 in"\n', 0.96),
    ],
)
def test_the_walls_letters_are_made_for_where_it_is_read(config, more, scale):
    assert load(walled(config, more)).shop.wall_scale == pytest.approx(scale)


def walled(config, more):
    path = config / "shop.toml"
    lines = [each for each in path.read_text("utf-8").splitlines() if not each.startswith("wall_")]
    path.write_text(more + "\n".join(lines), "utf-8")
    return config


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            'wall_distance = "8 m"\n',
            "wall_distance: found 8 m; allowed: up to 5.5 m, read from a screen",
        ),
        ('wall_size = "0 in"\n', "wall_size: found 0 mm; allowed: above zero"),
    ],
)
def test_a_wall_too_far_or_too_small_says_what_would_do(config, more, said):
    (only,) = problems(walled(config, more))
    assert said in only


def test_an_audit_keeps_what_the_files_said_for_paper(add):
    folder = add(TOOLS, '\n[nod.tighten]\ntorque = "60 N m"\nwrench = "7"\n', 'asset = "M-1"\n')
    shop = load(folder)
    setup = shop.audit_setup("practice-mill")
    assert (setup.shop.name, setup.shop.method) == ("Practice shop", "Squaring a mill's head")
    assert (setup.machine.asset, setup.machine.nod.tighten.wrench) == ("M-1", "7")
    wrench = the_tool(setup.tools, "wrench", "7")
    assert (wrench.certificate, wrench.calibrated_on) == ("T-0112", date(2026, 3, 1))
    assert the_tool(setup.tools, "thermometer", "9") == Tool("thermometer", "9")
    assert [(ring.certificate, ring.due) for ring in setup.rings] == [("R-0031", date(2028, 2, 2))]
    assert build(AuditSetup, plain(setup), "event", quantities="plain") == setup
    papers = [fact for group in card(shop, {}).groups for fact in group.facts]
    assert [(en(fact.say), en(fact.value)) for fact in papers] == [
        (
            "Torque wrench 7",
            "certificate T-0112, The measuring room, calibrated on 2026-03-01, "
            "good until 2027-03-01",
        ),
        ("Digital thermometer, number 3", "no papers named"),
        ("Ground ring", "certificate R-0031, good until 2028-02-02"),
    ]


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="sha256sum is not installed")
def test_the_digest_of_the_files_is_what_a_stranger_gets_with_sha256sum(config):
    """Against GNU coreutils, by the line that the README gives."""
    line = "LC_ALL=C; export LC_ALL; sha256sum gauges/*.toml machines/*.toml shop.toml | sha256sum"
    told = subprocess.run(
        ["sh", "-c", line], cwd=config, capture_output=True, text=True, check=True
    )
    shop = load(config)
    assert shop.audit_setup("practice-mill").config == told.stdout.split()[0]
    (config / "shop.toml").write_text('name = "Another"\n', "utf-8")
    assert digest(config) != shop.digest


@pytest.mark.parametrize(
    ("shop", "machine", "where", "allowed"),
    [
        ('[papers]\ntime_zone = "America/Chicgo"\n', "", "papers.time_zone", "America/Chicago"),
        ('[papers]\ntime_zone = "../etc"\n', "", "papers.time_zone", "UTC, or an IANA name"),
        ('[papers]\ntime_zone = "Europe"\n', "", "papers.time_zone", "UTC, or an IANA name"),
        ('[papers]\npaper = "A5"\n', "", "papers.paper", "A4"),
        ('[tools.a]\nkind = "hammer"\nnumber = "1"\n', "", "tools.a.kind", "wrench"),
        ('[tools.a]\nkind = "wrench"\nnumber = " "\n', "", "tools.a.number", "the number on it"),
        (TOOLS.replace("2027-03-01", "2025-03-01"), "", "tools.wrench", "that day or later"),
        (f'{TOOLS}[tools.b]\nkind = "wrench"\nnumber = "7"\n', "", "tools.b.number", "one of its"),
        (TOOLS, 'thermometer = "4"\n', "thermometer: found '4'", "allowed: 3"),
    ],
)
def test_what_is_wrong_is_said_with_file_and_key(add, shop, machine, where, allowed):
    folder = add("", into=machine)
    (folder / "shop.toml").write_text(f'name = "Shop"\n{shop}', "utf-8")
    (said,) = problems(folder)
    assert ("practice-mill.toml" if machine else "shop.toml") in said
    assert where in said and allowed in said


def test_a_wrench_of_no_paper_is_named_as_long_as_no_paper_names_any(add):
    folder = add(machine='\n[side.tighten]\ntorque = "60 N m"\nwrench = "8"\n')
    assert load(folder).audit_setup("practice-mill").tools == ()
    add(TOOLS)
    (said,) = problems(folder)
    assert "side.tighten.wrench: found '8'; allowed: 7" in said
