"""One machine's file as text, changed bit by bit."""

import re

import pytest

from daq.service import machine_file
from daq.settings import SettingsError
from tests.words import faults

LIMITS = re.compile(r"^(limit|over) = .*\n", re.MULTILINE)


class File:
    """One machine's file, changed bit by bit."""

    def __init__(self, path):
        self.path = path
        self.text = path.read_text(encoding="utf-8")

    def put(self, lines, section=""):
        """Write lines at the top, or right below a section's name."""
        if not section:
            self.text = f"{lines}\n{self.text}"
            return self
        assert self.text.count(f"\n{section}\n") == 1, section
        self.text = self.text.replace(f"\n{section}\n", f"\n{section}\n{lines}\n")
        return self

    def change(self, old, new):
        assert old in self.text, old
        self.text = self.text.replace(old, new)
        return self

    def without_limits(self):
        """The axes' own; a check besides squaring keeps its limit."""
        axes, checks, rest = self.text.partition("\n[checks.")
        self.text = LIMITS.sub("", axes) + checks + rest
        return self

    def read(self):
        self.path.write_text(self.text, encoding="utf-8")
        return machine_file.read(self.path)

    def problems(self):
        with pytest.raises(SettingsError) as error:
            self.read()
        where = f"{self.path}: "
        assert all(each.startswith(where) for each in faults(error.value))
        return [each.removeprefix(where) for each in faults(error.value)]
