"""A report's data as a paper."""

from daq.report.data import ReportData
from daq.report.figures import Figures
from daq.report.first import FirstPage
from daq.report.pages import LaterPages
from daq.report.paper import Drawing, Labels, Paper
from daq.report.qr import qr
from daq.words import said


def laid(
    data: ReportData, figures: Figures, issued_us: int | None, drawn: tuple[Drawing, ...]
) -> Paper:
    """Return the paper: its first page, then the pages with everything and what is `drawn`."""
    labels = _labels(data, figures)
    told, shop, token = figures.told, data.shop, data.anchor.token
    return Paper(
        language=told.given.says.name,
        size=shop.paper,
        shop=tuple(each for each in (shop.name, *shop.address.splitlines()) if each),
        title=data.title,
        subtitle=told.words(said("paper-no-certificate")),
        number=told.words(said("paper-number", number=data.issue.number)),
        labels=labels,
        token=token,
        qr=qr(f"{token} {data.issue.number}", labels.qr),
        issued_us=issued_us,
        first=FirstPage(data, told).sections(),
        rest=LaterPages(data, figures, drawn).sections(),
    )


def _labels(data: ReportData, figures: Figures) -> Labels:
    words, number = figures.told.words, data.issue.number
    marks = []
    if data.status != "signed":
        marks.append(words(said("paper-mark", status=data.status)))
    if data.practice:
        marks.append(words(said("paper-mark", status="practice")))
    foot = said("paper-foot", number=number, row=data.anchor.row, check=data.anchor.check)
    return Labels(
        page=words(said("paper-page", n="{n}", of="{of}")),
        end=words(said("paper-end", number=number)),
        mark=" · ".join(marks),
        foot=f"{words(foot)} · {data.made_by}",
        qr=words(said("paper-qr", row=data.anchor.row, check=data.anchor.check)),
    )
