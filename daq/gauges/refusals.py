"""Why a port was not opened, or has gone: told from what the system or pyserial raised."""

import errno
import grp
import os
import pwd
import re
import socket
import termios
from collections.abc import Iterator
from pathlib import Path
from typing import Final
from urllib.parse import urlsplit

from daq.gauges.errors import LinkError
from daq.gauges.ports.incoming import NotInstalledError
from daq.words import Said, said

_BUSY: Final = (errno.EBUSY, errno.EAGAIN)
_GONE: Final = (errno.ENOENT, errno.ENOTDIR, errno.ENODEV, errno.ENXIO, errno.EIO)
_NO_PORT: Final = (errno.ENOTTY, errno.EISDIR)
_NO_WAY: Final = (errno.ETIMEDOUT, errno.EHOSTUNREACH, errno.EHOSTDOWN, errno.ENETUNREACH)
_HUNG_UP: Final = (errno.EPIPE, errno.ECONNRESET, errno.ECONNABORTED)
_NETWORK: Final = ("socket", "rfc2217")
_OPTION: Final = re.compile(r"option '(\w+)'|(\w+):(?!ACTIVE)[A-Z_]+")
"""Which of them pyserial's RFC 2217 says was refused, or not answered."""

_SETTINGS: Final = {"baudrate": "baud", "datasize": "bits", "parity": "parity", "stopsize": "stop"}
"""What it calls a setting, and the key of it in a gauge's file."""


def refusal(url: str, error: BaseException) -> LinkError:
    """Return why the port was not opened: what is amiss, and what to do."""
    chain = tuple(_chain(error))
    number = next((each for each in map(_number, chain) if each > 0), 0)
    scheme = _scheme(url)
    found = None
    if scheme in _NETWORK:
        found = _of_server(url, scheme, chain, number)
    elif isinstance(error, NotInstalledError):
        found = _cannot(said("port-needs-package", it=url, package=error.package))
    elif "not known" in str(error) and scheme:
        found = _cannot(said("port-of-no-kind", it=url))
    return found or _of_device(url, chain, number) or _other(url, error, number)


def gone(url: str) -> LinkError:
    """Return what is said of a port that was open."""
    if _scheme(url) in _NETWORK:
        return LinkError("unplugged", said("server-gone", it=url))
    return LinkError("unplugged", said("port-gone", it=url))


def _scheme(url: str) -> str:
    return url.partition("://")[0].lower() if "://" in url else ""


def _cannot(say: Said, in_full: Said | None = None) -> LinkError:
    return LinkError("cannot-open", say, in_full)


def _chain(error: BaseException | None) -> Iterator[BaseException]:
    """The error, and those that pyserial wrapped in it."""
    while error is not None:
        yield error
        error = error.__cause__ or error.__context__


def _number(error: BaseException) -> int:
    """The system's number for it, 0 without one; names that are not found have one below 0."""
    if isinstance(error, termios.error):
        return int(error.args[0])
    return (error.errno or 0) if isinstance(error, OSError) else 0


def _of_device(url: str, chain: tuple[BaseException, ...], number: int) -> LinkError | None:
    if number in _BUSY:
        return LinkError("busy", said("port-busy", port=url))
    named = (each.filename for each in chain if isinstance(each, OSError) and each.filename)
    path = Path(str(next(named, urlsplit(url).path if _scheme(url) else url)))
    if number in _GONE:
        there = path.parent.is_dir()
        in_full = None if there else said("port-folder-not-there", it=url)
        return LinkError("unplugged", said("port-not-there", it=url), in_full)
    if number in (errno.EACCES, errno.EPERM):
        user, group = pwd.getpwuid(os.geteuid()).pw_name, _group(path)
        in_full = said("port-not-allowed-in-full", port=url, user=user, group=group)
        return _cannot(said("port-not-allowed", port=url), in_full)
    if number in _NO_PORT:
        return _cannot(said("port-is-none", it=url))
    if any(isinstance(each, termios.error) for each in chain):
        return _cannot(said("port-wrong-settings", it=url))
    return None


def _group(path: Path) -> str:
    """The group that may use a device; "none" where no group may, or only root's own."""
    try:
        found = path.stat()
        name = grp.getgrgid(found.st_gid).gr_name
    except (OSError, KeyError):
        return "none"
    return name if found.st_gid and found.st_mode & 0o060 == 0o060 else "none"


def _of_server(
    url: str, scheme: str, chain: tuple[BaseException, ...], number: int
) -> LinkError | None:
    if not _names_a_server(url):
        return _cannot(said("server-not-named", it=url, scheme=scheme))
    if number == errno.ECONNREFUSED:
        return _cannot(said("server-refuses", it=url))
    if any(isinstance(each, socket.gaierror) for each in chain):
        return _cannot(said("server-unknown", it=url))
    if number in _NO_WAY or any(isinstance(each, TimeoutError) for each in chain):
        return _cannot(said("server-does-not-answer", it=url))
    if number in _HUNG_UP:
        return LinkError("busy", said("server-hangs-up", it=url))
    why = str(chain[0])
    options = [first or second for first, second in _OPTION.findall(why)]
    if "unknown option" in why:
        return _cannot(said("server-option-unknown", it=url))
    if "control" in options:
        cure = f"{url}{'&' if urlsplit(url).query else '?'}ign_set_control"
        in_full = said("server-lacks-control-in-full", it=url, cure=cure)
        return _cannot(said("server-lacks-control", it=url), in_full)
    for name, key in _SETTINGS.items():
        if name in options:
            return _cannot(said("server-refuses-setting", it=url, key=key))
    if "RFC2217 or BINARY" in why:
        return _cannot(said("server-speaks-otherwise", it=url))
    return None


def _names_a_server(url: str) -> bool:
    try:
        parts = urlsplit(url)
        return bool(parts.hostname and parts.port)
    except ValueError:  # a port's number that is none
        return False


def _other(url: str, error: BaseException, number: int) -> LinkError:
    if number:
        return _cannot(said("port-cannot-be-opened", it=url, why=os.strerror(number)))
    in_full = said("port-cannot-be-opened-in-full", it=url, error=str(error))
    return _cannot(said("port-not-opened", it=url), in_full)
