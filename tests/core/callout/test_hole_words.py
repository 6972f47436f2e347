"""Words of a callout that describe the hole: read beside the thread, held against the hole of the request."""

from decimal import Decimal

import pytest
from borewright.core.callout import check_hole, read
from borewright.core.errors import BorewrightError
from borewright.core.model import Hole, Length
from every import every
from hypothesis import given
from hypothesis import strategies as st

# what drawings print behind a thread, and the thread alone
BESIDE = [
    ("1/4-20 UNC-2B x .75 DEEP", "1/4-20 UNC-2B"),
    ("1/4-20 UNC-2B 1 1/4 DEEP", "1/4-20 UNC-2B"),
    ("1/4-20 UNC-2B ↧ .75", "1/4-20 UNC-2B"),
    ("M8x1.25-6H ↧20", "M8x1.25-6H"),
    ("M3 x 0.5 x 6 deep", "M3 x 0.5"),
    ("M12x1.75-6H THRU ALL", "M12x1.75-6H"),
    ("1/2-13 TAP THRU", "1/2-13"),
    ("2X 1/4-20", "1/4-20"),
    ("4 × M6x1-6H", "M6x1-6H"),
    ("(4) 1/4-20", "1/4-20"),
    ("1/4-20 UNC 4 PLACES", "1/4-20 UNC"),
    ("1/4-20 UNC-2B x .50 DP", "1/4-20 UNC-2B"),
    ("4X M8 DEEP 16", "M8"),
    ("1/4-20 UNC-2B THRU, 4 PLCS", "1/4-20 UNC-2B"),
    ("1/4-20 UNC-2B THRU (TYP)", "1/4-20 UNC-2B"),
    ("M8 x 1.25 STI THRU", "M8 x 1.25 STI"),
]


def hole(kind: str, depth: str | None = None, thickness: str | None = None, unit: str = "in") -> Hole:
    lengths = (None if value is None else Length(Decimal(value), unit) for value in (depth, thickness))
    return Hole(kind, *lengths)


@pytest.mark.parametrize(("text", "alone"), BESIDE)
def test_the_thread_is_read_and_the_rest_is_said(text: str, alone: str) -> None:
    found, thread = read(text), read(alone)
    same = ("system", "size", "pitch", "threads_per_inch", "thread_class", "series", "engagement")
    assert [getattr(found, name) for name in same] == [getattr(thread, name) for name in same]
    told = set(found.assumptions) - set(thread.assumptions)
    assert told
    assert all("not part of the thread" in line for line in told)


# arithmetic: 16 mm = 0.6299 in, 0.63 in = 16.002 mm; 12.7 mm = 0.5 in
@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("1/4-20 UNC-2B THRU", hole("through", thickness="0.25")),
        ("4X M8 DEEP 16", hole("blind", "16", unit="mm")),
        ("M8 DEEP .63", hole("blind", "16", unit="mm")),
        ("M8 DEEP .63 IN", hole("blind", "16", unit="mm")),
        ("1/4-20 UNC-2B x .50 DP", hole("blind", "0.5")),
        ("1/4-20 UNC-2B x 1/2 DEEP", hole("blind", "12.7", unit="mm")),
        ("1/4-20 UNC-2B .45 MIN FULL THD DEPTH", hole("blind", "0.5")),
        ("M8 THRU DEEP 16", hole("through", "16", "20", unit="mm")),
        ("M8 DEEP 20", hole("through", None, "20", unit="mm")),
        ("M8 BLIND", hole("blind", "16", unit="mm")),
        ("M8 4X", hole("blind", "16", unit="mm")),
        # a depth within 0.001 in or 0.02 mm is the same one
        ("1/4-20 UNC-2B x .50 DP", hole("blind", "0.501")),
        ("1/4-20 UNC-2B x .50 DP", hole("blind", "0.499")),
        ("M8 DEEP 16", hole("blind", "16.02", unit="mm")),
        ("M8 DEEP 16", hole("blind", "15.98", unit="mm")),
        # a least depth: before or after the figure, with its unit or in that of the thread
        ("M8 DEEP 16 MIN", hole("blind", "18", unit="mm")),
        ("M8 MIN DEPTH 16", hole("blind", "18", unit="mm")),
        ("M8 MINIMUM FULL THREAD DEPTH 16", hole("blind", "18", unit="mm")),
        ("M8 16 MIN DEEP", hole("blind", "18", unit="mm")),
        ("M8 16 DEEP MIN", hole("blind", "18", unit="mm")),
        ("M8 .63 IN DEEP MIN", hole("blind", "16.1", unit="mm")),
        ("M8 THRU DEEP 16 MIN", hole("through", "18", "20", unit="mm")),
        # fractions: 37/64 = .578125, 1 1/2 = 1.5
        ("1/4-20 UNC x 37/64 DEEP", hole("blind", "0.578125")),
        ("1/4-20 UNC 1 1/2 DEEP", hole("blind", "1.5")),
        ("1/4-20 UNC 3/1 DEEP", hole("blind", "3")),
        # half the diameter is no pitch: M8 with 4 mm
        ("M8x4 DEEP", hole("blind", "4", unit="mm")),
        ("M8x16 DEEP", hole("blind", "16", unit="mm")),
    ],
)
def test_what_agrees_is_left_out(text: str, asked: Hole) -> None:
    check_hole(read(text), asked)


@pytest.mark.parametrize(
    ("text", "asked", "both"),
    [
        ("1/4-20 UNC-2B THRU", hole("blind", "0.5"), ("THRU", "blind")),
        ("M8 BLIND", hole("through", thickness="20", unit="mm"), ("BLIND", "through")),
        ("4X M8 DEEP 16", hole("blind", "18", unit="mm"), ("DEEP 16", "18\u00a0mm")),
        ("1/4-20 UNC-2B x .50 DP", hole("blind", "0.75"), (".50 DP", "0.75\u00a0in")),
        ("1/4-20 UNC-2B .55 MIN FULL THD DEPTH", hole("blind", "0.5"), (".55 MIN", "0.5\u00a0in")),
        ("M8 DEEP 16", hole("through", None, "20", unit="mm"), ("DEEP 16", "20\u00a0mm")),
        ("M8 DEEP 16 IN", hole("blind", "16", unit="mm"), ("DEEP 16 IN", "16\u00a0mm")),
        ("1/4-20 UNC-2B x .50 DP", hole("blind", "0.5011"), (".50 DP", "0.5011\u00a0in")),
        ("1/4-20 UNC-2B x .50 DP", hole("blind", "0.4989"), (".50 DP", "0.4989\u00a0in")),
        (
            "M8 DEEP 16",
            hole("blind", "16.03", unit="mm"),
            ("DEEP 16", "full_thread_depth of the request is 16.03\u00a0mm"),
        ),
        ("M8 DEEP 16 MIN", hole("blind", "15.9", unit="mm"), ("DEEP 16 MIN", "15.9\u00a0mm")),
        ("M8 16 DEEP MIN", hole("blind", "15.9", unit="mm"), ("16 DEEP MIN", "15.9\u00a0mm")),
        ("M8 .63 IN MIN DEEP", hole("blind", "15.9", unit="mm"), (".63 IN MIN DEEP", "15.9\u00a0mm")),
        ("M8 DEEP 16", hole("through", None, "20", unit="mm"), ("thickness of the through hole of the request is 20",)),
        ("M8 DEEP 16", hole("through", "18", "20", unit="mm"), ("full_thread_depth of the request is 18",)),
        ("M8 THRU DEEP 16", hole("blind", "16", unit="mm"), ("DEEP 16 THRU", 'the hole of the request is "blind"')),
        ("M8 BLIND DEEP 16", hole("through", None, "16", unit="mm"), ("DEEP 16 BLIND", "through")),
        ("M8 THRU DEEP 16", hole("through", "18", "20", unit="mm"), ("DEEP 16 THRU", "18\u00a0mm")),
    ],
)
def test_what_contradicts_is_refused_with_both(text: str, asked: Hole, both: tuple[str, str]) -> None:
    with pytest.raises(BorewrightError) as refused:
        check_hole(read(text), asked)
    fault = refused.value.faults[0]
    assert (fault.code, fault.pointer) == ("callout_has_depth", "/thread")
    assert all(words in fault.detail for words in both)
    assert fault.allowed


@given(st.decimals(1, 90, places=1), st.decimals(1, 90, places=1))
def test_a_depth_agrees_with_itself_alone(said: Decimal, asked: Decimal) -> None:
    """Millimetres stated: two depths agree exactly when they are the same."""
    thread = read(f"M10x1.5 DEEP {said} MM")
    try:
        check_hole(thread, hole("blind", str(asked), unit="mm"))
    except BorewrightError:
        assert said != asked
    else:
        assert said == asked


@every(
    ("text", "code"),
    [
        # below half the diameter the figure may be the pitch, and the words do not say whose depth is meant
        ("M8x3.9 DEEP", "callout_has_depth"),
        ("M8x1 DEEP", "callout_has_depth"),
        ("MJ8x3.9 DEEP", "callout_has_depth"),
        # two depths, a depth that is none
        ("M8 DEEP 16 20 DEEP", "callout_has_depth"),
        ("1/4-20 UNC 1/0 DEEP", "callout_unreadable"),
    ],
)
def test_words_that_are_not_read(text, code):
    with pytest.raises(BorewrightError) as refused:
        read(text)
    assert refused.value.code == code


@every(
    ("text", "said"),
    [
        ("4X M8x1-6H", "4X is a number of holes and not part of the thread: this answer is for one hole."),
        ("M8x1-6H 4 PLACES", "4 PLACES is a number of holes and not part of the thread: this answer is for one hole."),
        ("M8x1-6H QTY 4", "QTY 4 is a number of holes and not part of the thread: this answer is for one hole."),
        (
            "M8x1-6H x 16 DEEP",
            "16 DEEP in the callout describes the hole and is not part of the thread: the hole is as the request gives"
            " it.",
        ),
    ],
)
def test_the_words_are_told(text, said):
    assert read(text).assumptions == (said,)
