"""People and their PINs: who may prove what, and how a PIN is kept."""

import threading
import uuid
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import replace
from typing import Final

from argon2 import PasswordHasher
from argon2.exceptions import VerificationError

from daq.service.rights.limits import FREE_IN_ALL, Lockout
from daq.service.rights.store import Kept, KnownPerson, Role, Store
from daq.words import Proved, SaidTrouble, said

_PARTED: Final = " "
"""Between a person's id and the screen's, where tries on one screen are counted."""

LEAST, MOST = 4, 12
"""Digits of a PIN."""

KEPT_BY = PasswordHasher(time_cost=2, memory_cost=19 * 1024, parallelism=1)
"""argon2id with 19 MiB and two passes: what a small Pi can spare for a tenth of a second."""


class WrongPin(SaidTrouble):
    """Somebody did not prove who they are."""


class LockedOut(WrongPin):
    """Nor will they be believed for the next `seconds`."""

    def __init__(self, name: str, seconds: int) -> None:
        """`name` was wrong too often."""
        super().__init__(said("pin-locked", name=name, minutes=-(-seconds // 60)))
        self.seconds = seconds


def folded(name: str) -> str:
    """A name as it is compared: however it is spaced and capitalised."""
    return " ".join(name.split()).casefold()


class PersonalPins:
    """Asks people for their PIN. One at a time: what makes it slow to guess takes memory.

    Wrong tries are counted for each person on each screen, so that nobody can keep somebody from
    signing elsewhere; and on all screens, of which somebody may pair one after the other. Who is
    locked out stays so through a restart: a plug is pulled by anybody.
    """

    def __init__(self, store: Store, mono_ns: Callable[[], int]) -> None:
        """People and their hashes are those of the store, as it is at each question."""
        self._store = store
        kept = store.kept().locked
        there = {who: count for who, count in kept.items() if _PARTED in who}
        in_all = {who: count for who, count in kept.items() if _PARTED not in who}
        self._there = Lockout(mono_ns, kept=there)
        self._in_all = Lockout(mono_ns, FREE_IN_ALL, in_all)
        self._lock = threading.Lock()

    def people(self) -> tuple[KnownPerson, ...]:
        """Everybody with a PIN."""
        return self._store.kept().people

    def proved(self, name: str, pin: object, role: Role = "sign", *, screen: str = "") -> Proved:
        """Who that is, if the PIN typed on `screen` is theirs and good for `role`.

        Raises:
            WrongPin: it is not; LockedOut: it was wrong too often.
        """
        people = self.people()
        person = next((each for each in people if folded(each.name) == folded(name)), None)
        if person is None:
            if not people:
                raise WrongPin(said("nobody-has-a-pin"))
            there = ", ".join(each.name for each in people)
            raise WrongPin(said("has-no-pin", name=" ".join(name.split())[:80], there=there))
        if role == "set-up" and person.role != "set-up":
            raise WrongPin(said("may-not-set-up", name=person.name))
        if not pin:
            raise WrongPin(said("pin-missing", name=person.name))
        with self._lock:
            here = f"{person.id}{_PARTED}{screen}"
            counted = (self._there, here), (self._in_all, person.id)
            left_s = max(lockout.left_s(who) for lockout, who in counted)
            if left_s:
                raise LockedOut(person.name, left_s)
            right = isinstance(pin, str) and _fits(person.pin, pin)
            for lockout, who in counted:
                if right:
                    lockout.right(who)
                self._keep(who, 0 if right else lockout.wrong(who))
            if not right:
                raise WrongPin(said("pin-wrong", name=person.name))
        return Proved(person.id, person.name)

    @property
    def nobody_sets_up(self) -> bool:
        """Whether the first paired screen that asks may say who does."""
        return not any(each.role == "set-up" for each in self.people())

    def begin(self, name: str, pin: str, known: Mapping[str, str], *, screen: str = "") -> None:
        """Let somebody set up while nobody may; who has a PIN already proves it.

        Raises:
            SaidTrouble: as `enrol`, and as `proved`.
        """
        if any(folded(each.name) == folded(name) for each in self.people()):
            self.proved(name, pin, screen=screen)
        enrol(self._store, name, pin, "set-up", known, first=True)

    def _keep(self, who: str, count: int) -> None:
        """Write down that they are locked out, or with 0 that they are not, where that changed."""
        if self._store.kept().locked.get(who, 0) == count:
            return

        def put(kept: Kept) -> Kept:
            others = {each: n for each, n in kept.locked.items() if each != who}
            return replace(kept, locked=others | ({who: count} if count else {}))

        with suppress(OSError):  # the disk is full: it is counted in memory all the same
            self._store.change(put)


def _fits(kept: str, pin: str) -> bool:
    try:
        return len(pin) <= MOST and KEPT_BY.verify(kept, pin)
    except (VerificationError, ValueError):
        return False


def enrol(
    store: Store,
    name: str,
    pin: str,
    role: Role,
    known: Mapping[str, str],
    kept_by: PasswordHasher = KEPT_BY,
    *,
    first: bool = False,
) -> None:
    """Give somebody a PIN, or another one.

    `known`: whom the ledger names, by id: who stands there keeps that id. `first`: only while
    nobody may set up, and to nobody who has another PIN.

    Raises:
        SaidTrouble: no name, the PIN is not of so many digits, or they are not the first.
    """
    named = " ".join(name.split())
    if not named:
        raise SaidTrouble(said("name-missing"))
    if not (LEAST <= len(pin) <= MOST and pin.isascii() and pin.isdigit()):
        raise SaidTrouble(said("pin-not-so", least=LEAST, most=MOST))
    hashed = kept_by.hash(pin)
    ledgers = next((i for i, each in known.items() if folded(each) == folded(named)), "")

    def put(kept: Kept) -> Kept:
        before = [each for each in kept.people if folded(each.name) == folded(named)]
        if first and any(each.role == "set-up" for each in kept.people):
            raise SaidTrouble(said("set-up-taken"))
        if first and before and not _fits(before[0].pin, pin):
            raise WrongPin(said("pin-wrong", name=before[0].name))
        identity = before[0].id if before else ledgers or str(uuid.uuid4())
        others = tuple(each for each in kept.people if each not in before)
        return replace(kept, people=(*others, KnownPerson(identity, named, role, hashed)))

    store.change(put)


def withdraw(store: Store, name: str) -> bool:
    """Take somebody's PIN away; whether they had one."""
    had = [each for each in store.kept().people if folded(each.name) == folded(name)]
    store.change(lambda kept: replace(kept, people=tuple(p for p in kept.people if p not in had)))
    return bool(had)
