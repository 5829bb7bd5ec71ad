"""What shop.toml says of it: `[mqtt]`."""

import re
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Final

from daq.settings import quoted

PORT, TLS_PORT = 1883, 8883
"""Those that IANA lists for MQTT, without and with TLS."""
MOST_HZ: Final = 5.0
_HOST: Final = re.compile(r"[A-Za-z0-9_.:-]{1,253}")
_LEVEL: Final = re.compile(r"[^/+#$\x00-\x1f\x7f][^/+#\x00-\x1f\x7f]*")
_HOSTS: Final = "allowed: a name such as broker.local, or an address"
_LEVELS: Final = "allowed: levels such as shop/mills, without + and #"


@dataclass(frozen=True)
class Mqtt:
    """The shop's broker.

    `port`: 0 for the usual one. `ca`: a file with the certificate that signed the broker's, "" for
    those that this computer trusts. `password_file`: what `user` proves to be with, in a file that
    nobody else may read. `prefix`: what every topic begins with. `live_hz`: how often a live value
    is sent at most, 0 for never.

    Raises:
        ValueError: names the key, what was found and what is allowed.
    """

    host: str
    port: int = 0
    tls: bool = False
    ca: str = ""
    user: str = ""
    password_file: str = ""
    prefix: str = "headsweep"
    live_hz: float = 1.0

    def __post_init__(self) -> None:
        """Refuse what could not be meant."""
        if not _HOST.fullmatch(self.host):
            raise ValueError(f"host: found {quoted(self.host)}; {_HOSTS}")
        if not 0 <= self.port <= 65535:
            raise ValueError(f"port: found {self.port}; allowed: 1 to 65535, or left out")
        self._check_files()
        if not all(_LEVEL.fullmatch(each) for each in self.prefix.split("/")):
            raise ValueError(f"prefix: found {quoted(self.prefix)}; {_LEVELS}")
        if not 0 <= self.live_hz <= MOST_HZ:
            raise ValueError(f"live_hz: found {self.live_hz:g}; allowed: 0 to {MOST_HZ:g}")

    def _check_files(self) -> None:
        for key, found in (("ca", self.ca), ("password_file", self.password_file)):
            if found and not PurePosixPath(found).is_absolute():
                raise ValueError(f"{key}: found {quoted(found)}; allowed: a whole path, from / on")
        if self.ca and not self.tls:
            raise ValueError("ca: found without tls; allowed: both, or neither")
        if self.password_file and not self.user:
            raise ValueError("password_file: found without user; allowed: both, or user alone")

    @property
    def at(self) -> str:
        """Host and port, as people are told them."""
        return f"{self.host}:{self.port or (TLS_PORT if self.tls else PORT)}"
