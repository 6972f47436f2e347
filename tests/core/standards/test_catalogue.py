"""What must hold for every standard size of every system in every class."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, drilling, finishing, standards
from borewright.core.drilling import DrillRequest
from borewright.core.model import CatalogueEntry, FinishInput, Length, LengthRange, Thread

ENTRIES = standards.catalogue()
SYSTEMS = sorted({entry.system for entry in ENTRIES})
COAT = FinishInput(thickness=LengthRange(Length(Decimal("0.004"), "mm"), Length(Decimal("0.006"), "mm")))


def every_class(entry: CatalogueEntry) -> list[Thread]:
    """The thread of an entry in each of its classes, through its text and back; each text once."""
    first = standards.resolve(callout.read(entry.designation))
    texts = [entry.designation]
    if first.thread_class:
        texts += [first.designation.replace(first.thread_class, name) for name in entry.classes]
    return [standards.resolve(callout.read(text)) for text in dict.fromkeys(texts)]


@pytest.mark.parametrize("system", SYSTEMS)
def test_text_to_thread_to_text(system):
    """A catalogued thread is what its own text means, in size and pitch, and its limits are in order in every class."""
    for entry in ENTRIES:
        if entry.system == system:
            meant = standards.resolve(callout.read(entry.designation))
            for name in ("series", "size", "unit", "nominal_diameter", "pitch", "threads_per_inch"):
                assert getattr(meant, name) == getattr(entry, name), (entry.designation, name)
            for found in every_class(entry):
                again = standards.resolve(callout.read(found.designation))
                assert again.designation == found.designation
                assert again.system == system
                limits_are_in_order(found)
                limits_are_in_order(again)


def limits_are_in_order(found: Thread) -> None:
    """GO <= NOT GO and minor < pitch < major, as far as the standard sets limits."""
    inside = found.internal
    for limits in (inside.major_diameter, inside.pitch_diameter, inside.minor_diameter):
        assert limits.min is None or limits.max is None or limits.min <= limits.max, found.designation
    smallest = [inside.minor_diameter.min, inside.pitch_diameter.min, inside.major_diameter.min]
    known = [size for size in smallest if size is not None]
    assert known == sorted(set(known)), found.designation


@pytest.mark.parametrize("system", SYSTEMS)
def test_drill_is_inside_its_limits_or_the_hole_is_reamed(system):
    """Dryseal straight threads hold no largest minor diameter: their chart's drill holds on average, or cautions."""
    for entry in ENTRIES:
        if entry.system != system:
            continue
        found = standards.resolve(callout.read(entry.designation))
        choice = drilling.recommend(found, DrillRequest())
        best, limits = choice.recommended, choice.minor_diameter
        if best.within_minor_diameter_limits is False:
            assert limits.max is None, entry.designation
            mean_holds = best.expected_hole_diameter is not None and best.expected_hole_diameter >= limits.min
            assert mean_holds or choice.notes.cautions, entry.designation
        elif best.operation == "drill" and found.taper is None:
            assert limits.min is None or limits.min <= best.diameter, entry.designation
            read = (
                round(best.diameter, 3) if found.unit == "in" else best.diameter
            )  # inch limits are read to a thousandth
            assert limits.max is None or min(best.diameter, read) <= limits.max, entry.designation


@pytest.mark.parametrize("system", SYSTEMS)
def test_before_finish_is_inside_finished_plus_change(system):
    """A thread made inside its before-finish limits ends inside the finished ones, whatever the coat does."""
    for entry in ENTRIES:
        if entry.system != system:
            continue
        found = standards.resolve(callout.read(entry.designation))
        allowance = finishing.allow(found, COAT)
        for name in ("pitch_diameter", "minor_diameter"):
            before, finished = getattr(allowance.before_finish, name), getattr(allowance.finished, name)
            change = getattr(allowance.change, name)
            if before.min is not None and finished.min is not None:
                assert before.min + change.min >= finished.min, entry.designation
            if allowance.reading == "asme" and before.max is not None and finished.max is not None:
                assert before.max + change.max <= finished.max, entry.designation
