import hashlib
import json
import re
import threading

import apsw
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from daq.ledger import Ledger, LedgerError, LedgerView, NotRecorded, digest_of
from daq.words import Stamp
from tests.words import troubled

OPEN = """
import sys
from pathlib import Path
from daq.ledger import Ledger, LedgerError
from daq.says import words
try:
    Ledger.open(Path(sys.argv[1])).close()
    print("opened")
except LedgerError as error:
    print(words(error.said))
"""


def test_events_come_back_as_they_were_answered(folder, draft):
    with Ledger.open(folder) as ledger:
        events = ledger.append(
            [draft(0), draft(1, machine="lathe", audit="c3", data={"t": (1, 2)})]
        )
        assert [event.seq for event in events] == [2, 3]
        assert events[1].data == {"t": [1, 2]}
        head = ledger.head
    with Ledger.open(folder) as ledger:
        assert (ledger.seq, ledger.head) == (3, head)
        assert tuple(ledger.events(after=1)) == events
        assert tuple(ledger.events(machine="lathe")) == events[1:]
        assert tuple(ledger.events(audit="7b0c")) == events[:1]
        assert tuple(ledger.events(machine="mill", audit="c3")) == ()
        assert ledger.by_cause("command-1") == events[1:]
        assert ledger.by_cause("command-9") == ()


def test_more_events_than_a_page_come_in_order(folder, draft):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(n, machine=("a", "b")[n % 2]) for n in range(1200)])
        assert [event.seq for event in ledger.events()] == list(range(1, 1202))
        assert [event.seq for event in ledger.events(machine="b")] == list(range(3, 1202, 2))


def test_one_audit_is_found_through_its_index(folder, filled):
    filled(folder, 3)
    connection = apsw.Connection(str(folder / "ledger.db"))
    for where in ("audit = 'a'", "machine = 'm'", "seq > 1 AND audit = 'a'", "cause = 'c'"):
        plan = str(connection.execute(f"EXPLAIN QUERY PLAN SELECT seq FROM events WHERE {where}")
                   .fetchall())  # fmt: skip
        assert "INDEX events_by_" in plan, where
    connection.close()


def test_hashes_are_those_of_an_independent_computation(folder, filled):
    heads = filled(folder, 5)
    previous = b"\0" * 32
    connection = apsw.Connection(str(folder / "ledger.db"))
    for seq, body, stored in connection.execute("SELECT seq, body, hash FROM events ORDER BY seq"):
        previous = hashlib.sha256(previous + body.encode()).digest()
        assert stored == previous
        assert stored.hex() == heads[seq - 1]
        again = json.dumps(
            json.loads(body), sort_keys=True, separators=(",", ":"), ensure_ascii=False
        )
        assert again == body
    assert seq == len(heads)
    connection.close()


def test_the_first_row_names_ledger_format_and_what_went_before(folder):
    stamp = Stamp(5, 6, "boot-9", True)
    with Ledger.open(folder, stamp=stamp, previous="ab" * 32) as ledger:
        (first,) = ledger.events()
        assert first.stamp == stamp
        assert first.data == {"format": 3, "previous": "ab" * 32}
        assert first.ledger == ledger.uuid
        assert re.fullmatch(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", ledger.uuid)
        uuid = ledger.uuid
    with Ledger.open(folder, previous="cd" * 32) as ledger:
        assert ledger.uuid == uuid
        assert ledger.seq == 1


def test_evidence_is_stored_once_and_comes_back(folder, draft):
    chunk = bytes(range(256)) * 50
    with Ledger.open(folder) as ledger:
        named = draft(0, evidence=(digest_of(chunk),))
        ledger.append([named], [chunk, chunk])
        ledger.append([named], [chunk])
        (event,) = ledger.append([named])
        assert event.evidence == (digest_of(chunk),)
        assert ledger.chunk(digest_of(chunk)) == chunk
        assert [(d.hex(), b) for d, b, _ in ledger.chunks(9)] == [(digest_of(chunk), chunk)]


def test_evidence_nobody_has_is_refused_and_nothing_is_written(folder, draft):
    with Ledger.open(folder) as ledger:
        with pytest.raises(ValueError, match="neither stored nor handed over"):
            ledger.append([draft(0), draft(1, evidence=("ab" * 32,))], [b"other"])
        assert ledger.seq == 1
        with troubled(LedgerError, match="not in the ledger"):
            ledger.chunk(digest_of(b"other"))
        assert ledger.append([draft(2)])[0].seq == 2


def test_what_cannot_be_written_as_json_leaves_the_ledger_as_it_was(folder, draft):
    with Ledger.open(folder) as ledger:
        head = ledger.head
        with pytest.raises(ValueError, match="JSON compliant"):
            ledger.append([draft(0), draft(1, data={"x": float("nan")})])
        assert (ledger.seq, ledger.head, len(list(ledger.events()))) == (1, head, 1)


def test_nothing_to_append_costs_nothing(folder):
    with Ledger.open(folder) as ledger:
        assert ledger.append([]) == ()
        assert ledger.seq == 1


@settings(
    derandomize=True,
    deadline=None,
    max_examples=40,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    st.dictionaries(
        st.text(st.characters(exclude_categories=["Cs"]), max_size=8),
        st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=8) | st.integers(),
    ),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=8),
)
def test_any_json_survives_the_file(shared, draft, data, machine):
    (event,) = shared.append([draft(0, data=data, machine=machine)])
    assert event.data == data
    assert list(shared.events(after=event.seq - 1)) == [event]


@pytest.fixture
def shared(folder):
    with Ledger.open(folder) as ledger:
        yield ledger


def test_a_second_process_is_refused_while_the_first_lives(folder, child):
    with Ledger.open(folder):
        said, _ = child(OPEN, str(folder)).communicate()
        assert "another headsweep has this data folder open" in said
        assert "ledger.lock" in said
        with troubled(LedgerError, match="another headsweep"):
            Ledger.open(folder)
    said, _ = child(OPEN, str(folder)).communicate()
    assert said == "opened\n"


def test_a_view_follows_the_writer_and_cannot_write(folder, draft):
    seen = []

    def follow():
        with LedgerView.open(folder) as view:
            seen.extend(view.events())
            with pytest.raises(apsw.ReadOnlyError):
                view._connection.execute("DELETE FROM events")

    with Ledger.open(folder) as ledger:
        ledger.append([draft(0)])
        thread = threading.Thread(target=follow)
        thread.start()
        thread.join()
        assert [event.seq for event in seen] == [1, 2]
        with LedgerView.open(folder) as view:
            ledger.append([draft(1)])
            assert view.last() == (3, bytes.fromhex(ledger.head))


def test_a_dawdling_reader_does_not_hold_the_log_open(folder, draft):
    with Ledger.open(folder) as ledger, LedgerView.open(folder) as view:
        ledger.append([draft(n) for n in range(600)])
        reading = view.events()
        next(reading)
        busy, _, _ = ledger._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()[0]
        assert busy == 0
        assert len(list(reading)) == 600


def test_rows_cannot_be_changed_removed_or_replaced(folder, filled):
    filled(folder, 3)
    connection = apsw.Connection(str(folder / "ledger.db"))
    for sql in (
        "UPDATE events SET body = '{}' WHERE seq = 2",
        "DELETE FROM events WHERE seq = 4",
        "INSERT OR REPLACE INTO events (seq, body, hash) VALUES (2, '{}', zeroblob(32))",
        "INSERT INTO events (seq, body, hash) VALUES (9, '{}', zeroblob(32))",
        "INSERT INTO events (seq, body, hash) VALUES (5, '{}', zeroblob(31))",
        "INSERT INTO events (seq, body, hash) VALUES (5, 'no json', zeroblob(32))",
        "UPDATE chunks SET bytes = x'00'",
        "DELETE FROM chunks",
    ):
        with pytest.raises((apsw.ConstraintError, apsw.SQLError)):
            connection.execute(sql)
    connection.execute("INSERT OR REPLACE INTO chunks SELECT digest, x'00', NULL FROM chunks")
    connection.close()
    with LedgerView.open(folder) as view:
        assert [len(chunk) for _, chunk, _ in view.chunks(9)] == [8400]


def test_a_row_from_elsewhere_stops_the_writer(folder, draft, hand):
    with Ledger.open(folder) as ledger:
        with hand(folder) as connection:
            connection.execute(
                "INSERT INTO events (seq, body, hash) VALUES (2, '{}', zeroblob(32))"
            )
        with troubled(NotRecorded, match="no longer ends at row 1"):
            ledger.append([draft(0)])


def test_a_closed_ledger_records_nothing(folder, draft):
    ledger = Ledger.open(folder)
    ledger.close()
    with troubled(NotRecorded, match="closed"):
        ledger.append([draft(0)])
    with troubled(LedgerError, match="closed"):
        list(ledger.events())
