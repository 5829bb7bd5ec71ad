"""The command line: what it takes, and what it says when it cannot."""

import errno
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from daq import __version__
from daq.cli import main, parser
from tests.system.shop import Shop


def failure(capsys, *argv):
    code = main(argv)
    captured = capsys.readouterr()
    assert captured.out == ""
    assert "Traceback" not in captured.err
    return code, captured.err


def test_version(capsys):
    with pytest.raises(SystemExit) as done:
        main(["--version"])
    assert done.value.code == 0
    assert capsys.readouterr().out == f"headsweep {__version__}\n"
    assert re.fullmatch(r"\d+\.\d+\.\d+.*", __version__)


@pytest.mark.parametrize(
    ("argv", "found", "allowed"),
    [
        (["demo", "--port", "70000"], "'70000'", "0 to 65535"),
        (["demo", "--speed", "fast"], "'fast'", "0.1 to 100"),
        (["demo", "--speed", "nan"], "'nan'", "0.1 to 100"),
        (["run", "--config", "a", "--data", "b", "--listen", "here"], "'here'", "HOST:PORT"),
    ],
)
def test_bad_arguments_say_what_is_allowed(capsys, argv, found, allowed):
    with pytest.raises(SystemExit) as stopped:
        parser().parse_args(argv)
    assert stopped.value.code == 2
    said = capsys.readouterr().err
    assert found in said and allowed in said


def test_addresses():
    run = ["run", "--config", "a", "--data", "b", "--listen"]
    assert parser().parse_args([*run, "127.0.0.1:80"]).listen == ("127.0.0.1", 80)
    assert parser().parse_args([*run, "[::1]:80"]).listen == ("::1", 80)
    assert parser().parse_args([*run, ":80"]).listen == ("127.0.0.1", 80)
    assert parser().parse_args([*run, "0.0.0.0:80"]).listen == ("0.0.0.0", 80)


def test_nobody_but_this_machine_is_let_in_unless_somebody_says_so(capsys):
    assert parser().parse_args(["run", "--config", "a", "--data", "b"]).listen[0] == "127.0.0.1"
    with pytest.raises(SystemExit):
        parser().parse_args(["run", "--help"])
    assert "0.0.0.0" not in capsys.readouterr().out


def test_a_missing_config_is_named(capsys, tmp_path):
    missing = tmp_path / "nowhere"
    check = ("gauge", "check", "--gauge", "arm", "--lengths", "0 mm, 1 mm")
    code, said = failure(capsys, *check, "--config", str(missing), "--data", str(tmp_path))
    assert code == 2
    assert str(missing) in said and "shop.toml" in said


@pytest.fixture
def not_ours(tmp_path, monkeypatch):
    """A folder that belongs to root, as this user finds it (whoever runs the tests)."""
    folder = tmp_path / "lib" / "headsweep"
    make, opened = os.mkdir, os.open

    def refuse(path):
        if Path(path).is_relative_to(folder):
            raise PermissionError(errno.EACCES, "Permission denied", str(path))

    def mkdir(path, *args, **how):
        refuse(path)
        return make(path, *args, **how)

    def open_file(path, *args, **how):
        refuse(path)
        return opened(path, *args, **how)

    monkeypatch.setattr(os, "mkdir", mkdir)
    monkeypatch.setattr(os, "open", open_file)
    return folder


@pytest.mark.parametrize("there", [False, True])
def test_a_data_folder_that_is_another_users_ends_in_what_to_do(capsys, not_ours, there):
    if there:
        subprocess.run(["mkdir", "-p", not_ours], check=True)
    code, said = failure(capsys, "demo", "--no-browser", "--data", str(not_ours))
    assert code == 2
    assert "Errno" not in said
    assert f"sudo install -d -o $USER {not_ours}" in said
    assert len(said.splitlines()) == 1


def test_a_service_says_so_too_and_serves_its_pages(tmp_path, caplog, not_ours, monkeypatch):
    served = []

    def serve(running, *_):
        served.append(running)
        return 0

    monkeypatch.setattr("daq.run.serve_pages", serve)
    shop = Shop(tmp_path)
    command = ["run", "--config", str(shop.config), "--data", str(not_ours), "--data-in-memory"]
    assert main(command) == 0
    assert not served[0].hub.health()["ok"]
    assert f"sudo install -d -o $USER {not_ours}" in caplog.records[0].getMessage()


def test_a_missing_ledger_is_named(capsys, tmp_path):
    code, said = failure(capsys, "ledger", "verify", "--data", str(tmp_path))
    assert code == 2
    assert str(tmp_path) in said


def imported(code, *argv):
    """The modules that a fresh Python holds after running the code."""
    code += "\nprint(*sys.modules, file=sys.stderr)"
    done = subprocess.run(
        [sys.executable, "-c", code, *argv], capture_output=True, text=True, timeout=60, check=True
    )
    return set(done.stderr.split())


PARSED = """
import sys
from daq.cli import main
try:
    main(sys.argv[1:])
except SystemExit:
    pass
"""
SERVED = """
import pathlib, signal, sys
from daq.run import run
config, data = map(pathlib.Path, sys.argv[1:])
end = lambda _: signal.raise_signal(signal.SIGTERM)
run(config, data, "127.0.0.1", 0, end, in_memory=True)
"""
OUTSIDE = {"apsw", "flask", "numpy", "pint", "serial", "waitress", "web"}


@pytest.mark.parametrize("argv", [["--version"], ["--help"], ["run", "--help"], ["gauge", "-h"]])
def test_what_only_asks_for_words_pays_for_no_command(argv):
    held = imported(PARSED, *argv)
    rooms = {name.split(".")[1] for name in held if name.startswith("daq.")}
    assert rooms == {"cli", "words"}
    assert held & OUTSIDE == set()


def test_a_running_service_holds_neither_the_practice_mill_nor_what_learns_a_gauge(tmp_path):
    shop = Shop(tmp_path)
    held = imported(SERVED, str(shop.config), str(shop.data))
    assert {"daq.app", "daq.service.decider", "web.app"} <= held
    others = ("daq.virtual", "daq.demo", "daq.gauges.learn", "daq.service.bench_reader")
    assert [name for name in sorted(held) if name.startswith(others)] == []


def test_listening_to_a_gauge_does_not_pay_for_the_service(tmp_path):
    shop = Shop(tmp_path)
    listed = imported(PARSED, "gauge", "list", "--config", str(shop.config))
    assert "daq.gauges.ports_list" in listed
    others = ("daq.gauges.learn", "daq.service", "daq.audit", "daq.ledger", "web")
    assert [name for name in sorted(listed) if name.startswith(others)] == []
