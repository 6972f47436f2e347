"""Threads: from a callout to a thread with its limits of size, one module a family of standards.

A family module has ``SYSTEMS`` (the systems it knows), ``resolve(callout, engagement)``, ``catalogue()`` (its standard
sizes) and ``coverage()`` (document, edition, what is covered). Modules are imported when first asked for.
"""

from __future__ import annotations

from functools import cache, lru_cache
from importlib import import_module
from typing import Protocol, cast

from borewright.core.errors import ThreadError, nearest
from borewright.core.model import CatalogueEntry, Diameters, Length, Thread, ThreadCallout

from .coverage import Coverage

_CACHED = 4096

#: System -> module of this folder.
MODULES: dict[str, str] = {
    "unified": "unified",
    "unified_j": "unified_j",
    "iso_metric": "metric",
    "metric_j": "metric_j",
    "npt": "pipe_taper",
    "nptf": "pipe_taper",
    "npsm": "pipe_straight",
    "npsc": "pipe_straight",
    "npsf": "pipe_straight",
    "npsi": "pipe_straight",
    "iso_7": "iso_7",
    "iso_228": "pipe_parallel",
    "whitworth": "whitworth",
    "british_association": "british_association",
    "acme": "acme",
    "stub_acme": "acme",
    "trapezoidal": "trapezoidal",
    "insert_unified": "insert",
    "insert_metric": "insert",
    "square": "square",
    "unified_miniature": "miniature",
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


def resolve(callout: ThreadCallout, *, engagement: Length | None = None) -> Thread:
    """The thread that a callout means, with its limits of size.

    Args: ``engagement`` length of engagement where it is known; it wins over the one of the callout.
    Returns: one Thread object a callout, kept in a bounded cache.
    Raises: ThreadError when the system's standard does not define the thread.
    """
    return _resolve(callout, engagement)


@lru_cache(_CACHED)
def _resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    return _family(callout.system).resolve(callout, engagement or callout.engagement)


@lru_cache(_CACHED)
def external_limits(thread: Thread, *, thread_class: str) -> Diameters:
    """Limits of the external thread of a class that goes into ``thread``.

    Raises: ThreadError ``thread_class_unknown`` when the system has no such external class, it may not be mated with
    the internal class, or the system holds no other mate than the one of ``thread.external``.
    """
    if thread_class == thread.mating_class and thread.external is not None:
        return thread.external
    mate = getattr(_family(thread.system), "external_limits", None)
    if mate is None:
        raise ThreadError(
            "thread_class_unknown",
            f"{thread.designation} has no mate of class {thread_class[:20]!r} here",
            pointer="/mating_screw/class",
            allowed=(thread.mating_class,) if thread.mating_class else (),
        )
    return cast(Diameters, mate(thread, thread_class))


@cache
def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every standard size of every system, in the order of the systems."""
    return tuple(entry for module in dict.fromkeys(MODULES.values()) for entry in _module(module).catalogue())


@cache
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


@cache
def _module(name: str) -> Family:
    return cast(Family, import_module(f"{__name__}.{name}"))


__all__ = ["Coverage", "catalogue", "external_limits", "resolve", "systems"]
