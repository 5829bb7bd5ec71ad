"""What the service manager is told, and asks for: sd_notify(3) and sd_watchdog_enabled(3)."""

import os
import socket
from collections.abc import Mapping


class Manager:
    """Whoever started the service and named a socket to be told at; nobody, where none did."""

    def __init__(self, environ: Mapping[str, str] = os.environ) -> None:
        """Read what it asked for. `ping_ns`: how often it is to be told that all goes on."""
        address = environ.get("NOTIFY_SOCKET", "")
        # A name that belongs to no file is written with an @ (unix(7), "abstract").
        self._address = f"\0{address[1:]}" if address.startswith("@") else address
        usec, pid = environ.get("WATCHDOG_USEC", ""), environ.get("WATCHDOG_PID", "")
        asked = usec.isdecimal() and pid in ("", str(os.getpid()))
        self.ping_ns = int(usec) * 1000 // 2 if asked else 0

    def tell(self, *what: str) -> None:
        """Send assignments such as READY=1; never waits, and a manager that is gone is none."""
        if self._address:
            kind = socket.SOCK_DGRAM | socket.SOCK_NONBLOCK
            try:
                with socket.socket(socket.AF_UNIX, kind) as line:
                    line.sendto("\n".join(what).encode(), self._address)
            except OSError:
                return
