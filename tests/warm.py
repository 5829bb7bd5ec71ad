"""Services that start at once: forked from a process that has imported the program already.

To import it costs more than most tests that start a service, and there are more than a hundred.
Each service is a process of its own all the same, and runs the command's own `main`; that the
installed command starts and ends one is left to the tests of whole audits and of the end.
"""

import atexit
import ctypes
import json
import os
import signal
import socket
import subprocess
import sys
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import TextIO

from tests.patience import until

FORKER = Path(__file__).with_name("forker.py")
PYTHON = (sys.executable, "-P")
PR_SET_CHILD_SUBREAPER = 36
"""Of prctl(2): a process whose parent has ended becomes this one's child, to be waited for."""
LONGEST_ANSWER = 64


class Started:
    """A service; as much of a `Popen` as is asked of one."""

    def __init__(self, pid: int, stdout: TextIO) -> None:
        self.pid = pid
        self.stdout = stdout
        self._code: int | None = None

    def poll(self) -> int | None:
        if self._code is None:
            ended, status = os.waitpid(self.pid, os.WNOHANG)
            self._code = os.waitstatus_to_exitcode(status) if ended else None
        return self._code

    def wait(self, timeout: float = 0.0) -> int:
        """The exit code; patience is the same for everybody."""
        until(lambda: self.poll() is not None)
        assert self._code is not None
        return self._code

    def send_signal(self, number: int) -> None:
        if self.poll() is None:
            os.kill(self.pid, number)

    def kill(self) -> None:
        self.send_signal(signal.SIGKILL)


class Forker:
    """The process that forks; it ends with `end`."""

    def __init__(self, python: Sequence[str] = PYTHON, pass_fds: Sequence[int] = ()) -> None:
        """`python`: what runs its script, such as a watcher of what it and its services do."""
        self._line, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        with theirs:
            self._process = subprocess.Popen([*python, FORKER], stdin=theirs, pass_fds=pass_fds)
        ctypes.CDLL(None).prctl(PR_SET_CHILD_SUBREAPER, 1, 0, 0, 0)

    def started(self, args: Sequence[str], stderr: TextIO) -> Started:
        """Start `headsweep` with these arguments."""
        ours, theirs = os.pipe()
        socket.send_fds(self._line, [json.dumps(args).encode()], [theirs, stderr.fileno()])
        os.close(theirs)
        return Started(int(self._line.recv(LONGEST_ANSWER)), os.fdopen(ours, encoding="utf-8"))

    def end(self) -> None:
        self._line.close()
        self._process.wait()


def started(
    program: Sequence[str], args: Sequence[str], stderr: TextIO, forker: Forker | None = None
) -> subprocess.Popen[str] | Started:
    """Start `program` with these arguments; where there is none, `headsweep` by a fork."""
    if program:
        command = [*program, *args]
        return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=stderr, text=True)
    return (forker or _forker()).started(args, stderr)


@cache
def _forker() -> Forker:
    """The one that all tests share; it ends with this process."""
    forker = Forker()
    atexit.register(forker.end)
    return forker
