"""Inside a machine under trial: hands.py gauge | configure | open.

`gauge` sends on a pseudo-terminal as the practice gauge does. `configure` puts the practice files
in place, as no installation does, and names that port in them. `open` sees its number and opens an
audit as the own wall; it looks at /proc as the service sees it, whose start of the computer has
another name than the container's.
"""

import os
import pwd
import shutil
import subprocess
import sys
import time
import tty
from contextlib import suppress
from pathlib import Path

from tests.patience import until
from tests.system.client import Client

PORT = Path("/run/gauge")
CONFIG = Path("/etc/headsweep")
EXAMPLES = Path("/mnt/checkouts/now/config")
DROP_IN = Path("/run/systemd/system/headsweep.service.d/gauge.conf")
ALLOW = "[Service]\nDevicePolicy=auto\n"
"""What its unit keeps it from: ports that no real gauge has."""


def gauge() -> None:
    """Send a number fifty times a second, until killed."""
    mine, its = os.openpty()
    tty.setraw(its)
    os.chown(os.ttyname(its), pwd.getpwnam("headsweep").pw_uid, -1)
    PORT.unlink(missing_ok=True)
    PORT.symlink_to(os.ttyname(its))
    os.set_blocking(mine, False)
    while True:
        with suppress(BlockingIOError):  # nobody reads yet
            os.write(mine, b"+001.234 mm\r\n")
        time.sleep(0.02)


def configure() -> None:
    """Configure the shop, and start the service with it."""
    until(PORT.exists)
    for name in ("machines/practice-mill.toml", "gauges/practice.toml", "shop.toml"):
        shutil.copyfile(EXAMPLES / name, CONFIG / name)
        shutil.chown(CONFIG / name, "headsweep", "headsweep")
    file = CONFIG / "gauges/practice.toml"
    file.write_text(file.read_text().replace('"ttys/practice"', f'"{PORT}"'))
    DROP_IN.parent.mkdir(parents=True, exist_ok=True)
    DROP_IN.write_text(ALLOW)
    subprocess.run(["systemctl", "daemon-reload"], check=True)
    subprocess.run(["systemctl", "restart", "headsweep"], check=True)


def opened() -> None:
    """Wait for the gauge's number, open an audit."""
    client = Client()
    client.port = 8642
    client.enter(Path("/var/lib/headsweep"))
    until(lambda: client.live().fresh)
    assert client.live().text == "1.234", client.live()
    client.do("open", {"reason": "scheduled"})


if __name__ == "__main__":
    {"gauge": gauge, "configure": configure, "open": opened}[sys.argv[1]]()
