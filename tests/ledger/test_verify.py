import json
import re
import tracemalloc

import apsw
import pytest

from daq.ledger import Ledger, LedgerError, LedgerView
from daq.ledger.chain import canonical, link
from daq.ledger.verify import Anchor, verify, walk
from tests.words import en, troubled


def rows_of(connection):
    return connection.execute("SELECT seq, body, hash FROM events ORDER BY seq").fetchall()


def rewrite(connection, bodies):
    """Write the whole ledger anew with hashes that fit: what someone with the file can do."""
    connection.execute("DELETE FROM events")
    head = bytes(32)
    for seq, body in enumerate(bodies, 1):
        head = link(head, body.encode())
        connection.execute("INSERT INTO events (seq, body, hash) VALUES (?,?,?)", (seq, body, head))


def alter(connection):
    connection.execute("UPDATE events SET body = replace(body, '\"n\":3', '\"n\":9') WHERE seq = 5")


def swap_bodies(connection):
    four, five = rows_of(connection)[3:5]
    connection.execute("UPDATE events SET body = ? WHERE seq = 4", (five[1],))
    connection.execute("UPDATE events SET body = ? WHERE seq = 5", (four[1],))


def swap_rows_and_chain_anew(connection):
    bodies = [body for _, body, _ in rows_of(connection)]
    bodies[3], bodies[4] = bodies[4], bodies[3]
    rewrite(connection, bodies)


def other_ledgers_row(connection):
    bodies = [body for _, body, _ in rows_of(connection)]
    bodies[6] = canonical(json.loads(bodies[6]) | {"ledger": "another"})
    rewrite(connection, bodies)


def no_event(connection):
    bodies = [body for _, body, _ in rows_of(connection)]
    rewrite(connection, [*bodies[:5], '{"seq":6}', *bodies[6:]])


def no_text(connection):
    """Bytes that are no UTF-8, inside a text that is still JSON to the database."""
    connection.execute(
        "UPDATE events SET body = CAST(replace(CAST(body AS BLOB), 'console', x'ff') AS TEXT)"
        " WHERE seq = 5"
    )


def wrong_evidence(connection):
    bodies = [body for _, body, _ in rows_of(connection)]
    bodies[6] = canonical(json.loads(bodies[6]) | {"evidence": [7]})
    rewrite(connection, bodies)


@pytest.mark.parametrize(
    ("tamper", "seq", "say"),
    [
        (alter, 5, "row 5 is altered"),
        (no_text, 5, "row 5 is altered"),
        (swap_bodies, 4, "row 4 is altered"),
        (swap_rows_and_chain_anew, 4, "row 4 is out of place: it was written as row 5"),
        (other_ledgers_row, 7, "row 7 belongs to another ledger"),
        (no_event, 6, "row 6 is altered: it holds no event"),
        (wrong_evidence, 7, "row 7"),
        ("DELETE FROM events WHERE seq = 5", 5, "row 5 is missing"),
        ("DELETE FROM events WHERE seq = 1", 1, "row 1 is missing"),
        ("DELETE FROM events", 1, "no rows"),
        ("UPDATE events SET seq = 0 WHERE seq = 3", 0, "row 0 was slipped in"),
        ("UPDATE events SET hash = zeroblob(32) WHERE seq = 9", 9, "row 9 is altered"),
        ("DELETE FROM chunks", 3, "row 3: .*is not in the ledger"),
        ("UPDATE chunks SET bytes = x'00'", 3, "row 3: .*is damaged"),
    ],
)
def test_tampering_is_found_at_its_row(folder, filled, hand, tamper, seq, say):
    filled(folder, 10)
    with hand(folder) as connection:
        if callable(tamper):
            tamper(connection)
        else:
            connection.execute(tamper)
    report = verify(folder)
    assert not report.ok
    assert report.first_bad_seq == seq
    assert re.search(say, en(report.say))
    assert report.rows == max(seq - 1, 0)
    with troubled(LedgerError, match=r"left as it (is|was)"):
        Ledger.open(folder)


def test_a_sound_ledger_is_reported_with_its_head(folder, filled):
    heads = filled(folder, 10)
    report = verify(folder, [Anchor(7, heads[6][:16]), Anchor(11, heads[10])])
    assert report.ok
    assert (report.rows, report.head, report.first_bad_seq) == (11, heads[-1], None)
    assert heads[-1] in en(report.say)


def test_a_cut_tail_is_found_by_what_was_noted_down(folder, filled, hand):
    heads = filled(folder, 10)
    with hand(folder) as connection:
        connection.execute("DELETE FROM events WHERE seq > 8")
    assert verify(folder).ok
    report = verify(folder, [Anchor(11, heads[10])])
    assert (report.ok, report.first_bad_seq, report.rows) == (False, 9, 8)
    assert "ends at row 8, but row 11 was noted down" in en(report.say)


def test_a_ledger_written_anew_is_found_by_what_was_noted_down(folder, filled, hand):
    heads = filled(folder, 10)
    with hand(folder) as connection:
        bodies = [body for _, body, _ in rows_of(connection)]
        bodies[4] = bodies[4].replace('"n":3', '"n":9')
        rewrite(connection, bodies)
    assert verify(folder).ok
    report = verify(folder, [Anchor(4, heads[3]), Anchor(8, heads[7])])
    assert (report.ok, report.first_bad_seq) == (False, 8)
    assert heads[7] in en(report.say)


@pytest.mark.parametrize(
    ("seq", "head"), [(0, "ab" * 32), (3, ""), (3, "abc"), (3, "AB" * 32), (3, "ab" * 33)]
)
def test_an_anchor_that_holds_nothing_is_refused(seq, head):
    with pytest.raises(ValueError, match="allowed: a row from 1"):
        Anchor(seq, head)


def test_an_index_that_hides_rows_is_found(folder, filled, hand):
    filled(folder, 10)
    with hand(folder) as connection:
        connection.config(apsw.SQLITE_DBCONFIG_WRITABLE_SCHEMA, 1)
        roots = dict(connection.execute("SELECT name, rootpage FROM sqlite_schema").fetchall())
        connection.execute(
            "UPDATE sqlite_schema SET rootpage = iif(name = 'events_by_audit', ?, ?)"
            " WHERE name IN ('events_by_audit', 'events_by_machine')",
            (roots["events_by_machine"], roots["events_by_audit"]),
        )
    report = verify(folder)
    assert (report.ok, report.rows, report.first_bad_seq) == (False, 11, None)
    assert "the file is damaged (" in en(report.say)


def test_verifying_beside_the_writer_sees_whole_rows(folder, draft):
    with Ledger.open(folder) as ledger:
        for n in range(5):
            ledger.append([draft(n)])
            report = verify(folder)
            assert (report.ok, report.rows, report.head) == (True, n + 2, ledger.head)


def test_rows_added_meanwhile_are_left_for_the_next_check(folder, draft, monkeypatch):
    with Ledger.open(folder) as ledger, LedgerView.open(folder) as view:
        ledger.append([draft(0)])
        head, last = ledger.head, view.last

        def then_append():
            found = last()
            ledger.append([draft(1)])
            return found

        monkeypatch.setattr(view, "last", then_append)
        report = walk(view)
        assert (report.ok, report.rows, report.head) == (True, 2, head)


def test_a_page_that_cannot_be_read_ends_the_good_rows(folder, filled):
    heads = filled(folder, 60)
    found = 0
    whole = (folder / "ledger.db").read_bytes()
    for page in range(1, len(whole) // 4096):
        at = page * 4096
        (folder / "ledger.db").write_bytes(whole[:at] + b"\xa5" * 4096 + whole[at + 4096 :])
        report = verify(folder)
        assert not report.ok
        if report.first_bad_seq is not None and "cannot be read" in en(report.say):
            found += 1
            assert report.first_bad_seq == report.rows + 1
            assert report.head == (heads[report.rows - 1] if report.rows else "00" * 32)
    assert found > 0


def test_a_row_that_holds_no_event_cannot_be_read(folder, filled, hand):
    filled(folder, 10)
    with hand(folder) as connection:
        no_event(connection)
    with LedgerView.open(folder) as view:
        reading = view.events()
        assert [next(reading).seq for _ in range(5)] == [1, 2, 3, 4, 5]
        with troubled(LedgerError, match=r"ledger\.db: row 6 cannot be read"):
            next(reading)


def test_memory_stays_flat_however_long_the_ledger(folder, draft):
    peaks = []
    with Ledger.open(folder) as ledger:
        for start in (0, 2_000, 18_000):
            rows = {0: 2_000, 2_000: 16_000, 18_000: 2_000}[start]
            ledger.append([draft(start + n) for n in range(rows)])
            tracemalloc.start()
            assert verify(folder).rows == start + rows + 1
            peaks.append(tracemalloc.get_traced_memory()[1])
            tracemalloc.stop()
    assert max(peaks) < 1.25 * peaks[0]
    assert max(peaks) < 2_000_000
