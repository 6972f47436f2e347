"""The fit of everything that a shop measured: one row a figure, and the figures that requests can hand on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from borewright.core.errors import BorewrightError, ShopFigureError
from borewright.core.model import Notes, Source, Unit
from borewright.core.time_left import UNBOUNDED, TimeLeft

from . import counted, lots, normal_fit
from .counted import Breakage, Gauged, Share
from .data import Datum, Group
from .figures import ShopFigures
from .kept_figures import kept
from .lot_remarks import Remark, remarks
from .measurements import FitRequest, Measurement
from .normal_fit import GaugeError, Interval, Pieces, Posterior, Prior
from .quantiles import Quantiles
from .readings import datum, drill_of

#: A row of the reply for each group of values that are fitted together.
_MOST_VALUES, _MOST_GROUPS = 10_000, 1_000
#: Holes to come that a rate of breaking taps is told for.
NEXT_HOLES = 100
_BOOK = Prior(0.0, 1.0)


class Outlier(NamedTuple):
    """A value that lies outside: ``place`` of its measurement in the list, ``value`` in the unit of the figure."""

    place: int
    value: float


@dataclass(frozen=True, slots=True)
class Fit:
    """A quantity that scatters, fitted in published standard deviations: ``mean`` and ``sigma`` are the published
    figure in its unit, the others lead from there.
    """

    group: Group
    data: tuple[Datum, ...]
    mean: float
    sigma: float
    unit: str
    pieces: Pieces
    posterior: Posterior
    of_mean: Interval
    of_sigma: Interval
    of_next: Interval
    scale_factors: tuple[float, ...]
    more: int | None
    outliers: tuple[Outlier, ...]
    without: Posterior | None
    excluded: bool
    is_kept: bool
    remarks: tuple[Remark, ...]

    def value(self, z: float) -> float:
        """A value ``z`` published standard deviations off, in the unit of the figure."""
        return self.mean + self.sigma * z


@dataclass(frozen=True, slots=True)
class Count:
    """A figure that is a count: taps that broke, or what gauges refused."""

    group: Group
    data: tuple[Datum, ...]
    checked: int
    bad: int
    breakage: Breakage | None = None
    share: Share | None = None
    inside: Interval | None = None
    probit: tuple[float, float] | None = None
    more: int | None = None
    remarks: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True)
class FitResult:
    """All rows and the figures that come of them; ``unit`` of lengths."""

    unit: Unit
    rows: tuple[Fit | Count, ...]
    figures: ShopFigures
    confidence: float
    notes: Notes


_NOTES = Notes(
    assumptions=(
        "mean and standard deviation have priors of their own: the published standard deviation weighs as much as"
        f" {normal_fit.PRIOR_FREEDOM:g} degrees of freedom, the means of shops lie within"
        f" {normal_fit.PRIOR_REACH:g} published standard deviations of the published one (both are our decisions)",
        "parts of a batch are taken as half alike, more where the batches tell so, less where they are sure of it",
        "published figures: mean oversize of drills and its spread by size, 15 percent of the class tolerance for taps,"
        " the middle of a finish's range, the torque of the model",
    ),
    sources=(
        Source("fit", "textbook statistics", "", "separate priors, Grubbs, Jeffreys, Clopper and Pearson", "computed"),
        Source("shop_figures", "the request", "", "what the shop measured", "measured"),
    ),
)


def fit_measurements(request: FitRequest, quantiles: Quantiles, work: TimeLeft = UNBOUNDED) -> FitResult:
    """The figures of the measurements of ``request``, whatever their order, by the ``quantiles`` of a library.

    Args: ``work`` is asked after each measurement and each figure whether there is time for the next.

    Raises: BorewrightError that points at the measurement; what ``work`` does.
    Source: scaled inverse chi-square and normal priors; Grubbs; Jeffreys; JCGM 100.
    """
    unit = request.unit or _unit_of(request.measurements[0])
    if sum(len(one.measured) + len(one.torque) + len(one.after) for one in request.measurements) > _MOST_VALUES:
        raise ShopFigureError(
            "measurements_too_many", f"At most {_MOST_VALUES} values are fitted at once.", pointer="/measurements"
        )
    groups: dict[Group, list[Datum]] = defaultdict(list)
    for place, measurement in enumerate(request.measurements):
        one = datum(measurement, place, unit, request.gauge)
        groups[one.group].append(one)
        work.check()
    if len(groups) > _MOST_GROUPS:
        raise ShopFigureError(
            "measurements_too_many",
            f"At most {_MOST_GROUPS} figures are fitted at once: these are of {len(groups)}. Send those of a machine, a"
            " plater or a size by themselves.",
            pointer="/measurements",
        )
    rows: list[Fit | Count] = []
    for group, data in sorted(groups.items(), key=_order):
        rows.append(_row(group, data, request, quantiles))
        work.check()
    return FitResult(unit, tuple(rows), kept(rows, unit), request.confidence, _NOTES)


def _order(item: tuple[Group, object]) -> str:
    group, _ = item
    return str(group)


def _unit_of(first: Measurement) -> Unit:
    """Unit of the reply where none is asked for: that of the first drill or thread."""
    if first.drill is not None:
        try:
            return "mm" if drill_of(first, "in").series == "metric" else "in"
        except BorewrightError as error:
            raise error.under("/measurements/0") from None
    if first.thread is not None:
        return first.thread.unit
    given = next(iter((*first.measured, *first.before)), None)
    return (None if given is None else given.unit) or "in"


def _row(group: Group, data: Sequence[Datum], request: FitRequest, quantiles: Quantiles) -> Fit | Count:
    data = sorted(data, key=lambda one: one.place)
    if group.figure == "tap_life":
        return _broken(group, data, request, quantiles)
    if group.figure == "go_no_go":
        return _gauged(group, data, request, quantiles)
    return _fit(group, data, request, quantiles)


def _fit(group: Group, data: Sequence[Datum], request: FitRequest, quantiles: Quantiles) -> Fit:
    first, *_ = data
    values = [value for one in data for value in one.values]
    places = [(one, value) for one in data for value in one.values]
    flagged = lots.outliers(values, quantiles)
    pieces = _pieces(group, data, set(), quantiles)
    without = normal_fit.fit(_pieces(group, data, set(flagged), quantiles), _BOOK) if flagged else None
    if flagged and request.exclude_flagged:
        pieces = _pieces(group, data, set(flagged), quantiles)
    posterior = normal_fit.fit(pieces, _BOOK)
    mean, sigma = sum(one.mean for one in data) / len(data), sum(one.sigma for one in data) / len(data)
    selection: set[str | None] = {one.measurement.selection or request.selection for one in data}
    found = remarks(group, data, pieces, posterior, quantiles, selection=selection, flagged=len(flagged))
    chance = request.confidence
    return Fit(
        group,
        tuple(data),
        mean,
        sigma,
        first.unit,
        pieces,
        posterior,
        normal_fit.mean_interval(posterior, quantiles, chance),
        normal_fit.sigma_interval(posterior, quantiles, chance),
        normal_fit.next_interval(posterior, quantiles, chance),
        normal_fit.scale_factors(posterior, quantiles),
        normal_fit.more_to_halve(posterior, quantiles, chance),
        tuple(
            Outlier(places[one][0].place, places[one][0].mean + places[one][0].sigma * values[one]) for one in flagged
        ),
        without,
        bool(flagged) and request.exclude_flagged,
        "good_only" not in selection,
        found,
    )


def _pieces(group: Group, data: Sequence[Datum], left_out: set[int], quantiles: Quantiles) -> Pieces:
    """The values of a group, without those at the places ``left_out``."""
    place = 0
    by_lot: dict[str | None, list[float]] = defaultdict(list)
    values: list[float] = []
    for one in data:
        for value in one.values:
            if place not in left_out:
                values.append(value)
                by_lot[one.lot].append(value)
            place += 1
    _judge_spread(data, values)
    error = GaugeError(
        repeatability=max(one.gauge.repeatability for one in data),
        calibration=max(one.gauge.calibration for one in data),
    )
    band = max(one.band for one in data)
    if group.figure == "tap_oversize":
        return Pieces(tuple(values), error, taps=tuple(len(one) for one in by_lot.values()) if band else (), band=band)
    lists = [one for name, one in by_lot.items() if name is not None]
    alone = len(by_lot.get(None, ()))
    effective = None if not lists else alone + lots.effective_pieces(lists, quantiles).effective
    return Pieces(tuple(values), error, effective)


def _judge_spread(data: Sequence[Datum], values: Sequence[float]) -> None:
    """Refuse values that are all the same, unless the step of the gauge says how far they may lie apart."""
    if len(values) > 2 and len(set(values)) == 1 and not any(one.resolution for one in data):
        raise ShopFigureError(
            "measurements_without_spread",
            "More than two pieces measure the same: say what step the gauge reads (gauge_uncertainty.resolution).",
            pointer=f"/measurements/{data[0].place}",
        )


def _broken(group: Group, data: Sequence[Datum], request: FitRequest, quantiles: Quantiles) -> Count:
    holes, broken = (sum(one.extra[name] for one in data) for name in ("holes", "broken"))
    found = counted.breakage(
        holes=holes, broken=broken, next_holes=NEXT_HOLES, quantiles=quantiles, chance=request.confidence
    )
    return Count(group, tuple(data), breakage=found, checked=holes, bad=broken, remarks=_WEAR)


_WEAR = (
    Remark("constant_rate", "The rate is taken as constant: it tells nothing of how a tap wears towards its end."),
)
_SHARE_ONLY = Remark(
    "share_only",
    "Counts of GO and NOT GO tell the share inside, not the mean and spread: they are no figure of a drill.",
)


def _gauged(group: Group, data: Sequence[Datum], request: FitRequest, quantiles: Quantiles) -> Count:
    first, *_ = data
    lists = [one.extra["counts"] for one in data]
    limits = (first.extra["counts"].low, first.extra["counts"].high)
    other = next((one for one, held in zip(data, lists, strict=True) if (held.low, held.high) != limits), None)
    if other is not None:
        raise ShopFigureError(
            "range_inconsistent",
            "Counts of one thread, diameter and machine are taken together and need the same limits; send those of"
            " other limits by themselves.",
            pointer=f"/measurements/{other.place}/limits",
        )
    counts = Gauged(
        sum(one.checked for one in lists),
        sum(one.go_refused for one in lists),
        sum(one.not_go_entered for one in lists),
        *limits,
    )
    chance = request.confidence
    share = counted.share_bad(bad=counts.bad, checked=counts.checked, quantiles=quantiles, chance=chance)
    more = None
    if not counts.bad:
        more = max(counted.pieces_without_failure(good_share_ratio=chance, chance=chance) - counts.checked, 0)
    return Count(
        group,
        tuple(data),
        share=share,
        inside=counted.share_inside(counts, Prior(first.mean, first.sigma), chance),
        probit=counted.probit(counts),
        checked=counts.checked,
        bad=counts.bad,
        more=more,
        remarks=(_SHARE_ONLY,),
    )
