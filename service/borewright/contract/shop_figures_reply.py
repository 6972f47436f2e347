"""The reply of POST /v1/shop-figures/fit."""

from __future__ import annotations

from collections.abc import Callable
from math import exp
from types import SimpleNamespace as Shown
from typing import Any

from borewright.contract.requests.request import Asked
from borewright.contract.sections.reply import reply_texts
from borewright.contract.sections.section_notes import SectionNotes
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.contract.sections.shop_figures import ShopFiguresReply
from borewright.core.shop_figures.fitted import Count, Fit, FitResult
from borewright.core.shop_figures.group_words import group_words
from borewright.core.shop_figures.normal_fit import Interval, Posterior
from borewright.core.shop_figures.typical_decisions import COMPARED, ChangedDecision

from . import replies
from .unit_view import Json, view

_UNITS = {"ln": "times", "": "rate"}
_NOTHING = dict.fromkeys(("prior", "data", "posterior", "interval", "counted", "without_outliers", "next"))


def fit_pieces(result: FitResult, changes: tuple[ChangedDecision, ...], asked: Asked[Any]) -> Pieces:
    """The reply in pieces, in the unit of the fit."""
    kept = result.figures
    figures = {name: getattr(kept, name) for name in type(kept).__slots__}
    record = Shown(
        shop_figures=Shown(**figures, unit_system="inch" if result.unit == "in" else "metric"),
        fit=[_fit(row) if isinstance(row, Fit) else _count(row) for row in result.rows],
        changes=changes,
        compared=COMPARED,
        confidence=result.confidence,
    )
    after = (SectionNotes(result.notes, ""),)
    figures_view = view(result.unit, result.unit)
    return pieces(reply_texts(ShopFiguresReply, record, figures_view, after=after, explain=asked.explain))


def fit_reply(result: FitResult, changes: tuple[ChangedDecision, ...], asked: Asked[Any]) -> Json:
    """The reply as an object."""
    return replies.parsed(fit_pieces(result, changes, asked))


def _digits(value: float) -> float:
    return float(f"{value:.7g}")


def _fit(row: Fit) -> Shown:
    at: Callable[[float], float] = (lambda z: exp(row.value(z))) if row.unit == "ln" else row.value
    values = [_digits(at((one - row.mean) / row.sigma)) for one in _values(row)]
    ends = {"mean": row.of_mean, "next": row.of_next}
    spread = Interval(row.of_sigma.low * row.sigma, row.of_sigma.high * row.sigma)
    mean = row.pieces.mean
    return Shown(
        **_shared(row),
        unit=_UNITS.get(row.unit, row.unit),
        prior=Shown(mean=_digits(at(0)), standard_deviation=_digits(row.sigma)),
        data=Shown(
            count=row.posterior.count,
            effective=_digits(row.posterior.effective),
            mean=_digits(at(mean)),
            min=min(values),
            max=max(values),
        ),
        values=values,
        posterior=_posterior(row, row.posterior, at),
        interval=Shown(
            **{name: _ends(Interval(at(one.low), at(one.high))) for name, one in ends.items()},
            standard_deviation=_ends(spread),
        ),
        counted=None,
        count=row.posterior.count,
        outliers=[Shown(measurement=one.place, value=_digits(one.value)) for one in row.outliers],
        without_outliers=None if row.without is None else _posterior(row, row.without, at),
        is_kept=row.is_kept,
        next=row.more,
        next_text=_next_text(row.more),
    )


def _values(row: Fit) -> list[float]:
    """Every value in the unit of the figure, moved to the published mean that the row shows."""
    return [row.value(value) for one in row.data for value in one.values]


def _next_text(more: int | None) -> str:
    if more is None:
        return (
            "No number of pieces within reason halves the interval: measure other batches or taps, or a better gauge."
        )
    return f"{more} more piece{'' if more == 1 else 's'} halve{'s' if more == 1 else ''} the interval of the mean."


def _posterior(row: Fit, found: Posterior, at: Callable[[float], float]) -> Shown:
    return Shown(
        mean=_digits(at(found.mean)),
        standard_deviation=_digits(found.sigma * row.sigma),
        weight=found.weight,
        far_from_published=found.far,
    )


def _ends(interval: Interval) -> Shown:
    return Shown(low=_digits(interval.low), high=_digits(interval.high))


def _shared(row: Fit | Count) -> dict[str, Any]:
    return {"figure": row.group.figure, "group": group_words(row.group), "remarks": row.remarks}


def _count(row: Count) -> Shown:
    share = row.breakage or row.share
    assert share is not None
    counted = Shown(
        checked=row.checked,
        bad=row.bad,
        share=row.bad / row.checked,
        interval=_ends(share.interval),
        exact_upper=share.exact_upper,
        inside=None if row.inside is None else _ends(row.inside),
        chance_of_a_break=None if row.breakage is None else row.breakage.chance_of_a_break,
    )
    text = "" if row.more is None else f"{row.more} more pieces without one refused prove the share asked for."
    rest = {"unit": "rate", "values": [], "outliers": [], "is_kept": row.breakage is not None, "count": row.checked}
    shown = _NOTHING | _shared(row) | rest | {"counted": counted, "next": row.more, "next_text": text}
    return Shown(**shown)
