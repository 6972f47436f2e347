"""Pipe, Acme, trapezoidal, Whitworth, BA, insert, square and miniature callouts."""

import pytest
from borewright.core.callout import from_fields, read
from borewright.core.errors import BorewrightError
from borewright.core.model import CatalogueEntry
from borewright.core.requests import ThreadFields
from borewright.core.standards import catalogue, resolve
from borewright.tables import load
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st

CATALOGUE: list[CatalogueEntry] = [
    entry for entry in catalogue() if entry.system not in ("unified", "unified_j", "iso_metric", "metric_j")
]


@every("entry", CATALOGUE, ids=lambda entry: entry.designation)
def test_every_catalogued_designation_is_itself(entry: CatalogueEntry) -> None:
    lower = entry.designation if entry.system == "insert_metric" else entry.designation.lower()  # 5h is another class
    for text in (entry.designation, lower, f"{entry.designation} LH"):
        found = read(text)
        assert (found.system, found.size, found.unit) == (entry.system, entry.size, entry.unit)
        assert (found.threads_per_inch, found.series) == (entry.threads_per_inch, entry.series)
        thread = resolve(found)
        again = resolve(read(thread.designation))
        assert (again.designation, again.internal, again.hand) == (thread.designation, thread.internal, thread.hand)
        assert (thread.hand == "left") == text.endswith("LH")


PIPE = {
    "npt": "NPT",
    "npsm": "NPSM",
    "npsc": "NPSC",
    "nptf": "NPTF",
    "iso_228": "G",
    "iso_7": "Rc",
}
UNICODE = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "3/4": "¾"}


@st.composite
def pipe_spellings(draw: st.DrawFn) -> tuple[str, str, str, str]:
    """Text of a pipe thread, and the system, size and hand that it says."""
    system = draw(st.sampled_from(sorted(PIPE)))
    row = draw(st.sampled_from(load(system).rows))
    size, tpi = row["size"], row["threads_per_inch"]
    whole, _, fraction = size.rpartition(" ")
    forms = [size, f'{size}"', f"{size} in."]
    if "/" in fraction:
        forms += [size.replace("/", "\u2044"), *([f"{whole}{UNICODE[fraction]}"] if fraction in UNICODE else [])]
        forms += [f"{whole}-{fraction}"] if whole else []
    shown = draw(st.sampled_from(forms))
    word = PIPE[system]
    if word in ("G", "Rc"):
        text = draw(st.sampled_from([f"{word} {shown}", f"{word}{shown}"]))
    else:
        pitch = draw(st.sampled_from(["", f"-{tpi}", f" - {tpi.replace('.5', ' 1/2')}"]))
        glued = f"{shown}{pitch}{word}" if f"{shown}{pitch}"[-1] in '0123456789"' else f"{shown}{pitch}-{word}"
        text = draw(st.sampled_from([f"{shown}{pitch} {word}", glued, f"{word} {shown}{pitch}"]))
    hand = draw(st.sampled_from(["right", "left"]))
    if hand == "left":
        text = draw(st.sampled_from([f"{text} LH", f"LH {text}", f"{text} - left hand"]))
    return draw(st.sampled_from([text, text.lower(), text.upper()])), system, size, hand


@settings(max_examples=400)
@given(pipe_spellings())
def test_every_pipe_size_in_every_spelling(case: tuple[str, str, str, str]) -> None:
    text, system, size, hand = case
    found = read(text)
    assert (found.system, found.size, found.hand) == (system, size, hand)


@every(
    ("text", "expected"),
    [
        ("1/4-18 NPT", "1/4-18 NPT"),
        ("1-11 1/2 NPT", "1-11.5 NPT"),
        ("14 NPT", "14 OD-8 NPT"),
        (".500-14 NPT", "1/2-14 NPT"),
        ("1/4-18 ANPT", "1/4-18 ANPT"),
        ("1/8 NPTF-2", "1/8-27 NPTF-2"),
        ("1/8-27 dryseal NPTF class 1", "1/8-27 NPTF-1"),
        ("1/8-27 PTF-SAE SHORT", "1/8-27 PTF-SAE SHORT"),
        ("1/2-14 NPSC LH", "1/2-14 NPSC LH"),
        ("G 1/2", "G 1/2"),
        ("G1/2A", "G 1/2"),
        ("G 1/2-14", "G 1/2"),
        ("1/2 BSPP", "G 1/2"),
        ("ISO 228-1 G 1/2", "G 1/2"),
        ("Rp 1 1/2 LH", "Rp 1 1/2 LH"),
        ("Rc/R 1/2", "Rc 1/2"),
        ("Pipe thread ISO 7-1 - Rc 1 1/2", "Rc 1 1/2"),
        ("1/2 BSW", "1/2 in - 12 BSW (medium)"),
        ("1/2 in - 12 BSW (normal)", "1/2 in - 12 BSW (normal)"),
        ("1/4 in. - 26 BSF - medium", "1/4 in - 26 BSF (medium)"),
        ("2BA", "2 BA"),
        ("No. 2 B.A.", "2 BA"),
        ("0 B.A. normal class", "0 BA"),
        ("1.750-4-ACME-2G-LH", "1 3/4-4 ACME-2G-LH"),
        ("2.875-0.4P-0.8L-ACME-3G", "2.875-0.4P-0.8L-ACME-3G"),
        ("1-4 ACME SPL", "1.000-0.25P-0.25L-ACME-2G"),
        ("1/2-10 STUB ACME", "1/2-10 STUB ACME"),
        ("TR40X7", "Tr 40x7-7H"),
        ("Tr 40x14(P7)-7H LH", "Tr 40x14(P7)LH-7H"),
        ("Tr 40x14P7", "Tr 40x14(P7)-7H"),
        ("Tr40x7LH-7H", "Tr 40x7LH-7H"),
        ("Tr 40x7-8H/8e-L", "Tr 40x7-8H-L"),
        ("1/4-20 UNC STI 3B", "1/4-20 UNC-3B STI"),
        ("10-32 STI", "#10-32 UNF-2B STI"),
        (".3125-24 UNF-3B HELICAL COIL INSERT THD PER MS33537", "5/16-24 UNF-3B STI"),
        ("M8 x 1.25 STI", "M8x1.25 STI 5H"),
        ("EG M6", "M6x1 STI 5H"),
        ("M8 STI 4H5H x 1.5D", "M8x1.25 STI 4H5H"),
        ("1-4 SQUARE DEPTH .125", "SQUARE 1-4 depth 0.125"),
        ("SQUARE 40x14(P7) depth 3.5 LH", "SQUARE 40x14(P7) depth 3.5 LH"),
    ],
)
def test_reads(text: str, expected: str) -> None:
    thread = resolve(read(text))
    assert thread.designation == expected
    assert resolve(read(expected)).designation == expected


@pytest.mark.parametrize(
    ("text", "code", "meant"),
    [
        ("1/2-14 NPT-2B", "thread_class_unknown", "1/2-14 NPT"),
        ("1/2-13 NPT", "thread_series_mismatch", "1/2-13 UNC"),
        ("1/2-13 NPT", "thread_series_mismatch", "1/2-14 NPT"),
        ("7/16 NPT", "thread_size_unknown", "3/8-18 NPT"),
        ("1/4 MNPT", "thread_class_external", "1/4 NPT"),
        ("1-11.5 NPSL", "thread_data_missing", None),
        ("1/8-27 PTF-SPL SHORT", "thread_data_missing", None),
        ("3/8 pipe", "callout_ambiguous", "3/8 NPT"),
        ("3/8 pipe", "callout_ambiguous", "G 3/8"),
        ("1/2 BSP", "callout_ambiguous", "Rp 1/2"),
        ("1/2 BSPT", "callout_ambiguous", "Rc 1/2"),
        ("R 1/2", "thread_class_external", "Rc 1/2"),
        ("G 1/2 T", "thread_data_missing", "G 1/2"),
        ("G 1/2-14 NPT", "thread_series_mismatch", "1/2-14 NPT"),
        ("1/2-14 UNC NPT", "thread_series_mismatch", "1/2-14 NPT"),
        ("ISO 7-1 G 1/2", "thread_series_mismatch", None),
        ("1/2-20 BSF", "thread_series_mismatch", "1/2-20 UNF"),
        ("BSF 3/16-28", "thread_pitch_unknown", "7/32-28 BSF"),
        ("1/2-12 BSW (loose)", "callout_unreadable", None),
        ("18 BA", "thread_size_unknown", "16 BA"),
        ("1-4 ACME", "thread_pitch_unknown", "1-5 ACME-2G"),
        ("1-5 ACME-2C", "thread_data_missing", None),
        ("1-5 ACME-5G", "thread_class_unknown", None),
        ("1-5", "callout_ambiguous", "1-5 ACME"),
        ("Tr 40x7-7e", "thread_class_external", "Tr 40x7-7H"),
        ("Tr 40", "callout_ambiguous", "Tr 40x7-7H"),
        ("Tr 14x4", "thread_pitch_unknown", "Tr 14x3-7H"),
        ("Tr 40x15(P7)", "thread_lead_invalid", None),
        ("1/4-20 STI 2A", "thread_class_external", None),
        ("M8 STI 6H", "thread_class_unknown", None),
        ("1/2-28 STI", "thread_pitch_unknown", "1/2-20 STI 2B"),
        ("M8 x 1.25 STI 23.5 deep", "callout_has_depth", "M8 x 1.25 STI"),
        ("1-4 SQUARE", "thread_field_missing", None),
        ("S 0.8", "thread_data_missing", None),
        ("S40x7", "thread_data_missing", None),
        ("2 1/2-4 BUTT", "thread_system_unknown", None),
        ("NPT STI 1/2", "thread_series_mismatch", None),
        ("0.33 UNM", "thread_size_unknown", "0.35 UNM"),
    ],
)
def test_refusals_say_what_was_meant(text: str, code: str, meant: str | None) -> None:
    with pytest.raises(BorewrightError) as refused:
        read(text)
    assert refused.value.code == code
    assert refused.value.faults[0].pointer == "/thread"
    assert meant is None or meant in refused.value.faults[0].did_you_mean


def test_depth_beside_an_insert_is_explained() -> None:
    # ASME B18.29.2M: 23.5 = 12 + 4 + 6 x 1.25 is the drilled depth for a plug tap
    with pytest.raises(BorewrightError) as refused:
        read("M8 x 1.25 STI 23.5 deep")
    assert "drilled hole" in refused.value.faults[0].detail


@every("row", lambda: load("unified_miniature").rows, ids=lambda row: row["size"])
def test_miniature_sizes(row: dict[str, str]) -> None:
    for text in (f"{row['size']} UNM", f"UNM {row['size'].rstrip('0')}", f"{row['size']}x{row['pitch_mm']} unm"):
        found = read(text)
        assert (found.system, found.size, str(found.pitch)) == ("unified_miniature", row["size"], row["pitch_mm"])


@pytest.mark.parametrize(
    ("fields", "text"),
    [
        (ThreadFields("npt", "1/4"), "1/4 NPT"),
        (ThreadFields("npt", "1/4", series="anpt"), "1/4 ANPT"),
        (ThreadFields("nptf", "1/8", series="PTF-SAE Short"), "1/8 PTF-SAE SHORT"),
        (ThreadFields("nptf", "1/8", thread_class="1"), "1/8 NPTF-1"),
        (ThreadFields("iso_228", "1/2", thread_class="a"), "G 1/2 A"),
        (ThreadFields("iso_7", "1/2", series="rp"), "Rp 1/2"),
        (ThreadFields("whitworth", "1/2", series="BSW", thread_class="Normal"), "1/2 BSW normal"),
        (ThreadFields("british_association", "2"), "2 BA"),
        (ThreadFields("acme", "1 1/2", starts=2), "1 1/2 ACME (2 STARTS)"),
        (ThreadFields("stub_acme", ".5"), "0.5 STUB ACME"),
        (ThreadFields("insert_unified", "#10", series="UNF"), "#10 UNF STI"),
        (ThreadFields("insert_metric", "M8"), "M8 STI"),
    ],
)
def test_fields_and_text_say_the_same(fields: ThreadFields, text: str) -> None:
    assert from_fields(fields) == read(text)


@pytest.mark.parametrize(
    ("fields", "code", "pointer"),
    [
        (ThreadFields("npt", "1/4", thread_class="2B"), "thread_class_unknown", "/thread/class"),
        (ThreadFields("npt", "1/4", starts=2), "thread_field_unexpected", "/thread/starts"),
        (ThreadFields("npt", "1/4", series="UNC"), "thread_series_mismatch", "/thread/series"),
        (ThreadFields("npt", "7/16"), "thread_size_unknown", "/thread/size"),
        (ThreadFields("iso_7", "1/2"), "thread_field_missing", "/thread/series"),
        (ThreadFields("iso_7", "1/2", series="R"), "thread_class_external", "/thread/series"),
        (ThreadFields("whitworth", "1/2"), "thread_field_missing", "/thread/series"),
        (ThreadFields("acme", "1", series="UNC"), "thread_series_mismatch", "/thread/series"),
        (ThreadFields("trapezoidal", "40"), "callout_ambiguous", "/thread/pitch"),
        (ThreadFields("trapezoidal", "Tr 41"), "thread_size_unknown", "/thread/size"),
        (ThreadFields("insert_metric", "M8", thread_class="6g"), "thread_class_external", "/thread/class"),
        (ThreadFields("square", "1"), "thread_field_missing", "/thread/pitch"),
    ],
)
def test_refusals_point_at_the_field(fields: ThreadFields, code: str, pointer: str) -> None:
    with pytest.raises(BorewrightError) as refused:
        from_fields(fields)
    fault = refused.value.faults[0]
    assert (fault.code, fault.pointer) == (code, pointer)
