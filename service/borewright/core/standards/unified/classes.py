"""Classes of Unified threads: which are internal, which mate, what leaving the class out means."""

from __future__ import annotations

from borewright.core.errors import ThreadError, nearest
from borewright.core.model import ThreadCallout

from .case import POINTER

INTERNAL = ("1B", "2B", "3B")
EXTERNAL = ("1A", "2A", "3A")

_LOOSER = {"3B": ("2B", "1B"), "2B": ("1B",)}


def looser(thread_class: str) -> tuple[str, ...]:
    """Internal classes that leave more room than a class, tightest first. Source: ASME B1.1 section 4."""
    return _LOOSER.get(thread_class, ())


def internal_class(
    callout: ThreadCallout, allowed: tuple[str, ...], *, default: str, why: str
) -> tuple[str, tuple[str, ...]]:
    """Class of the callout, or the default with what was assumed.

    Raises: ThreadError ``thread_class_external``, ``thread_class_unknown``. Source: ASME B1.1 sections 4 and 5.
    """
    written = callout.thread_class
    if written is None:
        return default, (f"No class written: {default}, {why}.",)
    folded = written.upper()
    if folded in allowed:
        return folded, ()
    if folded in EXTERNAL:
        raise ThreadError(
            "thread_class_external",
            f"class {folded} is for the external thread; the hole needs an internal one",
            pointer=POINTER,
            allowed=allowed,
            did_you_mean=tuple(name for name in allowed if name[0] == folded[0]),
        )
    raise ThreadError(
        "thread_class_unknown",
        f"this Unified internal thread has no class {written[:20]!r}",
        pointer=POINTER,
        allowed=allowed,
        did_you_mean=nearest(folded, allowed),
    )


def mating_class_of(callout: ThreadCallout, thread_class: str) -> str:
    """External class written beside the internal one, else the one of the same number (2B takes 2A)."""
    written = dict(callout.extra).get("mating_class")
    return written if isinstance(written, str) and written in EXTERNAL else f"{thread_class[0]}A"


def external_class(thread_class: str) -> str:
    """External class in the standard's spelling. Raises ThreadError ``thread_class_unknown``. Source: ASME B1.1 4."""
    folded = thread_class.upper()
    if folded not in EXTERNAL:
        raise ThreadError(
            "thread_class_unknown",
            f"a Unified external thread has no class {thread_class[:20]!r}",
            pointer="/mating_screw/class",
            allowed=EXTERNAL,
            did_you_mean=nearest(folded, EXTERNAL),
        )
    return folded
