"""ISO metric callouts as people type them and as drawings print them."""

from collections.abc import Iterator
from decimal import Decimal

import pytest
from borewright.core.callout import read
from borewright.core.errors import BorewrightError
from borewright.core.standards import resolve
from borewright.core.standards.metric import sizes as metric_series
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st


def _catalogue() -> Iterator[tuple[Decimal, Decimal]]:
    for diameter in metric_series.DIAMETERS:
        for pitch in metric_series.pitches_for(diameter):
            yield diameter, pitch


THREADS = list(_catalogue())
COARSE = [(diameter, pitch) for diameter, pitch in THREADS if metric_series.coarse_pitch(diameter) == pitch]
CLASSES = ["4H", "5H", "6H", "7H", "8H", "6G", "5G", "4H5H", "5H6H", "6AZ", "6AX"]
ANY_THREAD, ANY_CLASS = st.sampled_from(THREADS), st.sampled_from(CLASSES)
HANDS, LETTERS, GAPS = st.sampled_from(["right", "left"]), st.sampled_from("Mm"), st.sampled_from(["", " "])
CROSSES = st.sampled_from(["x", "X", "×", "*", " x ", " × ", "-"])
COMMA = st.booleans()
WITH_CLASS = st.sampled_from(["{thread}-{grade}", "{thread} {grade}", "{thread} – {grade}", "{grade} {thread}"])
WITH_HAND = st.sampled_from(["{text} - {word}", "{text} {word}", "{word} {text}"])
LEFT = st.sampled_from(["LH", "lh", "L.H.", "LEFT HAND"])


@st.composite
def spellings(draw: st.DrawFn) -> tuple[str, Decimal, Decimal, str, str]:
    """Text, and the diameter, pitch, class and hand that it says."""
    diameter, pitch = draw(ANY_THREAD)
    grade, hand = draw(ANY_CLASS), draw(HANDS)
    letter, cross = draw(LETTERS), draw(CROSSES)
    numbers = f"{diameter:f}{cross}{pitch:f}"
    if draw(COMMA):
        numbers = numbers.replace(".", ",")
    thread = f"{letter}{draw(GAPS)}{numbers}"
    text = draw(WITH_CLASS).format(thread=thread, grade=grade)
    if hand == "left":
        text = draw(WITH_HAND).format(text=text, word=draw(LEFT))
    return text, diameter, pitch, grade, hand


@settings(max_examples=500)
@given(spellings())
def test_every_size_in_every_spelling_is_itself(case: tuple[str, Decimal, Decimal, str, str]) -> None:
    text, diameter, pitch, grade, hand = case
    found = read(text)
    assert (found.system, found.nominal_diameter, found.pitch) == ("iso_metric", diameter, pitch)
    assert (found.thread_class, found.hand, found.unit) == (grade, hand, "mm")


@every(("diameter", "pitch"), THREADS)
def test_every_class_is_kept(diameter: Decimal, pitch: Decimal) -> None:
    for grade in CLASSES:
        found = read(f"M{diameter:f}x{pitch:f}-{grade}-LH")
        assert (found.thread_class, found.assumptions) == (grade, ())


@every(("diameter", "pitch"), COARSE)
def test_no_pitch_means_coarse(diameter: Decimal, pitch: Decimal) -> None:
    found = read(f"M{diameter:f}-6H")
    assert (found.pitch, found.series) == (pitch, "coarse")
    assert len(found.assumptions) == 1


@pytest.mark.parametrize(
    ("text", "grade"),
    [
        ("M1.4", "5H"),
        ("M1.6", "6H"),
        ("M1x0.2", "4H"),
        ("M1.6x0.2", "4H"),
        ("M2x0.25", "5H"),
        ("M8", "6H"),
        ("MJ6x1", "4H5H"),
    ],
)
def test_class_that_an_omission_means(text: str, grade: str) -> None:
    # ISO 965-1: 5H up to M1.4, 6H from M1.6, grade 4 only at pitch 0.2; ASME B1.21M: 4H5H
    found = read(text)
    assert found.thread_class == grade
    assert any("No class written" in text for text in found.assumptions)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("M8", "M8x1.25-6H"),
        ("M8-1.25", "M8x1.25-6H"),
        ("M8X1,25", "M8x1.25-6H"),
        ("m8 x 1.25 - 6H", "M8x1.25-6H"),
        ("М8х1", "M8x1-6H"),  # Cyrillic letters
        ("M8 1.25", "M8x1.25-6H"),
        ("MF 8x1", "M8x1-6H"),
        ("ISO metric M8 thread", "M8x1.25-6H"),
        ("M8 per ISO 965-1:2013", "M8x1.25-6H"),
        ("M10x1-6H LH", "M10x1-6H LH"),
        ("M6x1 - 4H6H", "M6x1-4H6H"),
        ("M6 - 6H/6g", "M6x1-6H"),
        ("M20x2-6H/5g6g", "M20x2-6H"),
        ("M20x2 - 5H - S", "M20x2-5H-S"),
        ("M6 - 7H/7g6g - L", "M6x1-7H-L"),
        ("M16xPh3P1,5 - 6H", "M16xPh3P1.5-6H"),
        ("M16xPh3P1,5 (two starts)", "M16xPh3P1.5-6H"),
        ("M14xPh6P2 - 7H - L - LH", "M14xPh6P2-7H-L LH"),
        ("M14 x L6 - P2 - 6H (THREE STARTS)", "M14xPh6P2-6H"),
        ("M6x1-6H6H", "M6x1-6H"),
        ("M6.5 x 1 - 4H5H - SPL (22)", "M6.5x1-4H5H-SPL"),
        ("M6 x 1 - 6H AFTER COATING", "M6x1-6H"),
        ("MJ6x1 - 4H5H", "MJ6x1-4H5H"),
        ("MJ35x2-4H5H", "MJ35x2-4H5H"),
    ],
)
def test_reads(text: str, expected: str) -> None:
    designation = resolve(read(text)).designation
    assert designation == expected
    assert resolve(read(designation)).designation == designation


@pytest.mark.parametrize(
    ("text", "code", "meant"),
    [
        ("M6x1.1", "thread_pitch_unknown", "M6x1"),
        ("M8x1.2", "thread_pitch_unknown", "M8x1.25"),
        ("M8x1.2", "thread_pitch_unknown", "M8x1"),
        ("M8x1.2-6G-LH", "thread_pitch_unknown", "M8x1.25-6G-LH"),
        ("M13", "thread_size_unknown", "M12x1.75"),
        ("M13x1", "thread_size_unknown", "M12x1"),
        ("M13x1", "thread_size_unknown", "M13x1 SPL"),
        ("M15", "callout_ambiguous", "M15x1.5"),
        ("MJ6", "callout_ambiguous", "MJ6x1"),
        ("MJ1x0.25", "thread_size_unknown", "MJ1x0.25 SPL"),
        ("M6x1-6g", "thread_class_external", "M6x1-6H"),
        ("M10-6az", "thread_class_external", "M10x1.5-6H"),
        ("M8-2B", "thread_class_unknown", "M8x1.25-6H"),
        ("M8-9H", "thread_class_unknown", "M8x1.25-6H"),
        ("M8-4H5G", "thread_class_unknown", "M8x1.25-6H"),
        ("M8-6AZ/6AX", "thread_class_unknown", "M8x1.25-6H"),
        ("M8x20", "callout_has_depth", "M8"),
        ("M8x1.25x20", "callout_has_depth", "M8x1.25"),
        ("M16xPh4P1,5", "thread_lead_invalid", None),
    ],
)
def test_refusals_say_what_was_meant(text: str, code: str, meant: str | None) -> None:
    with pytest.raises(BorewrightError) as refused:
        read(text)
    assert refused.value.code == code
    assert refused.value.faults[0].pointer == "/thread"
    assert meant is None or meant in refused.value.faults[0].did_you_mean


def test_case_of_a_class_carries_meaning() -> None:
    assert read("M8-6G").thread_class == "6G"
    with pytest.raises(BorewrightError) as refused:
        read("M8-6g")
    assert refused.value.code == "thread_class_external"


def test_length_after_the_class_is_engagement() -> None:
    found = read("M20x2-6H-40")
    assert found.engagement is not None
    assert found.engagement.to("mm") == 40
