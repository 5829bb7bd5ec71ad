"""Setting up the shop: whoever has that right proves it with each thing that is saved."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from flask import Blueprint, Response

from daq.service.rights.access import Access
from daq.service.rights.pins import LockedOut, WrongPin
from daq.service.set_up.folder import ChangedMeanwhile, NotSoundError
from daq.service.set_up.gauge_text import GivenGauge
from daq.service.set_up.learning import LearnAsked
from daq.service.set_up.machine_text import GivenMachine
from daq.service.set_up.shop_set_up import ChangeAsked, SavedFile, ShopSetUp
from daq.words import Proved, SaidTrouble
from daq.words.learning import LearnView
from daq.words.set_up import HeardCard, SetUpView
from web.problems import Problem, problem
from web.rights import asker, locked, needs
from web.rooms import rooms, set_up_or_404, words
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_set_up", __name__)
FAMILY = Family(blueprint, pairing_only=True)

ANSWERS = {200: SavedFile, 404: Problem, 409: Problem, 422: Problem, 503: Problem}
LEARNS = {200: LearnView, 404: Problem, 422: Problem, 503: Problem}


@dataclass(frozen=True)
class WhoBody:
    """Who sets up, by their PIN. `shop`: what to call the shop, where it has no shop.toml yet.

    While nobody may set up, whoever says so from a paired screen may from then on, by this PIN.
    """

    person: str
    pin: str
    shop: str = ""


@dataclass(frozen=True)
class ListenBody:
    """A port of those listed that no reader holds, and the example to read it as."""

    port: str
    example: str


@dataclass(frozen=True)
class GaugeBody:
    """A gauge to be written; `seen` as the page, or the latest answer, had it."""

    person: str
    pin: str
    seen: str
    gauge: GivenGauge


@dataclass(frozen=True)
class MachineBody:
    """A machine to be written, the same way."""

    person: str
    pin: str
    seen: str
    machine: GivenMachine


@dataclass(frozen=True)
class ChangeBody:
    """One value of a file to be changed, the same way."""

    person: str
    pin: str
    seen: str
    change: ChangeAsked


@dataclass(frozen=True)
class LearnBody:
    """A gauge to be learned at its port, the same way."""

    person: str
    pin: str
    learn: LearnAsked


@dataclass(frozen=True)
class LearnAnswer:
    """The answer to the question of that number, as it is typed; "" for none."""

    number: int
    typed: str


@dataclass(frozen=True)
class LearnPress:
    """Leave out the speed that is tried, or give the learning up."""

    what: Literal["skip", "leave"]


@dataclass(frozen=True)
class AnewBegun:
    """The service begins anew."""

    say: str


def _access() -> Access:
    set_up_or_404()
    access = rooms().access
    if access is None:  # never where there is a set-up
        raise LookupError
    return access


def _told(what: Callable[[], object]) -> object:
    """What it gives, or why not as the API says it."""
    try:
        return what()
    except LockedOut as error:
        raise locked(error) from None
    except WrongPin as error:
        return problem(403, error.said)
    except ChangedMeanwhile as error:
        return problem(409, error.said)
    except NotSoundError as error:
        return problem(422, error.said, error.problems)
    except SaidTrouble as error:
        return problem(422, error.said)
    except OSError as error:
        return problem(503, words("set-up-disk", why=str(error.strerror)))


def _by(person: str, pin: str, what: Callable[[ShopSetUp], object]) -> object:
    """The same, once somebody who may set up has proved to be that."""

    def proved() -> object:
        _proved(person, pin)
        return what(set_up_or_404())

    return _told(proved)


def _proved(person: str, pin: str) -> Proved:
    """Who may set up, by their PIN.  Raises WrongPin, LockedOut."""
    return _access().pins.proved(person, pin, "set-up", screen=asker().screen)


@blueprint.get("/api/set-up")
@needs("work")
@typed({200: SetUpView, 404: Problem})
def set_up() -> SetUpView:
    """Return what is plugged in, what a gauge may be like, and what is written yet."""
    return set_up_or_404().view(first=_access().pins.nobody_sets_up)


@blueprint.post("/api/set-up/who")
@needs("work")
@typed(ANSWERS)
def who(body: WhoBody) -> object:
    """Prove who sets up; the first one there is says so. Write shop.toml where there is none."""
    pins, shared = _access().pins, set_up_or_404()

    def begin() -> object:
        if pins.nobody_sets_up:
            known = rooms().hub.people
            pins.begin(body.person, body.pin, known, screen=asker().screen)
        else:
            pins.proved(body.person, body.pin, "set-up", screen=asker().screen)
        return shared.shop(body.shop, rooms().says.name, shared.seen)

    return _told(begin)


@blueprint.post("/api/set-up/listen")
@needs("work")
@typed({200: HeardCard, 404: Problem, 422: Problem})
def listen(body: ListenBody) -> object:
    """Return what comes from a port within a moment, read as an example would; changes nothing."""
    return _told(lambda: set_up_or_404().ears.listen(body.port, body.example))


@blueprint.post("/api/set-up/gauge")
@needs("work")
@typed(ANSWERS)
def gauge(body: GaugeBody) -> object:
    """Write a gauge's file, which is read once the files are read anew."""
    return _by(body.person, body.pin, lambda there: there.gauge(body.gauge, body.seen))


@blueprint.get("/api/set-up/learn")
@needs("work")
@typed({200: LearnView, 404: Problem})
def learning() -> LearnView:
    """Return where the learning of a gauge is; while nobody asks, it is given up after a minute."""
    return set_up_or_404().learning.view()


@blueprint.post("/api/set-up/learn/begin")
@needs("work")
@typed(LEARNS)
def learn(body: LearnBody) -> object:
    """Begin to learn what no example reads: its file is written once the gauge's face bore it out.

    How it goes on, is asked again and again.
    """

    def begin(person: Proved) -> LearnView:
        there = set_up_or_404().learning
        there.begin(body.learn, person)
        return there.view()

    return _told(lambda: begin(_proved(body.person, body.pin)))


@blueprint.post("/api/set-up/learn/answer")
@needs("work")
@typed(LEARNS)
def learn_answer(body: LearnAnswer) -> object:
    """Answer what is asked of the gauge's face or papers; another question by now is told."""
    there = set_up_or_404().learning

    def answer() -> LearnView:
        there.answer(body.number, body.typed)
        return there.view()

    return _told(answer)


@blueprint.post("/api/set-up/learn/press")
@needs("work")
@typed({200: LearnView, 404: Problem})
def learn_press(body: LearnPress) -> LearnView:
    """Leave out a step that goes on, or give up: then nothing is written."""
    there = set_up_or_404().learning
    if body.what == "skip":
        there.skip()
    else:
        there.leave()
    return there.view()


@blueprint.post("/api/set-up/machine")
@needs("work")
@typed(ANSWERS)
def machine(body: MachineBody) -> object:
    """Write a machine's file, the same way."""
    says = rooms().says.words
    return _by(body.person, body.pin, lambda there: there.machine(body.machine, says, body.seen))


@blueprint.post("/api/set-up/change")
@needs("work")
@typed(ANSWERS)
def change(body: ChangeBody) -> object:
    """Change a machine's tolerance or a gauge's port in its file, and nothing else there."""
    return _by(body.person, body.pin, lambda there: there.change(body.change, body.seen))


@blueprint.post("/api/set-up/anew")
@needs("work")
@typed({200: AnewBegun, 404: Problem, 409: Problem, 422: Problem, 503: Problem})
def anew(body: WhoBody) -> object:
    """Have the files read anew: the service begins once more, unless an audit is open."""

    def begin(there: ShopSetUp) -> Response | AnewBegun:
        if there.learning.under_way:
            return problem(409, words("learn-under-way"))
        open_on = there.anew.ask()
        if open_on:
            return problem(409, words("set-up-audit-open", machines=", ".join(open_on)))
        return AnewBegun(words("set-up-begins-anew"))

    return _by(body.person, body.pin, begin)
