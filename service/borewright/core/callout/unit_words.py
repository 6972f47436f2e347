"""Words of a unit that a callout carries beside its thread (``1/2 in-13 UNC``, ``M8x1.25 mm``): what they go with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from borewright.core.errors import CalloutError
from borewright.core.model import ThreadCallout, Unit
from borewright.core.standards import systems

#: Words by the unit that they say the thread is of.
UNIT_WORDS: Mapping[str, Unit] = {
    "MM": "mm",
    "METRIC": "mm",
    "IN": "in",
    "INCH": "in",
    "INCHES": "in",
    "UNIFIED": "in",
}
#: The word that goes with threads of the other unit: UNM is named unified, and in millimetres.
_OF_MINIATURE = ("UNIFIED", "unified_miniature")
_NAMES: Mapping[Unit, str] = {"in": "inches", "mm": "millimetres"}


def check(found: ThreadCallout, words: Sequence[str], without: str) -> None:
    """Whether the unit ``words`` beside ``found`` go with it; a size of pipe is in inches whatever its standard's unit.

    Args: ``words`` in upper case; the text ``without`` them, ``|`` where two fields would run together.
    Raises: CalloutError ``callout_ambiguous`` where a word is of the other unit.
    """
    unit = "in" if systems.of(found.system).traits.is_pipe else found.unit
    wrong = [word for word in words if UNIT_WORDS[word] != unit and (word, found.system) != _OF_MINIATURE]
    if wrong:
        meant = without.replace("|", " ")
        raise CalloutError(
            "callout_ambiguous",
            f"{wrong[0]} does not go with {meant}, whose size is in {_NAMES[unit]}.",
            did_you_mean=(meant,),
        )
