"""The records of Unified threads UN and UNJ."""

from __future__ import annotations

from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, classes, thread, unj

_READER = Reader(callout.parse, callout.settle, "in", callout.known_series)

SYSTEMS = (
    System(
        "unified",
        reader=_READER,
        resolve=thread.resolve,
        mate=thread.external_limits,
        catalogue=thread.catalogue,
        coverage=thread.coverage,
        traits=Traits(
            general_class="2B",
            tap_limits="inch",
            tap_classes=classes.INTERNAL,
            etched="threads_per_inch",
            gauges="asme",
            coated="asme_b1_1",
            overtap="astm_a563",
            hole_limits="fed_std_h28",
            wall_chart=True,
            tap_lengths="inch",
            looser_classes=classes.looser,
        ),
    ),
    System(
        "unified_j",
        reader=_READER,
        resolve=one_edition("unified_j", unj.resolve),
        mate=unj.external_limits,
        catalogue=unj.catalogue,
        coverage=unj.coverage,
        traits=Traits(
            general_class="2B",
            tap_limits="inch",
            tap_classes=unj.CLASSES,
            taps_of="unified",
            j_form_of="UN",
            etched="threads_per_inch",
            gauges="asme",
            wall_chart=True,
            tap_lengths="inch",
            looser_classes=classes.looser_j,
        ),
    ),
)
