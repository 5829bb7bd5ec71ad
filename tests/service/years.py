"""Ledgers of many audits, sealed or not."""

from daq.ledger import Ledger
from daq.ledger.seal import read_seal
from daq.service.sealing import Sealer, begin

ENGINE = "1.2.3"


def grown(folder, past, numbers, unfinished=None):
    with Ledger.open(folder) as ledger:
        past.put(ledger, numbers)
        if unfinished is not None:
            unfinished.put(ledger, [0])


def seal_now(folder):
    """Start and end at once: the seal is that of the ledger's last row."""
    with Ledger.open(folder, engine=ENGINE) as ledger:
        sealer = Sealer(folder, ledger, ENGINE, begin(ledger))
        sealer.start()
        sealer.stop()
        assert read_seal(folder, ENGINE).seq == ledger.seq
