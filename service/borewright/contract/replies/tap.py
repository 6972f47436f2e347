"""A tap, its choice and its marking as replies show them."""

from __future__ import annotations

from borewright.contract.reading import Asked
from borewright.contract.unit_view import Json, UnitView, number, significant, view
from borewright.core.caches import cached
from borewright.core.model import Tap, TapChamfer, TapChoice, TapFit, TapLimit, Thread, Unit
from borewright.core.model.decision import ordered
from borewright.core.plan.specification import TapReply
from borewright.core.requests import DecodeRequest, TapRecommendation
from borewright.core.tapping import LimitChoice, TapMarking

from .parts import Part, close, part, review
from .thread import thread_part

_CACHED = 256


def tap_reply(reply: TapReply, asked: Asked[TapRecommendation]) -> Json:
    """Reply of POST /v1/taps/recommend."""
    section = tap_part(reply.tap, reply.thread, asked.unit, "")
    parts = [thread_part(reply.thread, asked.unit, "thread."), section, part({}, reply.notes)]
    if reply.allowance is not None:
        parts.insert(1, part({}, reply.allowance.notes, "finish."))
    figures = view(reply.thread.unit, asked.unit)
    left_open = ordered(one for section in parts for one in section.notes.decisions)
    return close({**section.body, "review": review(left_open, figures)}, parts, figures, explain=asked.explain)


def decode_reply(marking: TapMarking, asked: Asked[DecodeRequest]) -> Json:
    """Reply of POST /v1/taps/decode."""
    figures = view(marking.thread.unit, asked.unit)
    thread = thread_part(marking.thread, asked.unit, "thread.")
    body: Json = {
        "marking": marking.marking,
        "thread": thread.body,
        "style": marking.style,
        "substrate": marking.substrate,
        "ground": marking.ground,
        "limit": None if marking.limit is None else limit_body(marking.limit, figures),
        "hand": marking.hand,
        "surface": marking.surface,
        "chamfer": None if marking.chamfer is None else _chamfer(marking.chamfer),
        "holds": [
            {"class": held.thread_class, "margin": figures.length(held.margin), "fit": fit_body(held.fit, figures)}
            for held in marking.holds
        ],
        "unread": marking.unread,
    }
    return close(body, (thread, part({}, marking.notes)), figures, explain=asked.explain)


@cached(_CACHED)
def tap_part(choice: TapChoice, thread: Thread, asked: Unit | None, prefix: str) -> Part:
    """The choice of a tap as a section of a reply."""
    figures = view(thread.unit, asked)
    recommended = choice.recommended
    to_make = None if recommended.fit is None else {"pitch_diameter": figures.range(recommended.fit.limits)}
    body: Json = {
        "thread": thread.designation,
        "limits_to_make": to_make,
        "recommended": _first_tap(recommended, choice.second_tap, figures),
        "alternatives": [_first_tap(tap, None, figures) for tap in choice.alternatives],
        "rejected": [{"label": tap.label, "reason": figures.text(tap.reason)} for tap in choice.rejected],
    }
    return part(body, choice.notes, prefix)


def limit_body(limit: TapLimit, figures: UnitView) -> Json:
    """A pitch-diameter limit of a tap."""
    return {"label": limit.label, "pitch_diameter": figures.range(limit.pitch_diameter), "status": limit.status}


def sold(tap: Tap | LimitChoice, figures: UnitView) -> Json:
    """Whether a limit is stocked, what a special is ordered by, and the limits of other systems that do as well."""
    return {
        "availability": tap.availability,
        "order_text": None if tap.order_text is None else figures.text(tap.order_text),
        "equivalents": [limit_body(limit, figures) for limit in tap.equivalents],
    }


def fit_body(fit: TapFit, figures: UnitView) -> Json:
    """The arithmetic of a limit inside the limits to be made."""
    return {
        "limits": figures.range(fit.limits),
        "cut_oversize": figures.length(fit.cut_oversize),
        "largest_cut": figures.length(fit.largest_cut),
        "margin_above_min": figures.length(fit.margin_above_min),
        "margin_below_max": figures.length(fit.margin_below_max),
    }


def _first_tap(tap: Tap, second: Tap | None, figures: UnitView) -> Json:
    return {**_tap(tap, figures), "second_tap": None if second is None else _tap(second, figures)}


def _tap(tap: Tap, figures: UnitView) -> Json:
    return {
        "style": tap.style,
        "chamfer": _chamfer(tap.chamfer),
        "limit": None if tap.limit is None else limit_body(tap.limit, figures),
        "fit": None if tap.fit is None else fit_body(tap.fit, figures),
        "substrate": tap.substrate,
        "surface": tap.surface,
        "marking": tap.marking,
        "acceptance": significant(tap.acceptance),
        "in_stock": tap.in_stock,
        **sold(tap, figures),
        "reasons": figures.texts(tap.reasons),
    }


def _chamfer(chamfer: TapChamfer) -> Json:
    return {
        "name": chamfer.name,
        "threads": {"min": number(chamfer.threads_min), "max": number(chamfer.threads_max)},
    }
