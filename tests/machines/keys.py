"""A cable that types, on a kernel that has uinput: PYTHONPATH=. python tests/machines/keys.py

Needs root, /dev/uinput and python3-evdev. A keyboard that the kernel makes types 500 numbers: all
of them are read, and another listener, such as a browser with the focus, hears nothing of them;
then it is pulled out and put back. Exits 1 if anything was not so, 2 without uinput.
tests/gauges/test_keys.py does so everywhere, on a keyboard that is none.
"""

import sys
import time
from contextlib import closing
from pathlib import Path

from daq.gauges.config import SerialLine
from daq.gauges.errors import LinkError
from daq.gauges.link import Link
from daq.gauges.ports.incoming import library
from tests.patience import until

COUNT = 500
CODES = dict(zip("1234567890-", range(2, 13), strict=True)) | {".": 52, "\n": 28}


def typed(keyboard, text):
    """At most as quick as a cable: the kernel keeps 64 events for who does not read."""
    for key in text:
        for value in (1, 0):
            keyboard.write(1, CODES[key], value)
            keyboard.syn()
        time.sleep(0.002)


def came(link, size):
    found = b""
    while len(found) < size and (block := link.read(10.0)):
        found += block
    return found


def heard(device):
    """What another listener hears of it."""
    try:
        return len(list(device.read()))
    except BlockingIOError:
        return 0


def pulled_out(link):
    try:
        return not link.read(10.0) and False
    except LinkError as error:
        return error.code == "unplugged"


def main():
    evdev = library("evdev", "python3-evdev")
    with evdev.UInput(name="typing cable") as keyboard:
        path = keyboard.device.path
        until(Path(path).exists)
        browser = evdev.InputDevice(path)
        typed(keyboard, "1\n")
        yield "another listener hears it while nobody has taken it", heard(browser) > 0
        with closing(Link(SerialLine("unused"), f"keys://{path}", 1.0)) as link:
            exact = True
            for n in range(COUNT):
                typed(keyboard, f"-{n / 1000:.3f}\n")
                exact &= came(link, 8) == f"-{n / 1000:.3f}\r\n".encode()
            yield f"{COUNT} numbers are read exactly", exact
            yield "nobody else hears a key of them", heard(browser) == 0
            try:
                Link(SerialLine("unused"), f"keys://{path}", 1.0).close()
                yield "a second opening is refused as busy", False
            except LinkError as error:
                yield "a second opening is refused as busy", error.code == "busy"
            keyboard.close()
            yield "pulled out is said", pulled_out(link)
    with evdev.UInput(name="typing cable") as keyboard:
        url = f"keys://{keyboard.device.path}"
        with closing(Link(SerialLine("unused"), url, 1.0)) as link:
            typed(keyboard, "12.5\n")
            yield "put back it is read", came(link, 6) == b"12.5\r\n"


if __name__ == "__main__":
    if not Path("/dev/uinput").exists():
        print("this kernel has no /dev/uinput")
        sys.exit(2)
    good = True
    for what, so in main():
        print("ok  " if so else "NOT ", what, flush=True)
        good &= so
    sys.exit(0 if good else 1)
