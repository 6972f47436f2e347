"""The same size and pitch in another class, for what would fit instead."""

from __future__ import annotations

from dataclasses import replace

from borewright.core import standards
from borewright.core.caches import cached
from borewright.core.errors import BorewrightError
from borewright.core.model import Thread
from borewright.core.standards.unified.thread import edition_of


def resolve(thread: Thread, wanted: str) -> Thread:
    """The thread of the same callout in class ``wanted``, at its standard engagement.

    Raises:
        BorewrightError: the standard has no such class for the size.
    """
    other = replace(thread.callout, thread_class=wanted, engagement=None, extra=_without_mate(thread), assumptions=())
    return standards.resolve(other, edition=edition_of(thread))


def _without_mate(thread: Thread) -> tuple[tuple[str, object], ...]:
    """What else the callout holds: the class of the screw that was written goes with the class of the hole."""
    return tuple(item for item in thread.callout.extra if item[0] != "mating_class")


@cached(16)
def looser(thread: Thread) -> tuple[Thread, ...]:
    """The same thread in the classes that leave more room, tightest first; empty where the system has none."""
    found = []
    for wanted in standards.traits(thread).looser_classes(thread.thread_class or ""):
        try:
            found.append(resolve(thread, wanted))
        except BorewrightError:
            continue
    return tuple(found)
