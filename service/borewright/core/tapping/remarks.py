"""What is said beside the choice of a tap: assumptions, cautions, sources, steps and what a person must decide."""

from __future__ import annotations

from collections.abc import Iterator

from borewright.core.chance.made_sizes import CLEARLY_LOW
from borewright.core.derivation import WhenAsked
from borewright.core.model import Caution, Notes, Source, Step, Tap, Thread
from borewright.core.model.decision import Decision
from borewright.core.quantity_text import span

from . import availability, crib, fit, limit_derivation, limits, tap_build
from .etched import marking
from .limit_choice import Picks, percent
from .tap_candidates import LimitRequest, Weighed

_LIMIT_FIELD, _FIT_FIELD = "recommended.limit", "recommended.fit"


def notes(
    thread: Thread,
    request: LimitRequest,
    tooling: tap_build.Tooling,
    picks: Picks,
    stocked: crib.Crib | None,
    taken: Tap,
) -> Notes:
    """Everything to be said of the choice of a tap for ``thread``; ``taken`` is the one recommended.

    Args: ``request`` as asked; ``tooling`` build of the tap; ``picks`` of its limits; ``stocked`` what the crib holds.
    Source: that of each part.
    """
    best = picks.best if stocked is None or not stocked.usable else stocked.usable[0].weighed
    of_limit = Notes() if best is None else _of_limit(thread, request, picks, best)
    cautions = [*tooling.cautions, *of_limit.cautions]
    sources = [*tooling.sources, *of_limit.sources]
    if picks.preferred is not None:
        sources.append(picks.preferred.source)
        if picks.preferred.note is not None:
            cautions.append(Caution("recommendation_unconfirmed", picks.preferred.note))
    if taken.limit is not None:
        listed = availability.stocked_limits(thread, request.method).get(taken.limit.label)
        if listed is None and request.overtap is not None and taken.availability == "standard":
            listed = availability.OVERTAPS
        sources.extend(() if listed is None else (listed.source("recommended.availability"),))
    if stocked is not None and not stocked.usable:
        cautions.append(_stock_caution(thread, tooling, picks))
    return Notes(
        (*tooling.assumptions, *limits.other_system(thread, request.tap_limits), *of_limit.assumptions),
        tuple(cautions),
        tuple(sources),
        of_limit.steps,
        (
            *tooling.decisions,
            *of_limit.decisions,
            *_to_order(thread, request, taken),
            *_no_limit(thread, request, taken),
        ),
    )


def _of_limit(thread: Thread, request: LimitRequest, picks: Picks, best: Weighed) -> Notes:
    """Where a limit and its fit come from, and how they come about."""
    sources: list[Source] = [limit_derivation.limit_source(best.candidate, _LIMIT_FIELD)]
    steps = WhenAsked(_steps_of_limit, thread, request, picks, best)
    note = best.candidate.note
    code = "tap_limit_doubtful" if limits.family(thread) == "insert" else "tap_limit_edition"
    cautions = () if note is None else (Caution(code, note),)
    if best.fit is None or picks.oversize is None:
        return Notes((), cautions, tuple(sources), steps)
    measured = request.measured
    if measured is None:
        sources.extend((limit_derivation.oversize_source(f"{_FIT_FIELD}.cut_oversize"), limit_derivation.CHANCE))
        said = (limit_derivation.oversize_assumption(thread),)
    else:
        sources.append(limit_derivation.measured_source(f"{_FIT_FIELD}.cut_oversize", measured))
        said = (f"the oversize of cut that the shop measured replaces the assumption: {measured.told()}",)
    return Notes(said, cautions, tuple(sources), steps, _often_refused(best, picks))


def _steps_of_limit(thread: Thread, request: LimitRequest, picks: Picks, best: Weighed) -> Iterator[Step]:
    yield from limit_derivation.limit_steps(best.candidate, thread, _LIMIT_FIELD)
    if best.fit is None or picks.oversize is None:
        return
    yield _oversize_step(thread, request, picks.oversize)
    yield from limit_derivation.fit_steps(best.fit, best.candidate, thread, _FIT_FIELD)
    yield from limit_derivation.chance_steps(best, picks.judge, thread)


def _often_refused(taken: Weighed, picks: Picks) -> tuple[Decision, ...]:
    """A tap of the crib, a stocked one or the only one that fits, whose threads clearly often miss the limits."""
    if taken.chance is None or taken.chance >= CLEARLY_LOW:
        return ()
    likeliest = max((taken, *picks.fitting()), key=lambda one: one.accepted)
    other = ""
    if likeliest is not taken:
        other = f" or take {likeliest.candidate.limit.label}, which holds them in {percent(likeliest)}"
    return (
        Decision(
            "tap_often_refused",
            f"Only about {percent(taken)} of the threads of {taken.candidate.limit.label} end inside the"
            " pitch diameter limits, cut oversize reckoned. Decide: prove it on the job with the GO and NOT GO"
            f" plugs{other}.",
            "/thread",
        ),
    )


def _no_limit(thread: Thread, request: LimitRequest, taken: Tap) -> tuple[Decision, ...]:
    """Limits that a finish moves want a certain tap; where none is held, somebody has to name it."""
    window = None if request.limits is None else request.limits.pitch_diameter
    if taken.limit is not None or limits.family(thread) is None or window in (None, thread.internal.pitch_diameter):
        return ()
    return (
        Decision(
            "tap_limit_open",
            "The finish moves the pitch diameter to be made, and no tap limit is held for this thread. Decide: order a"
            f" tap for {span(window, thread.unit)}, or mask the thread.",
            "/finish",
        ),
    )


def _to_order(thread: Thread, request: LimitRequest, taken: Tap) -> tuple[Decision, ...]:
    """A tap that no list holds has to be ordered, or the thread made in another way."""
    if taken.availability == "standard" or taken.in_stock:
        return ()
    coated = request.coat is not None and request.overtap is None
    made = "these limits" if availability.stocked_limits(thread, request.method) else "this thread"
    return (
        Decision(
            "tap_made_to_order",
            f"No stocked tap makes {made}. Decide: order one ({taken.order_text}), or single-point or"
            f" thread-mill the thread to its pitch diameter{', or mask it or thin the finish' if coated else ''}.",
            "/finish" if coated or request.overtap is not None else "/thread",
        ),
    )


def _oversize_step(thread: Thread, request: LimitRequest, oversize: fit.CutOversize) -> Step:
    field = f"{_FIT_FIELD}.cut_oversize"
    if request.measured is not None:
        return limit_derivation.measured_step(thread, oversize, field, request.measured)
    if request.method == "form":
        return limit_derivation.forming_step(thread, field)
    return limit_derivation.oversize_step(thread, oversize, field)


def _stock_caution(thread: Thread, tooling: tap_build.Tooling, picks: Picks) -> Caution:
    label = None if picks.best is None else picks.best.candidate.limit.label
    wanted = marking(thread, substrate=tooling.made.substrate, label=label)
    return Caution("stock_has_no_tap", f"no tap of the crib makes {thread.designation}: buy {wanted}")


__all__ = ["notes"]
