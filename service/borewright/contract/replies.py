"""The replies of the API: each in pieces, as it is sent and kept, or read back as an object for other forms of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, cast

import orjson

from borewright.contract.sections.drill import DrillReply
from borewright.contract.sections.finish import AllowanceReply
from borewright.contract.sections.hole_spec import HoleSpecReply
from borewright.contract.sections.reply import Ending, reply_texts
from borewright.contract.sections.section_notes import SectionNotes
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.contract.sections.tap import TapDecodeReply, TapReply
from borewright.contract.sections.thread import ThreadReply
from borewright.core.model import Allowance, Notes, Thread
from borewright.core.plan.specification import AllowanceResult, DrillResult, Specification, TapResult
from borewright.core.requests import (
    AllowanceRequest,
    DecodeRequest,
    DrillRecommendation,
    HoleSpecRequest,
    ResolveRequest,
    TapRecommendation,
)

from .requests import Asked
from .unit_view import Json, view

if TYPE_CHECKING:
    from borewright.core.tapping import TapMarking

__all__ = [
    "allowance_pieces",
    "allowance_reply",
    "decode_pieces",
    "decode_reply",
    "drill_pieces",
    "drill_reply",
    "hole_spec_pieces",
    "hole_spec_reply",
    "parsed",
    "tap_pieces",
    "tap_reply",
    "thread_pieces",
    "thread_reply",
]


def hole_spec_pieces(spec: Specification, asked: Asked[Any]) -> Pieces:
    """Reply of POST /v1/hole-specs, in the detail that is asked for."""
    schema: type[Ending] = HoleSpecReply
    before: Sequence[SectionNotes] = ()
    if asked.detail != "full":
        from .sections import detail  # few ask for it

        schema = detail.BY_DETAIL[asked.detail]
        before = detail.notes_not_shown(schema, spec)
    figures = view(spec.thread.unit, asked.unit)
    return pieces(reply_texts(schema, spec, figures, before=before, after=own(spec.notes), explain=asked.explain))


def thread_pieces(thread: Thread, asked: Asked[ResolveRequest]) -> Pieces:
    """Reply of POST /v1/threads/resolve."""
    return pieces(reply_texts(ThreadReply, thread, view(thread.unit, asked.unit), explain=asked.explain))


def drill_pieces(reply: DrillResult, asked: Asked[DrillRecommendation]) -> Pieces:
    """Reply of POST /v1/drills/recommend."""
    return _of_thread(DrillReply, reply, reply.allowance, asked)


def tap_pieces(reply: TapResult, asked: Asked[TapRecommendation]) -> Pieces:
    """Reply of POST /v1/taps/recommend."""
    return _of_thread(TapReply, reply, reply.allowance, asked)


def allowance_pieces(reply: AllowanceResult, asked: Asked[AllowanceRequest]) -> Pieces:
    """Reply of POST /v1/allowances."""
    return _of_thread(AllowanceReply, reply, None, asked)


def decode_pieces(marking: TapMarking, asked: Asked[DecodeRequest]) -> Pieces:
    """Reply of POST /v1/taps/decode."""
    figures = view(marking.thread.unit, asked.unit)
    after = own(marking.notes)
    return pieces(reply_texts(TapDecodeReply, marking, figures, after=after, explain=asked.explain))


def hole_spec_reply(spec: Specification, asked: Asked[HoleSpecRequest]) -> Json:
    """The same as an object, as are the ones below."""
    return parsed(hole_spec_pieces(spec, asked))


def thread_reply(thread: Thread, asked: Asked[ResolveRequest]) -> Json:
    """The thread as an object."""
    return parsed(thread_pieces(thread, asked))


def drill_reply(reply: DrillResult, asked: Asked[DrillRecommendation]) -> Json:
    """The choice of a drill as an object."""
    return parsed(drill_pieces(reply, asked))


def tap_reply(reply: TapResult, asked: Asked[TapRecommendation]) -> Json:
    """The choice of a tap as an object."""
    return parsed(tap_pieces(reply, asked))


def allowance_reply(reply: AllowanceResult, asked: Asked[AllowanceRequest]) -> Json:
    """The allowance as an object."""
    return parsed(allowance_pieces(reply, asked))


def decode_reply(marking: TapMarking, asked: Asked[DecodeRequest]) -> Json:
    """The marking as an object."""
    return parsed(decode_pieces(marking, asked))


def parsed(reply: Pieces) -> Json:
    """A reply as an object: for whoever makes another form of it."""
    return cast("Json", orjson.loads(b"".join(reply)))


def _of_thread(
    schema: type[Ending],
    reply: DrillResult | TapResult | AllowanceResult,
    allowance: Allowance | None,
    asked: Asked[Any],
) -> Pieces:
    """A reply whose own section is about a thread, and perhaps its finish, that it does not show."""
    before = [SectionNotes(reply.thread.notes, "thread.")]
    if allowance is not None:
        before.append(SectionNotes(allowance.notes, "finish."))
    figures = view(reply.thread.unit, asked.unit)
    return pieces(reply_texts(schema, reply, figures, before=before, after=own(reply.notes), explain=asked.explain))


def own(notes: Notes) -> Sequence[SectionNotes]:
    """Notes that belong to no section."""
    return (SectionNotes(notes, ""),)
