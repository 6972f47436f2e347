"""Threads per inch out of a printed pitch: 1/pitch, taken for the count that it rounds, within 0.5 percent."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.callout import from_fields
from borewright.core.callout.inch_thread import threads_per_inch
from borewright.core.callout.thread_as_written import Written
from borewright.core.errors import BorewrightError
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every


@every(
    ("pitch", "known", "count"),
    [
        ("0.05", (), "20"),
        ("0.0625", (), "16"),
        # 1/.0714 = 14.006, 1/.0313 = 31.949, 1/.0156 = 64.10
        ("0.0714", (), "14"),
        ("0.0313", (), "32"),
        ("0.0156", (), "64"),
        # halves: 1/.2222 = 4.5005, 1/.087 = 11.494, 1/.1333 = 7.502
        ("0.2222", (), "4.5"),
        ("0.087", (), "11.5"),
        ("0.1333", (), "7.5"),
        ("0.4", (), "2.5"),
        ("1", (), "1"),
        ("2", (), "0.5"),
        # 1/.3 is 10 percent off 3 and 5 off 3.5; 1/.0503 = 19.881 is 0.6 percent off 20
        ("0.3", (), "3.3333"),
        ("0.0503", (), "19.8807"),
        ("0.0502", (), "20"),
        ("4", (), "0.25"),
        # a count of the standard goes before: 1/.348 = 2.8736 is 0.05 percent off 2 7/8
        ("0.348", ("2.875",), "2.875"),
        ("0.348", (), "2.8736"),
        ("0.05", ("20.05",), "20.05"),
        ("0.05", ("20.2",), "20"),
    ],
)
def test_a_pitch_is_taken_for_the_count_that_it_rounds(pitch, known, count):
    found = threads_per_inch(Written(pitch=Decimal(pitch)), tuple(map(Decimal, known)))
    assert found == Decimal(count)


@every(("written", "count"), [("20", "20"), ("1", "1"), ("0.5", "0.5"), (None, None)])
def test_threads_per_inch_that_are_written_stand(written, count):
    given = None if written is None else Decimal(written)
    assert threads_per_inch(Written(threads_per_inch=given)) == (None if count is None else Decimal(count))


@every(
    ("tpi", "pitch", "code", "pointer"),
    [
        ("0", None, "value_out_of_range", "/threads_per_inch"),
        (None, "0", "value_out_of_range", "/pitch"),
        ("20", "0.0625", "thread_field_unexpected", "/pitch"),
    ],
)
def test_what_cannot_be(tpi, pitch, code, pointer):
    tpi, pitch = (None if one is None else Decimal(one) for one in (tpi, pitch))
    with pytest.raises(BorewrightError) as refused:
        threads_per_inch(Written(threads_per_inch=tpi, pitch=pitch))
    assert (refused.value.code, refused.value.faults[0].pointer) == (code, pointer)


def test_pitch_and_count_may_both_be_written_where_they_agree():
    assert threads_per_inch(Written(threads_per_inch=Decimal(14), pitch=Decimal("0.0714"))) == 14


@every("fields", [{"pitch": Length(Decimal(7), "mm")}, {"pitch": Length(Decimal(7))}, {"threads_per_inch": Decimal(4)}])
def test_a_square_thread_needs_its_depth(fields):
    """No standard defines it, and no field holds the depth: only a callout does."""
    with pytest.raises(BorewrightError) as refused:
        from_fields(ThreadFields("square", "40", **fields))
    assert (refused.value.code, refused.value.faults[0].pointer) == ("thread_field_missing", "/thread/depth")
