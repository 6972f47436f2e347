"""The records of holes for helical coil inserts, inch and metric."""

from __future__ import annotations

from borewright.core.model import Thread
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.metric.tolerance import external_class as metric_external_class
from borewright.core.standards.system import Reader, System, Traits, one_edition
from borewright.core.standards.unified.classes import external_class as unified_external_class

from . import callout, thread


def _inch_mate(installed: Thread, thread_class: str) -> None:
    """The insert takes the screw of its nominal thread, whose limits are not held here."""
    unified_external_class(thread_class)


def _metric_mate(installed: Thread, thread_class: str) -> None:
    """The insert takes the screw of its nominal thread, whose limits are not held here."""
    metric_external_class(thread_class)


def _inch_coverage() -> Coverage:
    return Coverage(
        "insert_unified",
        thread.INCH.document,
        thread.INCH.edition,
        covers="44 threads #1 to 1 1/2, classes 2B and 3B: least diameters, tap limits, full thread depths",
        does_not_cover="greatest pitch and minor diameters, countersink diameters, drill depth codes",
        tables=tables_of("insert_unified", "tap_limits_sti_inch", "tap_drill_insert_unified"),
    )


def _metric_coverage() -> Coverage:
    return Coverage(
        "insert_metric",
        thread.METRIC.document,
        thread.METRIC.edition,
        covers="43 threads M2 to M39, classes 5H and 4H5H: limits, thread depths, drill depths by insert length",
        does_not_cover="countersink diameters; the limits are worked out, not the standard's printed table",
        tables=tables_of("insert_metric", "tap_limits_sti_metric", "tap_drill_insert_metric", "iso965_tolerances"),
    )


SYSTEMS = (
    System(
        "insert_unified",
        reader=Reader(callout.parse, callout.settle, "in", callout.known_series),
        resolve=one_edition("insert_unified", thread.resolve),
        mate=_inch_mate,
        catalogue=thread.inch_catalogue,
        coverage=_inch_coverage,
        traits=Traits(tap_limits="insert", tap_classes=thread.CLASSES["insert_unified"], etched="threads_per_inch"),
    ),
    System(
        "insert_metric",
        reader=Reader(callout.parse, callout.settle, "mm", callout.known_series),
        resolve=one_edition("insert_metric", thread.resolve),
        mate=_metric_mate,
        catalogue=thread.metric_catalogue,
        coverage=_metric_coverage,
        traits=Traits(tap_limits="insert", tap_classes=("4H5H", "5H"), etched="pitch"),
    ),
)
