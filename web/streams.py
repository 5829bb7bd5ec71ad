"""The event streams of all screens, written by one thread: to each the latest, never a queue.

What is due is encoded once for all screens of a machine. A screen whose connection has not
taken what came before is owed it, and is sent the latest of that once the line is free.
"""

import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from daq.says import Language
from daq.service.hub import Hub
from daq.service.turns import Turns
from web.channels import Channel
from web.in_words import InWords
from web.settling import Settling
from web.stream import BEAT_S, Pace, message

KINDS = ("snapshot", "settling", "beat", "live")
"""In the order they are sent."""

LAST = b"0\r\n\r\n"
"""What ends an answer sent in chunks (RFC 9112, 7.1)."""


@dataclass(eq=False)
class Follower:
    """One screen: what it is owed, and its connection once that has its first answer."""

    owed: set[str] = field(default_factory=set)
    channel: Channel | None = None
    chunked: bool = True

    def begin(self, channel: Channel, chunked: bool) -> None:
        """Be written to from now on."""
        self.chunked = chunked
        self.channel = channel


@dataclass(eq=False)
class _Group:
    """The screens of one machine in one language, and what they were told last."""

    machine: str
    says: Language | None = None
    followers: list[Follower] = field(default_factory=list)
    pace: Pace = field(default_factory=Pace)
    settling: bool = False
    still: bool = False
    quiet: bool = True


class Streams:
    """Tells every screen what changed, and beats."""

    def __init__(
        self,
        hub: Hub,
        settling: Settling,
        words: InWords,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        """Nothing is told before `run`; `words` makes words of it."""
        self.words = words
        self._hub = hub
        self._settling = settling
        self._clock = clock
        self._changed = threading.Condition()
        self._due: dict[str, set[str]] = {}
        self._groups: dict[tuple[str, Language | None], _Group] = {}
        self._beat_at = clock() + BEAT_S
        self.turns = Turns(lambda: round(clock() * 1e9))
        self._ending = False
        hub.follow(self._tell)

    def first(self, machine: str, says: Language | None = None) -> bytes:
        """Everything about a machine, for a screen of that language that has just come."""
        group = _Group(machine, says, settling=self._settling.now(machine))
        events = [self._event(group, kind) for kind in ("snapshot", "live", "settling")]
        return b"".join((b"retry: 1000\n\n", *events))

    @contextmanager
    def join(self, machine: str, says: Language | None = None) -> Iterator[Follower]:
        """Have a screen follow: from here on it misses nothing."""
        follower, key = Follower(), (machine, says)
        with self._changed:
            group = self._groups.setdefault(key, _Group(*key, still=self._hub.still))
            group.followers.append(follower)
        try:
            yield follower
        finally:
            with self._changed:
                group.followers.remove(follower)
                if not group.followers:
                    del self._groups[key]

    def run(self) -> None:
        """Tell until `end`, and then end every stream whole."""
        while not self._ending:
            self.turn()
        for _, followers in self._present():
            for follower in followers:
                if follower.channel is not None and follower.chunked:
                    follower.channel.offer(LAST)
        self.turns.rest()

    def end(self) -> None:
        """Have `run` end; any thread may, but no signal handler."""
        with self._changed:
            self._ending = True
            self._changed.notify()

    def turn(self) -> None:
        """Wait for something to tell, at most until the next beat, and tell it."""
        self.turns.turn()
        now = self._clock()
        marks = [group.pace.mark for group, _ in self._present()]
        wake_at = min((mark for mark in marks if mark is not None), default=self._beat_at)
        due = self._wait(max(0.0, min(wake_at, self._beat_at) - now))
        now = self._clock()
        beat = now >= self._beat_at
        if beat:
            self._beat_at = now + BEAT_S
        for group, followers in self._present():
            self._send(group, followers, due.get(group.machine, set()), beat, now)

    def _present(self) -> list[tuple[_Group, tuple[Follower, ...]]]:
        """Who follows now; screens come and go on other threads."""
        with self._changed:
            return [(group, tuple(group.followers)) for group in self._groups.values()]

    def _tell(self, machine: str, what: str) -> None:
        """Called by the hub, on any thread: "live" or "snapshot" is new."""
        with self._changed:
            if any(there == machine for there, _ in self._groups):
                self._due.setdefault(machine, set()).add(what)
                self._changed.notify()

    def _wait(self, timeout_s: float) -> dict[str, set[str]]:
        with self._changed:
            self._changed.wait_for(lambda: self._due or self._ending, timeout_s)
            due, self._due = self._due, {}
        return due

    def _send(
        self,
        group: _Group,
        followers: tuple[Follower, ...],
        due: set[str],
        beat: bool,
        now: float,
    ) -> None:
        """Send what is due to whoever can take it; the others are owed it.

        A beat carries the live number too when none was sent since the last one, so that its
        age and freshness stay true on a screen whose gauge went silent.
        """
        hub, machine = self._hub, group.machine
        kinds = due - {"live"}
        if group.settling != self._settling.now(machine):
            group.settling = not group.settling
            kinds.add("settling")
        if group.still != hub.still:  # nobody is left to tell of this
            group.still = not group.still
            kinds.add("snapshot")
        ready = group.pace.offer(hub.live(machine), now) if "live" in due else None
        ready = ready or group.pace.overdue(now)
        if beat:
            kinds.add("beat")
            ready = ready or (hub.live(machine) if group.quiet else None)
        group.quiet = beat or (group.quiet and ready is None)
        made: dict[str, bytes] = {}
        if ready:
            kinds.add("live")
            made["live"] = message("live", self.words.told(ready, group.says))
        pieces: dict[frozenset[str], tuple[bytes, bytes]] = {}
        for follower in followers:
            follower.owed |= kinds
            if not follower.owed or follower.channel is None:
                continue
            wanted = frozenset(follower.owed)
            if wanted not in pieces:
                piece = self._encoded(group, wanted, made)
                pieces[wanted] = piece, b"%x\r\n%b\r\n" % (len(piece), piece)
            if follower.channel.offer(pieces[wanted][follower.chunked]):
                follower.owed.clear()

    def _encoded(self, group: _Group, kinds: frozenset[str], made: dict[str, bytes]) -> bytes:
        """The events of these kinds as they are now, each made once."""
        for kind in kinds - made.keys():
            made[kind] = self._event(group, kind)
        return b"".join(made[kind] for kind in KINDS if kind in kinds)

    def _event(self, group: _Group, kind: str) -> bytes:
        if kind == "snapshot":
            snapshot = self._hub.snapshot(group.machine)
            return message(kind, self.words.told(snapshot, group.says), snapshot.seq)
        if kind == "live":
            return message(kind, self.words.told(self._hub.live(group.machine), group.says))
        return message(kind, {"settling": group.settling} if kind == "settling" else {})
