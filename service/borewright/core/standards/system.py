"""The record of a thread system: how it is read and resolved, what it lists, and the traits that others ask for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, NamedTuple

from borewright.core.errors import ThreadError
from borewright.core.model import CatalogueEntry, Diameters, Length, Thread, ThreadCallout, Unit
from borewright.core.requests import Edition

from .coverage import Coverage

if TYPE_CHECKING:  # the callout's front asks for the systems
    from borewright.core.callout.thread_as_written import Written
    from borewright.core.callout.vocabulary import Word

Resolve = Callable[[ThreadCallout, Length | None, Edition | None], Thread]
#: Limits of the screw of a class, None where the class exists and its limits are not held; it refuses other classes.
Mate = Callable[[Thread, str], Diameters | None]


def _no_series(system: str) -> tuple[str, ...]:
    return ()


class Reader(NamedTuple):
    """How a callout of the system is read.

    ``parse`` takes its text apart, ``settle`` judges what was written and is the only judge of it; ``unit`` is that of
    the system's standard, None where the callout states it; ``series`` names the series of a system.
    """

    parse: Callable[[str, Word, Written], None]
    settle: Callable[[str, Written], ThreadCallout]
    unit: Unit | None
    series: Callable[[str], tuple[str, ...]] = _no_series


def _no_classes(thread_class: str) -> tuple[str, ...]:
    return ()


@dataclass(frozen=True, slots=True)
class Traits:
    """What other subjects ask of a system; each default is that of a system which their tables do not cover."""

    #: Whether its size is that of a bore.
    is_pipe: bool = False
    #: Whose lengths and taps its taper threads have.
    taper_pipe: Literal["american", "iso"] | None = None
    #: Class of general use, of whose tolerance the oversize of a tap is a share.
    general_class: Literal["2B", "6H"] | None = None
    #: Tables in which the limits of its taps stand.
    tap_limits: Literal["inch", "metric", "insert"] | None = None
    #: Internal classes that a tap of it is tried for.
    tap_classes: tuple[str, ...] = ()
    #: Name of the system whose taps cut it too.
    taps_of: str | None = None
    #: Letters of the thread whose J form it is.
    j_form_of: Literal["UN", "M"] | None = None
    #: What is etched on its taps after the size, None = the designation as it is.
    etched: Literal["threads_per_inch", "pitch"] | None = None
    #: Series etched on its taps, None = that of the thread.
    etched_series: str | None = None
    #: Standard of its thread plug gauges.
    gauges: Literal["asme", "iso"] | None = None
    #: Standard that has a rule for its coated threads.
    coated: Literal["asme_b1_1", "iso_965"] | None = None
    #: Standard that has an oversize for hot-dip zinc.
    overtap: Literal["astm_a563", "iso_965_5"] | None = None
    #: Document that recommends holes by length of engagement.
    hole_limits: Literal["fed_std_h28", "asme_b1_10"] | None = None
    #: Whether drill charts on the walls of inch shops list it.
    wall_chart: bool = False
    #: Table of the lengths of its taps.
    tap_lengths: Literal["inch", "coarse_metric"] | None = None
    #: Internal classes that leave more room than a class, tightest first.
    looser_classes: Callable[[str], tuple[str, ...]] = field(default=_no_classes)


@dataclass(frozen=True, slots=True)
class System:
    """A thread system. ``mate`` is None where its standard names no class of the external thread."""

    name: str
    reader: Reader
    resolve: Resolve
    mate: Mate | None
    catalogue: Callable[[], tuple[CatalogueEntry, ...]]
    coverage: Callable[[], Coverage]
    traits: Traits


def one_edition(name: str, resolve: Callable[[ThreadCallout, Length | None], Thread]) -> Resolve:
    """The resolver ``resolve`` of the system ``name`` whose standard is held in one edition: to ask for an edition is
    refused.

    Raises: the resolver raises ThreadError ``thread_field_unexpected``, pointer ``/edition``.
    """

    def resolved(callout: ThreadCallout, engagement: Length | None, edition: Edition | None) -> Thread:
        if edition is not None:
            raise ThreadError(
                "thread_field_unexpected",
                f"an edition is that of ASME B1.1 and is asked for of Unified threads (UNC, UNF, UN, UNS) only, not of"
                f" {name}",
                pointer="/edition",
            )
        return resolve(callout, engagement)

    return resolved
