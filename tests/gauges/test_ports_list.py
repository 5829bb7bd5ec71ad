"""The list of ports: stable names, and which gauge's file claims each."""

import io

import pytest

from daq.cli import parser
from daq.gauges import commands, ports_list
from daq.says import words
from tests.gauges.test_listen import FILE


@pytest.fixture
def root(tmp_path):
    """Two devices: one with both names, one that only its socket tells apart."""
    for name in ("tty0", "tty1"):
        (tmp_path / name).touch()
    links = {"by-id/adapter-A1": "tty0", "by-path/socket-1": "tty0", "by-path/socket-2": "tty1"}
    for name, device in links.items():
        path = tmp_path / "serial" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.symlink_to(tmp_path / device)
    return tmp_path / "serial"


def listed(root, config=None):
    given = ["--config", str(config)] if config else []
    args = parser().parse_args(["gauge", "list", *given])
    out, err = io.StringIO(), io.StringIO()
    return commands.ports(args, words, out, err, root), out.getvalue().splitlines(), err.getvalue()


def test_each_port_has_its_stable_names_and_its_gauge(root, tmp_path):
    folder = tmp_path / "gauges"
    folder.mkdir()
    text = FILE.format(port=root / "by-id" / "adapter-A1", unit="mm")
    (folder / "arm.toml").write_text(text, encoding="utf-8")
    code, lines, _ = listed(root, tmp_path)
    assert code == 0
    assert lines[0] == f"{tmp_path / 'tty0'}  arm"
    assert lines[1:3] == [f"  {root}/by-id/adapter-A1", f"  {root}/by-path/socket-1"]
    assert lines[3] == f"{tmp_path / 'tty1'}  no gauge"
    assert "write its by-path name" in lines[5]


def test_all_gauges_of_a_port_are_named(root, tmp_path):
    for key, name in (("c1", "by-id/adapter-A1"), ("c2", "by-id/adapter-A1")):
        text = FILE.format(port=root / name, unit="mm")
        (tmp_path / f"{key}.toml").write_text(text, encoding="utf-8")
    assert listed(root, tmp_path)[1][0] == f"{tmp_path / 'tty0'}  c1, c2"


def test_a_port_that_is_claimed_but_not_there_is_listed(root, tmp_path):
    (tmp_path / "lost.toml").write_text(FILE.format(port="/nowhere/x", unit="mm"), encoding="utf-8")
    code, lines, _ = listed(root, tmp_path)
    assert code == 0
    assert "/nowhere/x  lost" in lines


def test_a_broken_file_is_said(root, tmp_path):
    (tmp_path / "bad.toml").write_text("name = 1", encoding="utf-8")
    code, lines, err = listed(root, tmp_path)
    assert code == 1
    assert "bad.toml: name" in err
    assert lines


def test_no_port_is_said(tmp_path):
    assert listed(tmp_path)[1] == ["No serial port is plugged in: is the adapter's cable in?"]


def test_a_pis_own_port_is_one_too(root, tmp_path):
    """It hangs on no adapter, so it has no name under by-id or by-path."""
    (tmp_path / "ttyAMA0").touch()
    (tmp_path / "serial0").symlink_to(tmp_path / "ttyAMA0")
    found = next(p for p in ports_list.ports({}, root) if p.device.endswith("ttyAMA0"))
    assert found.own == (f"{tmp_path}/serial0", f"{tmp_path}/ttyAMA0")
    assert found.name == found.own[0]
    _, lines, _ = listed(root)
    at = lines.index(f"{tmp_path}/ttyAMA0  no gauge")
    assert lines[at + 1 : at + 3] == [f"  {tmp_path}/serial0", f"  {tmp_path}/ttyAMA0"]
    assert len(lines) == at + 3 or not lines[at + 3].startswith("  ")


@pytest.mark.parametrize(("kind", "listed"), [("0\n", False), ("4\n", True), (None, True)])
def test_a_port_with_nothing_behind_it_is_none(root, tmp_path, kind, listed):
    """What Linux says of /dev/ttyS0, whose name it makes where there is none, too."""
    (tmp_path / "ttyS0").touch()
    if kind is not None:
        (tmp_path / "class" / "tty" / "ttyS0").mkdir(parents=True)
        (tmp_path / "class" / "tty" / "ttyS0" / "type").write_text(kind)
    found = [port.own for port in ports_list.ports({}, root, tmp_path) if port.own]
    assert found == [(f"{tmp_path}/ttyS0",)] * listed


def test_what_types_is_listed_with_its_port_and_its_gauge(root, tmp_path):
    (tmp_path / "event3").touch()
    for kind, names in (("by-id", ("cable-event-kbd", "mouse-event-mouse")), ("by-path", ())):
        (tmp_path / "input" / kind).mkdir(parents=True)
        for name in names:
            (tmp_path / "input" / kind / name).symlink_to(tmp_path / "event3")
    port = f"keys://{tmp_path}/input/by-id/cable-event-kbd"
    _, lines, _ = listed(root)
    at = lines.index(f"{tmp_path}/event3  no gauge")
    assert lines[at + 1] == f"  {port}"
    assert lines[at + 2].startswith("  types: a keyboard, or a cable")
    (tmp_path / "bench.toml").write_text(FILE.format(port=port, unit="mm"), encoding="utf-8")
    _, lines, _ = listed(root, tmp_path)
    assert lines.count(f"{tmp_path}/event3  bench") == 1
    assert "not plugged in" not in "".join(lines)
