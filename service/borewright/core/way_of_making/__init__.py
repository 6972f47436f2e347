"""How a thread is made, decided before its tools: by hardness, engagement and size.

Drill and tap is the usual way; a hard part is thread-milled or threaded before it is hardened, a large thread is milled
or single-pointed, and a wall that holds no full turn is not threaded at all.
"""

from __future__ import annotations

from dataclasses import replace

from borewright.core.model import Material, Notes, Source, Thread
from borewright.core.model.decision import Decision

from .doubt import doubts
from .hardness_for_tapping import by_hardness
from .size import by_size, is_large, large_threading
from .wall import by_engagement
from .ways import MakingQuestion, Threading, Way, threshold_source

_SOURCE = threshold_source("review", "hardness, size and engagement")


def decide(thread: Thread, asked: MakingQuestion) -> Way:
    """How ``thread`` is made for what is ``asked``, with what is left to a person in its notes.

    Source: thresholds of way_of_making (common practice).
    """
    way, hard = by_hardness(thread, asked.material)
    doubtful, large = doubts(thread, asked), by_size(thread, has_tap=asked.has_tap)
    short = () if any(one.blocks for one in doubtful) else by_engagement(thread, asked)
    found = (*hard, *short, *large, *doubtful)
    threading: Threading | None = way.threading
    if any(one.blocks for one in (*short, *doubtful)):
        threading = None
    elif threading is not None and is_large(thread) and not asked.has_tap:
        threading = large_threading(thread)
    sources: tuple[Source, ...] = (_SOURCE,) if found else ()
    return replace(way, threading=threading, notes=Notes(sources=sources, decisions=found))


def against_tapping(thread: Thread, material: Material | None) -> tuple[Decision, ...]:
    """What hardness of ``material`` and size of ``thread`` say against drill and tap, whatever the hole.

    Source: thresholds of way_of_making (common practice).
    """
    _, hard = by_hardness(thread, material)
    return (*hard, *by_size(thread, has_tap=False))


def as_tapped(way: Way) -> Way:
    """The ``way`` with drill and tap planned whatever it says: what an audit holds a planned tap against.

    Source: none.
    """
    return replace(way, threading="tap")


__all__ = ["MakingQuestion", "Threading", "Way", "against_tapping", "as_tapped", "decide"]
