"""The arithmetic of a tap in a thread: its band, plus the oversize it cuts, inside the limits to be made.

No statistics of cut oversize are published. The mean is taken as 0.15 of the pitch-diameter tolerance of the
general-purpose class (2B, 6H) and said to be an assumption. A forming tap cuts nothing: the thread closes in behind
it by the steps its limit is raised (common practice), which counts as a negative oversize.
"""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from borewright.core.caches import OF_THREADS, cached, read_once
from borewright.core.chance.made_sizes import Tapping, aim
from borewright.core.model import Range, TapFit, Thread
from borewright.core.practice import figure
from borewright.core.rounding import half_even
from borewright.core.shop_figures.figures import MeasuredCut
from borewright.core.standards.systems import traits
from borewright.tables import load

from . import ground_inch, metric
from .tap_candidates import Candidate, Judge, Weighed

OVERSIZE_SHARE = figure("cut_oversize_share")
GENERAL_CLASS = {"in": "2B", "mm": "6H"}
_PLACES = {"in": 4, "mm": 3}
_STEP = {"in": ground_inch.STEP_IN, "mm": metric.STEP_MM}
#: Tolerance of the Unified classes over that of 2B (ASME B1.1: 1.95, 1.30 and 0.975 of the 2A tolerance).
_OVER_2B = {"1B": Decimal("1.5"), "3B": Decimal("0.75")}
_MM_OF_INCH = Decimal("25.4")


class CutOversize(NamedTuple):
    """Expected oversize of a cut on pitch diameter, and the tolerance of the general-purpose class it is a share of."""

    amount: Decimal
    tolerance: Decimal


@cached(OF_THREADS)
def expected_oversize(thread: Thread) -> CutOversize | None:
    """Mean oversize that a tap cuts over its own pitch diameter, in the thread's unit.

    Returns: None where the thread's tolerance is open, so that no share of it can be taken.
    Source: assumption (0.15 of the class 2B or 6H tolerance); 0.0007 in at 1/4-20.
    """
    tolerance = general_tolerance(thread)
    if tolerance is None:
        return None
    return CutOversize(half_even(OVERSIZE_SHARE * tolerance, _PLACES[thread.unit]), tolerance)


def general_tolerance(thread: Thread) -> Decimal | None:
    """Pitch-diameter tolerance of class 2B or 6H for the size of ``thread``, in its unit, its own tolerance for other
    systems.

    Source: ASME B1.1 ratios of classes; ISO 965-1 grade 6.
    """
    own = thread.internal.pitch_diameter
    if own.min is None or own.max is None:
        return None
    general = traits(thread).general_class
    if general == "6H":
        return metric.pitch_tolerance_mm(thread, "6") or own.max - own.min
    ratio = _OVER_2B.get(thread.thread_class or "") if general == "2B" else None
    width = own.max - own.min
    return width if ratio is None else half_even(width / ratio, 6)


def forming_offset(thread: Thread) -> int:
    """Limit numbers that a forming tap of ``thread`` is made above the cutting tap (the lower of a printed pair).

    Source: common practice; no table was seen.
    """
    nominal = thread.nominal_diameter if thread.unit == "in" else thread.nominal_diameter / _MM_OF_INCH
    return next(offset for through, offset in _offsets() if through is None or nominal <= through)


def closing_in(thread: Thread) -> Decimal:
    """How much a formed thread is taken to close in on pitch diameter, in the thread's unit: one step a limit number.

    Source: common practice.
    """
    return forming_offset(thread) * _STEP[thread.unit]


def weigh(
    candidate: Candidate,
    *,
    low: Decimal,
    high: Decimal,
    window: Range,
    oversize: Decimal,
    judge: Judge | None = None,
) -> Weighed:
    """The limit ``candidate`` in the window from ``low`` to ``high`` (the ends of ``window``) with its margins.

    A positive oversize counts at the top only, a negative one (closing in behind a forming tap) at the bottom only.

    Args: all in the thread's unit; ``judge`` of a limit that fits, None = its chance is not asked for; ``oversize`` of
        the cut on the average.
    Source: geometry; chance as :func:`chances.cut_size`.
    """
    largest = candidate.high + max(oversize, Decimal(0))
    smallest = candidate.low + min(oversize, Decimal(0))
    above, below = smallest - low, high - largest
    margin = min(above, below)
    chance = None
    if judge is not None and margin >= 0:
        chance = judge.aim.chance(judge.size(candidate, oversize))
    return Weighed(candidate, TapFit(window, oversize, largest, above, below), margin, chance)


def cut_amount(thread: Thread, method: str, usual: CutOversize, measured: MeasuredCut | None = None) -> Decimal:
    """How much larger than its own pitch diameter a tap makes ``thread`` by ``method``, in the thread's unit: the
    shop's ``measured`` figure, else the ``usual`` one; negative behind a forming tap.

    Source: as :func:`expected_oversize` and :func:`closing_in`; the shop.
    """
    if measured is not None:
        return half_even(Decimal(repr(measured.mean)) * usual.tolerance, _PLACES[thread.unit])
    return usual.amount if method == "cut" else -closing_in(thread)


def judge(
    thread: Thread,
    window: Range,
    *,
    tolerance: Decimal,
    coat: Range | None,
    tapping: Tapping,
    measured: MeasuredCut | None = None,
) -> Judge | None:
    """What the pitch diameter of ``thread`` is judged by: the window itself, or under a coat the finished thread's own
    limits.

    Args: ``coat`` change of the pitch diameter, None = none to come; all in the thread's unit; ``tolerance`` of the
        general-purpose class; ``tapping`` how the tap is driven; ``measured`` the shop's own spread, None = the
        table's.
    Source: geometry.
    """
    wanted = aim(window) if coat is None else aim(thread.internal.pitch_diameter, coat)
    return None if wanted is None else Judge(wanted, tolerance, tapping, measured)


@read_once
def _offsets() -> tuple[tuple[Decimal | None, int], ...]:
    return tuple(
        (Decimal(row["through_in"]) if row["through_in"] else None, int(row["offset"]))
        for row in load("tap_forming_offsets").rows
    )
