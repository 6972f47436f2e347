"""The records of Acme and stub Acme threads; the class of the stub screw is that of ASME B1.8 (from memory)."""

from __future__ import annotations

from functools import partial

from borewright.core.standards import mates
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, thread
from .limits import B1_5, B1_8

_READER = Reader(callout.parse, callout.settle, "in")


def _acme_coverage() -> Coverage:
    return Coverage(
        "acme",
        B1_5.document,
        B1_5.edition,
        covers="1/4 to 5, classes 2G, 3G, 4G, special pairs and several starts; 2G mate",
        does_not_cover="centralizing classes 2C to 4C; external pitch diameter of 3G, 4G; multi-start tolerances",
        tables=tables_of("acme", "tap_drill_acme"),
    )


def _stub_acme_coverage() -> Coverage:
    return Coverage(
        "stub_acme",
        B1_8.document,
        B1_8.edition,
        covers="class 2G, height 0.3 P, on the diameters and pitches of general purpose Acme threads",
        does_not_cover="the standard's own size list; external limits",
        tables=tables_of("acme"),
    )


SYSTEMS = (
    System(
        "acme",
        reader=_READER,
        resolve=one_edition("acme", thread.resolve),
        mate=thread.external_limits,
        catalogue=partial(thread.catalogue, "acme"),
        coverage=_acme_coverage,
        traits=Traits(),
    ),
    System(
        "stub_acme",
        reader=_READER,
        resolve=one_edition("stub_acme", thread.resolve),
        mate=mates.without_limits("2G"),
        catalogue=partial(thread.catalogue, "stub_acme"),
        coverage=_stub_acme_coverage,
        traits=Traits(),
    ),
)
