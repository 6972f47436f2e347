"""What must hold for every catalogued Unified and metric thread in every class."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.model import CatalogueEntry, Length, Thread
from every import every
from hypothesis import given
from hypothesis import strategies as st

FAMILIES = {"unified", "unified_j", "iso_metric", "metric_j"}
ENTRIES = [entry for entry in standards.catalogue() if entry.system in FAMILIES]


def in_class(entry: CatalogueEntry, thread_class: str) -> Thread:
    text = entry.designation
    written = next((known for known in entry.classes if text.endswith("-" + known)), None)
    bare = text.removesuffix("-" + written) if written else text
    return standards.resolve(callout.read(f"{bare}-{thread_class}"))


@every("entry", ENTRIES, ids=lambda entry: entry.designation)
def test_limits_are_in_order(entry):
    for thread_class in entry.classes:
        found = in_class(entry, thread_class)
        inside = found.internal
        assert inside.minor_diameter.min <= inside.minor_diameter.max
        assert inside.pitch_diameter.min < inside.pitch_diameter.max
        assert inside.minor_diameter.min < inside.pitch_diameter.min < inside.major_diameter.min
        outside = found.external
        assert outside.pitch_diameter.min < outside.pitch_diameter.max
        assert outside.pitch_diameter.max <= inside.pitch_diameter.min, "the mate must enter"
        assert outside.major_diameter.max <= inside.major_diameter.min


@every("entry", [e for e in ENTRIES if e.system == "unified" and "3B" in e.classes], ids=lambda e: e.designation)
def test_tolerance_grows_with_looser_class(entry):
    widths = [
        in_class(entry, name).internal.pitch_diameter.width for name in ("3B", "2B", "1B") if name in entry.classes
    ]
    assert widths == sorted(widths)
    assert widths[0] < widths[-1]


@given(st.sampled_from([e for e in ENTRIES if e.system == "iso_metric"]), st.sampled_from("45678"))
def test_metric_grade_is_defined_or_refused(entry, grade):
    try:
        found = in_class(entry, f"{grade}H")
    except BorewrightError as refused:
        assert refused.code == "thread_cell_undefined"
        assert f"{grade}H" not in entry.classes
        assert refused.faults[0].allowed or refused.faults[0].did_you_mean
    else:
        assert found.internal.pitch_diameter.width > 0


@pytest.mark.parametrize("text", ["M1.6x0.2-6H", "M1x0.2-5H", "M2x0.25-6H", "M30x1-8H", "M8x0.5-6H"])
def test_cells_that_do_not_exist(text):
    """ISO 965-1: grade 4 at pitch 0.2, 4 and 5 at 0.25, no 8 at pitch 1 over 22.4 to 45 mm, no pitch 0.5 above 5.6."""
    with pytest.raises(BorewrightError) as caught:
        standards.resolve(callout.read(text))
    assert caught.value.code in {"thread_cell_undefined", "thread_pitch_unknown"}


@given(st.decimals("0.01", "3", places=3))
def test_engagement_never_tightens(engagement):
    """FED-STD-H28/2B 5.4: beyond the standard length the pitch-diameter tolerance grows, it never shrinks."""
    plain = standards.resolve(callout.read("3/4-16 UNF-2B"))
    try:
        given_ = standards.resolve(callout.read("3/4-16 UNF-2B"), engagement=Length(engagement, "in"))
    except BorewrightError as refused:
        assert refused.code == "engagement_out_of_range"
        return
    assert given_.internal.pitch_diameter.max >= plain.internal.pitch_diameter.max
    assert given_.internal.pitch_diameter.min == plain.internal.pitch_diameter.min
    if engagement <= Decimal("1.125"):
        assert given_.internal.pitch_diameter == plain.internal.pitch_diameter


def test_galvanized_threads_never_mate_with_undersize_screws():
    """Scope of ISO 965-5: a 6AZ or 6AX nut never takes a 6az bolt."""
    for text in ("M12-6AZ", "M12-6AX"):
        found = standards.resolve(callout.read(text))
        assert found.mating_class == "6g"
        with pytest.raises(BorewrightError):
            standards.external_limits(found, thread_class="6az")
    with pytest.raises(BorewrightError):
        standards.resolve(callout.read("M8x1-6AZ"))  # coarse only


def test_sizes_past_the_table_are_refused():
    for text in ("#13-24 UNC", "7-4 UN-2B", "M1001x6", "M0.9", "1/2-100 UN"):
        with pytest.raises(BorewrightError):
            standards.resolve(callout.read(text))
