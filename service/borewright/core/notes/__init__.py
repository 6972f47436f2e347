"""Whole hole notes as a drawing prints them: holes, what is asked back, what was not read."""

from .grammar import grammar
from .model import NoteHole, NoteQuestion, NoteReading, NoteRequest, NoteSpan
from .questions import CODES
from .read import MAX_LENGTH, read

__all__ = [
    "CODES",
    "MAX_LENGTH",
    "NoteHole",
    "NoteQuestion",
    "NoteReading",
    "NoteRequest",
    "NoteSpan",
    "grammar",
    "read",
]
