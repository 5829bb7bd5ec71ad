"""Long work tells how far it has come, on a terminal and in a pipe; short work tells nothing."""

import io
import os
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.cli import main
from daq.ledger import progress as room
from daq.ledger.progress import LINES_S, LIVE_S, SILENT_S, Progress
from tests.ledger.conftest import make_filled
from tests.ledger.test_let_go import filled


class Clock:
    def __init__(self):
        self.s = 100.0

    def __call__(self):
        return self.s


def worked(out, seconds, rows=1000, each_s=0.05, **begun):
    """Rows done one after the other for so long; gives what is still to be read from `out`."""
    clock = Clock()
    with Progress(out, clock) as progress:
        progress.begin("checked", rows, **begun)
        for done in range(1, rows + 1):
            clock.s = 100.0 + done * each_s
            if clock.s - 100.0 > seconds:
                break
            progress.at(done)


def in_a_pipe(seconds, **more):
    out = io.StringIO()
    worked(out, seconds, **more)
    return out.getvalue().splitlines()


@pytest.fixture
def terminal():
    """A pseudo-terminal's two ends: what is written, and what a person's end shows."""
    ours, theirs = os.openpty()

    with os.fdopen(theirs, "w", buffering=1) as out:

        def shown():
            out.write("END\n")
            text = b""
            while not text.endswith(b"END\r\n"):
                text += os.read(ours, 4096)
            return text.decode().removesuffix("END\r\n")

        yield out, shown
    os.close(ours)


def test_short_work_tells_nothing():
    assert in_a_pipe(SILENT_S - 0.01) == []


def test_in_a_pipe_it_is_a_line_now_and_then_with_count_share_and_time_left():
    lines = in_a_pipe(50, rows=2000)
    assert len(lines) == 1 + (50 - SILENT_S) // LINES_S
    assert lines[0] == "checked: 40 of 2,000 rows, 2.0 %, 2 min left"
    assert lines[-1] == "checked: 840 of 2,000 rows, 42 %, 58 s left"
    assert not any("\x1b" in line or "\r" in line for line in lines)


def test_on_a_terminal_one_line_is_written_anew_and_taken_away_at_the_end(terminal):
    out, shown = terminal
    worked(out, 10, rows=100_000, each_s=0.01)
    text = shown()
    pieces = text.split("\r\x1b[K")
    assert "\n" not in text
    assert pieces[0] == "" and pieces[-1] == ""
    assert len(pieces) - 2 == pytest.approx((10 - SILENT_S) / LIVE_S, abs=3)
    assert pieces[1].startswith("checked: 200 of 100,000 rows, 0.2 %, 17 min left")


def test_a_narrow_terminal_is_not_overrun(terminal):
    import fcntl
    import struct
    import termios

    out, shown = terminal
    fcntl.ioctl(out.fileno(), termios.TIOCSWINSZ, struct.pack("HHHH", 24, 30, 0, 0))
    worked(out, 4)
    assert {len(piece) <= 29 for piece in shown().split("\r\x1b[K")} == {True}


def test_a_terminal_that_knows_no_codes_gets_plain_lines(terminal, monkeypatch):
    monkeypatch.setenv("TERM", "dumb")
    out, shown = terminal
    worked(out, 30)
    assert "\x1b" not in (text := shown()) and text.count("\n") == 3


def test_what_follows_when_all_are_done_is_said():
    clock, out = Clock(), io.StringIO()
    progress = Progress(out, clock)
    progress.begin("checked", 7, then="now the file itself")
    clock.s += 5
    progress.at(7)
    assert out.getvalue() == "checked: 7 of 7 rows; now the file itself\n"


@given(
    done=st.integers(0, 10**9), of=st.integers(0, 10**9), took_s=st.floats(0, 1e7, allow_nan=False)
)
def test_any_work_can_be_told(done, of, took_s):
    clock, out = Clock(), io.StringIO()
    progress = Progress(out, clock)
    progress.begin("checked", of)
    clock.s += SILENT_S + took_s
    progress.at(done)
    assert re.fullmatch(
        r"checked: [\d,]+ of [\d,]+ rows(, \d+(\.\d)? %(, (\d+ h )?\d+ (s|min) left)?)?\n",
        out.getvalue(),
    )


@pytest.fixture
def at_once(monkeypatch):
    """Told from the first row on, so that a short ledger shows what a long one does."""
    monkeypatch.setattr(room, "SILENT_S", 0.0)
    monkeypatch.setattr(room, "LINES_S", 0.0)


def test_the_commands_tell_it_beside_what_they_print(tmp_path, capsys, at_once):
    data = tmp_path / "data"
    filled(data)

    def command(name, *more, folder=data):
        code = main(["ledger", name, "--data", str(folder), *more])
        said = capsys.readouterr()
        return code, said.out, {line.split(":")[0] for line in said.err.splitlines()}

    assert command("verify")[::2] == (0, {"checked"})
    assert command("export", "--evidence")[::2] == (0, {"checked", "written"})
    assert command("backup", "--to", str(tmp_path / "copy"))[2] >= {"checked"}
    code, out, told = command("restore", "--from", str(tmp_path / "copy"), folder=tmp_path / "b")
    assert (code, told >= {"checked"}) == (0, True) and out.startswith(f"{tmp_path / 'b'}: ledger ")
    assert command("let-go", "--older-than", "3", "--any-clock")[2] == {"checked", "looked at"}


def test_a_long_import_is_told_in_megabytes(tmp_path, capsys, at_once):
    filled(tmp_path / "data")
    main(["ledger", "export", "--evidence", "--data", str(tmp_path / "data")])
    (tmp_path / "export").write_text(capsys.readouterr().out)
    told = ["--from", str(tmp_path / "export"), "--data", str(tmp_path / "b")]
    assert main(["ledger", "restore", *told]) == 0
    assert "read: 0 of 1 MB" in capsys.readouterr().err


def test_a_short_ledger_tells_nothing(tmp_path, capsys):
    make_filled(tmp_path, 5)
    assert main(["ledger", "verify", "--data", str(tmp_path)]) == 0
    assert capsys.readouterr().err == ""
