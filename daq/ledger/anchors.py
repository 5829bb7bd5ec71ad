"""Anchors gathered from the reports and exports in a folder: each says what a row's hash was.

A report bears its own in its plain bytes (`token`), in a member of it where it is a zip; an
export of the ledger bears the hash of its last row. What lies in such a folder is anybody's:
nothing of it is believed, each anchor is compared with the ledger as it is found, and of those
that agree none is kept.
"""

import os
import re
import stat
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO, Final

from daq.ledger.errors import LedgerError
from daq.ledger.reads import Reads
from daq.ledger.verify import Anchor
from daq.ledger.view import LedgerView
from daq.words import Said, said

REPORTS: Final = "reports"
"""The folder of a data folder that is always looked at."""

BLOCK: Final = 1 << 20
NAMED: Final = 10
"""So many files of a kind are named; the others are counted."""

MOST_ANCHORS: Final = 10_000
"""Of one file; more are in none that headsweep wrote."""

MOST_UNPACKED: Final = 256 << 20
"""Bytes of one zip's members, at most: a small file may unpack to any size."""
LONGEST_LIST: Final = 1 << 20
"""Bytes of the list of a zip's members, which is read whole; a spreadsheet's has some hundreds."""

_UUID: Final = rb"(?P<ledger>[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})"
BEGINS: Final = "headsweep-anchor:"
"""What a token begins with."""
_TOKEN: Final = re.compile(
    BEGINS.encode() + _UUID + rb":(?P<row>[1-9][0-9]{0,17}):(?P<head>[0-9a-f]{64})(?![0-9a-f])"
)
_LONGEST_TOKEN: Final = 160
_EXPORT: Final = b'{"body":"{'
_LONGEST_ROW: Final = 4 << 20
"""Bytes of a line of an export; one with evidence may be longer and is passed over."""
_LEDGER: Final = b'\\"ledger\\":\\"'
"""As a body in an export names it: last of all that may stand in a body under that name."""
_ROW_END: Final = re.compile(
    rb'\}","hash":"(?P<head>[0-9a-f]{64})","seq":(?P<row>[1-9][0-9]{0,17})\}\r?\n?\Z'
)
_LONGEST_END: Final = 160
_ZIP, _ZIP_END, _ZIP_ENDS = b"PK\x03\x04", b"PK\x05\x06", 22 + (1 << 16)

_UNREAD: Final = (
    OSError, ValueError, RuntimeError, EOFError, NotImplementedError, zipfile.BadZipFile, zlib.error
)  # fmt: skip

Mark = tuple[str, int, str]
"""A ledger, a row and its hash, as a file says it."""


def token(ledger: str, row: int, head: str) -> str:
    """The text a report carries: which ledger, which row, its hash (64 hex digits)."""
    return f"{BEGINS}{ledger}:{row}:{head}"


@dataclass
class Files:
    """Some files: how many, and the first few by name."""

    count: int = 0
    names: list[str] = field(default_factory=list)

    @property
    def said(self) -> str:
        """The names."""
        return ", ".join(self.names) + (", …" if self.count > NAMED else "")

    def add(self, name: str) -> None:
        """One more."""
        self.count += 1
        if self.count <= NAMED:
            self.names.append(name)


@dataclass
class Gathered:
    """What a look through folders brought.

    `looked`: files looked at; `good`: those that bear `anchors` of this ledger, all of which it
    agrees with; `wrong`: those that contradict it; `strangers`: those that bear none but of
    other ledgers; `unread`: what could not be looked at, and why. `early` and `beyond`: of the
    anchors that contradict it the one of the first row it has, and of the last it does not have.
    """

    looked: int = 0
    anchors: int = 0
    good: Files = field(default_factory=Files)
    wrong: Files = field(default_factory=Files)
    strangers: Files = field(default_factory=Files)
    unread: Files = field(default_factory=Files)
    early: Anchor | None = None
    beyond: Anchor | None = None

    @property
    def told(self) -> tuple[Said, ...]:
        """What is to be said of it."""
        files = self.good.count + self.wrong.count
        told = [said("anchors-found", anchors=self.anchors, files=files, looked=self.looked)]
        if self.wrong.count:
            told.append(said("anchors-contradict", n=self.wrong.count, names=self.wrong.said))
        if self.strangers.count:
            told.append(
                said("anchors-of-others", n=self.strangers.count, names=self.strangers.said)
            )
        if self.unread.count:
            told.append(said("anchors-unread", n=self.unread.count, names=self.unread.said))
        return tuple(told)

    @property
    def against(self) -> tuple[Anchor, ...]:
        """The anchors that a check of the rows is to be held against."""
        return tuple(each for each in (self.early, self.beyond) if each is not None)


def gather(reads: Reads, folders: Sequence[Path]) -> Gathered:
    """Hold all anchors in `folders`, and in all folders in them, against a ledger.

    What cannot be read is named. Raises LedgerError if the ledger cannot be asked.
    """
    ledger, found = reads.name(), Gathered()
    for path, barred in _files(folders):
        found.looked += not barred
        if why := barred or _look(reads, ledger, path, found):
            found.unread.add(f"{shown(path)} ({why})")
    return found


def gather_beside(data: Path, places: Sequence[Path]) -> Gathered:
    """The same for the ledger in a data folder; its own folder of reports is one of the places.

    Of a ledger whose first row does not say its name nothing is gathered: it is not sound.
    Raises LedgerError, and ValueError where a place is not there.
    """
    for place in places:
        if not place.exists():
            raise ValueError(f"found {str(place)!r}; allowed: a folder that is there")
    own = data / REPORTS
    with LedgerView.open(data) as view:
        try:
            view.name()
        except LedgerError:
            return Gathered()
        return gather(view, (*places, *((own,) if own.is_dir() else ())))


def shown(path: Path) -> str:
    """A file's name as it may be printed: a stranger's file may be called anything."""
    return ascii(str(path))[1:-1]


def _look(reads: Reads, ledger: str, path: Path, found: Gathered) -> str:
    """Look at one file; why it could not be, or not all of it."""
    ours, others, wrong, why = 0, 0, False, ""
    try:
        with closing(_opened(path)) as file:
            for name, row, head in _marks(file):
                if ours + others == MOST_ANCHORS:
                    raise ValueError(f"found more anchors; allowed: {MOST_ANCHORS}")
                if name != ledger:
                    others += 1
                    continue
                ours += 1
                wrong |= _against(reads, Anchor(row, head, shown(path)), found)
    except _UNREAD as error:
        why = _why(error)
    found.anchors += ours
    if ours:
        (found.wrong if wrong else found.good).add(shown(path))
    elif others:
        found.strangers.add(shown(path))
    return why


def _why(error: Exception) -> str:
    said = error.strerror if isinstance(error, OSError) else None
    return said or ascii(str(error))[1:-1] or type(error).__name__


def _against(reads: Reads, anchor: Anchor, found: Gathered) -> bool:
    """Whether the ledger contradicts an anchor; of those that it does, keep the telling two."""
    head = reads.hash_of(anchor.seq)
    if head == anchor.head:
        return False
    if head is None:
        if found.beyond is None or anchor.seq > found.beyond.seq:
            found.beyond = anchor
    elif found.early is None or anchor.seq < found.early.seq:
        found.early = anchor
    return True


def _files(places: Sequence[Path]) -> Iterator[tuple[Path, str]]:
    """Every file at or below these places, and why a place could not be looked into.

    Links are not followed, except a place itself: they may lead anywhere, and round in a circle.
    """
    waiting = [Path(os.path.realpath(place)) for place in reversed(places)]
    while waiting:
        place = waiting.pop()
        try:
            if not place.is_dir():
                yield place, ""
                continue
            with os.scandir(place) as entries:
                for entry in entries:
                    if entry.is_dir(follow_symlinks=False):
                        waiting.append(Path(entry.path))
                    elif entry.is_file(follow_symlinks=False):
                        yield Path(entry.path), ""
        except OSError as error:
            yield place, _why(error)


def _opened(path: Path) -> IO[bytes]:
    """Open a plain file; nothing that could wait or do something when it is opened."""
    handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK | os.O_NOCTTY)
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise ValueError("found no file; allowed: a plain file")
    return os.fdopen(handle, "rb")


def _marks(file: IO[bytes]) -> Iterator[Mark]:
    """What a file says of any ledger: an export by its last row, all else by its tokens."""
    begins = file.read(len(_EXPORT))
    file.seek(0)
    if begins == _EXPORT:
        yield from _last_row(file)
    elif begins.startswith(_ZIP):
        yield from _in_zip(file)
    else:
        yield from _tokens(file)


def _last_row(file: IO[bytes]) -> Iterator[Mark]:
    last = None
    while line := file.readline(_LONGEST_ROW):
        end = _ROW_END.search(line, max(0, len(line) - _LONGEST_END))
        at = line.rfind(_LEDGER) + len(_LEDGER)
        ledger = re.match(_UUID, line[at : at + 36]) if end and at >= len(_LEDGER) else None
        if end and ledger:
            last = ledger[0].decode(), int(end["row"]), end["head"].decode()
    if last is not None:
        yield last


def _tokens(file: IO[bytes]) -> Iterator[Mark]:
    """Every token, the same one in a row only once, whatever blocks the bytes come in."""
    text, before = b"", None
    while True:
        block = file.read(BLOCK)
        text += block
        sure, at = (len(text) - _LONGEST_TOKEN if block else len(text)), 0
        for match in _TOKEN.finditer(text):
            if match.start() >= sure:
                break
            at = match.end()
            if match[0] != before:
                before = match[0]
                yield match["ledger"].decode(), int(match["row"]), match["head"].decode()
        if not block:
            return
        text = text[max(at, sure, 0) :]


def _in_zip(file: IO[bytes]) -> Iterator[Mark]:
    """The tokens in a zip's members, which are unpacked block by block and to no end."""
    size = file.seek(0, os.SEEK_END)
    file.seek(max(0, size - _ZIP_ENDS))
    tail = file.read()
    end = tail.rfind(_ZIP_END)
    listed = int.from_bytes(tail[end + 12 : end + 16], "little") if end >= 0 else size
    if listed > LONGEST_LIST:
        raise ValueError(f"found a list of {listed} bytes; allowed: {LONGEST_LIST}")
    left = MOST_UNPACKED
    with zipfile.ZipFile(file) as archive:
        for info in archive.infolist():
            left -= info.file_size
            if left < 0 or info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
                raise ValueError(f"found more; allowed: {MOST_UNPACKED} bytes, stored or deflated")
            with archive.open(info) as member:
                yield from _tokens(member)
