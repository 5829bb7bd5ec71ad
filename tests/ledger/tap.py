"""A tap in front of the disk: counts every call and makes some fail."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import apsw


class Tap:
    """Counts calls to the disk and makes the n-th fail, or all from the n-th on.

    `only`: such as "sync"; calls of other kinds are then neither counted nor failed.
    """

    def __init__(self) -> None:
        self.calls: list[tuple[str, str]] = []
        self.struck = False
        self._nth = 0
        self._only = ""

    def arm(self, nth: int, *, for_ever: bool, error: type[apsw.Error], only: str = "") -> None:
        self.calls.clear()
        self._only = only
        self._nth, self._for_ever, self._error = nth, for_ever, error
        self.struck = False

    def disarm(self) -> None:
        self._nth, self._only = 0, ""

    def __call__(self, call: str, name: str) -> None:
        if self._only not in ("", call):
            return
        self.calls.append((call, name))
        at = len(self.calls)
        if self._nth and (at == self._nth or (self._for_ever and at > self._nth)):
            self.struck = True
            raise self._error(f"{call} of {name} made to fail")


def plain(name: str | apsw.URIFilename | None) -> str:
    """The file's own name; the object handed to xOpen is good only while xOpen runs."""
    text = name.filename() if isinstance(name, apsw.URIFilename) else name
    return Path(text or "temporary").name


class TappedDisk(apsw.VFS):
    """The ordinary disk with a tap in front."""

    def __init__(self, tap: Tap) -> None:
        self.tap = tap
        super().__init__("tapped", "unix", makedefault=True)

    def xOpen(self, name, flags):
        self.tap("open", plain(name))
        return TappedFile(self.tap, name, flags)

    def xDelete(self, filename, syncdir):
        self.tap("delete", plain(filename))
        super().xDelete(filename, syncdir)


class TappedFile(apsw.VFSFile):
    def __init__(self, tap: Tap, name, flags) -> None:
        self.tap, self.name = tap, plain(name)
        super().__init__("unix", name, flags)

    def xRead(self, amount, offset):
        self.tap("read", self.name)
        return super().xRead(amount, offset)

    def xWrite(self, data, offset):
        self.tap("write", self.name)
        super().xWrite(data, offset)

    def xSync(self, flags):
        self.tap("sync", self.name)
        super().xSync(flags)

    def xTruncate(self, newsize):
        self.tap("truncate", self.name)
        super().xTruncate(newsize)


@contextmanager
def tapped() -> Iterator[Tap]:
    """Put the tap in front of the disk for what is opened meanwhile."""
    tap = Tap()
    disk = TappedDisk(tap)
    try:
        yield tap
    finally:
        disk.unregister()
