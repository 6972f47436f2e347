"""Hole notes as a drawing prints them."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed
from borewright.api.request_body import read_request

blueprint = Blueprint("notes", __name__, url_prefix="/v1/notes")


@blueprint.post("/read")
def read_note() -> Response:
    """The holes of a note as requests, what is asked back and what was not read; nothing is stored."""
    from borewright.contract.note_reply import note_pieces  # the first hole does without
    from borewright.contract.requests.note import NOTE
    from borewright.core.notes import read

    asked = NOTE.asked(read_request())
    return computed(note_pieces(read(asked.request.request), asked))
