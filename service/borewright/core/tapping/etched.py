"""What is etched on a tap, in the marks of the trade (``1/2-13 NC HSS G H3``, ``M8x1.25 HSS ISO2/6H``), and the words
that a tap made to order is ordered by.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from borewright.core.caches import OF_THREADS, cached
from borewright.core.model import Overtap, Tap, TapChamfer, TapLimit, Thread
from borewright.core.quantity_text import length, span
from borewright.core.rounding import plain
from borewright.core.standards.metric import sizes as metric_series
from borewright.core.standards.systems import traits
from borewright.core.standards.unified.series_names import un_form

from . import metric

_CARBIDE = {"carbide": "CARB"}
#: How the label of a tap ordered by its amount over basic begins.
PLUS = "basic plus "


def marking(thread: Thread, *, substrate: str, label: str | None) -> str:
    """The text on the shank of a ground tap of ``substrate``. The tap of a UNJ or MJ thread is that of the UN or M
    thread.

    Args: ``label`` of the limit, None where the tap has none.
    Source: marks of ASME B94.9 (size, series, grade, G for ground, limit, PLUS and the amount over basic); ISO classes
    with the thread class that they are for: common practice.
    """
    grade = _CARBIDE.get(substrate, substrate)
    if label is None:
        return f"{head(thread)} {grade} G"
    amount = amount_of(label)
    if amount is not None:
        return f"{head(thread)} {grade} G PLUS {amount.removeprefix('0') if thread.unit == 'in' else amount}"
    if label.startswith("ISO"):
        thread_class = metric.class_etched(thread, label)
        return f"{head(thread)} {grade} {label.replace(' ', '')}{f'/{thread_class}' if thread_class else ''}"
    return f"{head(thread)} {grade} G {label}"


def is_of_standard_tap(thread: Thread) -> bool:
    """Whether a J thread has a size of the UN or M series, so that the tap of that series cuts it.

    Source: ASME B1.15 and ISO 5855-1; sizes of ISO 261.
    """
    base = traits(thread).j_form_of
    if base == "M":
        return metric_series.series_for(thread.nominal_diameter, pitch_mm=thread.pitch) is not None
    return base is not None


def same_tap_words(thread: Thread) -> str:
    """Why the tap of a UNJ or MJ thread is a standard one.

    Source: ASME B1.15 and ISO 5855-1: an internal J thread differs in its minor diameter only.
    """
    letters = traits(thread).j_form_of
    return (
        f"a standard {head(thread)} tap cuts it: an internal {letters}J thread is an {letters} thread with a larger"
        " minor diameter, so that only the drill and the plain plug differ"
    )


def amount_of(label: str) -> str | None:
    """The amount over basic in the ``label`` of a tap that is ordered by it, None for a limit with a name."""
    return label.removeprefix(PLUS) if label.startswith(PLUS) else None


def order_text(thread: Thread, tap: Tap, overtap: Overtap | None = None) -> str:
    """Everything that ``tap`` for ``thread`` is ordered by where its limit has no name.

    Size, series, hand, limit, style, chamfer, grade and surface.

    Args: ``overtap`` whether the thread is tapped after hot-dip zinc.
    Source: the marks of :func:`marking`.
    """
    hand = "left-hand" if thread.hand == "left" else "right-hand"
    style = tap.style.replace("_", " ")
    build = f"{style}, {_chamfer_words(tap.chamfer)}, {tap.substrate}, {tap.surface}"
    return f"{limit_order_text(thread, tap.limit, overtap)}, {hand}, {build}"


def limit_order_text(thread: Thread, limit: TapLimit | None, overtap: Overtap | None = None) -> str:
    """Size of ``thread``, series and ``limit`` of a tap made to order, where the rest of the tap is not chosen.

    Args: ``overtap`` whether the thread is tapped after hot-dip zinc.
    Source: the marks of :func:`marking`.
    """
    name = _name(thread, _written_series)
    ground = f"ground tap {name} (marked {head(thread)})" if name != _name(thread, _series) else f"ground tap {name}"
    if limit is None:
        return ground if name == thread.designation else f"{ground} for {thread.designation}"
    band = span(limit.pitch_diameter, thread.unit)
    amount = amount_of(limit.label)
    if amount is not None and overtap is not None and amount == str(overtap.amount):
        over = length(overtap.amount, thread.unit)
        return f"{ground}, {over} oversize for galvanized threads ({overtap.standard}), pitch diameter {band}"
    if amount is not None:
        return f"{ground}, pitch diameter basic plus at least {length(Decimal(amount), thread.unit)}, that is {band}"
    return f"{ground}, limit {limit.label}, pitch diameter {band}"


def _chamfer_words(chamfer: TapChamfer) -> str:
    least, most = plain(chamfer.threads_min), plain(chamfer.threads_max)
    return f"{chamfer.name.replace('_', '-')} chamfer of {least} to {most} threads"


@cached(OF_THREADS)
def head(thread: Thread) -> str:
    """Size, pitch and series of ``thread`` as they are etched, with LH for a left-hand tap."""
    name = _name(thread, _series)
    return f"{name} LH" if thread.hand == "left" and name != thread.designation else name


def _name(thread: Thread, series: Callable[[Thread], str]) -> str:
    if thread.starts > 1:
        return thread.designation
    own = traits(thread)
    if own.etched == "pitch":
        letter = "MJ" if own.j_form_of and not is_of_standard_tap(thread) else "M"
        name = f"{letter}{plain(thread.nominal_diameter)}x{plain(thread.pitch)}"
    elif own.etched == "threads_per_inch" and thread.threads_per_inch is not None:
        name = f"{thread.size.lstrip('#')}-{plain(thread.threads_per_inch)} {series(thread)}".rstrip()
    else:
        return thread.designation
    return f"{name} STI" if own.tap_limits == "insert" else name


def _written_series(thread: Thread) -> str:
    """The series of the tap as it is written: UNF also for a UNJF thread."""
    return traits(thread).etched_series or un_form(thread.series or "")


def _series(thread: Thread) -> str:
    """UNC is etched NC, 8UN as 8N; NPTF is etched without its inspection class."""
    return _written_series(thread).replace("UN", "N")
