"""Reports into a folder on a disk of its own that fills, is shut for writing, and goes away.

Run in a mount name space of its own with the mount point and a data folder; prints a line of JSON
for each phase: whether all came through, why not, what is owed, which files are there and whole.
"""

import json
import subprocess
import sys
from pathlib import Path

from daq.service.delivery.courier import Courier
from daq.service.delivery.folder import drop
from daq.service.delivery.owed import Book

CONTENT = b"%PDF " + bytes(range(256)) * 200


def mount(*how: str) -> None:
    subprocess.run(["mount", *how], check=True)


def main(folder: Path, data: Path) -> None:
    ledger = "11111111-2222-4333-8444-555555555555"
    book = Book(data, "folder", ledger, 0, lambda seq: ())

    def deliver(row: int) -> None:
        drop(folder, {f"mill-{row}.pdf": lambda: CONTENT, f"mill-{row}.json": lambda: b"{}"})

    courier = Courier("folder", str(folder), book, deliver)

    def phase(name: str) -> None:
        well = courier.round()
        standing = courier.standing
        there = {each.name: each.read_bytes() for each in folder.iterdir()} if well else {}
        found = sorted(path.name for path in folder.iterdir()) if folder.is_dir() else []
        whole = all(text in (CONTENT, b"{}") for text in there.values())
        why = standing.why.code if standing.why else ""
        print(json.dumps([name, well, why, standing.owed, found, whole]), flush=True)

    book.more([1])
    phase("well")
    mount("-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder))
    ballast = folder / "ballast"
    ballast.write_bytes(bytes(32768))
    book.more([2, 3])
    phase("full")
    ballast.unlink()
    phase("room for one")
    (folder / "mill-2.pdf").unlink()
    phase("room again")
    mount("-o", "remount,ro", str(folder))
    book.more([4])
    phase("read-only")
    (data / "owed-folder.json").read_text()
    mount("-o", "remount,rw,size=1m", str(folder))
    phase("writable")
    subprocess.run(["umount", str(folder)], check=True)
    folder.rename(folder.with_name("pulled"))
    book.more([5])
    phase("gone")
    folder.with_name("pulled").rename(folder)
    phase("back")


main(Path(sys.argv[1]), Path(sys.argv[2]))
