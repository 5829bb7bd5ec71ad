"""Ports that are no files of this machine."""

import socket
import threading

import pytest

from daq.virtual.uart import LineEnd
from tests.gauges.conftest import PATIENCE_S, flowing_frame
from tests.rigs.netport import NetPort
from tests.words import en

ASKS = {"mode": "asks", "interval": "20 ms", "request": r"?\r", "timeout": "0.2 s"}

# pyserial's RFC 2217 client starts its thread in a way that Python has deprecated.
thread_deprecated = pytest.mark.filterwarnings("ignore:setDaemon:DeprecationWarning")
name_deprecated = pytest.mark.filterwarnings("ignore:setName:DeprecationWarning")


class Server(threading.Thread):
    """A serial server on the network with a gauge behind it that answers."""

    def __init__(self):
        super().__init__(daemon=True)
        self.listening = socket.create_server(("127.0.0.1", 0))
        self.url = f"socket://127.0.0.1:{self.listening.getsockname()[1]}"
        self.asked = []

    def run(self):
        for _ in range(2):
            peer, _ = self.listening.accept()
            with peer:
                while request := peer.recv(100):
                    self.asked.append(request)
                    if len(self.asked) == 3:
                        break  # the network fails once
                    peer.sendall(b"\r\n" + flowing_frame(len(self.asked)))

    def close(self):
        self.join(PATIENCE_S)
        self.listening.close()


def test_asking_a_gauge_behind_a_serial_server(make_reader, heard):
    server = Server()
    server.start()
    reader = make_reader(server.url, talk=ASKS)
    reader.start()
    assert [heard.sample().value_mm for _ in range(2)] == [1.0, 2.0]
    assert heard.until("unplugged").run == "run-1"
    assert heard.sample().value_mm == 4.0
    assert heard.until("ok").run == "run-2"
    reader.stop()
    server.close()
    assert set(server.asked) == {b"?\r"}


@thread_deprecated
@name_deprecated
def test_a_port_that_is_told_its_settings(make_reader, heard):
    port = NetPort()
    port.plug()
    stop = threading.Event()

    def send():
        while not stop.wait(0.01):
            port.send(flowing_frame(1.5))

    sending = threading.Thread(target=send)
    sending.start()
    line = {"port": port.url, "baud": 4800, "bits": 7, "parity": "even", "stop": 2}
    reader = make_reader(port.url, line=line)
    reader.start()
    assert heard.sample().value_mm == 1.5
    told = port.heard(LineEnd())
    assert (told.baud, told.bits, told.parity, told.stop) == (4800, 7, "even", 2)
    port.unplug()
    assert en(heard.until("unplugged").say).endswith("does nobody else use its port?")
    port.plug()
    assert heard.until("ok").run == "run-2"
    stop.set()
    sending.join()
    reader.stop()
    port.unplug()


def test_a_port_that_hears_itself(make_reader, heard):
    reader = make_reader("loop://", talk=ASKS | {"request": r"+001.500 mm\r\n"})
    reader.start()
    assert heard.sample().value_mm == 1.5


def test_a_server_that_is_not_there(make_reader, heard):
    with socket.create_server(("127.0.0.1", 0)) as server:
        url = f"socket://127.0.0.1:{server.getsockname()[1]}"
    reader = make_reader(url)
    reader.start()
    status = heard.status()
    assert status.code == "cannot-open"
    assert "takes no connection: is the serial server's program running" in en(status.say)
