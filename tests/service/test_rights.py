"""Who may do what: the own wall, paired screens, people; and what is kept of it on the disk."""

import json
import os
import stat
from contextlib import suppress
from dataclasses import replace

import pytest

from daq.ledger.backup import backup
from daq.ledger.store import Ledger
from daq.service.clock import SystemClock
from daq.service.rights import wall
from daq.service.rights.access import UNUSED_DAYS, Access
from daq.service.rights.store import NAME, write
from daq.words import SaidTrouble
from tests.entry import PIN, enrolled

DAY_US = 24 * 3600 * 1_000_000
ANN, BO = "Anna Kelln", "Bo Harm"


class Today:
    """The hand clock, its days told apart and believed."""

    def __init__(self, clock):
        self.clock, self.days, self.trusted = clock, 0, True

    def mono_ns(self):
        return self.clock.mono_ns()

    def stamp(self):
        stamp = self.clock.stamp()
        moved = stamp.utc_us + self.days * DAY_US
        return replace(stamp, utc_us=moved, utc_trusted=self.trusted)


@pytest.fixture
def today(clock):
    return Today(clock)


@pytest.fixture
def access(tmp_path, today):
    return Access(tmp_path, today)


def token(access, name=""):
    access.ask_code()
    return access.pair(access.shown.code, name)


def test_until_a_screen_is_paired_nobody_may_even_look(access):
    assert access.standing("").right == "nothing"
    kept = token(access, "Phone")
    assert (access.standing(kept).right, access.standing(kept).name) == ("work", "Phone")
    assert access.standing("").right == access.standing("guessed").right == "look"


def test_a_wrong_code_pairs_nobody(access):
    access.ask_code()
    wrong = f"{(int(access.shown.code) + 1) % 10**8:08d}"
    assert access.pair(wrong, "Phone") is None
    assert access.standing("").right == "nothing"


def test_pairings_outlive_a_restart_and_end_when_unpaired(access, tmp_path, today):
    kept = token(access)
    again = Access(tmp_path, today)
    screen = again.standing(kept).screen
    assert screen and again.unpair(screen) and not again.unpair(screen)
    assert again.standing(kept).right == "nothing"
    assert access.standing(kept).right == "nothing"


def test_a_pairing_ends_when_its_screen_is_not_used(access, today):
    used, unused = token(access), token(access)
    today.days += UNUSED_DAYS
    assert access.standing(used).right == "work"
    today.days += 1
    assert access.standing(used).right == "work"
    assert access.standing(unused).right == "look"


def test_a_screen_paired_before_the_clock_was_set_stays_paired_once_it_is(access, today):
    today.days, today.trusted = -400, False
    kept = token(access)
    today.days, today.trusted = 0, True
    assert access.standing(kept).right == "work"
    assert access.store.kept().screens[0].seen
    today.days += UNUSED_DAYS + 1
    assert access.standing(kept).right == "look"


@pytest.mark.parametrize("name", ["\ud800", "\x1b[2J", "a\u202eb", "a\x00b", "a\u2028b"])
def test_the_name_of_a_screen_is_what_can_be_printed(access, name):
    assert access.standing(token(access, name)).right == "work"
    assert access.store.kept().screens[0].name.isprintable()


def test_a_clock_that_nobody_set_ends_no_pairing(access, today):
    kept = token(access)
    today.days, today.trusted = 400, False
    assert access.standing(kept).right == "work"


def test_only_hashes_are_kept_for_the_owner_alone(access, tmp_path):
    enrolled(tmp_path, ANN)
    kept = token(access, "Phone")
    path = tmp_path / NAME
    text = path.read_text(encoding="utf-8")
    assert kept not in text and PIN not in text
    assert "$argon2id$" in text
    for each in (path, tmp_path / wall.NAME):
        assert stat.S_IMODE(each.stat().st_mode) == 0o600


def test_the_walls_ticket_is_good_once_and_for_a_minute(access, tmp_path, clock):
    key = wall.key(tmp_path)
    first, late, early = (wall.ticket(key, clock.ns + s * 10**9) for s in (0, 0, 1))
    kept = access.admit_wall(first)
    assert access.standing(kept).right == "own"
    assert access.admit_wall(first) is None
    assert access.admit_wall(early) is None, "made by a clock that runs ahead"
    clock.ns += 61 * 10**9
    assert access.admit_wall(late) is None
    for forged in ("", "-", "a-b-c", wall.ticket("0" * 64, clock.ns), f"{first}x", "\udc80-1"):
        assert access.admit_wall(forged) is None


def test_a_ticket_of_before_the_power_cut_opens_nothing_after_it(
    access, tmp_path, today, clock, monkeypatch
):
    """The monotonic clock begins anew at each start: a minute of one is a minute of the next."""
    spent = wall.ticket(wall.key(tmp_path), clock.ns)
    assert access.admit_wall(spent)
    (tmp_path / "boot_id").write_text("another\n")
    monkeypatch.setattr(wall, "BOOT", tmp_path / "boot_id")
    after = Access(tmp_path, today)
    assert after.admit_wall(spent) is None
    assert after.admit_wall(wall.ticket(wall.key(tmp_path), clock.ns))


def test_the_own_wall_keeps_its_right_through_restarts_until_its_key_is_another(
    access, tmp_path, today, clock
):
    kept = access.admit_wall(wall.ticket(wall.key(tmp_path), clock.ns))
    assert Access(tmp_path, today).standing(kept).right == "own"
    write(tmp_path / wall.NAME, "f" * 64)
    assert Access(tmp_path, today).standing(kept).right == "nothing"


@pytest.mark.parametrize(
    ("text", "mode", "code"),
    [
        ("a" * 64, 0o604, "wall-key-open"),
        ("a" * 64, 0o642, "wall-key-open"),
        ("ä" * 64, 0o600, "wall-key-unread"),
    ],
)
def test_a_key_that_is_no_secret_is_refused(tmp_path, text, mode, code):
    (tmp_path / wall.NAME).write_text(text, encoding="utf-8")
    (tmp_path / wall.NAME).chmod(mode)
    with pytest.raises(SaidTrouble) as error:
        Access(tmp_path, SystemClock())
    assert error.value.said.code == code


def test_a_group_may_be_given_the_key(tmp_path):
    write(tmp_path / wall.NAME, "a" * 64)
    (tmp_path / wall.NAME).chmod(0o640)
    Access(tmp_path, SystemClock())
    assert stat.S_IMODE((tmp_path / wall.NAME).stat().st_mode) == 0o640


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "null", '{"screens": 1}', '{"people": [{"pin": "x"}]}', "[" * 99999]
)
def test_a_damaged_store_lets_nobody_in_and_tells_nothing_of_it(tmp_path, text):
    (tmp_path / NAME).write_text(text, encoding="utf-8")
    with pytest.raises(SaidTrouble) as error:
        Access(tmp_path, SystemClock())
    assert error.value.said.code == "access-damaged"
    assert set(error.value.said.of) == {"file", "why"}


@pytest.mark.skipif(os.geteuid() != 0, reason="only root may give a file away")
def test_what_root_changes_stays_the_services_own_and_follows_no_link(tmp_path):
    """`sudo headsweep access add` must not leave what the service cannot read, nor write
    elsewhere for whoever owns the folder."""
    os.chown(tmp_path, 4711, 4712)
    elsewhere = tmp_path.with_name("elsewhere")
    elsewhere.write_text("left alone")
    for name in (f"{NAME}.part-{os.getpid()}", "access.lock"):
        (tmp_path / name).symlink_to(elsewhere)
    with suppress(OSError):
        enrolled(tmp_path, ANN)
    (tmp_path / "access.lock").unlink()
    enrolled(tmp_path, ANN)
    assert elsewhere.read_text() == "left alone"
    assert elsewhere.stat().st_uid == 0
    for name in (NAME, "access.lock"):
        found = (tmp_path / name).stat()
        assert (found.st_uid, found.st_gid, stat.S_IMODE(found.st_mode)) == (4711, 4712, 0o600)


def test_a_failed_write_leaves_what_was_there(access, tmp_path, monkeypatch):
    kept = token(access)
    monkeypatch.setattr("os.fsync", lambda _: (_ for _ in ()).throw(OSError(28, "full")))
    access.ask_code()
    with pytest.raises(OSError, match="full"):
        access.pair(access.shown.code, "another")
    assert [path.name for path in tmp_path.glob("*.part-*")] == []
    assert access.standing(kept).right == "work"


def test_no_backup_holds_a_secret(tmp_path):
    clock = SystemClock()
    data, copy = tmp_path / "data", tmp_path / "copy"
    Ledger.open(data, stamp=clock.stamp(), engine="test").close()
    access = Access(data, clock)
    enrolled(data, ANN)
    kept = token(access)
    secrets = [kept, wall.key(data), *(json.loads((data / NAME).read_text())["people"][0].values())]
    backup(data, copy)
    held = b"".join(path.read_bytes() for path in copy.rglob("*") if path.is_file())
    assert [each for each in secrets if each.encode() in held] == []
