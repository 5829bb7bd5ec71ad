"""The connection to the broker, kept up by a thread of its own."""

import logging
import ssl
import stat
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Final

from paho.mqtt.client import Client, ConnectFlags, DisconnectFlags, MQTTMessageInfo
from paho.mqtt.enums import CallbackAPIVersion, MQTTErrorCode
from paho.mqtt.properties import Properties
from paho.mqtt.reasoncodes import ReasonCode

from daq.service.delivery.courier import NotDelivered
from daq.service.messages.config import PORT, TLS_PORT, Mqtt
from daq.service.messages.shapes import Presence
from daq.service.turns import WAIT_S, Turns
from daq.words import Said, SaidTrouble, said

KEEPALIVE_S = 5
"""A broker that says nothing for so long is asked, and given up after as long again; of a service
that is gone without a word it says "offline" after one and a half times as long (MQTT 3.1.1)."""
CONNECTS_S: Final = 5.0
TAKES_S: Final = 10.0
"""How long the broker may take to say that it has a message."""
FIRST_WAITS, MOST_WAITS = 2, 120
"""The pauses before another try, counted in waits of half a second: from 1 s to a minute."""
GOOD_TURNS: Final = 20
"""So many, and a connection was no accident: the next pause is a short one again."""
STOPS_S: Final = 0.5

_log = logging.getLogger(__name__)


class BrokerLine:
    """Connects, says that it is there, sends, and connects again."""

    def __init__(
        self,
        config: Mqtt,
        name: str,
        status: Callable[[Presence], tuple[str, bytes]],
        when_up: Callable[[], None],
        each_turn: Callable[["BrokerLine"], None],
        turn_s: float = WAIT_S,
    ) -> None:
        """Nothing is connected before `start`. `name`: which client it is to the broker.

        `status`: topic and message of "online" and "offline". `when_up` is called once connected,
        `each_turn` while it is, at least every `turn_s`; neither may wait.
        """
        self._config = config
        self._status = status
        self._when_up = when_up
        self._each_turn = each_turn
        self._turn_s = min(turn_s, WAIT_S)
        self._client = _client(name, config)
        self._client.on_connect = self._connected
        self._client.on_disconnect = self._disconnected
        self._dressed = False
        self._on_its_way: tuple[int, MQTTMessageInfo] | None = None
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._work, name="mqtt", daemon=True)
        self._failures = 0
        self.turns = Turns()
        self.why: Said | None = None
        """Why there is no connection; None while there is one, or was none yet."""

    def start(self) -> None:
        """Begin to connect."""
        self._thread.start()

    def stop(self) -> None:
        """Say that it is gone, and end; a connection that does not close is left behind."""
        if self._client.is_connected():
            # In this order to the broker: one that was not told says so of itself.
            self._client.publish(*self._status("offline"), qos=0, retain=True)
            self._client.disconnect()
        self._ending.set()
        if self._thread.is_alive():
            self._thread.join(STOPS_S)

    def send(self, topic: str, body: bytes) -> None:
        """Send it once, whoever is there; for the thread of `each_turn`."""
        self._client.publish(topic, body, qos=0)

    def hand_in(self, row: int, topic: str, body: bytes) -> None:
        """Send what a row says and return once the broker has it. For one thread.

        A row that is on its way already is waited for: it goes again by itself with the connection.

        Raises:
            NotDelivered: there is no connection, it broke, or the broker does not say it has it.
        """
        for _ in range(round(TAKES_S / WAIT_S)):
            if not self._client.is_connected():
                break
            if self._on_its_way is None or self._on_its_way[0] != row:
                self._on_its_way = row, self._client.publish(topic, body, qos=1)
            info = self._on_its_way[1]
            try:
                info.wait_for_publish(WAIT_S)
                taken = info.is_published()
            except (ValueError, RuntimeError):  # the connection went just as it was sent
                self._on_its_way = None
                break
            if taken:
                self._on_its_way = None
                return
        else:
            raise NotDelivered(said("broker-silent", host=self._config.at))
        raise NotDelivered(self.why or said("broker-not-yet", host=self._config.at))

    def _work(self) -> None:
        while not self._ending.is_set():
            self.turns.rest()  # a broker far away may take its time
            try:
                self._serve()
            except SaidTrouble as trouble:
                self.why = trouble.said
            except OSError as error:
                why = error.strerror or str(error) or type(error).__name__
                self.why = said("address-not-reached", host=self._config.at, why=why)
            except Exception as error:  # whatever the broker sent, it is connected anew
                why = type(error).__name__
                _log.warning("%s: %s: %s", self._config.at, why, error)
                self.why = said("address-not-reached", host=self._config.at, why=why)
            self._failures += 1
            self._pause()
        self.turns.rest()

    def _serve(self) -> None:
        """From a connection to its end."""
        client = self._client
        self._dress()
        client.will_set(*self._status("offline"), qos=1, retain=True)
        client.reconnect()
        good = 0
        while client.loop(self._turn_s) == MQTTErrorCode.MQTT_ERR_SUCCESS:
            self.turns.turn()
            if client.is_connected():
                good += 1
                self._failures = self._failures if good < GOOD_TURNS else 0
                self._each_turn(self)

    def _dress(self) -> None:
        """With what it proves who it is by; read anew each time, so that it may be put right.

        Raises:
            SaidTrouble: a file that it needs cannot be used.
        """
        of = self._config
        if of.user:
            self._client.username_pw_set(of.user, _password(Path(of.password_file)))
        if of.tls and not self._dressed:
            try:
                context = ssl.create_default_context(cafile=of.ca or None)
            except OSError as error:  # no certificate in it, too
                why = error.strerror or type(error).__name__
                raise SaidTrouble(said("file-not-usable", file=of.ca, why=why)) from None
            self._client.tls_set_context(context)
            self._dressed = True

    def _pause(self) -> None:
        waits = min(FIRST_WAITS << min(self._failures - 1, 10), MOST_WAITS)
        for _ in range(waits):
            self.turns.turn()
            if self._ending.wait(WAIT_S):
                return

    def _connected(
        self, client: Client, _: object, flags: ConnectFlags, code: ReasonCode,
        more: Properties | None,
    ) -> None:  # fmt: skip
        if code.is_failure:
            self.why = said("broker-refuses", host=self._config.at, why=str(code))
            return
        self.why = None
        client.publish(*self._status("online"), qos=0, retain=True)
        self._when_up()

    def _disconnected(
        self, client: Client, _: object, flags: DisconnectFlags, code: ReasonCode,
        more: Properties | None,
    ) -> None:  # fmt: skip
        if self.why is None:
            self.why = said("broker-gone", host=self._config.at, why=str(code))


def _client(name: str, config: Mqtt) -> Client:
    client = Client(CallbackAPIVersion.VERSION2, client_id=name, clean_session=True)
    client.connect_timeout = CONNECTS_S
    port = config.port or (TLS_PORT if config.tls else PORT)
    client.connect_async(config.host, port, KEEPALIVE_S)
    # What others hand in is written by the thread that loops, and by no other.
    client.on_socket_register_write = _nothing
    return client


def _nothing(*_: object) -> None:
    """That thread is woken by the client itself."""


def _password(path: Path) -> str | None:
    """What stands in the file, None for none; without the line's end.

    Raises:
        SaidTrouble: it cannot be read, or others on this computer can.
    """
    if path == Path():
        return None
    try:
        with path.open(encoding="utf-8") as file:
            if stat.S_IMODE(path.stat().st_mode) & (stat.S_IRWXG | stat.S_IRWXO):
                raise SaidTrouble(said("password-open", file=str(path)))
            return file.readline().rstrip("\r\n")
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or type(error).__name__
        raise SaidTrouble(said("file-not-usable", file=str(path), why=str(why))) from None
