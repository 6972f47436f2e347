"""The records of ISO metric threads M and MJ."""

from __future__ import annotations

from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, classes, mj, thread

_READER = Reader(callout.parse, callout.settle, "mm", callout.known_series)

SYSTEMS = (
    System(
        "iso_metric",
        reader=_READER,
        resolve=one_edition("iso_metric", thread.resolve),
        mate=thread.external_limits,
        catalogue=thread.catalogue,
        coverage=thread.coverage,
        traits=Traits(
            general_class="6H",
            tap_limits="metric",
            tap_classes=("4H", "5H", "6H", "7H", "8H", "6G"),
            etched="pitch",
            gauges="iso",
            coated="iso_965",
            overtap="iso_965_5",
            tap_lengths="coarse_metric",
            looser_classes=classes.looser,
        ),
    ),
    System(
        "metric_j",
        reader=_READER,
        resolve=one_edition("metric_j", mj.resolve),
        mate=mj.external_limits,
        catalogue=mj.catalogue,
        coverage=mj.coverage,
        traits=Traits(
            general_class="6H",
            tap_limits="metric",
            tap_classes=mj.CLASSES,
            taps_of="iso_metric",
            j_form_of="M",
            etched="pitch",
            gauges="iso",
        ),
    ),
)
