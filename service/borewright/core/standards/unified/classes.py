"""Classes of Unified threads: which are internal, which mate, what leaving the class out means."""

from __future__ import annotations

from borewright.core.errors import ThreadError, nearest, shortened
from borewright.core.model import ThreadCallout

INTERNAL = ("1B", "2B", "3B")
EXTERNAL = ("1A", "2A", "3A")

_LOOSER = {"3B": ("2B", "1B"), "2B": ("1B",)}


def looser(thread_class: str) -> tuple[str, ...]:
    """Internal UN classes that leave more room than ``thread_class``, tightest first. Source: ASME B1.1 section 4."""
    return _LOOSER.get(thread_class, ())


def looser_j(thread_class: str) -> tuple[str, ...]:
    """Internal UNJ classes that leave more room than ``thread_class``. Source: ASME B1.15 (classes 2B and 3B)."""
    return ("2B",) if thread_class == "3B" else ()


def mating_class_of(callout: ThreadCallout, thread_class: str) -> str:
    """External class that ``callout`` has beside ``thread_class``, else the one of the same number (2B takes 2A)."""
    written = dict(callout.extra).get("mating_class")
    return written if isinstance(written, str) else f"{thread_class[0]}A"


def external_class(thread_class: str) -> str:
    """External class ``thread_class`` in the standard's spelling. Raises ThreadError ``thread_class_unknown``. Source:
    ASME B1.1 4.
    """
    folded = thread_class.upper()
    if folded not in EXTERNAL:
        raise ThreadError(
            "thread_class_unknown",
            f"a Unified external thread has no class {shortened(thread_class)!r}",
            pointer="/mating_screw/class",
            allowed=EXTERNAL,
            did_you_mean=nearest(folded, EXTERNAL),
        )
    return folded
