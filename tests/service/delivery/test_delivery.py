"""Reports go out by themselves: whole or not at all, until they came through, whatever restarts."""

import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest

from daq.ledger.view import LedgerView
from daq.report.made import endings
from daq.service import shop_file
from daq.service.delivery import courier as couriers
from daq.service.delivery.config import Ending
from daq.service.delivery.courier import Courier, NotDelivered, WayOut, waits_after
from daq.service.delivery.from_ledger import name_of, record_at
from daq.service.delivery.owed import Book
from daq.service.files import load
from daq.service.shop_facts import card
from daq.settings import SettingsError
from daq.words import said
from tests.patience import until
from tests.service.delivery.rig import LEDGER, following, settled
from tests.words import en, faults

SCRIPT = Path(__file__).with_name("dropping.py")


def test_what_was_signed_is_there_by_machine_day_and_short_form_and_practice_is_not(
    data, tmp_path, rows, going
):
    found = following(data, tmp_path, folder=str(tmp_path), formats=("pdf", "json"))
    assert found.ways["folder"].owed == len(rows) == 5
    found.start()
    settled(found)
    with LedgerView.open(data) as view:
        first, added, anew, none, last = (record_at(view, row) for row in rows)
    assert none is None
    assert name_of(first) == f"mill-2026-06-01-{first.opened.short}-1"
    assert name_of(added) == f"mill-2026-06-01-{first.opened.short}-2"
    assert name_of(anew) == f"mill-2026-06-01-{first.opened.short}-3"
    there = {path.name: path.read_text("utf-8") for path in tmp_path.iterdir()}
    assert there == {
        f"{name_of(each)}.{ending}": f"{ending} of {each.opened.short} to row {row}"
        for each, row in zip((first, added, anew, last), going, strict=True)
        for ending in ("pdf", "json")
    }


def test_the_day_in_a_name_is_the_shops(data, rows):
    """After noon of 1 June, UTC, it is 2 June in Auckland: UTC+12 in winter (IANA time zones)."""
    with LedgerView.open(data) as view:
        record = record_at(view, rows[0])
    opened, *others = record.rows
    setup = opened.data.setup
    shop = replace(setup.shop, time_zone="Pacific/Auckland")
    there = replace(opened, data=replace(opened.data, setup=replace(setup, shop=shop)))
    assert name_of(replace(record, rows=(there, *others))).startswith("mill-2026-06-02-")


def test_a_folder_full_read_only_or_gone_gets_everything_once_it_is_back(tmp_path):
    """A real disk of 64 kB, in a mount name space that only the script lives in."""
    folder, kept = tmp_path / "reports", tmp_path / "data"
    for each in (folder, kept):
        each.mkdir()
    space = ["unshare", "--map-root-user", "--mount", sys.executable, str(SCRIPT)]
    done = subprocess.run([*space, folder, kept], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    phases = {}
    for line in done.stdout.splitlines():
        name, *found = json.loads(line)
        phases[name] = found
    no_room, shut, gone = "folder-does-not-take", "folder-does-not-take", "folder-not-there"
    one = ["mill-1.json", "mill-1.pdf"]
    two, three = ["mill-2.json", "mill-2.pdf"], ["mill-3.json", "mill-3.pdf"]
    assert phases == {
        "well": [True, "", 0, one, True],
        "full": [False, no_room, 2, ["ballast"], True],
        "room for one": [False, no_room, 1, two, True],
        "room again": [True, "", 0, ["mill-2.json", *three], True],
        "read-only": [False, shut, 1, ["mill-2.json", *three], True],
        "writable": [True, "", 0, ["mill-2.json", *three, "mill-4.json", "mill-4.pdf"], True],
        "gone": [False, gone, 1, [], True],
        "back": [True, "", 0, sorted([*one, "mill-5.json", "mill-5.pdf"]), True],
    }


def test_a_folder_that_is_gone_is_not_made(data, tmp_path, monkeypatch):
    """It may be the place where a disk is to be mounted."""
    monkeypatch.setattr(couriers, "FIRST_WAITS", 1)
    away = tmp_path / "stick"
    found = following(data, tmp_path, folder=str(away), formats=("json",))
    found.start()
    until(lambda: found.ways["folder"].why)
    assert found.ways["folder"].why == said("folder-not-there", folder=str(away))
    assert not away.exists()
    away.mkdir()
    settled(found)
    assert len(list(away.iterdir())) == 4


def test_how_each_way_is_doing_is_said_in_plain_words(config):
    gone = said("folder-not-there", folder="/media/reports")
    ways = {"folder": WayOut("/media/reports", 2, gone), "address": WayOut("http://mes", 0)}
    ways["broker"] = WayOut("broker.local:1883", 0, said("broker-not-yet", host="broker.local"))
    (told,) = (each for each in card(load(config), ways).groups if each.key == "mqtt")
    assert [(en(fact.say), en(fact.value)) for fact in told.facts] == [
        (
            "A broker is told",
            "broker.local:1883: nothing waits for it. broker.local was not reached yet.",
        )
    ]
    (group,) = (each for each in card(load(config), ways).groups if each.key == "on_signing")
    assert [(en(fact.say), en(fact.value)) for fact in group.facts] == [
        (
            "Reports go into",
            "/media/reports: 2 did not come through yet, and it is tried again. "
            "There is no folder /media/reports: is its disk plugged in?",
        ),
        ("A note goes to", "http://mes: everything is there"),
    ]


def test_a_file_that_was_given_out_is_never_written_over(data, tmp_path, rows):
    with LedgerView.open(data) as view:
        name = name_of(record_at(view, rows[0]))
    issued = tmp_path / f"{name}.pdf"
    issued.write_bytes(b"as it was issued")
    found = following(data, tmp_path, folder=str(tmp_path), formats=("pdf",))
    found.start()
    settled(found)
    assert issued.read_bytes() == b"as it was issued"


def test_what_is_owed_outlives_a_restart_and_nothing_from_before_is_owed(tmp_path):
    book = Book(tmp_path, "folder", LEDGER, 40, lambda seq: (9, 30))
    assert book.owed.rows == (9, 30)  # rows after 40 alone are asked for: a real ledger has none
    book = Book(tmp_path, "folder", LEDGER, 60, lambda seq: (50,) if seq == 40 else ())
    assert book.owed.rows == (9, 30, 50)
    book.delivered(30)
    book.more([61, 62])
    book.more([62])
    again = Book(tmp_path, "folder", LEDGER, 62, lambda seq: () if seq == 62 else (seq,))
    assert again.owed.rows == (9, 50, 61, 62)
    anew = Book(tmp_path, "folder", "another ledger", 5, lambda seq: (3,) if seq == 0 else ())
    assert anew.owed.rows == (3,)  # begun anew: all of it
    (tmp_path / "owed-folder.json").write_text("{", "utf-8")
    assert Book(tmp_path, "folder", LEDGER, 70, lambda seq: ()).owed.rows == ()


def test_in_order_one_number_says_what_is_owed_and_what_came_twice_is_never_less(tmp_path):
    """A row more costs no write, and of those that came through every second is written."""
    ledger = [3, 5, 8, 9, 12]

    def opened(last):
        def after(seq):
            return [row for row in ledger if seq < row <= last]

        return Book(tmp_path, "broker", LEDGER, last, after, in_order=2)

    def kept():
        return json.loads((tmp_path / "owed-broker.json").read_text("utf-8"))

    book = opened(2)
    book.more([3, 5])
    book.more([8])
    assert kept() == {"ledger": LEDGER, "seen": 2, "rows": []}
    book.delivered(3)
    assert opened(9).owed.rows == (3, 5, 8, 9)  # a power cut: 3 comes once more
    book.delivered(5)
    assert kept()["seen"] == 7 and opened(9).owed.rows == (8, 9)
    book.delivered(8)
    book.save()
    assert kept()["seen"] == 8 and opened(12).owed.rows == (9, 12)


def test_every_format_of_a_report_may_go_out():
    assert set(get_args(Ending)) == set(endings())


def test_pauses_grow_and_end_at_ten_minutes():
    waits = [waits_after(n) for n in (1, 2, 3, 7, 8, 9, 10_000)]
    assert waits == [10, 20, 40, 640, 1200, 1200, 1200]


def test_one_that_cannot_be_made_keeps_no_other_back_and_what_fails_for_all_is_tried_once(tmp_path):
    tried = []

    def deliver(row):
        tried.append(row)
        if row == 1:
            raise ZeroDivisionError
        if row == 3 and gone:
            raise NotDelivered(said("folder-not-there", folder="x"))

    gone = True
    book = Book(tmp_path, "folder", LEDGER, 0, lambda seq: ())
    book.more([1, 2, 3, 4])
    courier = Courier("folder", "x", book, deliver)
    assert not courier.round() and tried == [1, 2, 3]
    assert courier.standing.why.code == "not-delivered-of-itself"
    gone = False
    assert not courier.round() and book.owed.rows == (1,)


@pytest.mark.parametrize(
    ("table", "allowed"),
    [
        ('folder = "reports"', "folder: found 'reports'; allowed: a whole path, from / on"),
        ('url = "ftp://x/y"', "url: found 'ftp://x/y'; allowed: http:// or https://"),
        ('url = "http://a b/"', "allowed: http:// or https://"),
        ('url = "http://u:p@host/"', "allowed: an address without a name in it"),
        ('url = "http://host:99999/"', "allowed: http:// or https://"),
        ('secret = "0123456789abcdef"', "secret: found without url"),
        ('url = "http://x/"\nsecret = "short"', "allowed: 16 characters or more"),
        ('folder = "/x"\nformats = ["docx"]', 'formats[0]: found "docx"; allowed: one of "pdf"'),
        ("[on_signing.x]", "'x'"),
    ],
)
def test_what_is_wrong_in_the_file_is_said(tmp_path, table, allowed):
    path = tmp_path / "shop.toml"
    path.write_text(f'name = "Shop"\n[on_signing]\n{table}\n', "utf-8")
    with pytest.raises(SettingsError) as error:
        shop_file.read(path)
    (told,) = faults(error.value)
    assert "on_signing" in told and allowed in told
    assert "short" not in told.replace("a short one", "")
