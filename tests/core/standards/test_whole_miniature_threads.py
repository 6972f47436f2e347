"""Whole miniature threads by hand."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every
from whole_threads import basic, codes, form, head, limits, refused, statuses

D = Decimal


def test_miniature_by_hand(resolved):
    """0.80 UNM: P .200, .800 - .649519 x .2 = .670; minor diameter .592 to .668 as printed."""
    thread = resolved("0.80 UNM LH")
    assert head(thread) == ("0.80 UNM LH", "UNM", "0.80", None, None)
    assert form(thread) == ("mm", "0.80", "0.200", None, "0.200", "1", "60", None)
    assert basic(thread) == ("0.800", "0.670", "0.592")
    assert limits(thread.internal) == (("0.800", None), ("0.670", None), ("0.592", "0.668"))
    assert thread.external is None
    assert codes(thread) == ("limits_incomplete",)
    assert statuses(thread) == {"internal.minor_diameter": "published", "internal.pitch_diameter": "computed"}
    given = standards.resolve(thread.callout, engagement=Length(D(1), "mm"))
    assert any("length of engagement does not change" in one for one in given.notes.assumptions)


@every(
    ("given", "code", "pointer", "meant"),
    [
        (ThreadFields("unified_miniature", "0.33"), "thread_size_unknown", "/size", ("0.35", "0.30", "0.40")),
        (ThreadFields("unified_miniature", "xx"), "thread_size_unknown", "/size", ("0.30", "0.35", "0.40")),
        (
            ThreadFields("unified_miniature", "0.80", pitch=Length(D("0.25"), "mm")),
            "thread_pitch_unknown",
            "/pitch",
            ("0.80",),
        ),
    ],
)
def test_miniature_sizes_and_pitches_that_do_not_exist(given, code, pointer, meant):
    fault = refused(lambda: callout.from_fields(given))
    assert (fault.code, fault.pointer) == (code, f"/thread{pointer}")
    assert fault.did_you_mean == tuple(f"{one} UNM" for one in meant)
