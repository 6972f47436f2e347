"""Unified callouts as people type them and as drawings print them."""

from collections.abc import Iterator
from decimal import Decimal
from functools import cache

import pytest
from borewright.core.callout import read
from borewright.core.errors import BorewrightError
from borewright.core.standards import resolve
from borewright.core.standards.unified import sizes as unified_series
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st


def _catalogue() -> Iterator[tuple[str, Decimal, str]]:
    for size in unified_series.SIZES:
        for series, tpi in unified_series.pitches_for(size).items():
            yield size, tpi, series


THREADS = list(_catalogue())
UNICODE = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}


@cache
def sizes(label: str) -> st.SearchStrategy[str]:
    """The size in one of the forms of ASME B1.1 section 6 and of the shop."""
    diameter = unified_series.SIZES[label]
    if label.startswith("#"):
        number = label[1:]
        bare = f".{str(diameter).split('.')[1]}"
        return st.sampled_from(
            [label, f"# {number}", number, f"No. {number}", f"NO.{number}", f"no {number}", f"№{number}", bare]
            + ([f"{number} ({bare[:4]})"] if bare.endswith("0") else [f"{number} ({bare})"])
        )
    whole, _, fraction = label.rpartition(" ")
    forms = [
        label,
        f"{diameter:.4f}",
        f"{diameter:.4f}".lstrip("0"),
        f'{label}"',
        f"{label}”",
        f"{label} in.",
        f"{label}''",
    ]
    forms += [f"{diameter:.3f}"] if f"{diameter:.4f}".endswith("0") else []
    forms += [f"{diameter:.4f}".replace(".", ",")]
    if whole:
        forms += [f"{whole}-{fraction}", f"{whole}  {fraction}"]
    if "/" in fraction:
        forms.append(label.replace("/", "\u2044"))
        if fraction in UNICODE:
            forms += [f"{whole}{UNICODE[fraction]}", f"{whole} {UNICODE[fraction]}"]
    return st.sampled_from(forms)


ANY_THREAD, CLASSES, HANDS = (
    st.sampled_from(THREADS),
    st.sampled_from(["1B", "2B", "3B"]),
    st.sampled_from(["right", "left"]),
)
FOUR_AND_A_HALF, LOWER = st.sampled_from(["4.5", "4 1/2"]), st.booleans()
GAPS, GLUES = st.sampled_from(["-", " - ", "–", "- "]), st.sampled_from([" ", "", "-"])
WITH_CLASS = st.sampled_from(
    ["{thread}-{grade}", "{thread} {grade}", "{thread}  -  {grade}", "{grade} {thread}", "{thread} CLASS {grade}"]
)
WITH_HAND = st.sampled_from(["{text}-{word}", "{text} {word}", "{word} {text}"])
LEFT = st.sampled_from(["LH", "L.H.", "LEFT HAND", "left-hand"])


@st.composite
def spellings(draw: st.DrawFn) -> tuple[str, str, Decimal, str, str, str]:
    """Text, and the size, pitch, series, class and hand that it says."""
    size, tpi, series = draw(ANY_THREAD)
    grade, hand = draw(CLASSES), draw(HANDS)
    shown = series.lstrip("0123456789")
    pitch = draw(FOUR_AND_A_HALF) if tpi == Decimal("4.5") else f"{tpi:f}"
    gap, glue = draw(GAPS), draw(GLUES)
    thread = f"{draw(sizes(size))}{gap}{pitch}{glue}{shown}"
    text = draw(WITH_CLASS).format(thread=thread, grade=grade)
    if hand == "left":
        text = draw(WITH_HAND).format(text=text, word=draw(LEFT))
    if draw(LOWER):
        text = text.lower()
    return text, size, tpi, series, grade, hand


@settings(max_examples=600)
@given(spellings())
def test_every_size_in_every_spelling_is_itself(case: tuple[str, str, Decimal, str, str, str]) -> None:
    text, size, tpi, series, grade, hand = case
    found = read(text)
    assert (found.system, found.size, found.threads_per_inch) == ("unified", size, tpi)
    assert (found.series, found.thread_class, found.hand) == (series, grade, hand)
    assert found.nominal_diameter == unified_series.SIZES[size]


@every(("size", "tpi", "series"), THREADS)
def test_size_and_pitch_alone_name_the_series(size: str, tpi: Decimal, series: str) -> None:
    found = read(f"{size}-{tpi:f}")
    assert (found.size, found.series, found.thread_class) == (size, series, "2B")
    assert len(found.assumptions) == 2


@every(("size", "tpi", "series"), THREADS)
@every("grade", ["1B", "2B", "3B"])
def test_designation_reads_back(size: str, tpi: Decimal, series: str, grade: str) -> None:
    found = read(f"{size}-{tpi:f} {series.lstrip('0123456789')}-{grade}-LH")
    assert read(resolve(found).designation) == found
    assert found.assumptions == ()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1/4-20", "1/4-20 UNC-2B"),
        ("10-24", "#10-24 UNC-2B"),
        ("8-32", "#8-32 UNC-2B"),
        ("1-8", "1-8 UNC-2B"),
        ("1-64", "#1-64 UNC-2B"),
        ("4-40", "#4-40 UNC-2B"),
        ("4-4", "4-4 UNC-2B"),
        ("6-12", "6-12 UN-2B"),
        ("10 (.190)-32", "#10-32 UNF-2B"),
        (".312-18", "5/16-18 UNC-2B"),
        (".313-18", "5/16-18 UNC-2B"),
        ("1/4 UNC", "1/4-20 UNC-2B"),
        ("1/2-13 NC", "1/2-13 UNC-2B"),
        ("1/2-20 NF 2B", "1/2-20 UNF-2B"),
        ("1/2-20 UN", "1/2-20 UNF-2B"),
        ("1-8 8UN-2B", "1-8 UNC-2B"),
        ("1 1/2-8UN-2B", "1 1/2-8 UN-2B"),
        ("1 3/8 8UN-2B", "1 3/8-8 UN-2B"),
        ("1/4-20 UNRC", "1/4-20 UNC-2B"),
        ("2.500-28UNS-2B", "2 1/2-28 UNS-2B"),
        ("19/64-36 UNS-2B", "19/64-36 UNS-2B"),
        ("10-28 UNS", "#10-28 UNS-2B"),
        ("2-18 UNS-2B", "2-18 UNS-2B"),
        ("1/4-28 UNJF", "1/4-28 UNJF-3B"),
        ("1 1/8-16 UNJ-3B", "1 1/8-16 UNJ-3B"),
        ("#10-32 UNF-2B (21)", "#10-32 UNF-2B"),
        ("tapped hole 1/4-20 UNC thread", "1/4-20 UNC-2B"),
        ("1/4*20", "1/4-20 UNC-2B"),
    ],
)
def test_reads(text: str, expected: str) -> None:
    assert resolve(read(text)).designation == expected


@pytest.mark.parametrize(
    ("text", "code", "meant"),
    [
        ("1/4", "callout_ambiguous", "1/4-20 UNC"),
        ("1/4", "callout_ambiguous", "1/4-18 NPT"),
        ("10", "callout_ambiguous", "#10-24 UNC"),
        ("10/32", "callout_ambiguous", "#10-32 UNF"),
        ("11/4-7", "callout_ambiguous", "1 1/4-7 UNC"),
        ("1/2-14", "callout_ambiguous", "1/2-14 NPT"),
        ("1/2-14", "callout_ambiguous", "1/2-13 UNC"),
        ("1/2-15", "thread_pitch_unknown", "1/2-16 UN"),
        ("1/2-14 UNC", "thread_series_mismatch", "1/2-13 UNC"),
        ("1/2-14 UNC", "thread_series_mismatch", "1/2-14 NPT"),
        ("1/4-20 UNF", "thread_series_mismatch", "1/4-20 UNC"),
        ("1/4-20 UNF-3B", "thread_series_mismatch", "1/4-28 UNF-3B"),
        ("1/4-20 UNS", "thread_series_mismatch", "1/4-20 UNC"),
        ("1-14 UNF-LH", "thread_series_mismatch", "1-14 UNS-LH"),
        ("1/2-13 UNC-2A", "thread_class_external", "1/2-13 UNC-2B"),
        ("1/4-20 UNRC-3A", "thread_class_external", "1/4-20 UNC-3B"),
        ("1/2-13 UNC-4B", "thread_class_unknown", "1/2-13 UNC-2B"),
        ("1/2-13 UNC-6H", "thread_class_unknown", "1/2-13 UNC-2B"),
        ("1/2-13 NC-2", "thread_class_unknown", "1/2-13 UNC-2B"),
        ("1/4-28 UNJF-1B", "thread_class_unknown", "1/4-28 UNJF-3B"),
        ("#7-32 UNC", "thread_size_unknown", "#8-32 UNC"),
        ("1/4-20 UMC", "callout_unreadable", "1/4-20 UNC"),
        ("3/8-24 UNF-3B MOD", "thread_data_missing", "3/8-24 UNF-3B"),
        ("8 x 1.25", "callout_ambiguous", "M8x1.25"),
    ],
)
def test_refusals_say_what_was_meant(text: str, code: str, meant: str) -> None:
    with pytest.raises(BorewrightError) as refused:
        read(text)
    assert refused.value.code == code
    assert refused.value.faults[0].pointer == "/thread"
    assert meant in refused.value.faults[0].did_you_mean


@pytest.mark.parametrize("text", ["1/3-20", "0-0", "1/4-0 UNS", "1 LH 1/4-7 RH", "1 UNC 1/4-20", "1/4/20", "30-8 UNS"])
def test_impossible_text_is_refused(text: str) -> None:
    with pytest.raises(BorewrightError):
        read(text)


def test_mate_and_gaging_system_are_kept() -> None:
    found = read("1/2-13 UNC-2A/2B (22)")
    assert found.thread_class == "2B"
    assert found.extra == (("mating_class", "2A"),)
    assert "22" in found.assumptions[0]


def test_multi_start_by_pitch_and_lead() -> None:
    # designation form of ASME B1.1 section 6: pitch and lead written out
    found = read("0.750-.0625P-.1875L (THREE START) UNF-2B")
    assert (found.size, found.threads_per_inch, found.starts, found.series) == ("3/4", 16, 3, "UNF")
    with pytest.raises(BorewrightError) as refused:
        read("0.750-.0625P-.1900L UNF-2B")
    assert refused.value.code == "thread_lead_invalid"


def test_special_length_of_engagement() -> None:
    found = read("1/2-13 UNC-2B SE 1.00")
    assert found.engagement is not None
    assert found.engagement.to("in") == 1


def test_external_only_series_says_what_the_hole_is() -> None:
    assert "external" in read("1/4-20 UNRC").assumptions[0]


@pytest.mark.parametrize("text", ["#00-90", "00-90", "No. 00-96", "#00-90 UNF-2B"])
def test_size_00_is_not_size_0(text):
    """A number is 0.013 in: 00 is one below #0, 0.060 - 0.013 = 0.047 in (common practice)."""
    with pytest.raises(BorewrightError) as caught:
        read(text)
    assert caught.value.code == "thread_size_unknown"
    assert "0.047" in caught.value.faults[0].detail
