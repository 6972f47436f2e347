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
    for wanted in _wanted(thread):
        try:
            found.append(resolve(thread, wanted))
        except BorewrightError:
            continue
    return tuple(found)


def _wanted(thread: Thread) -> tuple[str, ...]:
    own = thread.thread_class or ""
    if thread.system in ("unified", "unified_j"):
        return {"3B": ("2B", "1B"), "2B": ("1B",)}.get(own, ())
    if thread.system != "iso_metric" or not own[:1].isdigit():
        return ()
    grade = int(own[0])
    position_h = tuple(f"{number}H" for number in range(grade + 1, 9)) if own.endswith("H") else ()
    position_g = (f"{grade}G",) if own.endswith("H") else ()
    return (*position_g, *position_h)
