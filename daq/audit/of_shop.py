"""The fold of what belongs to no machine."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.state import Shop


def of_shop(shop: Shop, data: e.Data, seq: int) -> Shop | None:
    """The shop after such an event in row `seq`; None for one that belongs to a machine."""
    if isinstance(data, e.GaugeChecked):
        return replace(shop, gauges={**shop.gauges, data.gauge: data})
    if isinstance(data, e.ClockStepped):
        latest_us = max(shop.latest_us, data.before_us)
        return replace(shop, latest_us=latest_us, step=data, stepped_at=seq)
    if isinstance(data, e.AuditAttested):
        return replace(shop, attested=max(shop.attested, data.row))
    return shop if isinstance(data, e.SamplesLetGo) else None
