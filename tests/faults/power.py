"""What a power cut leaves of a disk: of what was not flushed any part, as a file system may.

Two file systems. `Strict` promises what POSIX does and no more: fsync of a file keeps its bytes,
fsync of a folder the names in it, and of all else any part may be there, in any order. `Ordered`
is like ext4 with data=ordered: names and lengths go into one journal, in order, which any fsync
brings home; a file grows only over bytes that are there; bytes written over others go any way.
Both tear a write at sectors: each sector is as it was or as it was to be.
"""

import os
import random
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from tests.faults.calls import Call

FOLDER, GONE = "folder", "gone"
WRITTEN = os.O_WRONLY | os.O_RDWR


@dataclass(eq=False)
class File:
    """One file: what is sure to be there, and what was done since, a place and bytes each.

    No bytes: cut off or made longer there.
    """

    sure: bytes = b""
    since: list[tuple[int, bytes | None]] = field(default_factory=list)


Named = File | str
Names = dict[str, Named]


def do(image: bytearray, at: int, data: bytes | None) -> None:
    """One step on a file's bytes."""
    if data is None:
        del image[at:]
    image.extend(bytes(max(0, at + len(data or b"") - len(image))))
    if data:
        image[at : at + len(data)] = data


def after(sure: bytes, steps: Iterable[tuple[int, bytes | None]]) -> bytes:
    """These bytes once all of the steps are done."""
    image = bytearray(sure)
    for at, data in steps:
        do(image, at, data)
    return bytes(image)


def sectors(at: int, data: bytes, size: int) -> list[tuple[int, bytes]]:
    """A write cut where sectors of the disk begin."""
    edges = [at, *range(at - at % size + size, at + len(data), size), at + len(data)]
    return [(a, data[a - at : b - at]) for a, b in pairwise(edges)]


class Strict:
    """The disk under `root`, call after call; what is outside `root` is nobody's matter."""

    def __init__(self, root: str, deaf: str = "") -> None:
        """`deaf`: of files whose names end so a disk that lies only says that they are flushed."""
        self._root = root
        self._deaf = deaf
        self._now: Names = {root: FOLDER}
        self._sure: Names = {root: FOLDER}
        self._since: list[Names] = []

    def take(self, call: Call) -> None:
        """One more call; a kind unknown here is a test that proves nothing, and fails."""
        if not call.path.startswith(self._root):
            return
        what = self._now.get(call.path, GONE)
        match call.what:
            case "open":
                self._open(call, what)
            case "write" if isinstance(what, File):
                what.since.append((call.at, call.data))
            case "truncate" if isinstance(what, File):
                what.since.append((call.at, None))
            case "sync":
                self._flush(call.path, what)
            case "mkdir" if what == GONE:
                self._name({call.path: FOLDER})
            case "unlink" | "rmdir" if what != GONE:
                self._name({call.path: GONE})
            case "rename" if what != GONE:
                below = [path for path in self._now if _in(path, call.path)]
                moved = {call.to + path[len(call.path) :]: self._now[path] for path in below}
                self._name({**dict.fromkeys(below, GONE), **moved})
            case "mkdir" | "unlink" | "rmdir" | "rename":
                pass  # it failed: nothing of that name
            case _:
                raise AssertionError(f"what a cut leaves of this is not known: {call}")

    def cut(self, chance: random.Random, sector: int) -> Mapping[str, bytes]:
        """Every file that is there after a cut now."""
        names = dict(self._sure)
        for step in self._names_kept(chance):
            _put(names, step)
        return {
            path: self._left(file, chance, sector)
            for path, file in names.items()
            if isinstance(file, File) and self._reached(path, names)
        }

    def _open(self, call: Call, what: Named) -> None:
        if isinstance(what, File):
            if call.at & os.O_TRUNC:
                what.since.append((0, None))
        elif call.at & os.O_CREAT and self._now.get(_above(call.path)) == FOLDER:
            self._name({call.path: File()})

    def _name(self, step: Names) -> None:
        _put(self._now, step)
        self._since.append(step)

    def _flush(self, path: str, what: Named) -> None:
        if self._deaf and path.endswith(self._deaf):
            return
        if isinstance(what, File):
            what.sure, what.since = after(what.sure, what.since), []
        self._flush_names(path, what)

    def _flush_names(self, path: str, what: Named) -> None:
        here = [step for step in self._since if any(_above(p) == path for p in step)]
        for step in here:
            _put(self._sure, step)
            self._since.remove(step)

    def _names_kept(self, chance: random.Random) -> list[Names]:
        kept = [step for step in self._since if chance.random() < 0.5]
        if chance.random() < 0.5:
            chance.shuffle(kept)
        return kept

    def _reached(self, path: str, names: Names) -> bool:
        while path != self._root:
            path = _above(path)
            if names.get(path) != FOLDER:
                return False
        return True

    def _left(self, file: File, chance: random.Random, sector: int) -> bytes:
        left = []
        for at, data in file.since:
            fate = chance.choice(("whole", "gone", "torn"))
            if fate == "whole" or (fate == "torn" and data is None):
                left.append((at, data))
            elif fate == "torn" and data is not None:
                left += [piece for piece in sectors(at, data, sector) if chance.random() < 0.5]
        if chance.random() < 0.5:
            chance.shuffle(left)
        return after(file.sure, left)


class Ordered(Strict):
    """Names and lengths in one journal."""

    def _flush_names(self, path: str, what: Named) -> None:
        for step in self._since:
            _put(self._sure, step)
        self._since.clear()

    def _names_kept(self, chance: random.Random) -> list[Names]:
        return self._since[: chance.randint(0, len(self._since))]

    def _left(self, file: File, chance: random.Random, sector: int) -> bytes:
        """Of what makes it longer or shorter the first so many, the last of them in part."""
        image = bytearray(file.sure)
        pieces = [
            piece
            for at, data in file.since
            for piece in ([(at, None)] if data is None else sectors(at, data, sector))
        ]
        grown = chance.randint(0, len(pieces))
        for n, (at, data) in enumerate(pieces):
            if data is None or at + len(data) > len(image):
                if n < grown and at <= len(image):
                    do(image, at, data)
            elif chance.random() < 0.5:
                do(image, at, data)
        return bytes(image)


def _above(path: str) -> str:
    return path.rpartition("/")[0]


def _in(path: str, folder: str) -> bool:
    return path == folder or path.startswith(f"{folder}/")


def _put(names: Names, step: Names) -> None:
    for path, what in step.items():
        if what == GONE:
            names.pop(path, None)
        else:
            names[path] = what
