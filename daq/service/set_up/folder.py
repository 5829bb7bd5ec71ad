"""A shop's files as a page changes them: each tried with all others, then put there whole.

A file is there as it was or as it was to be, whenever the power goes: it is written under another
name, flushed, and renamed; then its folder is flushed. What somebody changed meanwhile is never
written over: who saves says what the files were when they looked. A gauge's file may lack what
papers say: it is there then, and nothing runs with it.
"""

import hashlib
import re
import shutil
import tempfile
import threading
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final

from daq.ledger.folder import make_folder
from daq.service.files import Amiss, what_is_good
from daq.service.machine_file import EXAMPLE
from daq.service.rights.store import write
from daq.service.set_up.gaps import GAUGES, gap
from daq.words import Said, SaidTrouble, said
from daq.words.said import Value

FOLDERS: Final = (GAUGES, "machines")
_LONGEST: Final = 40
_READABLE: Final = 0o644
"""Nothing in these files is a secret but what a person put there, who may then close them."""


class ChangedMeanwhile(SaidTrouble):
    """The files are not those any more that whoever saves has looked at."""


class NotSoundError(SaidTrouble):
    """What was to be saved would not be read; `problems` says why, a line each."""

    def __init__(self, file: str, problems: Sequence[Said]) -> None:
        """`file` as in "machines/mill.toml"."""
        super().__init__(said("set-up-not-sound", file=file))
        self.problems = tuple(problems)


class ConfigFolder:
    """One shop's folder; any thread may ask."""

    def __init__(self, folder: Path) -> None:
        """It need not be there: it is made with the first file."""
        self.path = folder
        self._lock = threading.Lock()

    def as_of(self) -> str:
        """Tells these files from any others, hex; of a folder without any, too."""
        told = hashlib.sha256()
        for path in self._files():
            told.update(f"{self._name(path)}\n{_digest(path)}\n".encode())
        return told.hexdigest()

    def text(self, name: str) -> str:
        """What stands in a file. Raises OSError and ValueError."""
        return (self.path / name).read_text(encoding="utf-8")

    def free(self, kind: str, key: str) -> str:
        """A key that no file of the kind has: this one, or with a number behind it."""
        taken = {path.stem for path in (self.path / kind).glob("*")}
        numbered = (f"{key}-{n}" for n in range(2, len(taken) + 3))
        return next(each for each in (key, *numbered) if each not in taken)

    def put(self, name: str, text: str, seen: str) -> str:
        """Have this text in the file `name`; returns what the files are then, as `as_of` does.

        Raises:
            ChangedMeanwhile: they are not as they were `seen`.
            NotSoundError: with it they would hold a mistake that they did not have.
            OSError: it cannot be written; the file is as it was.
        """
        with self._lock:
            if self.as_of() != seen:
                raise ChangedMeanwhile(said("set-up-changed"))
            self._try(name, text)
            self._write(name, text)
            return self.as_of()

    def add(self, kind: str, key: str, text: str, beside: Mapping[str, str]) -> tuple[str, str]:
        """Have this text in a new file, and `beside` it, by their endings, what goes with it.

        Returns its key, this one or with a number, and what the files are then. Raises as `put`,
        and then nothing of it is there; it takes no other file's place, whatever changed meanwhile.
        """
        with self._lock:
            name = f"{kind}/{self.free(kind, key)}.toml"
            path = self.path / name
            self._try(name, text)
            try:
                for ending, kept in beside.items():
                    self._write(f"{kind}/{path.stem}{ending}", kept)
                self._write(name, text)
            except OSError:
                for ending in (*beside, path.suffix):
                    path.with_suffix(ending).unlink(missing_ok=True)
                raise
            return path.stem, self.as_of()

    def _write(self, name: str, text: str) -> None:
        path = self.path / name
        make_folder(path.parent)
        for left in path.parent.glob(f"{path.name}.part-*"):  # by one that was killed
            left.unlink()
        write(path, text, _READABLE)

    def _try(self, name: str, text: str) -> None:
        """Read all as they would be, elsewhere, by the reader that a start uses."""
        with tempfile.TemporaryDirectory(prefix="headsweep-") as made:
            tried = Path(made)
            for path in self._files():
                copy = tried / self._name(path)
                copy.parent.mkdir(exist_ok=True)
                shutil.copyfile(path, copy)
            before = [line for each in what_is_good(tried).amiss for line in each.problems]
            (tried / name).parent.mkdir(exist_ok=True)
            (tried / name).write_text(text, encoding="utf-8")
            new = list(_new(what_is_good(tried).amiss, before, tried))
            if new:
                raise NotSoundError(name, [_without(f"{tried}/", line) for line in new])

    def _files(self) -> Iterator[Path]:
        for kind in FOLDERS:
            yield from sorted((self.path / kind).glob("*.toml"))
        yield from self.path.glob("shop.toml")

    def _name(self, path: Path) -> str:
        return path.relative_to(self.path).as_posix()


def key_of(name: str, otherwise: str) -> str:
    """A file's name for something so called; `otherwise`: where no letter or digit is left."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    key = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST].strip("-") or otherwise
    return f"the-{key}" if key.startswith(EXAMPLE) else key


def _new(amiss: Sequence[Amiss], before: Sequence[Said], folder: Path) -> Iterator[Said]:
    """The mistakes of files that were not there before.

    That there is no machine yet is none, nor that a gauge's papers are not told.
    """
    for each in amiss:
        if each.path != folder and each.path.name not in FOLDERS:
            may_lack = each.path.parent.name == GAUGES
            new = (line for line in each.problems if line not in before)
            yield from (line for line in new if not (may_lack and gap(line)))


def _digest(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _without(folder: str, told: Said) -> Said:
    """A problem by the file's own name, without the folder it was tried in."""

    def cut(value: Value) -> Value:
        if isinstance(value, str):
            return value.replace(folder, "")
        if isinstance(value, tuple):
            return tuple(_without(folder, each) for each in value)
        return _without(folder, value) if isinstance(value, Said) else value

    return Said(told.code, {key: cut(value) for key, value in told.of.items()})
