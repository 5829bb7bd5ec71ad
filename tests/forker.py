"""The process that services are forked from: started by `warm`, asked over its standard input."""

import json
import os
import socket
import sys
from importlib import import_module

from daq.cli import main
from daq.says import language
from daq.service.files import load, shipped
from web.scan import families

SERVICES = ("daq.run", "daq.demo")
"""What the commands import that start a service."""

LONGEST = 65536
PIPES = 2


def asked() -> list[str]:
    """In each service, the arguments it was started with; does not return in this process."""
    with socket.socket(fileno=os.dup(0)) as line:
        while True:
            said, pipes, _, _ = socket.recv_fds(line, LONGEST, PIPES)
            if not said:
                os._exit(0)
            if (service := _forked(pipes)) is None:
                return [str(arg) for arg in json.loads(said)]
            line.send(str(service).encode())


def _forked(pipes: list[int]) -> int | None:
    """The new process's number, and in it None; its parent ends, so that it has another."""
    told, tell = os.pipe()
    if between := os.fork():
        for fd in (tell, *pipes):
            os.close(fd)
        os.waitpid(between, 0)
        with os.fdopen(told, encoding="ascii") as end:
            return int(end.read())
    if service := os.fork():
        os.write(tell, str(service).encode())
        os._exit(0)
    nothing = os.open(os.devnull, os.O_RDONLY)
    for fd, place in zip((nothing, *pipes), (0, 1, 2), strict=True):
        os.dup2(fd, place)
    for fd in (told, tell, nothing, *pipes):
        os.close(fd)
    return None


if __name__ == "__main__":
    for each in SERVICES:
        import_module(each)
    # What every service works out alike as it starts: its sentences, units and routes.
    language()
    load(shipped())
    for package in ("web.pages", "web.api"):
        list(families(package))
    sys.argv[1:] = asked()
    sys.exit(main())
