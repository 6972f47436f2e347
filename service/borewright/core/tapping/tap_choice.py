"""The choice of a tap: limit by its fit, build by hole and material, stock by what the crib holds."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from borewright.core.caches import Same, cached, cached_apart
from borewright.core.errors import TapError
from borewright.core.model import (
    Diameters,
    Overtap,
    Range,
    Tap,
    TapChamfer,
    TapChoice,
    TapFit,
    TapLimit,
    Thread,
    Unit,
)
from borewright.core.quantity_text import length, printed_length
from borewright.core.requests import TapLimits, is_long_list
from borewright.core.shop_figures.figures import MeasuredCut

from . import availability, crib, etched, fit, limits, metric, remarks, tap_build
from .equivalents import equivalents
from .limit_choice import Picks, pick
from .tap_candidates import LimitRequest, TapRequest, Weighed

_CACHED, _OTHERS = 64, 256


class LimitChoice(NamedTuple):
    """The tap limit for given limits of a thread, without the rest of the tap.

    ``limit`` None: no tap can make the limits, or none is tabulated; ``reasons`` say which.
    """

    limit: TapLimit | None
    fit: TapFit | None
    reasons: tuple[str, ...]
    availability: availability.Availability = "standard"
    order_text: str | None = None
    equivalents: tuple[TapLimit, ...] = ()


def recommend(thread: Thread, request: TapRequest) -> TapChoice:
    """The tap for a hole: style, chamfer, limit, grade, coat and marking, with alternatives and what was rejected.

    Stocked limits go before limits made to order; all limits are of one system, those of the others are equivalents.

    Args: ``thread`` resolved; ``request`` what is known of the hole; lengths in the thread's unit.
    Raises: TapError ``tap_not_found`` when no tap can make the limits, ``method_not_applicable``,
    ``tap_limit_unknown`` for a stock entry that is no limit.
    Source: ASME B94.9, ISO 2857 and common practice, as each part says.
    """
    if request.tap_limits is None and request.stock and thread.unit == "mm":
        request = request._replace(tap_limits=crib.system_of(request.stock))
    return _with_limit(thread, request.of_the_limit(), tap_build.plan(thread, request))


@cached_apart(_CACHED, lambda _thread, request, _tooling: is_long_list(request.stock))
def _with_limit(thread: Thread, request: LimitRequest, tooling: tap_build.Tooling) -> TapChoice:
    """The tap of that build with its limit."""
    window = (request.limits or thread.internal).pitch_diameter
    moved = request.overtap is not None or window != thread.internal.pitch_diameter
    picks = pick(
        thread,
        window,
        method=request.method,
        finished=moved,
        coat=_pitch(request.coat),
        tapping=request.tapping,
        system=request.tap_limits,
        overtap=None if request.overtap is None else request.overtap.amount,
        measured=request.measured,
    )
    if not picks.possible:
        raise TapError(
            "tap_not_found",
            f"no tap limit holds {thread.designation}: {'; '.join(picks.reasons)}",
            pointer="/finish" if moved else "/thread",
        )
    picks = picks if request.prescribed is None else _prescribed(picks, request.prescribed)
    stocked = _look_in_crib(thread, request, picks)
    recommended, alternatives = _taps(thread, request, tooling, picks, stocked)
    second = tooling.second
    return TapChoice(
        thread=thread.designation,
        recommended=recommended,
        second_tap=None if second is None else _second(thread, recommended, second.chamfer),
        alternatives=alternatives,
        rejected=picks.rejected if stocked is None else (*picks.rejected, *stocked.rejected),
        notes=remarks.notes(thread, request, tooling, picks, stocked, recommended),
    )


def _prescribed(picks: Picks, label: str) -> Picks:
    """The picks with the limit of that label first. Raises TapError ``tap_not_found`` where it does not fit."""
    fitting = picks.fitting()
    taken = next((one for one in fitting if one.candidate.limit.label == label), None)
    if taken is None:
        raise TapError("tap_not_found", f"{label} does not hold the limits of the thread", pointer="/thread")
    others = tuple(one for one in fitting if one is not taken)
    return picks._replace(
        best=taken, others=others, reasons=("prescribed, and fits",), preferred=None, passed_over=None
    )


def limit_for(
    thread: Thread,
    limits_to_make: Diameters,
    *,
    coat: Diameters | None = None,
    tap_limits: TapLimits | None = None,
    overtap: Overtap | None = None,
    measured: MeasuredCut | None = None,
) -> LimitChoice:
    """The tap limit for ``limits_to_make`` of ``thread``, in its unit, without the rest of the tap.

    Args: ``coat`` what a coat will do to the diameters afterwards, in the thread's unit; ``tap_limits`` the system of
        limits, None = that of the thread; ``overtap`` where the thread is tapped after hot-dip zinc;
        ``measured`` what the shop's own taps cut oversize, None = the assumption.
    Source: as :func:`recommend`.
    """
    window = limits_to_make.pitch_diameter
    moved = window != thread.internal.pitch_diameter
    amount = None if overtap is None else overtap.amount
    picks = pick(
        thread,
        window,
        method="cut",
        finished=moved,
        coat=_pitch(coat),
        system=tap_limits,
        overtap=amount,
        measured=measured,
    )
    if picks.best is None:
        return LimitChoice(None, None, (*picks.reasons, *limits.other_system(thread, tap_limits)))
    reasons = (*picks.reasons, *limits.other_system(thread, tap_limits))
    limit = picks.best.candidate.limit
    kind = availability.availability(thread, "cut", limit.label, overtap)
    return LimitChoice(
        limit,
        picks.best.fit,
        reasons,
        kind,
        etched.limit_order_text(thread, limit, overtap) if kind == "special" or overtap is not None else None,
        equivalents(thread, window, method="cut", system=tap_limits, judge=picks.judge),
    )


def _pitch(coat: Diameters | None) -> Range | None:
    return None if coat is None else coat.pitch_diameter


def _look_in_crib(thread: Thread, request: LimitRequest, picks: Picks) -> crib.Crib | None:
    if request.stock is None:
        return None
    amount = None
    if picks.oversize is not None:
        amount = fit.cut_amount(thread, request.method, picks.oversize, request.measured)
    return crib.look(
        thread,
        request.stock,
        window=(request.limits or thread.internal).pitch_diameter,
        oversize=amount,
        room=request.chamfer_room,
        picks=picks,
    )


def _taps(
    thread: Thread, request: LimitRequest, tooling: tap_build.Tooling, picks: Picks, stocked: crib.Crib | None
) -> tuple[Tap, tuple[Tap, ...]]:
    """The tap taken and the other ones, crib first where it holds one that fits."""
    in_stock = None if stocked is None else False
    build = _Build(thread, request.method, request.overtap, tooling.made, _equivalents(thread, request, picks))
    wanted = _tap(build, picks.best, _reasons(thread, request, tooling, picks), in_stock=in_stock)
    others = _others(build, Same(picks), in_stock=in_stock)
    if stocked is None or not stocked.usable:
        return wanted, others
    held = [_from_crib(build, one) for one in stocked.usable]
    labels = {tap.limit.label for tap in held if tap.limit is not None}
    to_buy = [tap for tap in (wanted, *others) if tap.limit is not None and tap.limit.label not in labels]
    first = replace(held[0], reasons=(*held[0].reasons, *tooling.reasons))
    return first, (*held[1:], *to_buy)


class _Build(NamedTuple):
    """What all taps of one choice share."""

    thread: Thread
    method: availability.Method
    overtap: Overtap | None
    made: tap_build.Made
    equivalents: tuple[TapLimit, ...]


@cached(_OTHERS)
def _others(build: _Build, picks: Same[Picks], *, in_stock: bool | None) -> tuple[Tap, ...]:
    """The taps of the limits that would do as well."""
    found = picks.value
    return tuple(_tap(build, one, _why_other(found, one, build.thread.unit), in_stock=in_stock) for one in found.others)


def _equivalents(thread: Thread, request: LimitRequest, picks: Picks) -> tuple[TapLimit, ...]:
    window = (request.limits or thread.internal).pitch_diameter
    return equivalents(thread, window, method=request.method, system=request.tap_limits, judge=picks.judge)


def _tap(build: _Build, weighed: Weighed | None, reasons: tuple[str, ...], *, in_stock: bool | None) -> Tap:
    limit = None if weighed is None else weighed.candidate.limit
    label = None if limit is None else limit.label
    tap = Tap(
        build.made.style,
        build.made.chamfer,
        limit,
        None if weighed is None else weighed.fit,
        build.made.substrate,
        build.made.surface,
        etched.marking(build.thread, substrate=build.made.substrate, label=label),
        reasons,
        in_stock,
        None if weighed is None else weighed.chance,
        availability.availability(build.thread, build.method, label, build.overtap),
        equivalents=tuple(other for other in build.equivalents if other.label != label),
    )
    return _with_order_text(build.thread, tap, build.overtap)


def _with_order_text(thread: Thread, tap: Tap, overtap: Overtap | None = None) -> Tap:
    """The tap with what it is ordered by, where its limit's name does not say it."""
    if tap.availability == "standard" and (tap.limit is None or etched.amount_of(tap.limit.label) is None):
        return tap
    return replace(tap, order_text=etched.order_text(thread, tap, overtap))


def _from_crib(build: _Build, held: crib.CribTap) -> Tap:
    """A tap of the crib: its shank tells what it is, the plan fills what is not etched."""
    why = ("in the crib",) if held.weighed is None else ("in the crib", _fits(held.weighed, build.thread.unit))
    tap = _tap(build, held.weighed, why, in_stock=True)
    shank = held.shank
    if shank is None:
        return tap
    unread = (f"not read on its shank: {' '.join(shank.unread)}",) if shank.unread else ()
    etched_tap = replace(
        tap,
        reasons=(*tap.reasons, *unread),
        style=shank.style or tap.style,
        chamfer=shank.chamfer or tap.chamfer,
        limit=shank.limit,
        substrate=shank.substrate or tap.substrate,
        surface=shank.surface or tap.surface,
        marking=held.text,
    )
    return _with_order_text(build.thread, etched_tap, build.overtap)


def _why_other(picks: Picks, other: Weighed, unit: Unit) -> tuple[str, ...]:
    if picks.passed_over is not None and other is picks.others[0]:
        return (picks.passed_over.reason, _fits(other, unit))
    return (_fits(other, unit),)


def _second(thread: Thread, first: Tap, chamfer: TapChamfer) -> Tap:
    reasons = ("second in sequence: finishes the thread that the first tap's chamfer leaves",)
    return _with_order_text(thread, replace(first, chamfer=chamfer, reasons=reasons))


def _fits(weighed: Weighed, unit: Unit) -> str:
    arithmetic = weighed.fit
    if arithmetic is None:
        return "printed limit for the class"
    above, below = (
        printed_length(margin, unit) for margin in (arithmetic.margin_above_min, arithmetic.margin_below_max)
    )
    return f"fits, {above} above the minimum and {below} below the maximum"


def _reasons(thread: Thread, request: LimitRequest, tooling: tap_build.Tooling, picks: Picks) -> tuple[str, ...]:
    said = list(picks.reasons)
    if picks.best is not None and picks.best.fit is not None:
        said.append(_fits(picks.best, thread.unit))
    if picks.best is not None and etched.is_of_standard_tap(thread):
        said.append(etched.same_tap_words(thread))
    if request.method == "form" and picks.best is not None and picks.best.candidate.limit.label.startswith("ISO"):
        said.append(_position_words(thread))
    if request.overtap is not None:
        zinc = request.overtap
        said.append(
            f"tapped after hot-dip zinc, oversize by {length(zinc.amount, thread.unit)} ({zinc.standard},"
            f" {zinc.system})"
        )
    return (*said, *tooling.reasons)


def _position_words(thread: Thread) -> str:
    wanted = metric.pitch_class(thread.thread_class)
    return f"makers list forming taps for {wanted} as {wanted}X, a position of their own near this class"


__all__ = ["LimitChoice", "limit_for", "recommend"]
