"""The same size and pitch in another class, for what would fit instead."""

from __future__ import annotations

from borewright.core import callout, standards
from borewright.core.caches import cached
from borewright.core.errors import BorewrightError
from borewright.core.model import Thread
from borewright.core.standards.unified.thread import edition_of


def resolve(thread: Thread, wanted: str) -> Thread:
    """The thread of the same designation in class ``wanted``.

    Raises:
        BorewrightError: the standard has no such class for the size.
    """
    own = thread.thread_class or ""
    other = callout.read(thread.designation.replace(f"-{own}", f"-{wanted}", 1))
    return standards.resolve(other, edition=edition_of(thread))


@cached(1024)
def looser(thread: Thread) -> tuple[Thread, ...]:
    """The same thread in the classes that leave more room, tightest first; empty where the system has none."""
    found = []
    for wanted in standards.traits(thread).looser_classes(thread.thread_class or ""):
        try:
            found.append(resolve(thread, wanted))
        except BorewrightError:
            continue
    return tuple(found)
