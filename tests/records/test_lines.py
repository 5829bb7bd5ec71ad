"""Every row of an audit as it is told, held against the ledger's own rows."""

from daq.records.lines import lines
from daq.records.read import read


def test_every_row_is_told_with_its_hash_and_what_took_it_back(data, ids):
    for audit in ids:
        found = read(data, audit)
        told = lines(found)
        assert [(each.seq, each.hash, each.type) for each in told] == [
            (row.seq, row.kept.hash, row.event.type) for row in found.rows
        ]
        assert [each.struck_by for each in told] == [row.voided_by for row in found.rows]
