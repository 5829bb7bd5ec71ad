"""What works behind a start, each on a thread of its own: nobody who presses waits for it."""

from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from pathlib import Path

from daq.ledger.store import Ledger
from daq.service.attesting import Attester
from daq.service.clock import Clock
from daq.service.committed import Subscriber
from daq.service.delivery.deliveries import Deliveries
from daq.service.letting_go import LettingGo, RecordRules
from daq.service.listing import Listing
from daq.service.proof import Proof
from daq.service.sealing import Begun, Sealer
from daq.service.turns import Turns


class Behind:
    """Seals, proves and signs the record, lets samples go, lists audits, has reports delivered."""

    def __init__(
        self,
        data: Path,
        ledger: Ledger,
        engine: str,
        begun: Begun,
        rules: RecordRules,
        clock: Clock,
        deliveries: Deliveries,
    ) -> None:
        """Nothing runs before `working`; `begun` is how the ledger was folded."""
        self.deliveries = deliveries
        self._sealer = Sealer(data, ledger, engine, begun)
        self.proof = Proof(data, ledger.seq, begun, self._sealer.void)
        self.attester = Attester(data, ledger.uuid, begun.shop.attested)
        self.letting_go = LettingGo(data, rules, self.proof, clock)
        self.known = (self.proof, self.attester, self.letting_go)
        """What whoever decides asks of them."""
        self.listing = Listing(data, ledger.seq)
        self.followers: Mapping[str, Subscriber] = {
            "seal": self._sealer.committed,
            "attester": self.attester.committed,
            "deliveries": deliveries.committed,
            "listing": self.listing.committed,
        }
        """Those of them that are told of each commit."""
        self.turns: Mapping[str, Turns] = {
            "sealer": self._sealer.turns,
            "proof": self.proof.turns,
            "attests": self.attester.turns,
            "listing": self.listing.turns,
            "letting-go": self.letting_go.turns,
            **deliveries.turns,
        }

    @contextmanager
    def working(self) -> Iterator[None]:
        """They work for the length of the block."""
        with ExitStack() as opened:
            works = (self._sealer, self.proof, self.attester, self.letting_go)
            for each in (*works, self.listing, self.deliveries):
                opened.callback(each.stop)
                each.start()
            yield
