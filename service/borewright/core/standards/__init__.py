"""Threads: from a callout to a thread with its limits of size, one folder a family of standards.

A family's ``system`` module has one :class:`~borewright.core.standards.system.System` record a system; :mod:`.systems`
finds it by name.
"""

from __future__ import annotations

from dataclasses import replace

from borewright.core import quantity_text
from borewright.core.caches import OF_THREADS, cached, read_once
from borewright.core.derivation import steps_made_again
from borewright.core.errors import ThreadError
from borewright.core.model import CatalogueEntry, Diameters, Length, Thread, ThreadCallout
from borewright.core.practice import count
from borewright.core.requests import Edition

from . import mates, systems
from .coverage import Coverage
from .systems import traits

#: Longest engagement answered, in diameters.
_LONGEST_DIAMETERS = count("longest_engagement_diameters")


def resolve(callout: ThreadCallout, *, engagement: Length | None = None, edition: Edition | None = None) -> Thread:
    """The thread that a callout means, with its limits of size.

    Args: ``engagement`` length of engagement where it is known; it wins over the one of the callout; ``edition`` of
    ASME B1.1, None = the newest that the data allow.
    Returns: one Thread object a callout, kept in a bounded cache.
    Raises: ThreadError when the system's standard does not define the thread, or an edition is asked for of another
    standard.
    """
    return _resolve(callout, engagement, edition)


@cached(OF_THREADS)
@steps_made_again
def _resolve(callout: ThreadCallout, engagement: Length | None, edition: Edition | None) -> Thread:
    length = engagement or callout.engagement
    if length is not None:
        _check_engagement(length, callout)
    return systems.of(callout.system).resolve(callout, length, edition)


def _check_engagement(engagement: Length, callout: ThreadCallout) -> None:
    """Refuse an engagement that no screw has, also where the standard's limits do not depend on it."""
    length, longest = engagement.to(callout.unit), _LONGEST_DIAMETERS * callout.nominal_diameter
    if not (length.is_finite() and 0 < length <= longest):
        raise ThreadError(
            "engagement_out_of_range",
            f"a length of engagement of {quantity_text.length(length, callout.unit)} is not above 0 and at most"
            f" {_LONGEST_DIAMETERS} diameters ({quantity_text.length(longest, callout.unit)})",
            pointer="/length_of_engagement",
            allowed=(f"above 0 to {quantity_text.length(longest, callout.unit)}",),
        )


@cached(32)
def external_limits(thread: Thread, *, thread_class: str) -> Diameters | None:
    """Limits of the external thread of ``thread_class`` that goes into ``thread``, in its unit, None where they are not
    held.

    Raises: ThreadError ``thread_class_unknown`` when the system has no such external class, ``thread_mate_excluded``
    when it may not be mated with the internal class, ``thread_cell_undefined``, ``thread_data_missing``.
    """
    if thread_class == thread.mating_class and thread.external is not None:
        return thread.external
    mate = systems.of(thread.system).mate
    if mate is None:
        raise mates.no_class(thread, thread_class)
    try:
        return mate(thread, thread_class)
    except ThreadError as error:
        error.faults = tuple(replace(fault, pointer=mates.POINTER) for fault in error.faults)
        raise


@read_once
def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every standard size of every system, in the order of the systems."""
    return tuple(entry for system in systems.every() for entry in system.catalogue())


@read_once
def coverages() -> tuple[Coverage, ...]:
    """One row a system: document, edition, what is covered and what is not, status of each table."""
    return tuple(system.coverage() for system in systems.every())


__all__ = ["Coverage", "catalogue", "coverages", "external_limits", "resolve", "traits"]
