"""Room, mounts, and what a file system says of itself."""

import os

import pytest

from daq.doctor.looks import disk as of_disk
from daq.ledger import room as of_room
from tests.doctor.conftest import told

MOUNTS = "/proc/self/mountinfo"
ERRORS = "/sys/fs/ext4/mmcblk0p2/errors_count"


@pytest.fixture
def free(monkeypatch):
    """The disk has so much room, in bytes, and may be read-only."""

    def set_free(count, flags=0):
        found = os.statvfs_result((1, 1, count, count, count, 9, 9, 9, flags, 255))
        monkeypatch.setattr(of_room.os, "statvfs", lambda _: found)

    return set_free


def test_room_is_told_once_for_folders_on_one_disk(made, look, free):
    made.shop()
    free(9_000_000_000)
    (found,) = look("disk")
    assert found.fine and str(made.data) in str(found.found)


@pytest.mark.parametrize(
    ("count", "flags", "code"),
    [
        (of_disk.LITTLE_BYTES - 1, 0, "doctor-room"),
        (1_000, 0, "of-file"),
        (9_000_000_000, os.ST_RDONLY, "of-file"),
    ],
)
def test_little_room_and_a_disk_that_takes_nothing(made, look, free, count, flags, code):
    free(count, flags)
    assert told(look("disk")) == [(False, code)]


@pytest.mark.parametrize(("kind", "fine"), [("tmpfs", False), ("ext4", True)])
def test_a_folder_in_memory_is_gone_with_the_power(made, look, free, kind, fine):
    free(9_000_000_000)
    made.put(MOUNTS, f"30 1 8:2 / / rw - {kind} some rw")
    assert [each.fine for each in look("disk")] == [fine]


@pytest.mark.parametrize(("errors", "fine"), [(0, True), (3, False)])
def test_errors_that_a_file_system_counted(made, look, free, errors, fine):
    free(9_000_000_000)
    made.put(ERRORS, errors)
    assert all(each.fine for each in look("disk")) is fine


def test_a_folder_that_is_not_there_has_no_disk(made, look):
    made.data.rmdir()
    assert look("disk") == []
