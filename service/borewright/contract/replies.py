"""The replies of the API: each in pieces, as it is sent and kept, or read back as an object for other forms of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, cast

import orjson

from borewright.contract.sections.audit import AuditWithSpecification
from borewright.contract.sections.reply import Reply, reply_texts
from borewright.contract.sections.section_notes import SectionNotes
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.core.audit import Audit, AuditRequest
from borewright.core.model import Allowance, Notes, Thread
from borewright.core.plan.specification import AllowanceReply, DrillReply, Specification, TapReply
from borewright.core.requests import (
    AllowanceRequest,
    DecodeRequest,
    DrillRecommendation,
    HoleSpecRequest,
    ResolveRequest,
    TapRecommendation,
)
from borewright.core.tapping import TapMarking

from . import sections
from .requests import Asked
from .unit_view import Json, view

__all__ = [
    "allowance_pieces",
    "allowance_reply",
    "audit_pieces",
    "audit_reply",
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
    schema = sections.BY_DETAIL[asked.detail]
    before = sections.notes_of_sections(spec) if schema is sections.HoleSpecRouting else ()
    figures = view(spec.thread.unit, asked.unit)
    return pieces(reply_texts(schema, spec, figures, before=before, after=_own(spec.notes), explain=asked.explain))


def audit_pieces(audit: Audit, asked: Asked[AuditRequest]) -> Pieces:
    """Reply of POST /v1/hole-specs/audit."""
    spec = audit.specification
    figures = view(spec.thread.unit, asked.unit)
    record = AuditWithSpecification(audit, hole_spec_pieces(spec, asked))
    return pieces(reply_texts(sections.AuditReply, record, figures, after=_own(audit.notes)))


def thread_pieces(thread: Thread, asked: Asked[ResolveRequest]) -> Pieces:
    """Reply of POST /v1/threads/resolve."""
    return pieces(reply_texts(sections.ThreadReply, thread, view(thread.unit, asked.unit), explain=asked.explain))


def drill_pieces(reply: DrillReply, asked: Asked[DrillRecommendation]) -> Pieces:
    """Reply of POST /v1/drills/recommend."""
    return _of_thread(sections.DrillReply, reply, reply.allowance, asked)


def tap_pieces(reply: TapReply, asked: Asked[TapRecommendation]) -> Pieces:
    """Reply of POST /v1/taps/recommend."""
    return _of_thread(sections.TapReply, reply, reply.allowance, asked)


def allowance_pieces(reply: AllowanceReply, asked: Asked[AllowanceRequest]) -> Pieces:
    """Reply of POST /v1/allowances."""
    return _of_thread(sections.AllowanceReply, reply, None, asked)


def decode_pieces(marking: TapMarking, asked: Asked[DecodeRequest]) -> Pieces:
    """Reply of POST /v1/taps/decode."""
    figures = view(marking.thread.unit, asked.unit)
    after = _own(marking.notes)
    return pieces(reply_texts(sections.TapDecodeReply, marking, figures, after=after, explain=asked.explain))


def hole_spec_reply(spec: Specification, asked: Asked[HoleSpecRequest]) -> Json:
    """The same as an object, as are the ones below."""
    return parsed(hole_spec_pieces(spec, asked))


def audit_reply(audit: Audit, asked: Asked[AuditRequest]) -> Json:
    """The audit as an object."""
    return parsed(audit_pieces(audit, asked))


def thread_reply(thread: Thread, asked: Asked[ResolveRequest]) -> Json:
    """The thread as an object."""
    return parsed(thread_pieces(thread, asked))


def drill_reply(reply: DrillReply, asked: Asked[DrillRecommendation]) -> Json:
    """The choice of a drill as an object."""
    return parsed(drill_pieces(reply, asked))


def tap_reply(reply: TapReply, asked: Asked[TapRecommendation]) -> Json:
    """The choice of a tap as an object."""
    return parsed(tap_pieces(reply, asked))


def allowance_reply(reply: AllowanceReply, asked: Asked[AllowanceRequest]) -> Json:
    """The allowance as an object."""
    return parsed(allowance_pieces(reply, asked))


def decode_reply(marking: TapMarking, asked: Asked[DecodeRequest]) -> Json:
    """The marking as an object."""
    return parsed(decode_pieces(marking, asked))


def parsed(reply: Pieces) -> Json:
    """A reply as an object: for whoever makes another form of it."""
    return cast("Json", orjson.loads(b"".join(reply)))


def _of_thread(
    schema: type[Reply], reply: DrillReply | TapReply | AllowanceReply, allowance: Allowance | None, asked: Asked[Any]
) -> Pieces:
    """A reply whose own section is about a thread, and perhaps its finish, that it does not show."""
    before = [SectionNotes(reply.thread.notes, "thread.")]
    if allowance is not None:
        before.append(SectionNotes(allowance.notes, "finish."))
    figures = view(reply.thread.unit, asked.unit)
    return pieces(reply_texts(schema, reply, figures, before=before, after=_own(reply.notes), explain=asked.explain))


def _own(notes: Notes) -> Iterable[SectionNotes]:
    """Notes that belong to no section."""
    return (SectionNotes(notes, ""),)
