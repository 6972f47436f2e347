"""The choice of a tap: limit by its fit, build by hole and material, stock by what the crib holds."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from ..chances import CLEARLY_LOW
from ..errors import TapError
from ..model import (
    Caution,
    Diameters,
    Notes,
    Range,
    RejectedTap,
    Source,
    Step,
    Tap,
    TapChamfer,
    TapChoice,
    TapFit,
    TapLimit,
    Thread,
    Unit,
)
from . import crib, evidence, fit, practice
from .etched import marking
from .model import TapRequest, Weighed
from .picks import Picks, pick

_CACHED = 512
_LIMIT_FIELD, _FIT_FIELD = "recommended.limit", "recommended.fit"


def recommend(thread: Thread, request: TapRequest) -> TapChoice:
    """The tap for a hole: style, chamfer, limit, grade, coat and marking, with alternatives and what was rejected.

    Args: ``thread`` resolved; ``request`` what is known of the hole; lengths in the thread's unit.
    Raises: TapError ``tap_not_found`` when no tap can make the limits, ``method_not_applicable``,
    ``tap_limit_unknown`` for a stock entry that is no limit.
    Source: ASME B94.9, ISO 2857 and common practice, as each part says.
    """
    return _recommend(thread, practice.like(thread, request))


@lru_cache(_CACHED)
def _recommend(thread: Thread, request: TapRequest) -> TapChoice:
    tooling = practice.plan(thread, request)
    window = (request.limits or thread.internal).pitch_diameter
    moved = request.overtap is not None or window != thread.internal.pitch_diameter
    picks = pick(
        thread, window, method=request.method, finished=moved, coat=_pitch(request.coat), tapping=request.tapping
    )
    if not picks.possible:
        raise TapError(
            "tap_not_found",
            f"no tap limit holds {thread.designation}: {'; '.join(picks.reasons)}",
            pointer="/finish" if moved else "/thread",
        )
    stocked = _look_in_crib(thread, request, picks)
    recommended, alternatives = _taps(thread, request, tooling, picks, stocked)
    second = tooling.second
    return TapChoice(
        recommended=recommended,
        second_tap=None if second is None else _second(recommended, second.chamfer),
        alternatives=alternatives,
        rejected=(*picks.rejected, *_by_crib(stocked)),
        notes=_notes(thread, request, tooling, picks, stocked),
    )


def limit_for(
    thread: Thread, limits_to_make: Diameters, *, coat: Diameters | None = None
) -> tuple[TapLimit | None, TapFit | None, tuple[str, ...]]:
    """The tap limit for given limits of an internal thread, without the rest of the tap.

    Args: ``coat`` what a coat will do to the diameters afterwards, in the thread's unit.
    Returns: limit and fit, None where no tap can make the limits or none is tabulated, and the reasons.
    Source: as :func:`recommend`.
    """
    window = limits_to_make.pitch_diameter
    picks = pick(thread, window, method="cut", finished=window != thread.internal.pitch_diameter, coat=_pitch(coat))
    if picks.best is None:
        return None, None, picks.reasons
    return picks.best.candidate.limit, picks.best.fit, picks.reasons


def _pitch(coat: Diameters | None) -> Range | None:
    return None if coat is None else coat.pitch_diameter


def _look_in_crib(thread: Thread, request: TapRequest, picks: Picks) -> crib.Crib | None:
    if request.stock is None:
        return None
    amount = None if picks.oversize is None else picks.oversize.amount
    if request.method == "form" and amount is not None:
        amount = -fit.closing_in(thread)
    return crib.look(
        thread,
        request.stock,
        window=(request.limits or thread.internal).pitch_diameter,
        oversize=amount,
        room=request.chamfer_room if request.hole_kind == "blind" else None,
        picks=picks,
    )


def _by_crib(stocked: crib.Crib | None) -> tuple[RejectedTap, ...]:
    return () if stocked is None else stocked.rejected


def _taps(
    thread: Thread, request: TapRequest, tooling: practice.Tooling, picks: Picks, stocked: crib.Crib | None
) -> tuple[Tap, tuple[Tap, ...]]:
    """The tap taken and the other ones, crib first where it holds one that fits."""
    in_stock = None if stocked is None else False
    wanted = _tap(thread, tooling, picks.best, _reasons(thread, request, tooling, picks), in_stock=in_stock)
    others = [
        _tap(thread, tooling, one, _why_other(picks, one, thread.unit), in_stock=in_stock) for one in picks.others
    ]
    if stocked is None or not stocked.usable:
        return wanted, tuple(others)
    held = [_from_crib(thread, tooling, one) for one in stocked.usable]
    labels = {tap.limit.label for tap in held if tap.limit is not None}
    to_buy = [tap for tap in (wanted, *others) if tap.limit is not None and tap.limit.label not in labels]
    first = replace(held[0], reasons=(*held[0].reasons, *tooling.reasons))
    return first, (*held[1:], *to_buy)


def _tap(
    thread: Thread,
    tooling: practice.Tooling,
    weighed: Weighed | None,
    reasons: tuple[str, ...],
    *,
    in_stock: bool | None,
) -> Tap:
    limit = None if weighed is None else weighed.candidate.limit
    return Tap(
        tooling.style,
        tooling.chamfer.chamfer,
        limit,
        None if weighed is None else weighed.fit,
        tooling.substrate,
        tooling.surface,
        marking(thread, substrate=tooling.substrate, label=None if limit is None else limit.label),
        reasons,
        in_stock,
        None if weighed is None else weighed.chance,
    )


def _from_crib(thread: Thread, tooling: practice.Tooling, held: crib.CribTap) -> Tap:
    """A tap of the crib: its shank tells what it is, the plan fills what is not etched."""
    why = ("in the crib",) if held.weighed is None else ("in the crib", _fits(held.weighed, thread.unit))
    tap = _tap(thread, tooling, held.weighed, why, in_stock=True)
    shank = held.shank
    if shank is None:
        return tap
    return replace(
        tap,
        style=shank.style or tap.style,
        chamfer=shank.chamfer or tap.chamfer,
        limit=shank.limit,
        substrate=shank.substrate or tap.substrate,
        surface=shank.surface or tap.surface,
        marking=held.text,
    )


def _why_other(picks: Picks, other: Weighed, unit: Unit) -> tuple[str, ...]:
    if picks.passed_over is not None and other is picks.others[0]:
        return (picks.passed_over.reason, _fits(other, unit))
    return (_fits(other, unit),)


def _second(first: Tap, chamfer: TapChamfer) -> Tap:
    reasons = ("second in sequence: finishes the thread that the first tap's chamfer leaves",)
    return replace(first, chamfer=chamfer, reasons=reasons)


def _fits(weighed: Weighed, unit: Unit) -> str:
    arithmetic = weighed.fit
    if arithmetic is None:
        return "printed limit for the class"
    above, below = arithmetic.margin_above_min, arithmetic.margin_below_max
    return f"fits, {above!s} {unit} above the minimum and {below!s} {unit} below the maximum"


def _reasons(thread: Thread, request: TapRequest, tooling: practice.Tooling, picks: Picks) -> tuple[str, ...]:
    said = list(picks.reasons)
    if picks.best is not None and picks.best.fit is not None:
        said.append(_fits(picks.best, thread.unit))
    if request.overtap is not None:
        zinc = request.overtap
        said.append(
            f"tapped after hot-dip zinc, oversize by {zinc.amount} {thread.unit} ({zinc.standard}, {zinc.system})"
        )
    return (*said, *tooling.reasons)


def _notes(
    thread: Thread, request: TapRequest, tooling: practice.Tooling, picks: Picks, stocked: crib.Crib | None
) -> Notes:
    assumptions, cautions = list(tooling.assumptions), list(tooling.cautions)
    sources: list[Source] = list(tooling.sources)
    steps: list[Step] = []
    best = picks.best if stocked is None or not stocked.usable else stocked.usable[0].weighed
    if best is not None:
        sources.append(evidence.limit_source(best.candidate, _LIMIT_FIELD))
        steps.extend(evidence.limit_steps(best.candidate, thread, _LIMIT_FIELD))
        if best.candidate.note is not None:
            cautions.append(Caution("tap_limit_edition", best.candidate.note))
        if best.fit is not None and picks.oversize is not None:
            steps.append(_oversize_step(thread, request, picks.oversize))
            steps.extend(evidence.fit_steps(best.fit, best.candidate, thread, _FIT_FIELD))
            sources.append(evidence.oversize_source(f"{_FIT_FIELD}.cut_oversize"))
            steps.extend(evidence.chance_steps(best, picks.judge, thread))
            sources.append(evidence.CHANCE)
            cautions.extend(_often_refused(best, picks))
            assumptions.append(evidence.oversize_assumption(thread))
    if picks.preferred is not None:
        sources.append(picks.preferred.source)
        if picks.preferred.note is not None:
            cautions.append(Caution("recommendation_unconfirmed", picks.preferred.note))
    if stocked is not None and not stocked.usable:
        cautions.append(_stock_caution(thread, tooling, picks))
    return Notes(tuple(assumptions), tuple(cautions), tuple(sources), tuple(steps))


def _often_refused(taken: Weighed, picks: Picks) -> tuple[Caution, ...]:
    """A tap of the crib, or the only one that fits, whose threads clearly often miss the limits."""
    if taken.chance is None or taken.chance >= CLEARLY_LOW:
        return ()
    likeliest = picks.best
    other = ""
    if likeliest is not None and likeliest.chance is not None and likeliest.chance > taken.chance:
        other = f" {likeliest.candidate.limit.label} holds them in {100 * likeliest.chance:.1f} %."
    return (
        Caution(
            "acceptance_low",
            f"Only about {100 * taken.chance:.1f} % of the threads of {taken.candidate.limit.label} end inside the"
            f" pitch diameter limits, cut oversize reckoned.{other} Prove it on the job with the GO and NOT GO plugs.",
        ),
    )


def _oversize_step(thread: Thread, request: TapRequest, oversize: fit.Oversize) -> Step:
    field = f"{_FIT_FIELD}.cut_oversize"
    if request.method == "form":
        return evidence.forming_step(thread, field)
    return evidence.oversize_step(thread, oversize, field)


def _stock_caution(thread: Thread, tooling: practice.Tooling, picks: Picks) -> Caution:
    label = None if picks.best is None else picks.best.candidate.limit.label
    wanted = marking(thread, substrate=tooling.substrate, label=label)
    return Caution("stock_has_no_tap", f"no tap of the crib makes {thread.designation}: buy {wanted}")


__all__ = ["limit_for", "recommend"]
