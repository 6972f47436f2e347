"""Which Unified thread a callout names, and the case its tolerances are computed for (UN and UNJ alike), in inches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.errors import ThreadError, nearest, shortened
from borewright.core.model import Length, Status, ThreadCallout
from borewright.core.requests import Edition
from borewright.core.rounding import half_even, plain
from borewright.core.standards import family

from . import sizes as unified_series
from .limits import Case
from .series_names import without_number
from .tolerance import anchor_in, basis_of, engagement_of, form, minor_ratio, td2

POINTER = "/thread"
_SMALLEST_IN = Decimal("0.0600")
_LARGEST_IN = Decimal(24)
_FINEST_TPI = 80
#: A tapped thread is at least six basic thread heights thick (FED-STD-H28/2B 80.1).
_HEIGHTS = Decimal(6) * Decimal("0.54126588")


@dataclass(frozen=True, slots=True)
class Named:
    """A Unified thread by name. ``series`` is the UN name; ``tabulated``: the standard prints its limits."""

    label: str
    diameter_in: Decimal
    tpi: Decimal
    series: str
    tabulated: bool
    status: Status


def name(callout: ThreadCallout) -> Named:
    """The thread a callout names.

    Raises: ThreadError ``thread_size_unknown``, ``thread_pitch_unknown`` for a special thread that is not defined.
    Source: ASME B1.1 Tables 3A and 3B; ranges of special threads FED-STD-H28/2B 5.1 and 80.1.
    """
    tpi = family.threads_per_inch(callout)
    size = half_even(callout.nominal_diameter, 4)
    label = unified_series.label_for(size)
    series = unified_series.series_for(label, tpi) if label is not None else None
    if label is not None and series is not None:
        return Named(label, size, tpi, series, True, unified_series.series_status(label, series))
    return _special(callout, label or _special_label(size, callout.size), size, tpi)


def _special(callout: ThreadCallout, label: str, size: Decimal, tpi: Decimal) -> Named:
    if not _SMALLEST_IN <= size <= _LARGEST_IN:
        raise ThreadError(
            "thread_size_unknown",
            f"Unified threads are defined from {_SMALLEST_IN} to {_LARGEST_IN} in, not {plain(size)} in",
            pointer=POINTER,
            did_you_mean=nearest(callout.size, unified_series.SIZES),
        )
    if tpi > _FINEST_TPI or size * tpi < _HEIGHTS:
        coarsest = (_HEIGHTS / size).to_integral_value(rounding="ROUND_CEILING")
        raise ThreadError(
            "thread_pitch_unknown",
            f"{label} takes {coarsest} to {_FINEST_TPI} threads per inch (a tapped thread is at least six thread"
            f" heights thick), not {plain(tpi)}",
            pointer=POINTER,
            allowed=(f"{coarsest} to {_FINEST_TPI}",),
        )
    status = unified_series.selected_uns_status(basic_major_in=size, tpi=tpi)
    return Named(label, size, tpi, "UNS", status is not None, status or "computed")


@read_once
def _selected_labels() -> Mapping[Decimal, str]:
    return {size: label for label, size, _ in unified_series.selected_uns()}


def _special_label(size: Decimal, written: str) -> str:
    """Label of a size outside the series: the standard's where it has one, else as written, else the decimal."""
    return _selected_labels().get(size) or shortened(written) or plain(size)


def case(named: Named, engagement: Length | None, edition: Edition = "1989") -> Case:
    """The case of ``named`` with its standard engagement or a given one, by an edition of the standard.

    The edition of 2019 takes tolerances at the size itself and decimals by ASME B1.30; that of 1989 prints tables made
    at anchor diameters. A special thread whose limits no table prints gets the rule of ASME B1.30 in both, and a share
    of the minor-diameter tolerance by engagement.
    """
    profile, size = form(named.tpi), named.diameter_in
    basis = basis_of(named.series, diameter_in=size, tpi=named.tpi, edition=edition)
    length = None if engagement is None else engagement.to("in")
    engaged = engagement_of(basis, length, diameter_in=size, pitch_in=profile.pitch_in)
    exact = basis == "D" or edition == "2019"
    at = size if exact else anchor_in(size)
    standard_length = size if basis == "D" else 9 * profile.pitch_in
    return Case(
        diameter_in=size,
        profile=profile,
        engagement=engaged,
        tolerance_diameter_in=at,
        tolerance_length_in=standard_length,
        td2_in=td2(diameter_in=at, length_in=standard_length, tpi=named.tpi),
        rule="table" if named.tabulated and edition == "1989" else "b1_30",
        minor_ratio=Decimal(1) if length is None or named.tabulated else minor_ratio(length, diameter_in=size),
        edition=edition,
    )


def designation(named: Named, *, series: str, thread_class: str, starts: int, left_hand: bool) -> str:
    """How the thread ``named`` is written: ``1/2-13 UNC-2B``, ``2 3/8-20 UN-2B LH``, ``3/4-0.0625P-0.125L UNF-2B``.

    Args: ``series``; ``thread_class``; number of ``starts``; ``left_hand``.
    Source: ASME B1.1 section 6 (multi-start form from memory).
    """
    short = without_number(series)
    if starts == 1:
        threads = plain(named.tpi)
    else:
        threads = f"{plain(half_even(1 / named.tpi, 6))}P-{plain(half_even(starts / named.tpi, 6))}L"
    return f"{named.label}-{threads} {short}-{thread_class}{' LH' if left_hand else ''}"
