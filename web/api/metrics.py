"""What a monitor reads, as the text that Prometheus scrapes (exposition format 0.0.4)."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import ClassVar, Final

from flask import Blueprint, Response
from werkzeug.exceptions import NotFound

from daq.service.metrics import MetricFamily
from daq.words import Said
from web.api.health import is_well
from web.problems import Problem
from web.rights import needs
from web.rooms import rooms, words
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_metrics", __name__)
FAMILY = Family(blueprint)

FORMAT: Final = "text/plain; version=0.0.4; charset=utf-8"


class MetricsResponse(Response):
    """A line a number, after what it is."""

    kinds: ClassVar[tuple[str, ...]] = (FORMAT,)


@blueprint.get("/metrics")
@needs("look")
@typed({200: MetricsResponse, 404: Problem})
def metrics() -> MetricsResponse:
    """Return the service's numbers in Prometheus's text format, where the shop asked for it.

    That is `metrics = true` in shop.toml. They name machines, gauges and ways out, and nobody.
    """
    shared = rooms()
    if shared.metrics is None:
        raise NotFound(words("no-metrics-here"))
    found = shared.metrics.families(well=is_well(), screens=shared.gate.open)
    return MetricsResponse(exposition(found, shared.says.words), content_type=FORMAT)


def exposition(families: Iterable[MetricFamily], say: Callable[[Said], str]) -> str:
    """Lay them out; one of which there is nothing is left out."""
    return "".join(f"{line}\n" for each in families if each.samples for line in _lines(each, say))


def _lines(of: MetricFamily, say: Callable[[Said], str]) -> Iterator[str]:
    yield f"# HELP {of.name} {_escaped(say(of.say))}"
    yield f"# TYPE {of.name} {of.kind}"
    for labels, value in of.samples:
        yield f"{of.name}{_labels(labels)} {_number(value)}"


def _labels(labels: Mapping[str, str]) -> str:
    told = ",".join(
        f'{key}="{_escaped(value).replace(chr(34), chr(92) + chr(34))}"'
        for key, value in labels.items()
    )
    return f"{{{told}}}" if told else ""


def _escaped(text: str) -> str:
    return text.replace("\\", r"\\").replace("\n", r"\n")


def _number(value: float) -> str:
    """A whole one without a point, any other in its shortest form."""
    return str(int(value)) if value == int(value) else repr(value)
