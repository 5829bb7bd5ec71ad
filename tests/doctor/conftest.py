"""A made-up computer: files below a folder of its own, and nobody who answers a command."""

from collections.abc import Callable
from pathlib import Path

import pytest

from daq.doctor.diagnosis import Diagnosis
from daq.doctor.looks import looks
from daq.doctor.patient import Patient
from daq.says import words


class Made:
    """What a look is to find: files by their absolute path, and what a command prints."""

    def __init__(self, folder: Path) -> None:
        self.root = folder / "root"
        self.config = folder / "config"
        self.data = folder / "data"
        self.prints: dict[str, str] = {}
        for each in (self.root, self.config, self.data):
            each.mkdir()

    def put(self, path: str, text: str | int = "") -> Path:
        file = self.root / path.lstrip("/")
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(f"{text}\n", encoding="utf-8")
        return file

    def patient(self, **given: object) -> Patient:
        patient = Patient(self.config, self.data, root=self.root, ask=self._ask)
        return Patient(**{**vars(patient), **given})  # type: ignore[arg-type]

    def _ask(self, command: object) -> str | None:
        assert isinstance(command, tuple)
        return self.prints.get(" ".join(command))


@pytest.fixture
def made(tmp_path: Path) -> Made:
    return Made(tmp_path)


@pytest.fixture
def look(made: Made) -> Callable[..., list[Diagnosis]]:
    """What one look finds on the made-up computer; every sentence of it can be said."""

    def look(name: str, **given: object) -> list[Diagnosis]:
        found = list(looks()[name](made.patient(**given)))
        for each in found:
            assert each.fine == (each.todo is None)
            assert words(each.found) and (each.fine or words(each.todo))
        return found

    return look
