"""Whatever is typed: a callout or a coded refusal, never anything else."""

import time

import pytest
from borewright.core.callout import read
from borewright.core.errors import BorewrightError
from hypothesis import given, settings
from hypothesis import strategies as st

GOOD = [
    "3/8-16 UNC-2B",
    "1 1/4-7 UNC-2A/2B",
    "No. 10-32 UNF-3B-LH (21)",
    "0.750-.0625P-.1875L (THREE START) UNF-2B",
    "M16xPh3P1,5 - 6H - L - LH",
    "M6.5 x 1 - 4H5H - SPL (22)",
    "1/4-20 UNC-2B x .75 DEEP",
    "2X M8x1.25-6H THRU",
    "10 (.190)-32",
    "MJ6x1 - 4H5H",
    "14 OD-8 NPT",
    "1/8-27 PTF-SAE SHORT",
    "Pipe thread ISO 7-1 - Rc 1 1/2",
    "G 1 1/2 A - LH",
    "2.875-0.4P-0.8L-ACME-3G",
    "Tr 40x14(P7)-7H-LH",
    "1/4 in. - 26 BSF - medium",
    "0 B.A. normal class",
    ".3125-24 UNF-3B HELICAL COIL INSERT THD PER MS33537",
    "EG M6 - 4H5H",
    "S 0.8 UNM",
]
ALPHABET = " -/.,x#()\"'0123456789ABCDEFGHLMNPRSTUabghx×½⅜⁄ØM|*+"


def verdict(text: str) -> None:
    try:
        read(text)
    except BorewrightError as refused:
        fault = refused.faults[0]
    else:
        return
    assert fault.pointer == "/thread"
    assert len(fault.did_you_mean) <= 12


@settings(max_examples=400)
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    verdict(text)


@settings(max_examples=600)
@given(st.text(alphabet=ALPHABET, max_size=60))
def test_text_of_the_right_characters(text: str) -> None:
    verdict(text)


@settings(max_examples=1500)
@given(
    st.sampled_from(GOOD),
    st.lists(st.tuples(st.integers(0, 60), st.sampled_from([*ALPHABET, "", "1/", "UN", "9" * 40])), max_size=6),
)
def test_mutated_callouts(text: str, edits: list[tuple[int, str]]) -> None:
    for place, sign in edits:
        text = text[:place] + sign + text[place + 1 :]
    verdict(text[:200])


@pytest.mark.parametrize("text", ["", "   ", "\t\n", "\x00", "\ud800", "M8\x07", "1/2|13"])
def test_nothing_and_strange_characters(text: str) -> None:
    with pytest.raises(BorewrightError) as refused:
        read(text)
    assert refused.value.code in ("callout_empty", "callout_unreadable")


def test_too_long() -> None:
    with pytest.raises(BorewrightError) as refused:
        read("M8" + " " * 199)
    assert refused.value.code == "callout_too_long"


@pytest.mark.parametrize(
    "unit", ["2X ", "1 1/4-", "M8x", "(", "UN ", "6H/", "- ", "1.", "DEEP ", "#1", "'' ", "LH ", "½"]
)
def test_long_repetitions_are_quick(unit: str) -> None:
    text = (unit * 200)[:200]
    start = time.perf_counter()
    for _ in range(5):
        verdict(text)
    assert time.perf_counter() - start < 0.25


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("M8x1 DEEP", "M8x1"),
        ("M8x1.25 THRU DEEP 16 DEEP 20", None),
        ("1/4-20 UNC-2B CBORE", "1/4-20 UNC-2B"),
        ("1/4-20 UNC-2B THD LG", "1/4-20 UNC-2B"),
        ("1/4-20 UNC-2B THD 3 LONG", "1/4-20 UNC-2B"),
        ("M8x1.25 x 20 MM LONG", "M8x1.25"),
        ("M8x1.25x20", "M8x1.25"),
        ("M8x20", "M8"),
        ("M8x1.25-6H x 20", "M8x1.25-6H"),
        ("1/4-20x1/2", "1/4-20"),
        ("Tr 40 x 7 x 50", "Tr 40 x 7"),
        ("Ø3/8-16", "3/8-16"),
    ],
)
def test_hole_text_is_refused_with_the_thread_alone(text: str, rest: str | None) -> None:
    with pytest.raises(BorewrightError) as refused:
        read(text)
    fault = refused.value.faults[0]
    assert (fault.code, fault.did_you_mean) == ("callout_has_depth", (rest,) if rest else ())


@settings(max_examples=400)
@given(st.sampled_from(GOOD), st.integers(0, 40), st.sampled_from(list(ALPHABET)))
def test_whatever_is_offered_can_be_read(text: str, place: int, sign: str) -> None:
    try:
        read((text[:place] + sign + text[place:])[:200])
    except BorewrightError as refused:
        meant = refused.faults[0].did_you_mean
    else:
        return
    for name in meant:
        read(name)
