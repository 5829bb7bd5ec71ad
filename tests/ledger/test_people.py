"""A row holds who did something as an id; the name stands beside the rows and can be put right."""

import io
import uuid

import apsw
import pytest

from daq.ledger import Ledger
from daq.ledger.backup import backup
from daq.ledger.commands import people, show
from daq.ledger.errors import LedgerError, NotRecorded
from daq.ledger.verify import verify
from daq.ledger.view import LedgerView
from tests.words import troubled

ANN, BO = str(uuid.UUID(int=1)), str(uuid.UUID(int=2))


@pytest.fixture
def named(folder, draft):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(0)], people={ANN: "Anna Kelln", BO: "Bo"})
        yield ledger


def test_a_name_is_stored_with_the_row_that_names_it_first(named, folder):
    assert named.people() == {ANN: "Anna Kelln", BO: "Bo"}
    with LedgerView.open(folder) as view:
        assert view.people() == {ANN: "Anna Kelln", BO: "Bo"}


def test_a_corrected_name_changes_no_hash(named, folder):
    head = named.head
    named.rename(ANN, "  Anna Keln ")
    assert named.people()[ANN] == "Anna Keln"
    assert (verify(folder).ok, verify(folder).head) == (True, head)


def test_a_row_that_is_not_written_names_nobody(named, draft):
    with pytest.raises(NotRecorded):
        named.append([draft(1)], people={ANN: "taken already"})
    assert named.seq == 2
    assert named.people()[ANN] == "Anna Kelln"


def test_nobody_and_nothing_are_refused(named):
    with troubled(LedgerError, match="nobody has the id x"):
        named.rename("x", "Cy")
    with pytest.raises(ValueError, match="found nothing; allowed: a name"):
        named.rename(ANN, " ")


def test_the_command_lists_and_corrects(folder, draft):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(0)], people={ANN: "Anna Kelln", BO: "Bo"})
    out = io.StringIO()
    assert people(folder, out, [f"{BO}=Bo Harm"]) == 0
    assert out.getvalue() == f"{ANN}  Anna Kelln\n{BO}  Bo Harm\n"
    with troubled(LedgerError, match="nobody has the id q"):
        people(folder, out, ["q=Bo"])


def test_what_is_shown_of_a_row_names_who_it_is_of(folder, draft):
    with Ledger.open(folder) as ledger:
        ledger.append([draft(0, actor=ANN), draft(1)], people={ANN: "Anna Kelln"})
    out = io.StringIO()
    assert show(folder, out) == 0
    assert [ANN in line for line in out.getvalue().splitlines()] == [False] * 4
    assert ["Anna Kelln" in line for line in out.getvalue().splitlines()] == [0, 0, 1, 0]


def test_a_person_is_never_deleted(named):
    with pytest.raises(apsw.ConstraintError, match="a person named in a row stays"):
        named._connection.execute("DELETE FROM people")


def test_a_copy_holds_the_names(named, folder, tmp_path):
    backup(folder, tmp_path / "copy")
    with LedgerView.open(tmp_path / "copy") as view:
        assert view.people() == {ANN: "Anna Kelln", BO: "Bo"}
