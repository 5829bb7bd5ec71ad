"""People and their PINs: what proves who somebody is, and how guessing is stopped."""

from contextlib import suppress

import pytest

from daq.service.rights import pins
from daq.service.rights.pins import LockedOut, PersonalPins, WrongPin
from daq.service.rights.store import Store
from daq.words import SaidTrouble
from tests.entry import PIN, QUICK, enrolled

ANN, BO = "Anna Kelln", "Bo Harm"


def proving(tmp_path, clock):
    return PersonalPins(Store(tmp_path), clock.mono_ns)


def test_a_person_proves_by_a_pin(tmp_path, clock):
    enrolled(tmp_path, ANN)
    enrolled(tmp_path, BO, "set-up")
    asked = proving(tmp_path, clock)
    found = asked.proved(" anna  KELLN ", PIN)
    assert (found.name, found.id) == (ANN, Store(tmp_path).kept().people[0].id)
    assert asked.proved(BO, PIN, "set-up").name == BO
    for name, pin, role, code in (
        (ANN, "1" + PIN, "sign", "pin-wrong"),
        (ANN, None, "sign", "pin-missing"),
        (ANN, 271828, "sign", "pin-wrong"),
        (ANN, ["x"], "sign", "pin-wrong"),
        (ANN, PIN, "set-up", "may-not-set-up"),
        ("Nobody", PIN, "sign", "has-no-pin"),
    ):
        with pytest.raises(WrongPin) as error:
            asked.proved(name, pin, role)
        assert error.value.said.code == code


def test_where_nobody_has_a_pin_it_is_said_how_to_give_one(tmp_path, clock):
    with pytest.raises(WrongPin) as error:
        proving(tmp_path, clock).proved(ANN, PIN)
    assert error.value.said.code == "nobody-has-a-pin"


def test_a_pin_that_is_guessed_at_locks_out_and_the_lock_heals(tmp_path, clock):
    enrolled(tmp_path, ANN)
    enrolled(tmp_path, BO)
    asked = proving(tmp_path, clock)
    for _ in range(5):
        with pytest.raises(WrongPin):
            asked.proved(ANN, "0000")
    with pytest.raises(LockedOut) as error:
        asked.proved(ANN, PIN)
    assert error.value.seconds == 60
    assert asked.proved(BO, PIN).name == BO
    clock.ns += 60 * 10**9
    assert asked.proved(ANN, PIN).name == ANN


def test_a_restart_forgives_nobody(tmp_path, clock):
    enrolled(tmp_path, ANN)
    enrolled(tmp_path, BO)
    asked = proving(tmp_path, clock)
    for pin in ["0000"] * 4 + [PIN] + ["0000"] * 6:
        with suppress(WrongPin):
            asked.proved(ANN, pin, screen="phone")
    for _ in range(3):  # whoever pulls the plug gets no more tries
        asked = proving(tmp_path, clock)
        with pytest.raises(LockedOut) as error:
            asked.proved(ANN, PIN, screen="phone")
        assert error.value.seconds == 60
    assert asked.proved(ANN, PIN, screen="tablet").name == ANN
    assert asked.proved(BO, PIN, screen="phone").name == BO
    clock.ns += 60 * 10**9
    with pytest.raises(WrongPin):
        asked.proved(ANN, "0000", screen="phone")
    with pytest.raises(LockedOut) as error:
        proving(tmp_path, clock).proved(ANN, PIN, screen="phone")
    assert error.value.seconds == 120
    clock.ns += 120 * 10**9
    again = proving(tmp_path, clock)
    clock.ns += 120 * 10**9
    assert again.proved(ANN, PIN, screen="phone").name == ANN
    assert proving(tmp_path, clock).proved(ANN, PIN, screen="phone").name == ANN
    assert dict(Store(tmp_path).kept().locked) == {}


def test_what_was_tried_on_all_screens_outlives_a_restart_too(tmp_path, clock):
    enrolled(tmp_path, ANN)
    asked = proving(tmp_path, clock)
    for number in range(25):
        with suppress(WrongPin):
            asked.proved(ANN, "0000", screen=f"screen {number}")
    with pytest.raises(LockedOut):
        proving(tmp_path, clock).proved(ANN, PIN, screen="another")


def test_wrong_tries_on_one_screen_keep_nobody_from_signing_on_another(tmp_path, clock):
    enrolled(tmp_path, ANN)
    asked = proving(tmp_path, clock)
    for _ in range(6):
        with pytest.raises(WrongPin):
            asked.proved(ANN, "0000", screen="one")
    with pytest.raises(LockedOut):
        asked.proved(ANN, PIN, screen="one")
    assert asked.proved(ANN, PIN, screen="another").name == ANN
    with pytest.raises(LockedOut):
        asked.proved(ANN, PIN, screen="one")


def test_a_pin_is_not_to_be_guessed_from_ever_other_screens(tmp_path, clock):
    enrolled(tmp_path, ANN)
    asked = proving(tmp_path, clock)
    wrong = 0
    for screen in range(100):
        for _ in range(5):
            with pytest.raises(WrongPin) as error:
                asked.proved(ANN, "0000", screen=str(screen))
            wrong += error.value.said.code == "pin-wrong"
    assert wrong == 25
    with pytest.raises(LockedOut):
        asked.proved(ANN, PIN, screen="honest")
    clock.ns += 60 * 10**9
    assert asked.proved(ANN, PIN, screen="honest").name == ANN


@pytest.mark.parametrize("pin", ["", "123", "1234567890123", "12a4", "１２３４", "12 34"])
def test_a_pin_is_digits(tmp_path, pin):
    with pytest.raises(SaidTrouble) as error:
        pins.enrol(Store(tmp_path), ANN, pin, "sign", {}, QUICK)
    assert error.value.said.code == "pin-not-so"


def test_whom_the_ledger_names_keeps_that_id_and_another_pin_replaces_the_first(tmp_path):
    store = Store(tmp_path)
    pins.enrol(store, "anna kelln", "1111", "sign", {"id-1": ANN}, QUICK)
    pins.enrol(store, ANN, "2222", "set-up", {}, QUICK)
    (person,) = store.kept().people
    assert (person.id, person.name, person.role) == ("id-1", ANN, "set-up")
    assert pins.withdraw(store, ANN) and not pins.withdraw(store, ANN)
    assert store.kept().people == ()


def test_pins_as_the_product_keeps_them_are_argon2id(tmp_path):
    store = Store(tmp_path)
    pins.enrol(store, ANN, PIN, "sign", {})
    assert store.kept().people[0].pin.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
