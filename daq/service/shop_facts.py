"""What shop.toml says for paper: the shop, its tools and rings with their papers, its files."""

from collections.abc import Iterator, Mapping
from typing import Final

from daq.audit.shop_papers import Tool
from daq.service.delivery.courier import WayOut
from daq.service.files import ShopFiles
from daq.service.machine_facts import commas
from daq.words import Said, Text, said
from daq.words.certified import Certified
from daq.words.setup import Fact, FactGroup, ShopCard

_KEYS: Final = {
    "folder": "on_signing.folder",
    "address": "on_signing.address",
    "broker": "mqtt.host",
}
_WAYS: Final = {
    "folder": said("to-folder"),
    "address": said("to-address"),
    "broker": said("to-broker"),
}


def card(files: ShopFiles, ways: Mapping[str, WayOut]) -> ShopCard:
    """The shop as its reports show it, and how the `ways` are doing by which they go out."""
    tools = [
        Fact(f"tools.{key}", _tool(tool), _papers(tool)) for key, tool in files.shop.tools.items()
    ]
    rings = [
        Fact(f"rings.{key}", ring.say, _papers(ring)) for key, ring in files.shop.rings.items()
    ]
    own = tools + rings
    doing = {way: Fact(_KEYS[way], _WAYS[way], _doing(each)) for way, each in ways.items()}
    told = doing.pop("broker", None)
    out = tuple(doing.values())
    groups = (
        FactGroup("tools", said("file-tools"), None, tuple(own)),
        FactGroup("on_signing", said("on-signing"), None, out),
        FactGroup("mqtt", said("broker-messages"), None, () if told is None else (told,)),
    )
    return ShopCard(tuple(_shop(files)), tuple(each for each in groups if each.facts))


def _doing(way: WayOut) -> Said:
    if way.why is not None:
        return said("way-fails", to=way.to, count=way.owed, why=way.why)
    return (
        said("way-owes", to=way.to, count=way.owed) if way.owed else said("way-is-well", to=way.to)
    )


def _tool(tool: Tool) -> Said:
    if tool.say:
        return said("tool-named", say=tool.say, number=tool.number)
    return said("a-tool", tool=tool.kind, number=tool.number)


def _shop(files: ShopFiles) -> Iterator[Fact]:
    papers, none = files.papers, said("not-said")
    yield Fact("name", said("file-shop-name"), papers.name)
    yield Fact("address", said("file-address"), papers.address or none)
    yield Fact("method", said("file-method"), _method(papers.method, papers.revision) or none)
    yield Fact("customer", said("file-customer"), papers.customer or none)
    yield Fact("time_zone", said("file-time-zone"), papers.time_zone)
    yield Fact("paper", said("file-paper"), papers.paper)
    yield Fact("config", said("file-digest"), files.digest)


def _method(method: str, revision: str) -> Text:
    return said("method-revision", method=method, revision=revision) if revision else method


def _papers(of: Certified) -> Said:
    told = []
    if of.certificate:
        told.append(said("certificate-is", number=of.certificate))
    if of.laboratory:
        told.append(said("laboratory-is", name=of.laboratory))
    if of.calibrated_on is not None:
        told.append(said("calibrated-on", day=of.calibrated_on.isoformat()))
    if of.due is not None:
        told.append(said("good-until", day=of.due.isoformat()))
    return commas(told) if told else said("no-papers")
