"""A shop made for one test: the shipped configuration, hurried, and a data folder beside it."""

import re
import shutil
from pathlib import Path

from daq.service.files import shipped

MACHINE = "practice-mill"

HURRIED = {
    "wait_s": "0.02",
    "window_s": "0.08",
    "slow_window_s": "0.3",
    "min_samples": "4",
    "timeout_s": "3.0",
}


class Shop:
    """Folders `config` and `data`; the practice gauge is expected at `tty`."""

    def __init__(self, folder: Path, tty: Path | None = None) -> None:
        self.config = folder / "config"
        self.data = folder / "data"
        self.tty = tty or folder / "gauge"
        shutil.copytree(shipped(), self.config)
        for key, value in HURRIED.items():
            self.set("shop.toml", key, value)
        self.set("gauges/practice.toml", "port", f'"{self.tty}"')

    def set(self, file: str, key: str, value: str, section: str = "") -> None:
        """Give a key that stands in a file another value; `section` as in "[nod]"."""
        path = self.config / file
        text = path.read_text(encoding="utf-8")
        start = self._below(text, section)
        line = re.compile(rf"^{key} = [^#\n]*", re.MULTILINE)
        found = line.search(text, start)
        assert found, f"{file} has no key {key}"
        changed = f"{key} = {value} "
        path.write_text(text[: found.start()] + changed + text[found.end() :], encoding="utf-8")

    def add(self, file: str, line: str, section: str = "") -> None:
        """Write one more line at the top of a file, or right below a section's name."""
        path = self.config / file
        text = path.read_text(encoding="utf-8")
        start = self._below(text, section)
        path.write_text(f"{text[:start]}{line}\n{text[start:]}", encoding="utf-8")

    @staticmethod
    def _below(text: str, section: str) -> int:
        """Where the lines of a section begin; those without one begin at the top."""
        if not section:
            return 0
        heading = re.search(rf"^{re.escape(section)}.*\n", text, re.MULTILINE)
        assert heading, f"no {section}"
        return heading.end()
