"""A gauge learned at a page while the service runs: one at a time, on a thread of its own."""

import argparse
import logging
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from daq.gauges.capture import SUFFIX
from daq.gauges.config import SerialLine
from daq.gauges.errors import LearnError, LinkError
from daq.gauges.listen import OpenPort
from daq.gauges.talk import Talk
from daq.service.set_up.folder import ConfigFolder, NotSoundError, key_of
from daq.service.set_up.gaps import GAUGES, PAPERS
from daq.service.set_up.heard import Ears
from daq.service.set_up.learn_talk import LONGEST, LearnTalk
from daq.settings import SettingsError
from daq.words import Proved, Said, SaidTrouble, in_a_row, said
from daq.words.learning import KeptGauge, LearnView

if TYPE_CHECKING:  # what learns takes long to load: it is, once somebody learns
    from daq.gauges.learn.live.answers import Made
    from daq.gauges.learn.live.search import Patience

KIND: Final = "gauge-learn"
_END_S: Final = 1.0

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class LearnAsked:
    """A gauge to be learned: at which port, and how it sends.

    `sends`: "itself" when it sends by itself or nobody knows, "key" when its key is pressed,
    "asked" when it gets the `request`, a text with escapes as in a gauge's file.
    """

    port: str
    sends: Literal["itself", "key", "asked"] = "itself"
    request: str = ""


class Learning:
    """The one gauge that is learned, or the last that was; any thread may ask."""

    def __init__(
        self,
        folder: ConfigFolder,
        ears: Ears,
        *,
        patience: "Patience | None" = None,
        now_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        """`folder`: where the file is put; `ears`: which ports there are, and who has them."""
        self._folder = folder
        self._ears = ears
        self._patience = patience
        self._now_ns = now_ns
        self._lock = threading.Lock()
        self._talk: LearnTalk | None = None
        self._thread: threading.Thread | None = None

    def view(self) -> LearnView:
        """Where it is; who asks for it looks."""
        talk = self._talk
        return LearnView(None if talk is None else talk.view())

    @property
    def under_way(self) -> bool:
        """Whether a gauge is being learned."""
        return self._talk is not None and not self._talk.over

    def begin(self, asked: LearnAsked, person: Proved) -> None:
        """Begin to learn a gauge, with somebody who proved to be that.

        Raises:
            SaidTrouble: one is being learned, its port is not there or not free, or the request
                is none.
        """
        _checked(asked)
        with self._lock:
            if self.under_way:
                raise SaidTrouble(said("learn-under-way"))
            self._ears.keep(asked.port)
            talk = self._talk = LearnTalk(asked.port, person.name, self._now_ns)
            work = threading.Thread(target=self._work, args=(talk, asked), name=KIND, daemon=True)
            self._thread = work
            work.start()

    def answer(self, number: int, typed: str) -> None:
        """Answer the question of that number.  Raises SaidTrouble: it cannot be answered so."""
        if self._talk is None:
            raise SaidTrouble(said("bench-asked-meanwhile"))
        self._talk.answer(number, typed)

    def skip(self) -> None:
        """Leave out the speed that is tried."""
        if self._talk is not None:
            self._talk.skip()

    def leave(self) -> None:
        """Give up: nothing is written, and the port is let go."""
        if self._talk is not None:
            self._talk.leave(said("learn-left"))

    def stop(self) -> None:
        """The service ends: so does what is being learned, and its port is free."""
        self.leave()
        if self._thread is not None:
            self._thread.join(_END_S)

    def _work(self, talk: LearnTalk, asked: LearnAsked) -> None:
        try:
            made = self._learned(talk, asked)
            kept = self._kept(talk, made)
            talk.end(_told(kept), kept)
        except (LearnError, LinkError) as error:
            talk.end(error.say)
        except NotSoundError as error:
            talk.end(in_a_row((error.said, *error.problems)))
        except (SettingsError, SaidTrouble) as error:
            talk.end(error.said)
        except Exception:
            _log.exception("the learning at %s ended", asked.port)
            talk.end(said("learn-failed"))
        finally:
            self._ears.let_go()

    def _learned(self, talk: LearnTalk, asked: LearnAsked) -> "Made":
        from daq.gauges.learn.live.answers import learn
        from daq.gauges.learn.live.ear import opened

        def open_port(line: SerialLine, url: str) -> OpenPort:
            return LeavablePort(opened(line, url), talk)

        known = dict.fromkeys(("kind", "resolution", "baud", *PAPERS))
        wanted = argparse.Namespace(
            **known, port=asked.port, request=asked.request or None, key=asked.sends == "key"
        )
        return learn(wanted, talk, patience=self._patience, opener=open_port)

    def _kept(self, talk: LearnTalk, made: "Made") -> KeptGauge:
        """Write the file with what it was learned from beside it, again until the disk takes it."""
        from daq.gauges.learn.live.kept import capture
        from daq.gauges.learn.live.person import nothing

        name = "" if "name" in made.missing else made.config.name
        beside = {SUFFIX: capture(made.learned, made.config)}
        while True:
            try:
                key, seen = self._folder.add(GAUGES, key_of(name, "gauge"), made.text, beside)
            except OSError as error:
                again = said("learn-keep-again", why=str(error.strerror))
                talk.asked("key", again, nothing)
            else:
                return KeptGauge(key, seen, made.missing)


@dataclass(frozen=True)
class LeavablePort:
    """An open port, read for as long as the learning goes on."""

    port: OpenPort
    talk: LearnTalk

    def read(self, wait_s: float) -> bytes:
        """As the port.  Raises LearnError: it was given up."""
        self.talk.wanted()
        return self.port.read(wait_s)

    def write(self, data: bytes) -> None:
        """As the port."""
        self.port.write(data)

    def close(self) -> None:
        """As the port."""
        self.port.close()


def _told(kept: KeptGauge) -> Said:
    file = f"{GAUGES}/{kept.key}.toml"
    if kept.missing:
        return said("learn-kept-lacks", file=file, keys=", ".join(kept.missing))
    return said("learn-kept", file=file)


def _checked(asked: LearnAsked) -> None:
    """See that a request is one, and there is one where it is needed.  Raises SaidTrouble."""
    if not asked.port:
        raise SaidTrouble(said("set-up-missing", what="port"))
    if (asked.sends == "asked") != bool(asked.request):
        raise SaidTrouble(said("learn-request-missing"))
    if len(asked.request) > LONGEST:
        raise SaidTrouble(said("learn-long-answer", found=len(asked.request), most=LONGEST))
    if asked.request:
        try:
            Talk(1.0, "asks", asked.request)
        except ValueError as error:
            raise SaidTrouble(said("in-their-words", words=str(error))) from None
