"""What rows that belong to no machine change: of a gauge, of the clock, of the record itself."""

from dataclasses import replace
from typing import Final

from daq.audit.events import AuditAttested, ClockStepped, GaugeChecked, SamplesLetGo
from daq.audit.state import Shop

OF_NO_MACHINE: Final = (GaugeChecked, ClockStepped, AuditAttested, SamplesLetGo)


def of_no_machine(
    shop: Shop, data: GaugeChecked | ClockStepped | AuditAttested | SamplesLetGo, seq: int
) -> Shop:
    """The shop after such an event, which is that of row `seq`."""
    if isinstance(data, GaugeChecked):
        return replace(shop, gauges={**shop.gauges, data.gauge: data})
    if isinstance(data, ClockStepped):
        latest_us = max(shop.latest_us, data.before_us)
        return replace(shop, latest_us=latest_us, step=data, stepped_at=seq)
    if isinstance(data, AuditAttested):
        return replace(shop, attested=max(shop.attested, data.row))
    return shop
