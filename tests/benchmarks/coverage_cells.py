"""The kinds of sweeps whose stated intervals are tried."""

import math
from dataclasses import dataclass, field, replace

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.gauge_terms import Papers
from daq.checks.sweep.terms import ON_THE_TABLE, Seat, Turned
from daq.words import AXES, Axis

FOUR = (270.0, 0.0, 90.0, 180.0, 270.0)
EIGHT = (270.0, 315.0, 0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0)
THREE = (270.0, 0.0, 180.0, 270.0)
SIDE_PAIR = (180.0, 0.0)
NOD_PAIR = (90.0, 270.0)
NO_BACK = (0.0, 180.0, 270.0)
"""How nod is checked where the back cannot be read."""


@dataclass(frozen=True)
class Cell:
    """One kind of sweep: what is so, and in `doubts` what is stated.

    `sd_dof`: None where the scatter is assumed, and true, but for what `visits` of the gauge
    showed: friction is in that, too. `most_mm`: the largest difference.
    `drift_mm`: the most the reading may walk over a sweep, the return showing how far;
    `steady_mm`: how far it walks steadily, or where it `warms` up ever more slowly, with a time
    constant of 0.3 to 3 sweeps; `gone_mm`: the most it comes and goes within one, if
    not as stated. `waves`: how many high places the surface has around the circle, as far from
    flat as is stated; `saddle_mm`: how far as a saddle besides, which more than three positions
    must not take for lean. `flicked_mm`: how the contact's readings scatter where the arm is
    flicked until it comes back; None where it is not, and the file's bound is true. `always`:
    what is not anywhere within its bound, but at it, in any direction. `least`: the share that
    is asked for.
    """

    say: str
    radius_mm: float = 100.0
    resolution_mm: float = 0.001
    max_error_mm: float = 0.003
    sd_mm: float = 0.0007
    sd_dof: float | None = 8.0
    visits: int = 0
    drift_mm: float = 0.0
    steady_mm: float = 0.0
    warms: bool = False
    azimuths: tuple[float, ...] = FOUR
    seat: Seat = "ring"
    turned: Turned = ""
    second_radius_mm: float | None = None
    lively_mm: float = 0.0
    saddle_mm: float = 0.002
    flicked_mm: float | None = None
    doubts: Doubts = field(default_factory=Doubts)
    most_mm: float = 0.05
    gone_mm: float | None = None
    waves: int = 3
    papers: Papers = field(default_factory=Papers)
    always: tuple[str, ...] = ()
    least: float = 0.94

    @property
    def form_mm(self) -> float:
        """How far from flat the surface is along the circle, largest height less smallest."""
        return self.doubts.form(self.seat in ON_THE_TABLE)

    @property
    def is_check(self) -> bool:
        """Whether no place is read again: a pair check, of two places or of three."""
        return len(set(self.azimuths)) == len(self.azimuths)

    @property
    def axes(self) -> tuple[Axis, ...]:
        """What it tells of the head."""
        if not self.is_check:
            return AXES
        return ("side",) if self.azimuths == SIDE_PAIR else ("nod",)


CELLS = (
    Cell("ring, 0.001 mm, 3 µm wedge", drift_mm=0.002),
    Cell("60 mm radius, table, no drift", radius_mm=60.0, seat="table"),
    Cell("150 mm radius, table, 10 µm drift", radius_mm=150.0, drift_mm=0.01, seat="table"),
    Cell("0.0001 in, 6 µm wedge", resolution_mm=0.00254, doubts=Doubts(wedge=0.006)),
    Cell("0.0005 in, plate", resolution_mm=0.0127, max_error_mm=0.0127, seat="plate"),
    Cell("no wedge, few visits", sd_dof=4.0, sd_mm=0.002, doubts=Doubts(wedge=0.0)),
    Cell("wedge known to be 2 µm", drift_mm=0.004, doubts=Doubts(wedge=0.002, wedge_known=True)),
    Cell("eight positions", azimuths=EIGHT, drift_mm=0.003, seat="table"),
    Cell("front, right, left", azimuths=THREE, drift_mm=0.003, saddle_mm=0.0),
    Cell("block from spot to spot", seat="block", drift_mm=0.003),
    Cell("ring turned", turned="ring", sd_mm=0.0012),
    Cell("arm turned", turned="arm", sd_mm=0.0012),
    Cell("two gauges on a bar", second_radius_mm=80.0, drift_mm=0.01),
    Cell("digit that moves", resolution_mm=0.01, lively_mm=0.004, max_error_mm=0.01),
    Cell("flicked, 0.3 µm", drift_mm=0.002, flicked_mm=0.0003),
    Cell("flicked, 1 µm", drift_mm=0.002, flicked_mm=0.001),
)
# A size that is always there is a known one. Of "at most" a budget expects less of it, so that
# the two together are held less often than is asked for: a file that knows them says so.
AT_MOST = (
    Cell("ring always 3 µm", always=("ring",), least=0.93),
    Cell("ring always 10 µm", doubts=Doubts(wedge=0.01), always=("ring",), least=0.93),
    Cell("spindle always 1 µm", always=("spindle",), least=0.93),
    Cell("ring always 3 µm, spindle 1 µm", always=("ring", "spindle"), least=0.91),
    Cell(
        "ring always 10 µm, spindle 1 µm",
        doubts=Doubts(wedge=0.01),
        always=("ring", "spindle"),
        least=0.93,
    ),
)
AT_THE_BOUND = (
    *(replace(cell, say=f"{cell.say}, stated at most") for cell in AT_MOST),
    *(
        replace(
            cell,
            say=f"{cell.say}, stated as known",
            doubts=replace(
                cell.doubts,
                wedge_known="ring" in cell.always,
                spindle_axial_known="spindle" in cell.always,
            ),
            least=0.94,
        )
        for cell in AT_MOST
    ),
)
PLACES = {"three": THREE, "four": FOUR, "eight": EIGHT}
FORMS = tuple(
    Cell(
        f"{name} {1000.0 * flatness_mm:g} µm, {places} positions{say}",
        azimuths=azimuths,
        seat="table",
        saddle_mm=0.0,
        waves=waves,
        doubts=Doubts(flatness=flatness_mm),
        always=always,
        least=0.93 if always else 0.94,
    )
    for places, azimuths in PLACES.items()
    for waves, name in ((2, "saddle"), (3, "third wave"))
    for flatness_mm in (0.002, 0.004)
    for say, always in (("", ()), (", always", ("form",)))
)
# At its bound in every sweep, with the peak where the far reading is, is harder than is stated.
COMES_AND_GOES = tuple(
    Cell(
        f"drift {1000.0 * gone_mm:g} µm comes and goes, {places} positions{say}",
        azimuths=azimuths,
        saddle_mm=0.0,
        doubts=Doubts(drift=gone_mm),
        always=always,
        least=0.85 if always else 0.94,
    )
    for places, azimuths in PLACES.items()
    for gone_mm in (0.002, 0.005, 0.01)
    for say, always in (("", ()), (", always", ("drift",)))
)
CHECKED = {"side": SIDE_PAIR, "nod": NOD_PAIR, "nod without a back": NO_BACK}
CHECKS = tuple(
    Cell(
        f"{what} checked, drift {1000.0 * gone_mm:g} µm",
        azimuths=azimuths,
        saddle_mm=0.0,
        doubts=Doubts(drift=gone_mm),
    )
    for what, azimuths in CHECKED.items()
    for gone_mm in (0.0, 0.003, 0.006)
)
PAPERS = Papers(u_mm=0.001, gone_mm=0.0005)
LEVER = Papers(angle=math.radians(20.0), angle_doubt=math.radians(5.0))
OF_THE_GAUGE = (
    Cell("certificate and a year since", papers=PAPERS),
    Cell("certificate, two gauges on a bar", papers=PAPERS, second_radius_mm=100.0),
    Cell("short span as its check showed", papers=Papers(span_error_mm=0.0015)),
    Cell("lever at 20°, 5° doubted, 0.05 mm out", papers=LEVER),
    Cell("lever at 20°, 5° doubted, 0.5 mm out", papers=LEVER, most_mm=0.5),
    Cell("radius 1 mm off, 0.5 mm out", most_mm=0.5),
)
ASSUMED = tuple(
    Cell(f"repeats assumed, {say}", sd_dof=None, sd_mm=sd_mm, doubts=Doubts(repeatability=sd_mm))
    for say, sd_mm in (("0.7 µm", 0.0007), ("2 µm", 0.002))
)
VISITED = tuple(
    Cell(
        f"{visits} visits, friction {1000.0 * friction_mm:g} µm, drift {1000.0 * drift_mm:g}",
        sd_dof=None,
        sd_mm=sd_mm,
        visits=visits,
        drift_mm=drift_mm,
        doubts=Doubts(friction=friction_mm, repeatability=sd_mm),
    )
    for visits in (4, 8, 40)
    for sd_mm, friction_mm, drift_mm in ((0.0007, 0.0005, 0.002), (0.002, 0.002, 0.0))
)
STEADY = tuple(
    Cell(
        f"steady drift of {1000.0 * steady_mm:g} µm, {say}accepted",
        steady_mm=steady_mm,
        warms=bool(say),
        azimuths=PLACES[places],
    )
    for steady_mm, say, places in (
        (0.01, "", "four"),
        (0.02, "", "four"),
        (0.003, "bent, ", "four"),
        (0.01, "bent, ", "four"),
        (0.01, "bent, three positions, ", "three"),
        (0.01, "bent, eight positions, ", "eight"),
    )
)
GAUGES = ((0.001, 0.003), (0.00254, 0.00762), (0.0127, 0.0254))
GRID = tuple(
    Cell(
        f"{radius_mm:g} mm, digit {digit_mm:g}, wedge {wedge_mm:g}, drift {drift_mm:g}",
        radius_mm,
        digit_mm,
        max_error_mm,
        drift_mm=drift_mm,
        doubts=Doubts(wedge=wedge_mm),
    )
    for digit_mm, max_error_mm in GAUGES
    for radius_mm in (60.0, 100.0, 150.0)
    for wedge_mm in (0.0, 0.003, 0.01)
    for drift_mm in (0.0, 0.01)
)
EVERY = (
    *CELLS,
    *AT_THE_BOUND,
    *FORMS,
    *COMES_AND_GOES,
    *CHECKS,
    *OF_THE_GAUGE,
    *ASSUMED,
    *VISITED,
    *STEADY,
    *GRID,
)
