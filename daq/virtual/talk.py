"""When a gauge sends: of its own accord, when it is asked, or when its key is pressed."""

from dataclasses import dataclass
from typing import Final

_LONGEST: Final = 64
"""How many bytes of an unfinished request a gauge remembers."""


@dataclass(frozen=True, slots=True)
class Streaming:
    """Sends a frame every `interval_s` seconds."""

    interval_s: float = 0.02


@dataclass(frozen=True, slots=True)
class OnRequest:
    """Sends a frame `latency_s` seconds after each `request`, and after nothing else.

    A request ends with its last byte, which stands nowhere else in it.
    """

    request: bytes
    latency_s: float = 0.02

    def __post_init__(self) -> None:
        """Refuse a request whose end could not be told. Raises ValueError."""
        if not self.request or self.request[-1] in self.request[:-1]:
            raise ValueError(
                f"request: found {self.request!r}; allowed: bytes of which the last stands only "
                "at the end"
            )

    def asked(self, came: bytes) -> tuple[int, bytes]:
        """Return how many requests are in what came, and what is left of an unfinished one."""
        end = self.request[-1:]
        *whole, rest = came.split(end)
        return sum(one + end == self.request for one in whole), rest[-_LONGEST:]


@dataclass(frozen=True, slots=True)
class OnKey:
    """Sends a frame, or so many `times`, `pause_s` apart, when its key is pressed."""

    times: int = 1
    pause_s: float = 0.1


@dataclass(frozen=True, slots=True)
class StartedStream:
    """Sends a frame every `interval_s` seconds, once it got the `request`, until it is unplugged.

    A request ends with its last byte.
    """

    request: bytes
    interval_s: float = 0.1


Talk = Streaming | OnRequest | OnKey | StartedStream
