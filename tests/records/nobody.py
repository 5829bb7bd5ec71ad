"""A folder that nobody can write to, looked at by somebody who may not."""

import contextlib
import io
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

NOBODY = 65534


@contextmanager
def sealed_off(data: Path) -> Iterator[Path]:
    """A copy of a data folder in which nothing can be made or changed."""
    # Not below the run's own folder, which is its user's alone.
    with tempfile.TemporaryDirectory(dir="/var/tmp") as place:
        Path(place).chmod(0o755)
        folder = Path(place) / "data"
        shutil.copytree(data, folder)
        for path in folder.iterdir():
            path.chmod(0o444)
        folder.chmod(0o555)
        yield folder
        folder.chmod(0o755)


def as_nobody(act: Callable[[], object]) -> str:
    """What `act` prints in a process that permissions bind; it imports nothing new there."""
    out, into = os.pipe()
    child = os.fork()
    if child == 0:
        said = io.StringIO()
        with contextlib.suppress(BaseException), contextlib.redirect_stdout(said):
            if os.geteuid() == 0:
                os.seteuid(NOBODY)
            act()
        os.write(into, said.getvalue().encode()[:60_000])
        os._exit(0)
    os.close(into)
    with os.fdopen(out, encoding="utf-8") as read:
        told = read.read()
    os.waitpid(child, 0)
    return told
