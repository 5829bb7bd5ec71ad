"""Every test of this room leaves as many threads and open descriptors as it found."""

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from daq.virtual import MillSpec, VirtualMill


def descriptors() -> int:
    return len(list(Path("/proc/self/fd").iterdir()))


@pytest.fixture(autouse=True)
def nothing_leaks() -> Iterator[None]:
    # One of a test before this one may still be on its way out: what is new is left behind.
    threads, open_before = set(threading.enumerate()), descriptors()
    yield
    assert set(threading.enumerate()) <= threads
    assert descriptors() == open_before


@pytest.fixture
def mill(tmp_path: Path) -> Iterator[VirtualMill]:
    """A quick mill, cable in, gauge talking."""
    made = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=1000.0, seed=3)
    made.start()
    yield made
    made.stop()
