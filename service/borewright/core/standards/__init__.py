"""Threads: from a callout to a thread with its limits of size, one module a family of standards.

A family module has ``SYSTEMS`` (the systems it knows), ``resolve(callout, engagement)``, ``catalogue()`` (its standard
sizes) and ``coverage()`` (document, edition, what is covered). Modules are imported when first asked for.
"""

from __future__ import annotations

from dataclasses import replace
from importlib import import_module
from typing import Protocol, cast

from borewright.core import quantity_text
from borewright.core.caches import cached, read_once
from borewright.core.errors import ThreadError, nearest
from borewright.core.model import CatalogueEntry, Diameters, Length, Thread, ThreadCallout
from borewright.core.requests import Edition

from . import mates
from .coverage import Coverage
from .unified import thread as unified

_CACHED = 4096
#: Longest engagement answered, in diameters: past it the question is taken for a slip (our own limit).
_LONGEST_DIAMETERS = 10

#: System -> module of this folder.
MODULES: dict[str, str] = {
    "unified": "unified.thread",
    "unified_j": "unified.unj",
    "iso_metric": "metric.thread",
    "metric_j": "metric.mj",
    "npt": "pipe.american_taper",
    "nptf": "pipe.american_taper",
    "npsm": "pipe.american_straight",
    "npsc": "pipe.american_straight",
    "npsf": "pipe.american_straight",
    "npsi": "pipe.american_straight",
    "iso_7": "pipe.iso_7",
    "iso_228": "pipe.iso_228",
    "whitworth": "whitworth.thread",
    "british_association": "british_association.thread",
    "acme": "acme.thread",
    "stub_acme": "acme.thread",
    "trapezoidal": "trapezoidal.thread",
    "insert_unified": "insert.thread",
    "insert_metric": "insert.thread",
    "square": "square.thread",
    "unified_miniature": "miniature.thread",
}


class Family(Protocol):
    """What every family module offers."""

    SYSTEMS: tuple[str, ...]

    def resolve(self, callout: ThreadCallout, engagement: Length | None) -> Thread:
        """The thread of a callout of one of ``SYSTEMS``."""

    def catalogue(self) -> tuple[CatalogueEntry, ...]:
        """Every standard size of the family."""

    def coverage(self) -> tuple[Coverage, ...]:
        """One row a system of the family."""


def resolve(callout: ThreadCallout, *, engagement: Length | None = None, edition: Edition | None = None) -> Thread:
    """The thread that a callout means, with its limits of size.

    Args: ``engagement`` length of engagement where it is known; it wins over the one of the callout; ``edition`` of
    ASME B1.1, None = the newest that the data allow.
    Returns: one Thread object a callout, kept in a bounded cache.
    Raises: ThreadError when the system's standard does not define the thread, or an edition is asked for of another
    standard.
    """
    return _resolve(callout, engagement, edition)


@cached(_CACHED)
def _resolve(callout: ThreadCallout, engagement: Length | None, edition: Edition | None) -> Thread:
    length = engagement or callout.engagement
    if callout.system == "unified":
        return unified.resolve(callout, length, edition)
    if edition is not None:
        raise ThreadError(
            "thread_field_unexpected",
            f"an edition is that of ASME B1.1 and is asked for of Unified threads (UNC, UNF, UN, UNS) only, not of"
            f" {callout.system}",
            pointer="/edition",
        )
    found = _family(callout.system).resolve(callout, length)
    _engaged(found, length)
    return found


def _engaged(thread: Thread, length: Length | None) -> None:
    """Refuse an engagement that no screw has, also where the standard's limits do not depend on it."""
    longest = _LONGEST_DIAMETERS * thread.nominal_diameter
    if length is not None and not 0 < length.to(thread.unit) <= longest:
        raise ThreadError(
            "engagement_out_of_range",
            f"a length of engagement of {quantity_text.length(length.to(thread.unit), thread.unit)} is not above 0 and"
            f" at most {_LONGEST_DIAMETERS} diameters ({quantity_text.length(longest, thread.unit)})",
            pointer="/length_of_engagement",
            allowed=(f"above 0 to {quantity_text.length(longest, thread.unit)}",),
        )


@cached(_CACHED)
def external_limits(thread: Thread, *, thread_class: str) -> Diameters | None:
    """Limits of the external thread of a class that goes into ``thread``, None where they are not held.

    Raises: ThreadError ``thread_class_unknown`` when the system has no such external class, ``thread_mate_excluded``
    when it may not be mated with the internal class, ``thread_cell_undefined``, ``thread_data_missing``.
    """
    if thread_class == thread.mating_class and thread.external is not None:
        return thread.external
    mate = getattr(_family(thread.system), "external_limits", None)
    if mate is None:
        mates.named(thread, thread_class)
        return None
    try:
        return cast("Diameters | None", mate(thread, thread_class))
    except ThreadError as error:
        error.faults = tuple(replace(fault, pointer=mates.POINTER) for fault in error.faults)
        raise


@read_once
def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every standard size of every system, in the order of the systems."""
    return tuple(entry for module in dict.fromkeys(MODULES.values()) for entry in _module(module).catalogue())


@read_once
def systems() -> tuple[Coverage, ...]:
    """One row a system: document, edition, what is covered and what is not, status of each table."""
    return tuple(row for module in dict.fromkeys(MODULES.values()) for row in _module(module).coverage())


def _family(system: str) -> Family:
    module = MODULES.get(system)
    if module is None:
        raise ThreadError(
            "thread_system_unknown",
            f"no thread system {system[:40]!r} is held",
            pointer="/thread/system",
            allowed=MODULES,
            did_you_mean=nearest(system, MODULES),
        )
    return _module(module)


@read_once
def _module(name: str) -> Family:
    return cast(Family, import_module(f"{__name__}.{name}"))


__all__ = ["Coverage", "catalogue", "external_limits", "resolve", "systems"]
