"""Sources and steps of a tap limit and of its fit, in the form every result carries."""

from __future__ import annotations

from borewright.core.chance import made_sizes
from borewright.core.citation import Cite
from borewright.core.model import Source, Step, TapFit, Thread
from borewright.core.shop_figures.figures import MeasuredCut

from . import fit
from .tap_candidates import Candidate, Judge, Weighed

_OVERSIZE_FORMULA = {"in": "half_even(0.15 * tolerance, 4)", "mm": "half_even(0.15 * tolerance, 3)"}
_OVERSIZE_TEXT = "assumption: 0.15 of the pitch-diameter tolerance of class 2B or 6H; no statistics are published"
_FORMING_TEXT = "shop practice, forming taps: one step closed in for each limit number raised"
_GEOMETRY = "the tap's band in the limits to be made"
CHANCE = Source(
    "recommended.acceptance",
    "common practice",
    "",
    "tap uniform over its limits plus a normal cut oversize, sigma 0.10 of the class tolerance (0.20 unless rigid)",
    "common_practice",
)


def origin_text(origin: Cite) -> str:
    """The document of ``origin`` in one line."""
    return " ".join(part for part in (origin.document, origin.edition, origin.locator) if part)


def limit_source(candidate: Candidate, field: str) -> Source:
    """Source of the pitch diameter of the limit ``candidate``; ``field`` is the limit's place in the reply."""
    return candidate.origin.rated(candidate.limit.status).source(f"{field}.pitch_diameter")


def limit_steps(candidate: Candidate, thread: Thread, field: str) -> tuple[Step, ...]:
    """How the two ends of the limit ``candidate`` of ``thread``, shown in ``field``, come about."""
    source = origin_text(candidate.origin)
    low_inputs = {**candidate.inputs, "tap_max": candidate.high}
    high_inputs = {**candidate.inputs, "tap_min": candidate.low}
    unit = thread.unit
    return (
        Step(f"{field}.pitch_diameter.max", candidate.high_formula, high_inputs, candidate.high, unit, source),
        Step(f"{field}.pitch_diameter.min", candidate.low_formula, low_inputs, candidate.low, unit, source),
    )


def oversize_assumption(thread: Thread) -> str:
    """What is taken for granted about the cut oversize in ``thread``, in plain words."""
    return (
        f"a tap is expected to cut oversize by 15 percent of the pitch-diameter tolerance"
        f" of the general-purpose class ({fit.GENERAL_CLASS[thread.unit]}):"
        " an assumption, to be replaced by shop data"
    )


def oversize_source(field: str) -> Source:
    """Source of the expected cut oversize, shown in ``field``."""
    return Source(field, "common practice", "", _OVERSIZE_TEXT, "common_practice")


def oversize_step(thread: Thread, oversize: fit.CutOversize, field: str) -> Step:
    """How the expected cut ``oversize`` in ``thread``, shown in ``field``, comes about."""
    return Step(
        field,
        _OVERSIZE_FORMULA[thread.unit],
        {"tolerance": oversize.tolerance},
        oversize.amount,
        thread.unit,
        _OVERSIZE_TEXT,
    )


def forming_step(thread: Thread, field: str) -> Step:
    """How much a formed ``thread`` is taken to close in, shown in ``field`` as a negative oversize."""
    amount = fit.closing_in(thread)
    offset = fit.forming_offset(thread)
    return Step(
        field, "0 - offset * step", {"offset": offset, "step": amount / offset}, -amount, thread.unit, _FORMING_TEXT
    )


def measured_source(field: str, measured: MeasuredCut) -> Source:
    """Source of the oversize of cut that the shop ``measured``, shown in ``field``."""
    return Source(field, "shop figures", measured.date or "", measured.told(), "measured")


def measured_step(thread: Thread, oversize: fit.CutOversize, field: str, measured: MeasuredCut) -> Step:
    """How the oversize that the shop ``measured`` comes about in ``thread``, shown in ``field``; ``oversize`` has the
    tolerance that it is a share of.
    """
    amount = fit.cut_amount(thread, measured.method, oversize, measured)
    places = 4 if thread.unit == "in" else 3
    inputs = {"share": measured.mean, "tolerance": oversize.tolerance}
    return Step(field, f"half_even(share * tolerance, {places})", inputs, amount, thread.unit, measured.told())


def chance_steps(weighed: Weighed, judge: Judge | None, thread: Thread) -> tuple[Step, ...]:
    """How the chance of ``weighed`` that the pitch diameter of ``thread`` is accepted by ``judge`` comes about; nothing
    where it is not known.
    """
    if judge is None or weighed.chance is None or weighed.fit is None:
        return ()
    made = judge.size(weighed.candidate, weighed.fit.cut_oversize)
    return made_sizes.steps(
        CHANCE.field, made, judge.aim, chance=weighed.chance, unit=thread.unit, model=CHANCE.locator
    )


def fit_steps(arithmetic: TapFit, candidate: Candidate, thread: Thread, field: str) -> tuple[Step, ...]:
    """How the margins of the limit ``candidate`` of ``thread``, the ``arithmetic`` shown in ``field``, come about."""
    cut, unit = arithmetic.cut_oversize, thread.unit
    return (
        Step(
            f"{field}.largest_cut",
            "tap_max + max(cut_oversize, 0)",
            {"tap_max": candidate.high, "cut_oversize": cut},
            arithmetic.largest_cut,
            unit,
            _GEOMETRY,
        ),
        Step(
            f"{field}.margin_above_min",
            "tap_min + min(cut_oversize, 0) - limit_min",
            {"tap_min": candidate.low, "cut_oversize": cut, "limit_min": arithmetic.limits.min},
            arithmetic.margin_above_min,
            unit,
            _GEOMETRY,
        ),
        Step(
            f"{field}.margin_below_max",
            "limit_max - largest_cut",
            {"limit_max": arithmetic.limits.max, "largest_cut": arithmetic.largest_cut},
            arithmetic.margin_below_max,
            unit,
            _GEOMETRY,
        ),
    )
