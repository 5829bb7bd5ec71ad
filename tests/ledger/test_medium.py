"""Folders that are gone with the power: mounts as proc(5) tells them."""

from pathlib import Path

import pytest

from daq.ledger import LedgerError
from daq.ledger.medium import require_lasting
from tests.words import troubled

ROOT = "27 1 179:2 / / rw,noatime - ext4 /dev/mmcblk0p2 rw"
PI_OVERLAY = "27 1 0:23 / / rw - overlay overlayroot rw,lowerdir=/lower,upperdir={},workdir=/w"


@pytest.fixture
def mounts(tmp_path):
    file = tmp_path / "mountinfo"

    def write(*lines):
        file.write_text("\n".join((*lines, "")), encoding="utf-8")
        return file

    return write


@pytest.mark.parametrize("kind", ["tmpfs", "ramfs"])
def test_a_file_system_in_memory_is_refused_by_its_name(mounts, kind):
    file = mounts(ROOT, f"40 27 0:40 / /srv/record rw - {kind} {kind} rw,size=100m")
    for folder in ("/srv/record", "/srv/record/data/not-made-yet"):
        with troubled(LedgerError, match=rf"{folder}: the folder lies in memory \({kind}\)"):
            require_lasting(Path(folder), file)
    require_lasting(Path("/srv/records"), file)


def test_the_last_of_two_on_one_place_counts(mounts):
    memory = "40 27 0:40 / /srv rw - tmpfs tmpfs rw"
    disk = "41 27 8:1 / /srv rw - ext4 /dev/sda1 rw"
    require_lasting(Path("/srv/data"), mounts(ROOT, memory, disk))
    with pytest.raises(LedgerError):
        require_lasting(Path("/srv/data"), mounts(ROOT, disk, memory))


def test_a_disk_below_a_memory_is_a_disk(mounts):
    memory, disk = "40 27 0:40 / /run rw - tmpfs tmpfs rw", "41 40 8:1 / /run/m rw - ext4 /d rw"
    require_lasting(Path("/run/m/data"), mounts(ROOT, memory, disk))


def test_an_overlay_lies_where_its_upper_folder_does(mounts, tmp_path):
    upper = tmp_path / "up, per"
    upper.mkdir()
    written = str(upper).replace(",", r"\054").replace(" ", r"\040")
    over = f"40 27 0:40 / /srv rw - overlay over rw,lowerdir=/,upperdir={written},workdir=/w"
    require_lasting(Path("/srv/data"), mounts(ROOT, over))
    memory = f"41 27 0:41 / {tmp_path} rw - tmpfs tmpfs rw"
    with troubled(LedgerError, match=r"in memory \(tmpfs\)"):
        require_lasting(Path("/srv/data"), mounts(ROOT, over, memory))


def test_an_overlay_whose_upper_folder_is_out_of_sight_is_not_judged(mounts):
    """As in a container; nor one that lies over itself."""
    require_lasting(Path("/srv/data"), mounts(PI_OVERLAY.format("/nowhere/to/be/seen")))
    require_lasting(Path("/srv/data"), mounts(PI_OVERLAY.format("/")))


@pytest.mark.parametrize(
    "line", ["", "-", " - ", "1 2 3 4", "1 2 3 4 /srv rw - tmpfs", "\\777 \udce4"]
)
def test_what_is_no_mount_is_passed_over(tmp_path, line):
    file = tmp_path / "mountinfo"
    file.write_text(f"{line}\n{ROOT}\n", encoding="utf-8", errors="surrogateescape")
    require_lasting(Path("/srv/data"), file)
    require_lasting(Path("/srv/data"), tmp_path / "none")


def test_this_systems_own_memory_is_found():
    with pytest.raises(LedgerError):
        require_lasting(Path("/dev/shm/headsweep"))
