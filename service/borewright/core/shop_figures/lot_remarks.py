"""What must be said of the pieces behind a figure: too few, not one population, a coarse gauge, chosen pieces."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from math import hypot
from typing import NamedTuple

from . import lots
from .data import Datum, Group
from .normal_fit import Pieces, Posterior
from .quantiles import Quantiles

_FEW = 3
_FEW_TAPS = 3


class Remark(NamedTuple):
    """Something about a fitted figure, with a stable code."""

    code: str
    text: str


def remarks(
    group: Group,
    data: Sequence[Datum],
    pieces: Pieces,
    found: Posterior,
    quantiles: Quantiles,
    *,
    selection: set[str | None],
    flagged: int,
) -> tuple[Remark, ...]:
    """What must be said of ``data`` of a ``group`` and of the posterior ``found`` for its ``pieces``.

    Args: ``quantiles`` of the library; ``selection`` which pieces were measured; ``flagged`` how many lie outside.
    """
    return (
        *_of_choice(selection, flagged),
        *_of_number(group, data, pieces, found),
        *_of_lots(data, pieces, quantiles),
        *_of_gauge(data, pieces, found),
    )


def _of_choice(selection: set[str | None], flagged: int) -> Iterator[Remark]:
    if "good_only" in selection:
        yield Remark(
            "only_good_pieces",
            "Only pieces that passed were measured: their mean and spread are those of the limits, so no figure is"
            " handed on. Measure all pieces of a lot.",
        )
    elif None in selection:
        yield Remark(
            "selection_not_stated",
            "Were all pieces measured, or only those that passed? Taken as all: say `selection`: all or good_only.",
        )
    if flagged:
        yield Remark(
            "outliers_flagged",
            f"{flagged} value{'s lie' if flagged > 1 else ' lies'} outside of what the others tell. Look why;"
            " `exclude_flagged` leaves them out, both results are given.",
        )


def _of_number(group: Group, data: Sequence[Datum], pieces: Pieces, found: Posterior) -> Iterator[Remark]:
    n = len(pieces.values)
    if n < _FEW:
        yield Remark("few_pieces", f"{n} piece{'s tell' if n > 1 else ' tells'} next to nothing of the spread.")
    if found.far:
        yield Remark(
            "far_from_published",
            "The mean lies far from the published figure: the data are kept, look for another drill, tap or unit.",
        )
    if pieces.taps and len(pieces.taps) < _FEW_TAPS:
        yield Remark(
            "few_taps",
            f"Holes of {len(pieces.taps)} tap{'s' if len(pieces.taps) > 1 else ''} of unknown size tell about"
            f" {'those taps' if len(pieces.taps) > 1 else 'that tap'}: give tap_pitch_diameter, or measure"
            f" {_FEW_TAPS} taps.",
        )
    batches = {one.lot for one in data if one.lot is not None}
    if group.figure != "tap_oversize" and len(batches) == 1 and n > 1:
        yield Remark(
            "one_batch", "All parts are of one batch, half alike as is taken: measure more batches, not parts."
        )


def _of_lots(data: Sequence[Datum], pieces: Pieces, quantiles: Quantiles) -> Iterator[Remark]:
    by_source: dict[object, list[float]] = defaultdict(list)
    for one in data:
        by_source[one.extra.get("label") or one.extra.get("thread")].extend(one.values)
    lists = list(by_source.values())
    if lots.differ(lists, quantiles) or lots.two_heaps(pieces.values):
        yield Remark(
            "not_one_population",
            "The values are not one population: they lie in heaps, or differ by the size measured. Split them by"
            " machine, drill, tap or set-up; the spread here is that of the mixture.",
        )


def _of_gauge(data: Sequence[Datum], pieces: Pieces, found: Posterior) -> Iterator[Remark]:
    expanded = 2 * hypot(*pieces.gauge)
    tolerance = data[0].tolerance  # in published deviations: that of every list of the group
    if tolerance is not None and 2 * expanded >= tolerance:
        yield Remark(
            "gauge_worse_than_tolerance",
            "The gauge's own uncertainty takes the whole tolerance: it cannot tell these pieces apart.",
        )
    elif pieces.gauge.repeatability and found.sigma <= found.observed_sigma / 2:
        yield Remark(
            "gauge_hides_spread", "The spread seen is the gauge's own: half of it is kept as that of the pieces."
        )
