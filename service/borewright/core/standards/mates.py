"""Classes of the screw in systems whose external limits are not held: a class that the standard lacks is refused."""

from __future__ import annotations

from borewright.core.errors import ThreadError, nearest, shortened
from borewright.core.model import Thread

from .system import Mate

POINTER = "/mating_screw/class"


def without_limits(*classes: str) -> Mate:
    """The mate of a system whose standard names ``classes`` of the screw, and whose limits of it are not held.

    Raises: the mate raises ThreadError ``thread_class_unknown``.
    """
    folded = {name.casefold() for name in classes}

    def mate(thread: Thread, thread_class: str) -> None:
        if thread_class.casefold() not in folded:
            raise ThreadError(
                "thread_class_unknown",
                f"{thread.designation} takes no screw of class {shortened(thread_class)!r}",
                pointer=POINTER,
                allowed=classes,
                did_you_mean=nearest(thread_class, classes),
            )

    return mate


def no_class(thread: Thread, thread_class: str) -> ThreadError:
    """The refusal of ``thread_class`` of a screw where the thread's standard names none."""
    return ThreadError(
        "thread_class_unknown",
        f"{thread.designation} takes no screw of class {shortened(thread_class)!r}: its standard names no class of the"
        " external thread",
        pointer=POINTER,
    )
