"""A thread given field by field gets the verdict of the same thread as text, pointed at the field."""

from decimal import Decimal

import pytest
from borewright.core.callout import from_fields, read
from borewright.core.errors import BorewrightError
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st


def mm(value: str) -> Length:
    return Length(Decimal(value), "mm")


def bare(value: str) -> Length:
    return Length(Decimal(value))


@pytest.mark.parametrize(
    ("fields", "text"),
    [
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(13), series="UNC", thread_class="2B"),
            "1/2-13 UNC-2B",
        ),
        (ThreadFields("unified", "#10", threads_per_inch=Decimal(24), hand="left"), "#10-24 LH"),
        (ThreadFields("unified", "10", threads_per_inch=Decimal(24)), "10-24"),
        (ThreadFields("unified", "0.25", threads_per_inch=Decimal(20)), ".25-20"),
        (ThreadFields("unified", "1/4", series="nf"), "1/4 NF"),
        (ThreadFields("unified", "1/4", pitch=mm("1.27")), "1/4-20"),
        (ThreadFields("unified", "1/4", pitch=bare("0.05")), "1/4-20"),
        (ThreadFields("unified", "1 3/8", threads_per_inch=Decimal(8), series="8UN"), "1 3/8-8 UN"),
        (
            ThreadFields("unified", "3/4", threads_per_inch=Decimal(16), starts=3),
            "0.750-.0625P-.1875L",
        ),
        (
            ThreadFields("unified_j", "1/4", threads_per_inch=Decimal(28), series="UNJF", thread_class="3b"),
            "1/4-28 UNJF-3B",
        ),
        (ThreadFields("iso_metric", "M8"), "M8"),
        (ThreadFields("iso_metric", "8", pitch=bare("1"), thread_class="6G"), "M8x1-6G"),
        (ThreadFields("iso_metric", "8", pitch=bare("1.00"), thread_class="6H/6g"), "M8x1-6H/6g"),
        (ThreadFields("iso_metric", "16", pitch=mm("2"), lead=mm("4")), "M16xPh4P2"),
        (ThreadFields("metric_j", "MJ6", pitch=bare("1")), "MJ6x1"),
    ],
)
def test_fields_and_text_say_the_same(fields: ThreadFields, text: str) -> None:
    assert from_fields(fields) == read(text)


def test_bare_lengths_follow_the_unit_asked_for() -> None:
    assert from_fields(ThreadFields("unified", "1/4", pitch=bare("1.27")), default_unit="mm").threads_per_inch == 20
    with pytest.raises(BorewrightError) as refused:
        from_fields(ThreadFields("iso_metric", "M8", pitch=bare("0.05")), default_unit="in")
    assert "1.27\N{NO-BREAK SPACE}mm" in refused.value.faults[0].detail


@pytest.mark.parametrize(
    ("fields", "code", "pointer", "meant"),
    [
        (ThreadFields("unifed", "1/2"), "thread_system_unknown", "/thread/system", "unified"),
        (ThreadFields("unified", "1/2"), "callout_ambiguous", "/thread/threads_per_inch", "1/2-13 UNC"),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(14), series="UNC"),
            "thread_series_mismatch",
            "/thread/series",
            "1/2-13 UNC",
        ),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(15)),
            "thread_pitch_unknown",
            "/thread/threads_per_inch",
            None,
        ),
        (ThreadFields("unified", "1/3", threads_per_inch=Decimal(20)), "callout_unreadable", "/thread/size", None),
        (
            ThreadFields("unified", "#7", threads_per_inch=Decimal(32)),
            "thread_size_unknown",
            "/thread/size",
            "#8-32 UNC",
        ),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(13), thread_class="2A"),
            "thread_class_external",
            "/thread/class",
            "1/2-13 UNC-2B",
        ),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(13), thread_class="9Z"),
            "thread_class_unknown",
            "/thread/class",
            "1/2-13 UNC-2B",
        ),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(13), hand="up"),
            "callout_unreadable",
            "/thread/hand",
            None,
        ),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(13), starts=99),
            "value_out_of_range",
            "/thread/starts",
            None,
        ),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(13), lead=bare("0.1")),
            "thread_lead_invalid",
            "/thread/lead",
            None,
        ),
        (
            ThreadFields("unified", "1/2", threads_per_inch=Decimal(13), pitch=bare("0.05")),
            "thread_field_unexpected",
            "/thread/pitch",
            None,
        ),
        (ThreadFields("unified", "1/2", pitch=bare("NaN")), "value_out_of_range", "/thread/pitch", None),
        (ThreadFields("unified", "1/2", pitch=bare("0")), "value_out_of_range", "/thread/pitch", None),
        (ThreadFields("unified", ""), "callout_empty", "/thread/size", None),
        (ThreadFields("unified", "1" * 300), "callout_too_long", "/thread/size", None),
        (ThreadFields("unified", "1/4", series="M"), "thread_series_mismatch", "/thread/series", None),
        (ThreadFields("iso_metric", "M13"), "thread_size_unknown", "/thread/size", "M12x1.75"),
        (ThreadFields("iso_metric", "M8", pitch=bare("1.2")), "thread_pitch_unknown", "/thread/pitch", "M8x1.25"),
        (ThreadFields("iso_metric", "M8x1"), "thread_size_unknown", "/thread/size", None),
        (ThreadFields("iso_metric", "M8", thread_class="6h"), "thread_class_external", "/thread/class", "M8x1.25-6H"),
        (
            ThreadFields("iso_metric", "M8", threads_per_inch=Decimal(20)),
            "thread_field_unexpected",
            "/thread/threads_per_inch",
            None,
        ),
        (
            ThreadFields("iso_metric", "M8", series="fine", pitch=bare("1.25")),
            "thread_series_mismatch",
            "/thread/series",
            None,
        ),
    ],
)
def test_refusals_point_at_the_field(fields: ThreadFields, code: str, pointer: str, meant: str | None) -> None:
    with pytest.raises(BorewrightError) as refused:
        from_fields(fields)
    fault = refused.value.faults[0]
    assert (fault.code, fault.pointer) == (code, pointer)
    assert meant is None or meant in fault.did_you_mean


@every(
    ("field", "value", "refused"),
    [
        # a ten-thousandth of a unit to ten thousand units
        ("threads_per_inch", "10000", False),
        ("threads_per_inch", "10000.1", True),
        ("threads_per_inch", "0.0001", False),
        ("threads_per_inch", "0.00009", True),
        ("threads_per_inch", "0", True),
        ("threads_per_inch", "-20", True),
        ("threads_per_inch", "Infinity", True),
        ("pitch", "0.0001", False),
        ("pitch", "0.00009", True),
        ("pitch", "10000", False),
        ("pitch", "10000.1", True),
    ],
)
def test_figures_of_fields_are_in_proportion(field: str, value: str, refused: bool) -> None:
    given_value = Decimal(value) if field == "threads_per_inch" else bare(value)
    with pytest.raises(BorewrightError) as caught:
        from_fields(ThreadFields("unified", "1/2", series="UNC", **{field: given_value}))
    assert (caught.value.code == "value_out_of_range") is refused
    assert not refused or caught.value.faults[0].pointer == f"/thread/{field}"


def test_a_field_has_two_hundred_characters() -> None:
    assert from_fields(ThreadFields("unified", "1/2".ljust(200), series="UNC")).size == "1/2"
    with pytest.raises(BorewrightError) as caught:
        from_fields(ThreadFields("unified", "1/2".ljust(201), series="UNC"))
    fault = caught.value.faults[0]
    assert (fault.code, fault.pointer, fault.detail) == ("callout_too_long", "/thread/size", "At most 200 characters.")


@every(
    ("fields", "detail"),
    [
        (ThreadFields("iso_228", "1/2", series="Rp"), "Rp is a series of the system iso_7, not of iso_228."),
        (ThreadFields("npt", "1/2", series="BSW"), "BSW is a series of the system whitworth, not of npt."),
        (
            ThreadFields("unified", "1/2", series="20 UNJ"),
            "20 UNJ is a series of the system unified_j, not of unified.",
        ),
    ],
)
def test_a_series_of_another_system_names_its_own(fields: ThreadFields, detail: str) -> None:
    with pytest.raises(BorewrightError) as caught:
        from_fields(fields)
    fault = caught.value.faults[0]
    assert (fault.code, fault.pointer, fault.detail) == ("thread_series_mismatch", "/thread/series", detail)


@every(
    ("fields", "said"),
    [
        (
            ThreadFields("unified", "1/2", series="NC", thread_class="2B", threads_per_inch=Decimal(13)),
            ("NC is the American National name before the Unified standard: read as UNC.",),
        ),
        (ThreadFields("npt", "1/2", series="FPT", threads_per_inch=Decimal(14)), ("FPT is a shop name: read as NPT.",)),
        (ThreadFields("npt", "1/2", series="NPT", threads_per_inch=Decimal(14)), ()),
    ],
)
def test_a_series_by_another_name(fields: ThreadFields, said: tuple[str, ...]) -> None:
    assert from_fields(fields).assumptions == said


words = st.text(max_size=20)
decimals = st.builds(lambda digits, places: Decimal(digits).scaleb(-places), st.integers(), st.integers(-20, 40))
specials = st.sampled_from([Decimal(word) for word in ("NaN", "-NaN", "sNaN", "-sNaN", "Infinity", "-Infinity", "-0")])
numbers = st.none() | decimals | specials


@settings(max_examples=600)
@given(
    st.sampled_from(["unified", "unified_j", "iso_metric", "metric_j", "npt", "iso_7", "acme", "trapezoidal"]) | words,
    words | st.sampled_from(["1/2", "#10", "M8", "10", ".5", "1 1/4", "40"]),
    numbers,
    numbers,
    st.none() | words,
    st.none() | words,
    st.none() | st.integers(),
    numbers,
)
def test_any_fields(
    system: str,
    size: str,
    tpi: Decimal | None,
    pitch: Decimal | None,
    series: str | None,
    grade: str | None,
    starts: int | None,
    lead: Decimal | None,
) -> None:
    fields = ThreadFields(
        system,
        size,
        threads_per_inch=tpi,
        pitch=None if pitch is None else Length(pitch),
        series=series,
        thread_class=grade,
        starts=starts,
        lead=None if lead is None else Length(lead),
    )
    try:
        from_fields(fields)
    except BorewrightError as refused:
        pointer = refused.faults[0].pointer
    else:
        return
    assert pointer.startswith("/thread/")
