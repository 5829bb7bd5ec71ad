"""The file system calls of a watched process: each is told of before it is made, and may be denied.

The other side is in `watched`. A call waits until the watcher has let it go on, and it is let go
only once it is written down: what the process did next, an answer over HTTP included, comes after
it, whoever writes that down. Of a call that is under way nobody knows how far it is; it stands
where it began, and the calls of one thread never overlap.
"""

import array
import contextlib
import ctypes
import errno
import fcntl
import os
import select
import socket
import struct
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.faults.watched import NUMBERS

WATCHED = Path(__file__).with_name("watched.py")

RECEIVE, SEND = 0xC0502100, 0xC0182101
"""SECCOMP_IOCTL_NOTIF_RECV and _SEND of linux/seccomp.h."""
NOTICE = "=QIIiIQ6Q"
REPLY = "=QqiI"
GO_ON = 1
LONGEST_NAME = 4096
HERE = -100
"""AT_FDCWD."""


@dataclass(frozen=True)
class Call:
    """One call: what it does to which path; `data` to be written, and where.

    `what`: open (with its flags in `at`), write, sync, truncate (to `at`), rename (to `to`),
    unlink, rmdir, mkdir; anything else is a call that nobody here knows how to replay.
    """

    what: str
    path: str
    at: int = 0
    data: bytes = b""
    to: str = ""


class Calls:
    """Watches what is started by it; `heed` is told each call and gives 0, or the errno it gets."""

    def __init__(self, heed: Callable[[Call], int]) -> None:
        self._heed = heed
        self._ended, self._end = os.pipe()
        self._thread = threading.Thread(target=self._watch, name="calls", daemon=True)
        self._ours, self.theirs = socket.socketpair()
        self._listener = -1
        self.failed: BaseException | None = None

    def python(self) -> list[str]:
        """What a script is run with, the socket `theirs` inherited."""
        return [sys.executable, "-P", str(WATCHED), str(self.theirs.fileno())]

    def begin(self) -> None:
        """Take the descriptor from the process just started, and watch."""
        self.theirs.close()
        _, kept, _, _ = self._ours.recvmsg(1, socket.CMSG_SPACE(4))
        assert kept, "the process to be watched could not have its calls told of"
        self._listener = array.array("i", kept[0][2])[0]
        self._thread.start()

    def close(self) -> None:
        """Watch no more; the calls of what still runs fail from now on."""
        os.write(self._end, b".")
        self._thread.join()
        for fd in (self._ended, self._end):
            os.close(fd)
        self._ours.close()
        if self.failed:
            raise self.failed

    def _watch(self) -> None:
        poll = select.poll()
        poll.register(self._listener, select.POLLIN)
        poll.register(self._ended, select.POLLIN)
        try:
            while not any(fd == self._ended or not how & select.POLLIN for fd, how in poll.poll()):
                self._one()
        except BaseException as error:  # told where the test can see it
            self.failed = error
        os.close(self._listener)

    def _one(self) -> None:
        notice = bytearray(struct.calcsize(NOTICE))
        try:
            fcntl.ioctl(self._listener, RECEIVE, notice)
        except OSError as error:
            if error.errno == errno.ENOENT:  # its process is gone
                return
            raise
        number, thread, _, call, _, _, *given = struct.unpack(NOTICE, notice)
        wrong = 0
        with contextlib.suppress(ProcessLookupError, FileNotFoundError):
            for each in _read(NUMBERS[call], thread, given):
                wrong = wrong or self._heed(each)
        reply = struct.pack(REPLY, number, 0, -wrong, 0 if wrong else GO_ON)
        with contextlib.suppress(FileNotFoundError):  # killed meanwhile
            fcntl.ioctl(self._listener, SEND, reply)


def _read(name: str, thread: int, given: Sequence[int]) -> Iterator[Call]:
    """The call as it is known here; none of one on a pipe, a port or a socket."""
    a, b, c, d = given[:4]
    match name:
        case "openat":
            yield Call("open", _named(thread, a, b), c)
        case "open":
            yield Call("open", _named(thread, HERE, a), b)
        case "creat":
            yield Call("open", _named(thread, HERE, a), os.O_CREAT | os.O_TRUNC | os.O_WRONLY)
        case "mkdir" | "unlink" | "rmdir":
            yield Call(name, _named(thread, HERE, a))
        case "mkdirat":
            yield Call("mkdir", _named(thread, a, b))
        case "unlinkat":
            yield Call("rmdir" if c else "unlink", _named(thread, a, b))
        case "rename":
            yield Call("rename", _named(thread, HERE, a), to=_named(thread, HERE, b))
        case "renameat" | "renameat2":
            yield Call("rename", _named(thread, a, b), to=_named(thread, c, d))
        case "link" | "symlink" | "linkat" | "symlinkat" | "truncate":
            yield Call(name, _named(thread, HERE, d if name == "linkat" else b))
        case _:
            path = str(Path(f"/proc/{thread}/fd/{_signed(a)}").readlink())
            if path.startswith("/"):
                yield _of_file(name, thread, path, given)


def _of_file(name: str, thread: int, path: str, given: Sequence[int]) -> Call:
    fd, at, much, where = given[:4]
    match name:
        case "write":
            return Call("write", path, _place(thread, fd, path), _bytes(thread, at, much))
        case "pwrite64":
            return Call("write", path, where, _bytes(thread, at, much))
        case "fsync" | "fdatasync":
            return Call("sync", path)
        case "ftruncate":
            return Call("truncate", path, at)
    return Call(name, path)


def _place(thread: int, fd: int, path: str) -> int:
    """Where a plain write goes."""
    lines = Path(f"/proc/{thread}/fdinfo/{fd}").read_text(encoding="ascii").splitlines()
    told = dict(line.split(":\t") for line in lines[:2])
    if int(told["flags"], 8) & os.O_APPEND:
        return Path(path).stat().st_size
    return int(told["pos"])


def _signed(fd: int) -> int:
    return ctypes.c_int(fd & 0xFFFFFFFF).value


def _named(thread: int, folder: int, address: int) -> str:
    """A path as the process names it, from the root."""
    page = 4096 - address % 4096  # a page that is there may be followed by one that is not
    raw = _bytes(thread, address, page)
    if b"\0" not in raw:
        raw += _bytes(thread, address + page, LONGEST_NAME - page)
    name = os.fsdecode(raw.partition(b"\0")[0])
    if name.startswith("/"):
        return os.path.normpath(name)
    fd = _signed(folder)
    base = Path(f"/proc/{thread}", "cwd" if fd == HERE else f"fd/{fd}").readlink()
    return os.path.normpath(f"{base}/{name}")


class _Part(ctypes.Structure):
    _fields_ = [("base", ctypes.c_void_p), ("length", ctypes.c_size_t)]


_libc = ctypes.CDLL(None, use_errno=True)


def _bytes(thread: int, address: int, much: int) -> bytes:
    """So many bytes of a process's memory; process_vm_readv(2). Raises OSError."""
    kept = ctypes.create_string_buffer(much)
    ours = _Part(ctypes.addressof(kept), much)
    theirs = _Part(address, much)
    got = _libc.process_vm_readv(thread, ctypes.byref(ours), 1, ctypes.byref(theirs), 1, 0)
    if got < 0:
        raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))
    return kept.raw[:got]
