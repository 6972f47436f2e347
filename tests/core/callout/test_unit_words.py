"""A unit word beside a thread goes with it or is refused: no callout is of two units."""

from __future__ import annotations

import pytest
from borewright.core import callout
from borewright.core.errors import CalloutError
from every import every


@every(
    ("text", "system", "size"),
    [
        ("1/2 in-13 UNC-2B", "unified", "1/2"),
        ("1/2-13 UNIFIED", "unified", "1/2"),
        ("1/2 inch NPT", "npt", "1/2"),
        # the standards of these pipe threads are in millimetres, their sizes in inches
        ("G 1/2 in", "iso_228", "1/2"),
        ("Rc 1/2 INCH", "iso_7", "1/2"),
        ("M8 x 1.25 mm", "iso_metric", "8"),
        ("METRIC M8", "iso_metric", "8"),
        ("0.80 UNM mm", "unified_miniature", "0.80"),
        ("0.80 UNM UNIFIED", "unified_miniature", "0.80"),
        ("SQUARE 40x7 depth 3.5 mm", "square", "40"),
    ],
)
def test_a_word_of_the_threads_own_unit_says_nothing_new(text, system, size):
    found = callout.read(text)
    assert (found.system, found.size) == (system, size)


@every(
    ("text", "detail", "meant"),
    [
        ("1/2 mm-13 UNC", "MM does not go with 1/2 13 UNC, whose size is in inches.", None),
        ("1/2-13 UNC metric", "METRIC does not go with 1/2-13 UNC, whose size is in inches.", "1/2-13 UNC"),
        ("1/4 mm NPT", "MM does not go with 1/4 NPT, whose size is in inches.", "1/4 NPT"),
        ("G 1/2 mm", "MM does not go with G 1/2, whose size is in inches.", "G 1/2"),
        ("M8x1.25 in", "IN does not go with M8x1.25, whose size is in millimetres.", "M8x1.25"),
        ("M8 inch", "INCH does not go with M8, whose size is in millimetres.", "M8"),
        ("M8 Unified", "UNIFIED does not go with M8, whose size is in millimetres.", "M8"),
        ("0.80 UNM in", "IN does not go with 0.80 UNM, whose size is in millimetres.", "0.80 UNM"),
        ("SQUARE 40x7 depth 3.5 in", "IN does not go with SQUARE 40x7 depth 3.5, whose size is in millimetres.", None),
    ],
)
def test_a_word_of_the_other_unit_is_refused(text, detail, meant):
    with pytest.raises(CalloutError) as refused:
        callout.read(text)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer, fault.detail) == ("callout_ambiguous", "/thread", detail)
    assert meant is None or fault.did_you_mean == (meant,)
