"""A line between screens and their service that can be held without being cut."""

import socket
import threading
from contextlib import suppress
from urllib.parse import urlsplit


class Proxy:
    """Passes bytes both ways; while it is held none arrive at the screens, and none are lost."""

    def __init__(self, address: str) -> None:
        there = urlsplit(address)
        self._there = (there.hostname or "", there.port or 0)
        self._flows = threading.Event()
        self._flows.set()
        self._listening = socket.create_server(("127.0.0.1", 0))
        self._open = [self._listening]
        port = self._listening.getsockname()[1]
        self.address = there._replace(netloc=f"127.0.0.1:{port}").geturl()
        threading.Thread(target=self._work, daemon=True).start()

    def hold(self) -> None:
        self._flows.clear()

    def go_on(self) -> None:
        self._flows.set()

    def close(self) -> None:
        self._flows.set()
        for each in self._open:
            with suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)
            each.close()

    def _work(self) -> None:
        with suppress(OSError):
            while True:
                screen, _ = self._listening.accept()
                service = socket.create_connection(self._there)
                self._open += [screen, service]
                for ends in ((screen, service, False), (service, screen, True)):
                    threading.Thread(target=self._pass, args=ends, daemon=True).start()

    def _pass(self, source: socket.socket, target: socket.socket, held: bool) -> None:
        with suppress(OSError):
            while block := source.recv(65536):
                if held:
                    self._flows.wait()
                target.sendall(block)
            target.shutdown(socket.SHUT_WR)
