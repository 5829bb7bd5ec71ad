"""The far end of a serial port on the network, as RFC 2217 describes it (from memory).

Bytes go over a Telnet connection, in which the reader also says the speed and framing it
wants. So, unlike a pseudo-terminal, such a port tells all of them to the gauge.
"""

from dataclasses import dataclass
from typing import Final

from daq.virtual.uart import DataBits, LineEnd, Parity, StopBits

IAC: Final = 255
_DONT, _DO, _WONT, _WILL, _SB, _SE = 254, 253, 252, 251, 250, 240
_BINARY, _NO_GO_AHEAD, _COM_PORT = 0, 3, 44
_TAKEN: Final = (_BINARY, _NO_GO_AHEAD, _COM_PORT)
_BAUD, _SIZE, _PARITY, _STOP = 1, 2, 3, 4
_FROM_SERVER: Final = 100
_SIZES: Final[dict[int, DataBits]] = {5: 5, 6: 6, 7: 7, 8: 8}
_STOPS: Final[dict[int, StopBits]] = {1: 1, 2: 2}
_PARITIES: Final[dict[int, Parity]] = {1: "none", 2: "odd", 3: "even", 4: "mark", 5: "space"}


@dataclass(frozen=True, slots=True)
class Fed:
    """What came out of some bytes: the data among them, and what is to be answered."""

    data: bytes
    answer: bytes


class ComPort:
    """One reader's connection, without the connection: bytes in, data and answers out."""

    def __init__(self) -> None:
        """Begin with a reader that has said nothing."""
        self._rest = b""
        self._agreed: set[tuple[int, int]] = set()
        self._said: dict[int, int] = {}

    def heard(self, own: LineEnd) -> LineEnd:
        """Return the settings the reader has asked for; those not asked for, as in `own`."""
        said = self._said
        return LineEnd(
            baud=said.get(_BAUD, own.baud),
            bits=_SIZES.get(said.get(_SIZE, 0), own.bits),
            parity=_PARITIES.get(said.get(_PARITY, 0), own.parity),
            stop=_STOPS.get(said.get(_STOP, 0), own.stop),
        )

    def feed(self, came: bytes) -> Fed:
        """Take the next bytes from the reader."""
        whole, self._rest = self._rest + came, b""
        data, answer, at = bytearray(), bytearray(), 0
        while (mark := whole.find(IAC, at)) >= 0:
            data += whole[at:mark]
            end = _end(whole, mark)
            if not end:
                self._rest = whole[mark:]
                return Fed(bytes(data), bytes(answer))
            if whole[mark + 1] == IAC:
                data.append(IAC)
            answer += self._command(whole[mark + 1 : end])
            at = end
        return Fed(bytes(data + whole[at:]), bytes(answer))

    def _command(self, command: bytes) -> bytes:
        if command[0] == _SB and command[1] == _COM_PORT:
            return self._setting(command[2], doubled_once(command[3:-2]))
        if command[0] not in (_DO, _WILL) or (command[0], command[1]) in self._agreed:
            return b""
        self._agreed.add((command[0], command[1]))
        yes, no = (_WILL, _WONT) if command[0] == _DO else (_DO, _DONT)
        return bytes([IAC, yes if command[1] in _TAKEN else no, command[1]])

    def _setting(self, what: int, value: bytes) -> bytes:
        if what in (_BAUD, _SIZE, _PARITY, _STOP):
            number = int.from_bytes(value, "big")
            if number:
                self._said[what] = number
            else:  # a question
                value = self._said.get(what, 0).to_bytes(len(value), "big")
        inner = bytes([what + _FROM_SERVER]) + doubled(value)
        return bytes([IAC, _SB, _COM_PORT]) + inner + bytes([IAC, _SE])


def doubled(data: bytes) -> bytes:
    """Return data as it goes over the connection: each byte 255 twice."""
    return data.replace(bytes([IAC]), bytes([IAC, IAC]))


def doubled_once(data: bytes) -> bytes:
    """Return what `doubled` was given."""
    return data.replace(bytes([IAC, IAC]), bytes([IAC]))


def _end(whole: bytes, mark: int) -> int:
    """Return where the command at `mark` ends; 0 when it is not there as a whole."""
    if mark + 1 >= len(whole):
        return 0
    match whole[mark + 1]:
        case n if n == _SB:
            at = mark + 2
            while 0 <= (at := whole.find(IAC, at)) < len(whole) - 1:
                if whole[at + 1] == _SE:
                    return at + 2
                at += 2
            return 0
        case n if n in (_DO, _DONT, _WILL, _WONT):
            return mark + 3 if mark + 2 < len(whole) else 0
        case _:
            return mark + 2
