"""What the screens need from the rest of the house, where more than one thing may be it."""

from collections.abc import Callable, Mapping
from concurrent.futures import Future
from typing import Any, Protocol

from daq.words import Ack, Command, Live, Said, Snapshot


class MachineName(Protocol):
    """One machine: `key` as in addresses and files, `say` as people call it."""

    @property
    def key(self) -> str:
        """Return the key used in addresses."""

    @property
    def say(self) -> str:
        """Return the name on screens."""


class Hub(Protocol):
    """The latest state of every machine; any thread may ask.

    A machine is asked for only after `machines` has named it.
    """

    def machines(self) -> tuple[MachineName, ...]:
        """Return the machines served, in the order to show them."""

    def snapshot(self, machine: str) -> Snapshot:
        """Return everything about a machine besides the live number."""

    def live(self, machine: str) -> Live:
        """Return the latest live number, its age counted to this call."""

    @property
    def people(self) -> Mapping[str, str]:
        """What people are called who stand in what is shown, by id."""

    @property
    def still(self) -> bool:
        """Whether recording does not answer; nobody tells of that."""

    def follow(self, tell: Callable[[str, str], None]) -> None:
        """Have told, on any thread, of which machine what is new: "live" or "snapshot"."""

    def refuse(self, machine: str, kind: str, why: Said, command: str = "") -> None:
        """Say on all of a machine's screens that a press did nothing, and why."""

    def health(self) -> Mapping[str, Any]:
        """Return `ok` and whatever else tells how the service is doing."""


class Inbox(Protocol):
    """Where people's wishes are handed in."""

    def hand_in(self, command: Command) -> "Future[Ack]":
        """Have a command carried out; it is answered when it is committed or refused."""


class PracticePanel(Protocol):
    """The hands on the practice mill; there is none on a real machine.

    `state` gives, its words still codes: `position` (a place of the circle or "swinging"),
    `set_up` ("ring", or what else the gauge stands on), `contact` ("free" or not), `bolts` (axis to
    "tight" or "loose"), `plugged`, `fault` ("none" or its name), and `operations`, what can
    be done now: each with `say` (the button), `verb` and `args` (what to send).
    """

    def state(self, machine: str) -> Mapping[str, Any]:
        """Return how the practice mill stands; KeyError for a machine that is none."""

    def do(self, machine: str, verb: str, args: Mapping[str, Any]) -> None:
        """Do one operation; SaidTrouble where there is none such."""
