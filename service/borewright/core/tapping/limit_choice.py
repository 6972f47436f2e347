"""Which of a thread's tap limits fit the window to be made, which is taken, and why the others are not."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from borewright.core.caches import cached, read_once
from borewright.core.chance.made_sizes import Tapping
from borewright.core.citation import cite
from borewright.core.model import Range, RejectedTap, Source, Thread, Unit
from borewright.core.practice import number
from borewright.core.quantity_text import printed_length
from borewright.core.requests import TapLimits
from borewright.core.rounding import half_even
from borewright.core.shop_figures.figures import MeasuredCut
from borewright.tables import load

from . import fit, insert, limits, metric
from .availability import Method, stocked_limits
from .tap_candidates import Judge, Weighed

_PLACES = {"in": 4, "mm": 3}
#: How far below the best chance of acceptance a recommended table is still followed.
TABLE_TOLERANCE = number("tap_table_tolerance")
_MOST_ACCEPTED = "of the limits that fit, the one whose pitch diameter is most often accepted"
_STOCKED = "of the stocked limits that fit, the one whose pitch diameter is most often accepted"
_BY_AMOUNT = "no limit that is commonly made fits, so the tap is ordered by amount over basic"
_BY_OVERTAP = "the oversize tap for galvanized threads is named by the overtap, its least amount over basic"
_NO_TABLE = "no tap limit table covers this thread, size and pitch: order the tap by thread and class"


class Preferred(NamedTuple):
    """The limit a table recommends for a thread's class, and the words that say so."""

    label: str
    reason: str
    source: Source
    note: str | None = None


class Picks(NamedTuple):
    """The limit taken, the ones that would do as well (best first), the ones that do not, and why.

    ``best`` None with ``possible`` True: no limit table covers the thread; with False: no tap can hold the window.
    ``passed_over`` is the table's limit where another is clearly more often accepted: the first of ``others``.
    """

    best: Weighed | None
    others: tuple[Weighed, ...]
    rejected: tuple[RejectedTap, ...]
    reasons: tuple[str, ...]
    preferred: Preferred | None
    oversize: fit.CutOversize | None
    possible: bool
    judge: Judge | None = None
    passed_over: Preferred | None = None

    def fitting(self) -> tuple[Weighed, ...]:
        """The limits that fit, the one taken first."""
        return () if self.best is None else (self.best, *self.others)


@cached(128)
def pick(
    thread: Thread,
    window: Range,
    *,
    method: Method,
    finished: bool,
    coat: Range | None = None,
    tapping: Tapping = "rigid",
    system: TapLimits | None = None,
    overtap: Decimal | None = None,
    measured: MeasuredCut | None = None,
) -> Picks:
    """The choice among the limits of one system for ``method`` whose band, with the expected oversize, lies in the
    window.

    Stocked limits go first; of them the one whose pitch diameter is most often accepted is taken, of equals the one
    with the larger smaller margin. A recommended table is followed instead where it has the class, no finish moves
    the window (``finished`` False), its limit is stocked and fits and its chance is no more than ``TABLE_TOLERANCE``
    below the best.

    Args: ``window`` pitch diameter to be made, ``coat`` its change by a coat to come, in the thread's unit.
        ``tapping`` how the tap is driven; ``system`` of the limits, None = that of the thread; ``overtap`` on diameter
        where the thread is tapped after hot-dip zinc, which its oversize tap is named by;
        ``measured`` what the shop's own taps cut oversize, None = the assumption.
    Source: ASME B94.9 recommendations and ISO 2857 correspondence (from memory); chances as the fit says.
    """
    oversize = fit.expected_oversize(thread)
    used = limits.system_for(thread, system)
    if used is None or window.min is None or window.max is None or oversize is None:
        return _unweighed(thread, oversize)
    amount = fit.cut_amount(thread, method, oversize, measured)
    tolerance = oversize.tolerance
    judge = fit.judge(thread, window, tolerance=tolerance, coat=coat, tapping=tapping, measured=measured)
    fitting: list[Weighed] = []
    rejected: list[RejectedTap] = []
    for candidate in limits.limits_of_tables(thread, used):
        weighed = fit.weigh(candidate, low=window.min, high=window.max, window=window, oversize=amount, judge=judge)
        if weighed.margin >= 0:
            fitting.append(weighed)
        else:
            rejected.append(RejectedTap(candidate.limit.label, misfit(weighed, thread.unit)))
    preferred = None if finished else recommended(thread, method, used)
    if not fitting:
        return _by_amount(thread, window, tuple(rejected), oversize, amount, judge, overtap)
    stocked = stocked_limits(thread, method)
    fitting.sort(key=lambda one: (one.candidate.limit.label not in stocked, *most_accepted(one)))
    why = _STOCKED if fitting[0].candidate.limit.label in stocked else _MOST_ACCEPTED
    if preferred is not None and why == _STOCKED and preferred.label not in stocked:
        why = f"{why}; {preferred.label}, {preferred.reason}, is made to order"
        preferred = None
    return _chosen(fitting, preferred, Picks(None, (), tuple(rejected), (why,), None, oversize, True, judge))


def _chosen(fitting: list[Weighed], preferred: Preferred | None, found: Picks) -> Picks:
    """The most accepted limit, or the table's where that is as good."""
    best = fitting[0]
    label = None if preferred is None else preferred.label
    table = next((one for one in fitting if one.candidate.limit.label == label), None)
    if preferred is None or table is None:
        return found._replace(best=best, others=tuple(fitting[1:]))
    if table.accepted >= best.accepted - TABLE_TOLERANCE:
        others = tuple(one for one in fitting if one is not table)
        return found._replace(best=table, others=others, reasons=(preferred.reason,), preferred=preferred)
    others = (table, *(one for one in fitting if one is not best and one is not table))
    more = f"{percent(best)} against {percent(table)} of the {preferred.label} that a table gives"
    reasons = (f"{found.reasons[0]}: {more}",)
    return found._replace(best=best, others=others, reasons=reasons, passed_over=preferred)


def percent(weighed: Weighed) -> str:
    """How often the limit ``weighed`` is accepted, in words."""
    return f"{100 * weighed.accepted:.1f} %"


def most_accepted(weighed: Weighed) -> tuple[float, Decimal]:
    """Sort key of ``weighed`` that puts the most often accepted limit first, of equals the one with more margin in the
    thread's unit.
    """
    return -weighed.accepted, -weighed.margin


def misfit(weighed: Weighed, unit: Unit) -> str:
    """Why the limit ``weighed`` does not fit, in figures of ``unit``."""
    arithmetic = weighed.fit
    if arithmetic is None:
        return "the limits to be made are open"
    if arithmetic.margin_above_min < 0:
        short = printed_length(-arithmetic.margin_above_min, unit)
        return f"its minimum is {short} below the least pitch diameter to be made"
    largest, over = (printed_length(one, unit) for one in (arithmetic.largest_cut, -arithmetic.margin_below_max))
    return f"the largest thread it cuts, {largest}, is {over} above the maximum"


def recommended(thread: Thread, method: Method, system: TapLimits) -> Preferred | None:
    """What the recommended tables of ``system`` say for the thread's class by ``method``, raised for a forming tap;
    None where they say nothing.

    Source: ASME B94.9 recommended H and D limits, ISO 2857 correspondence (all from memory), ASME B94.9 limits for
    inserts (printed); forming: common practice.
    """
    kind = limits.family(thread)
    if kind == "insert":
        found = _printed_for_insert(thread)
    else:
        found = _recommended_h(thread) if kind == "inch" else _recommended_metric(thread, system)
    if found is None or method == "cut":
        return found
    return _raised(thread, found)


def _raised(thread: Thread, found: Preferred) -> Preferred | None:
    if found.label.startswith("ISO"):
        return None
    offset = fit.forming_offset(thread)
    letter, number = found.label[0], int(found.label[1:])
    reason = (
        f"a forming tap is made {offset} limit numbers above the cutting tap's {found.label}: formed threads close in"
    )
    source = Source(
        "recommended.limit", "shop practice", "", "forming taps, limit numbers above a cutting tap", "common_practice"
    )
    return Preferred(f"{letter}{number + offset}", reason, source, found.note)


def _recommended_h(thread: Thread) -> Preferred | None:
    row = _h_rows().get((thread.nominal_diameter, thread.threads_per_inch))
    column = {"1B": "limit_2B", "2B": "limit_2B", "3B": "limit_3B"}.get(thread.thread_class or "")
    if row is None or column is None:
        return None
    place = cite("tap_recommended_h")
    note = row["note"] if row["note"] and column == "limit_2B" else None
    return Preferred(
        row[column],
        f"recommended for class {thread.thread_class} at this size ({place.document} appendix, from memory)",
        place.source("recommended.limit"),
        note,
    )


def _printed_for_insert(thread: Thread) -> Preferred | None:
    found = insert.for_class(thread)
    if found is None:
        return None
    origin = found.origin
    return Preferred(
        found.limit.label,
        f"the limit printed for class {thread.thread_class} of this insert thread ({origin.document} {origin.edition})",
        origin.rated(found.limit.status).source("recommended.limit"),
    )


def _recommended_metric(thread: Thread, system: TapLimits) -> Preferred | None:
    if system == "metric_d":
        numbered = metric.recommended_d(thread) if thread.starts == 1 else None
        if numbered is None:
            return None
        place = cite("tap_limits_metric_d")
        return Preferred(
            numbered[0],
            f"recommended for class {thread.thread_class} at this size ({place.document}, from memory)",
            place.source("recommended.limit"),
            numbered[1],
        )
    found = metric.iso_class_for(thread.thread_class)
    if found is None:
        return None
    return Preferred(
        found.label,
        f"the ISO tap class meant for {thread.thread_class} (ISO 2857, from memory)",
        cite("tap_classes_iso2857").at("correspondence of tap and thread classes").source("recommended.limit"),
    )


def _by_amount(
    thread: Thread,
    window: Range,
    rejected: tuple[RejectedTap, ...],
    oversize: fit.CutOversize,
    amount: Decimal,
    judge: Judge | None,
    overtap: Decimal | None,
) -> Picks:
    """A tap ordered as basic plus an amount: by its overtap, else midway in a window that no made limit fits."""
    low, high = window.min, window.max
    tolerance = limits.plus_tolerance(thread)
    if tolerance is None or low is None or high is None:
        return Picks(None, (), rejected, (_NO_TABLE,), None, oversize, True)
    least = low - min(amount, Decimal(0)) - thread.basic.pitch_diameter
    most = high - max(amount, Decimal(0)) - tolerance - thread.basic.pitch_diameter
    middle = half_even((least + most) / 2, _PLACES[thread.unit])
    tap = limits.basic_plus(thread, amount=middle if overtap is None else overtap, tolerance=tolerance)
    weighed = fit.weigh(tap, low=low, high=high, window=window, oversize=amount, judge=judge)
    if weighed.margin < 0:
        return Picks(
            None, (), rejected, no_room(thread, window, tolerance=tolerance, amount=amount), None, oversize, False
        )
    reasons = (_BY_AMOUNT if overtap is None else _BY_OVERTAP,)
    return Picks(weighed, (), rejected, reasons, None, oversize, True, judge)


def no_room(thread: Thread, window: Range, *, tolerance: Decimal, amount: Decimal) -> tuple[str, ...]:
    """Why no tap of ``thread`` can hold ``window``, and what would help.

    Args: ``tolerance`` of a tap and ``amount`` of its expected oversize, in the thread's unit.
    """
    return (
        f"the pitch diameter to be made leaves {printed_length(window.width, thread.unit)}, a tap needs"
        f" {printed_length(tolerance, thread.unit)} for its own tolerance and"
        f" {printed_length(abs(amount), thread.unit)} for what it cuts oversize",
        "what would help: a thinner coat or class, masking the thread, tapping after the finish, a looser thread class",
    )


def _unweighed(thread: Thread, oversize: fit.CutOversize | None) -> Picks:
    """A printed limit where the thread's own maximum is not held, so that no margin can be told."""
    chosen = insert.for_class(thread) if limits.family(thread) == "insert" else None
    if chosen is None:
        return Picks(None, (), (), (_NO_TABLE,), None, oversize, True)
    reasons = (
        f"printed tap limit for class {thread.thread_class}",
        "the maximum pitch diameter of the hole is not held, so no margin can be told",
    )
    return Picks(Weighed(chosen, None, Decimal(0)), (), (), reasons, None, oversize, True)


@read_once
def _h_rows() -> Mapping[tuple[Decimal, Decimal | None], Mapping[str, str]]:
    return {(Decimal(row["nominal_in"]), Decimal(row["tpi"])): row for row in load("tap_recommended_h").rows}
