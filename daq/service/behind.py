"""What works behind a start, each on a thread of its own: nobody who presses waits for it."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from pathlib import Path

from daq.ledger.store import Ledger
from daq.service.alive import Alive
from daq.service.attesting import Attester
from daq.service.clock import Clock
from daq.service.committed import Subscriber
from daq.service.letting_go import LettingGo, RecordRules
from daq.service.listing import Listing
from daq.service.outs import Going, Out
from daq.service.proof import Proof
from daq.service.sealing import Begun, Sealer
from daq.service.turns import Turns


class Behind:
    """Seals, proves and signs the record, lets samples go, lists audits, tells others."""

    def __init__(
        self,
        data: Path,
        ledger: Ledger,
        engine: str,
        begun: Begun,
        rules: RecordRules,
        clock: Clock,
        outs: tuple[Out, ...],
    ) -> None:
        """Nothing runs before `working`; `begun` is how the ledger was folded."""
        last = ledger.event(ledger.seq)
        self.alive = Alive(data, clock, engine, None if last is None else last.stamp)
        self._sealer = Sealer(data, ledger, engine, begun)
        self.proof = Proof(data, ledger.seq, begun, self._sealer.void)
        self.attester = Attester(data, ledger.uuid, begun.shop.attested)
        self.letting_go = LettingGo(data, rules, self.proof, clock)
        self.known = (self.proof, self.attester, self.letting_go)
        """What whoever decides asks of them."""
        self.listing = Listing(data, ledger.seq)
        record = (self._sealer, self.proof, self.attester, self.letting_go)
        self._works: tuple[Going, ...] = (*record, self.alive, self.listing, *outs)
        self.followers: Mapping[str, Subscriber] = {
            "seal": self._sealer.committed,
            "attester": self.attester.committed,
            **{each.name: each.committed for each in outs},
            "listing": self.listing.committed,
        }
        """Those of them that are told of each commit."""
        self.turns: Mapping[str, Turns] = {
            "sealer": self._sealer.turns,
            "proof": self.proof.turns,
            "attests": self.attester.turns,
            "listing": self.listing.turns,
            "letting-go": self.letting_go.turns,
            "alive": self.alive.turns,
            **{name: turns for each in outs for name, turns in each.turns.items()},
        }

    @contextmanager
    def working(self, failed: Callable[[], object]) -> Iterator[None]:
        """They work for the length of the block; one that `failed` leaves its trace behind."""
        self.alive.begin()
        with ExitStack() as opened:
            opened.callback(self._leave, failed)
            for each in self._works:
                opened.callback(each.stop)
                each.start()
            yield

    def _leave(self, failed: Callable[[], object]) -> None:
        if not failed():
            self.alive.ended()
