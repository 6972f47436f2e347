"""Classes of the screw in systems whose external limits are not held: a class that the standard lacks is refused."""

from __future__ import annotations

from borewright.core.errors import ThreadError, nearest
from borewright.core.model import Thread
from borewright.core.standards.unified.classes import EXTERNAL, external_class

from .metric import tolerance as metric_tolerance

POINTER = "/mating_screw/class"

#: External classes by system: BS 84 (close, medium, free), BS 93, ISO 2903, ASME B1.8; an insert takes the screw of
#: its nominal thread.
_NAMED: dict[str, tuple[str, ...]] = {
    "whitworth": ("close", "medium", "free"),
    "british_association": ("close", "normal"),
    "trapezoidal": ("7e", "8e", "8c", "9c"),
    "stub_acme": ("2G",),
    "insert_unified": EXTERNAL,
}


def named(thread: Thread, thread_class: str) -> None:
    """Refuse a class of screw that the thread's standard does not have.

    Raises: ThreadError ``thread_class_unknown``, ``thread_data_missing``.
    Source: the standards named above (classes from memory).
    """
    if thread.system == "insert_unified":
        external_class(thread_class)
        return
    if thread.system == "insert_metric":
        metric_tolerance.external_class(thread_class, POINTER)
        return
    known = _NAMED.get(thread.system, ())
    if thread_class.casefold() not in {name.casefold() for name in known}:
        raise ThreadError(
            "thread_class_unknown",
            f"{thread.designation} takes no screw of class {thread_class[:20]!r}"
            + ("" if known else ": its standard names no class of the external thread"),
            pointer=POINTER,
            allowed=known,
            did_you_mean=nearest(thread_class, known),
        )
