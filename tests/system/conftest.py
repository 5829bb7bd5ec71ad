"""Whole audits over a real port and HTTP: the rig is in `fixtures`."""

from tests.system.fixtures import client, daemon, gauge, mill, person, shop

__all__ = ["client", "daemon", "gauge", "mill", "person", "shop"]
