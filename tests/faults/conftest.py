"""What breaks in the field, on a real port, disk and network: the rig is in `fixtures`."""

from tests.system.fixtures import client, daemon, gauge, mill, person, shop

__all__ = ["client", "daemon", "gauge", "mill", "person", "shop"]
