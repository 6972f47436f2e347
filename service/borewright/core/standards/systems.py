"""Every thread system that is held, by name. The modules of a family are imported when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.errors import ThreadError, nearest, shortened
from borewright.core.model import Thread

from .system import System, Traits


def _unified() -> tuple[System, ...]:
    from borewright.core.standards.unified.system import SYSTEMS

    return SYSTEMS


def _metric() -> tuple[System, ...]:
    from borewright.core.standards.metric.system import SYSTEMS

    return SYSTEMS


def _pipe() -> tuple[System, ...]:
    from borewright.core.standards.pipe.system import SYSTEMS

    return SYSTEMS


def _whitworth() -> tuple[System, ...]:
    from borewright.core.standards.whitworth.system import SYSTEMS

    return SYSTEMS


def _british_association() -> tuple[System, ...]:
    from borewright.core.standards.british_association.system import SYSTEMS

    return SYSTEMS


def _acme() -> tuple[System, ...]:
    from borewright.core.standards.acme.system import SYSTEMS

    return SYSTEMS


def _trapezoidal() -> tuple[System, ...]:
    from borewright.core.standards.trapezoidal.system import SYSTEMS

    return SYSTEMS


def _insert() -> tuple[System, ...]:
    from borewright.core.standards.insert.system import SYSTEMS

    return SYSTEMS


def _square() -> tuple[System, ...]:
    from borewright.core.standards.square.system import SYSTEMS

    return SYSTEMS


def _miniature() -> tuple[System, ...]:
    from borewright.core.standards.miniature.system import SYSTEMS

    return SYSTEMS


#: System -> its family, in the order of the catalogue.
_FAMILIES: Mapping[str, Callable[[], tuple[System, ...]]] = MappingProxyType(
    {
        **dict.fromkeys(("unified", "unified_j"), _unified),
        **dict.fromkeys(("iso_metric", "metric_j"), _metric),
        **dict.fromkeys(("npt", "nptf", "npsm", "npsc", "npsf", "npsi", "iso_7", "iso_228"), _pipe),
        "whitworth": _whitworth,
        "british_association": _british_association,
        **dict.fromkeys(("acme", "stub_acme"), _acme),
        "trapezoidal": _trapezoidal,
        **dict.fromkeys(("insert_unified", "insert_metric"), _insert),
        "square": _square,
        "unified_miniature": _miniature,
    }
)
#: Names of all systems.
NAMES: tuple[str, ...] = tuple(_FAMILIES)


@read_once
def of(name: str) -> System:
    """The record of the system ``name``. Raises ThreadError ``thread_system_unknown``, pointer ``/thread/system``."""
    family = _FAMILIES.get(name)
    if family is None:
        raise ThreadError(
            "thread_system_unknown",
            f"{shortened(name)!r} is not a thread system.",
            pointer="/thread/system",
            allowed=NAMES,
            did_you_mean=nearest(name, NAMES),
        )
    return next(system for system in family() if system.name == name)


def every() -> Iterator[System]:
    """The record of every system, in the order of the catalogue."""
    return (of(name) for name in NAMES)


def traits(thread: Thread) -> Traits:
    """What other subjects ask of a thread's system."""
    return of(thread.system).traits
