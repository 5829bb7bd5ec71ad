"""What the house tests share: the tree as it lies on disk, without what git ignores."""

import tomllib
from collections.abc import Iterator, Mapping
from fnmatch import fnmatch
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]


class Tree:
    """The checkout: its top-level names and its files, hidden and ignored ones left out."""

    def __init__(self, root: Path) -> None:
        self.root = root
        lines = (root / ".gitignore").read_text(encoding="utf-8").splitlines()
        self._ignored = [line.rstrip("/") for line in lines if line and not line.startswith("#")]

    def _kept(self, path: Path) -> bool:
        return not any(fnmatch(path.name, pattern) for pattern in self._ignored)

    def top(self) -> list[str]:
        """Names at the top that are neither ignored nor git's own."""
        return sorted(p.name for p in self.root.iterdir() if self._kept(p) and p.name != ".git")

    def files(self, folder: str = ".", *suffixes: str) -> list[Path]:
        """Every kept file under `folder`, of the suffixes given or of any."""
        found = self._walk(self.root / folder)
        return sorted(p for p in found if not suffixes or p.suffix in suffixes)

    def _walk(self, folder: Path) -> Iterator[Path]:
        for path in folder.iterdir():
            if path.name == ".git" or not self._kept(path):
                continue
            if path.is_dir():
                yield from self._walk(path)
            else:
                yield path

    def name(self, path: Path) -> str:
        """The path as said in a message: from the top of the checkout."""
        return path.relative_to(self.root).as_posix()

    def rooms(self) -> list[str]:
        """Dotted names of the rooms: what lies directly in daq/, and web."""
        daq = self.root / "daq"
        inside = {
            p.stem
            for p in daq.iterdir()
            if (p.suffix == ".py" and not p.stem.startswith("__")) or (p / "__init__.py").is_file()
        }
        return sorted({f"daq.{stem}" for stem in inside} | {"web"})


@pytest.fixture(scope="session")
def tree() -> Tree:
    return Tree(ROOT)


@pytest.fixture(scope="session")
def pyproject(tree: Tree) -> Mapping[str, Any]:
    return tomllib.loads((tree.root / "pyproject.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def readme(tree: Tree) -> str:
    return (tree.root / "README.md").read_text(encoding="utf-8")
