"""`borewright note`: a note as a drawing prints it in, its holes as requests out."""

from __future__ import annotations

import sys
from types import SimpleNamespace

from ..client import Client, Reply
from .command import argument, command, option
from .fields import figure, given
from .options import QUANTITY


@command(
    "note", "holes of a note as a drawing prints it",
    argument("note", "NOTE"),
    option("--general", multiple=True, metavar="NOTE", help="a general note of the drawing; once for each"),
    option("--material", help="part material of the holes, e.g. 4140 or 6061-T6"),
    option("--thickness", metavar="LENGTH", help=f"thickness of the part for through holes: {QUANTITY}"),
    examples=('"4X Ø.201 THRU / 1/4-20 UNC-2B ↧.50"', '"4x M8 - 16 tief, Kernloch Ø6,8 - 20 tief" --json',
              '"1/4-20 UNC THRU" --general "ALL THREADS CLASS 3B UNLESS OTHERWISE SPECIFIED"'),
    more="NOTE is the note with its lines as they are; - reads it from standard input.\n",
)  # fmt: skip
def note(client: Client, options: SimpleNamespace) -> Reply:
    """The holes of a note, what is asked back, what was not read."""
    text = sys.stdin.read() if options.note == "-" else options.note
    hole = given({"thickness": figure(options.thickness)})
    defaults = given({"material": options.material, "hole": hole or None})
    asked = {"general_notes": [*options.general] or None, "defaults": defaults or None,
             "unit_system": options.unit_system}  # fmt: skip
    return client.read_note(text, **given(asked))
