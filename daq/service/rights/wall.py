"""How the Pi's own wall proves itself: by a secret file that nobody else may read.

Whoever may read the file makes tickets with it, each good for one page within a minute; for one
the wall's browser is given what it keeps. That is derived from the file, so it outlives restarts
of the service, and ends when the file is replaced.
"""

import hashlib
import hmac
import os
import secrets
import stat
from collections.abc import Callable
from pathlib import Path

from daq.service.rights.store import write
from daq.words import SaidTrouble, said

NAME = "wall-key"
LEAST = 32
"""Characters of a key; ours are 64 hexadecimal ones."""

BOOT = Path("/proc/sys/kernel/random/boot_id")
"""Tells one start of the computer from the next: the monotonic clock begins anew at each, so a
minute of one is a minute of the other."""

TICKET_S = 60
MOST_USED = 1024


def made_key(data: Path) -> str:
    """The key in the data folder; made if there is none, anew if only a part of one is left.

    Raises:
        SaidTrouble: it cannot be read, or everybody on this computer can.
    """
    path = data / NAME
    if not path.exists():
        write(path, _new())
    elif path.stat().st_size < LEAST:
        with path.open("r+", encoding="ascii") as file:  # its group is the wall's, and stays
            file.write(_new())
            file.flush()
            os.fsync(file.fileno())
    return key(data)


def _new() -> str:
    return f"{secrets.token_hex(32)}\n"


def key(data: Path) -> str:
    """The key in the data folder. Errors as for `made_key`."""
    path = data / NAME
    try:
        open_to_all = path.stat().st_mode & stat.S_IRWXO
        text = path.read_text(encoding="ascii").strip()
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or type(error).__name__
        raise SaidTrouble(said("wall-key-unread", file=str(path), why=str(why))) from None
    if open_to_all:
        raise SaidTrouble(said("wall-key-open", file=str(path)))
    if len(text) < LEAST:
        raise SaidTrouble(said("wall-key-short", file=str(path), least=LEAST))
    return text


def _seal(key: str, what: str, text: str) -> str:
    return hmac.new(key.encode(), _plain(f"{what} {text}"), hashlib.sha256).hexdigest()


def _ticket_seal(key: str, text: str) -> str:
    return _seal(key, f"ticket {BOOT.read_text(encoding='ascii').strip()}", text)


def _plain(text: str) -> bytes:
    return text.encode("utf-8", "replace")


def ticket(key: str, mono_ns: int) -> str:
    """What opens the pages as the own wall, once, for a minute of this start's monotonic clock."""
    text = f"{mono_ns // 10**9}-{secrets.token_hex(8)}"
    return f"{text}-{_ticket_seal(key, text)}"


class OwnWall:
    """Knows the own wall by its ticket and by what its browser keeps."""

    def __init__(self, key: str, mono_ns: Callable[[], int]) -> None:
        """No ticket was used yet."""
        self._key = key
        self._mono_ns = mono_ns
        self._used: dict[str, int] = {}

    def admits(self, ticket: str) -> bool:
        """Whether a ticket is of this key, of this minute, and was not used before."""
        text, _, seal = ticket.rpartition("-")
        if not hmac.compare_digest(_plain(seal), _ticket_seal(self._key, text).encode()):
            return False
        made_s, now_s = int(text.partition("-")[0]), self._mono_ns() // 10**9
        if not 0 <= now_s - made_s <= TICKET_S or text in self._used:
            return False
        self._used = {t: s for t, s in self._used.items() if now_s - s <= TICKET_S}
        self._used[text] = made_s
        return len(self._used) <= MOST_USED

    def token(self) -> str:
        """What a wall's browser keeps."""
        text = secrets.token_hex(16)
        return f"{text}-{_seal(self._key, 'wall', text)}"

    def knows(self, token: str) -> bool:
        """Whether that was given to a wall, by this service or one before it."""
        text, _, seal = token.rpartition("-")
        return hmac.compare_digest(_plain(seal), _seal(self._key, "wall", text).encode())
