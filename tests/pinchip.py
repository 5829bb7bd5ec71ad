"""A chip of input pins that is none: gpiod's own Python over it, only its C part replaced.

What that part and the kernel do was seen on Linux 6.1 with its simulated chip (gpio-sim): a pin
nobody drives is pulled by its bias, edges are told by what the pin means (active low), what lasts
shorter than the debounce period is told to nobody, a pin has one holder, and whoever waits for a
chip that goes is woken and told so.
"""

import errno
import os
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import ModuleType
from typing import Final
from unittest.mock import patch

import gpiod
from gpiod import _ext

from daq.service import inputs

PULLED: Final = {_ext.BIAS_PULL_UP: 1, _ext.BIAS_PULL_DOWN: 0}
BUFFER: Final = 64


class Settings:
    """What a program asks of a pin, as gpiod hands it to its C part."""

    def __init__(
        self,
        direction: int,
        edge_detection: int,
        bias: int,
        drive: int,
        active_low: bool,
        debounce_period: int,
        event_clock: int,
        output_value: int,
    ) -> None:
        assert (direction, edge_detection) == (_ext.DIRECTION_INPUT, _ext.EDGE_BOTH)
        assert event_clock == _ext.CLOCK_MONOTONIC
        self.bias, self.active_low, self.debounce_us = bias, active_low, debounce_period


class Config:
    """The settings of each pin of a request."""

    def __init__(self) -> None:
        self.of: dict[int, Settings] = {}

    def add_line_settings(self, offsets: list[int], settings: Settings) -> None:
        self.of |= dict.fromkeys(offsets, settings)


class PinChip:
    """The chip itself: the world drives its pins, programs open it by its path."""

    def __init__(self, path: Path, label: str, lines: int) -> None:
        self.path, self.label, self.lines = path, label, lines
        self.forbidden = False
        self.held: dict[int, str] = {}
        self.requests: list[Request] = []
        self._driven: dict[int, int] = {}
        self._lock = threading.RLock()
        path.touch()

    def level(self, pin: int, bias: int) -> int:
        return self._driven.get(pin, PULLED.get(bias, 0))

    def drive(self, pin: int, level: int | None, at_ns: int | None = None) -> None:
        """Something joins the pin to ground (0) or to 3.3 V (1), and stays so; None: to nothing."""
        at_ns = time.monotonic_ns() if at_ns is None else at_ns
        with self._lock:
            holders = [each for each in self.requests if pin in each.config.of]
            was = [each.active(pin) for each in holders]
            self._driven.pop(pin, None)
            if level is not None:
                self._driven[pin] = level
            for each, before in zip(holders, was, strict=True):
                if each.active(pin) != before:
                    each.tell(pin, at_ns)

    def blip(self, pin: int, level: int, lasts_us: int) -> None:
        """As `drive`, and back so soon."""
        with self._lock:
            before, settings = self._driven.get(pin), [r.config.of.get(pin) for r in self.requests]
            if any(s is not None and s.debounce_us <= lasts_us for s in settings):
                self.drive(pin, level)
                self.drive(pin, before)

    def until_held(self, pin: int) -> None:
        from tests.patience import until

        until(lambda: any(pin in each.config.of for each in self.requests))

    def unplug(self) -> None:
        """The chip goes, whoever holds its pins."""
        with self._lock:
            self.path.unlink()
            for each in self.requests:
                each.hang_up()

    def plug(self) -> None:
        """It is there again."""
        self.path.touch()


class Request:
    """Pins held by a program, as gpiod's C part has them."""

    def __init__(self, chip: PinChip, config: Config) -> None:
        self.chip, self.config = chip, config
        self._here, self._kernel = socket.socketpair()
        self._events: list[gpiod.EdgeEvent] = []
        self._told = 0
        self.fd = self._here.fileno()
        self.chip_name = chip.path.name
        self.offsets = list(config.of)
        self.num_lines = len(self.offsets)

    def active(self, pin: int) -> bool:
        settings = self.config.of[pin]
        return bool(self.chip.level(pin, settings.bias)) != settings.active_low

    def tell(self, pin: int, at_ns: int) -> None:
        self._told += 1
        rising, falling = _ext.EDGE_EVENT_TYPE_RISING, _ext.EDGE_EVENT_TYPE_FALLING
        kind = rising if self.active(pin) else falling
        self._events.append(gpiod.EdgeEvent(kind, at_ns, pin, self._told, self._told))
        self._kernel.send(b"!")

    def hang_up(self) -> None:
        self._kernel.close()

    def _still(self) -> None:
        if not self.chip.path.exists() or self._kernel.fileno() < 0:
            raise OSError(errno.ENODEV, os.strerror(errno.ENODEV))

    def read_edge_events(self, max_events: int | None) -> list[gpiod.EdgeEvent]:
        with self.chip._lock:
            self._still()
            found = self._events[: max_events or BUFFER]
            del self._events[: len(found)]
            self._here.recv(len(found))
            return found

    def get_values(self, offsets: list[int], values: list[gpiod.line.Value]) -> None:
        self._still()
        values[:] = [gpiod.line.Value(int(self.active(pin))) for pin in offsets]

    def release(self) -> None:
        with self.chip._lock:
            self.chip.requests.remove(self)
            self._here.close()
            self._kernel.close()


class Opened:
    """A chip opened by a program, as gpiod's C part has it."""

    def __init__(self, chip: PinChip) -> None:
        self._chip = chip
        self.path = str(chip.path)

    def get_info(self) -> gpiod.ChipInfo:
        return gpiod.ChipInfo(self._chip.path.name, self._chip.label, self._chip.lines)

    def get_line_name(self, offset: int) -> str | None:
        return f"GPIO{offset}"

    def _holder(self, pin: int) -> str | None:
        ours = any(pin in each.config.of for each in self._chip.requests)
        return "headsweep" if ours else self._chip.held.get(pin)

    def get_line_info(self, offset: int, watch: bool) -> gpiod.LineInfo:
        holder, name = self._holder(offset), f"GPIO{offset}"
        none = (_ext.BIAS_UNKNOWN, _ext.DRIVE_PUSH_PULL, _ext.EDGE_NONE, _ext.CLOCK_MONOTONIC)
        return gpiod.LineInfo(
            offset, name, holder is not None, holder or "", _ext.DIRECTION_INPUT, False, *none,
            debounced=False, debounce_period_us=0,
        )  # fmt: skip

    def request_lines(
        self, line_cfg: Config, consumer: str | None, event_buffer_size: int | None
    ) -> Request:
        if any(self._holder(pin) is not None for pin in line_cfg.of):
            raise OSError(errno.EBUSY, os.strerror(errno.EBUSY))
        request = Request(self._chip, line_cfg)
        self._chip.requests.append(request)
        return request

    def close(self) -> None:
        pass


class Kernel(ModuleType):
    """Stands for gpiod's C part, with the chips that a computer has."""

    def __init__(self, dev: Path) -> None:
        super().__init__("gpiod._ext")
        for name, value in vars(_ext).items():
            if name.isupper():
                setattr(self, name, value)
        self.LineSettings, self.LineConfig = Settings, Config
        self._dev, self._chips = dev, {}

    def chip(self, name: str = "gpiochip0", label: str = "pinctrl-rp1", lines: int = 54) -> PinChip:
        """One more chip."""
        made = self._chips[str(self._dev / name)] = PinChip(self._dev / name, label, lines)
        return made

    def Chip(self, path: str) -> Opened:
        chip = self._chips.get(path)
        if chip is None or not chip.path.exists():
            raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), path)
        if chip.forbidden:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), path)
        return Opened(chip)


@contextmanager
def kernel(dev: Path) -> Iterator[Kernel]:
    """A computer whose folder of devices is `dev`, for the length of the block."""
    made = Kernel(dev)
    with (
        patch.object(inputs, "DEV", dev),
        patch.object(gpiod.chip, "_ext", made),
        patch.object(gpiod.line_settings, "_ext", made),
    ):
        yield made
