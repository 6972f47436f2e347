"""Run-out by the rule of a standard: DIN 76-1 (from memory), BS 1936 (a reference page)."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole import run_out
from borewright.core.model import Hole
from every import every


def extra(text, rule, full):
    return run_out.extra_depth(standards.resolve(callout.read(text)), Hole("blind", run_out=rule), Decimal(full))


@every(
    ("text", "full", "depth"),
    [
        # a quarter below 6 mm (0.190 in are 4.826 mm), a fifth to 12 mm (1/4 in are 6.35 mm), 15 % above (12.7 mm)
        ("#10-24 UNC-2B", "0.4", "0.1"),
        ("1/4-20 UNC-2B", "0.5", "0.1"),
        ("1/2-13 UNC-2B", "1", "0.15"),
        ("M5", "10", "2.5"),
        ("M6", "10", "2"),
        ("M12", "10", "2"),
        ("M14", "10", "1.5"),
    ],
)
def test_bs_1936(text, full, depth):
    assert extra(text, "bs_1936", full) == Decimal(depth)


def test_din_76_1_has_metric_pitches_only():
    """25.4/20 = 1.27 mm, 25.4/13 = 1.9538 mm; 1.5 mm has 7.3 mm of run-out."""
    assert extra("M10", "din_76_1", "20") == Decimal("7.3")
    assert extra("M10", "chamfer", "20") is None
    for text, pitch in (("1/4-20 UNC-2B", "1.27 mm"), ("1/2-13 UNC-2B", "1.9538")):
        with pytest.raises(HoleError) as refused:
            extra(text, "din_76_1", "1")
        (fault,) = refused.value.faults
        assert (fault.code, fault.pointer) == ("thread_data_missing", "/hole/run_out")
        assert f"lists no run-out for a pitch of {pitch}" in fault.detail
        assert fault.allowed == ("chamfer", "bs_1936")


def test_where_it_comes_from():
    told = {rule: run_out.source(Hole("blind", run_out=rule)) for rule in ("din_76_1", "bs_1936")}
    assert [(one.field, one.document, one.status) for one in told.values()] == [
        ("drill_depth", "DIN 76-1", "from_memory"),
        ("drill_depth", "BS 1936", "second_hand"),
    ]
