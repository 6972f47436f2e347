"""Finishes as drawings write them: what each text means, and what is refused instead of guessed."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import BorewrightError, FinishError
from borewright.core.finishing import catalogue
from borewright.core.finishing.finish_text import read
from borewright.core.finishing.products import products
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st
from outside_figures import outside

COLUMNS = ("t_min_um", "t_max_um", "t_min_in", "t_max_in")

#: Rows of the older list whose figures a later list replaces under another class name.
SUPERSEDED = {
    ("coatings", "ASTM B695", "Class 107"): "the class is 110, its minimum 107 um",
    ("coatings", "ASTM B695", "Class 70"): "minimum 69 um",
    ("coatings", "ASTM B695", "Class 65"): "minimum 66 um",
    ("coatings", "ASTM B695", "Class 55"): "minimum 53 um",
    ("coatings", "ASTM B650", "-"): "two classes since",
    ("coatings", "ISO 10683:2000", "-"): "reference thickness by hours since",
    ("coatings", "MIL-C-8837B vacuum cadmium", "-"): "three classes since",
    ("coatings", "MIL-A-8625F / MIL-PRF-8625", "Type I, IB, IC, IIB"): "two rows since",
    ("coatings", "MIL-A-8625F / MIL-PRF-8625", "Type III (hard)"): "nominal 0.002 in, 20 percent, since",
}
#: Rows of a maker's own specification: nobody else's drawing calls for them.
MAKERS_OWN = "automotive"
#: Rows that are not taken as limits, with the reason the list itself gives.
NOT_LIMITS = {
    ("coatings_additions", "MIL-A-8625F / MIL-PRF-8625", "Type II Class 1 (undyed)"): "typical film, not a limit",
    ("coatings", "ASTM F2329", "fastener <= 3/8 in, production-lot average"): "row chosen by the size of the thread",
}


def _rows(name):
    return [(name, row) for row in outside(name)]


ROWS = _rows("coatings") + _rows("coatings_additions")


def _key(name, row):
    return name, row["standard"], row["class_designation"]


def _text(row):
    return row["standard"] if row["class_designation"] == "-" else f"{row['standard']} {row['class_designation']}"


IN_FORCE = [
    (name, row)
    for name, row in ROWS
    if _key(name, row) not in SUPERSEDED and not row["standard"].startswith(MAKERS_OWN)
]


@every(("name", "row"), IN_FORCE, ids=lambda value: value if isinstance(value, str) else _text(value))
def test_every_published_row_is_read_by_its_own_words(name, row):
    product = read(_text(row), unit="in").product
    if _key(name, row) in NOT_LIMITS:
        return
    printed = {column: row[column] for column in COLUMNS if row[column] and _prints(row, column)}
    shown = (product.thickness_um.min, product.thickness_um.max, product.thickness_in.min, product.thickness_in.max)
    held = dict(zip(COLUMNS, shown, strict=True))
    assert {column: held[column] for column in printed} == {column: Decimal(printed[column]) for column in printed}
    if not any(row[column] for column in COLUMNS):
        assert not any(shown)


def _prints(row, column):
    """Whether the document prints that column; the other unit is only a conversion."""
    unit = row["published_unit"]
    return "both" in unit or unit.startswith(column.rpartition("_")[2])


def test_superseded_rows_exist():
    keys = {_key(name, row) for name, row in ROWS}
    assert set(SUPERSEDED) | set(NOT_LIMITS) <= keys


@pytest.mark.parametrize(
    "text", ["ASTM B695 Class 107", "MIL-A-8625F Type I, IB, IC, IIB", "ISO 10683:2000", "ASTM B650"]
)
def test_superseded_rows_are_not_guessed(text):
    with pytest.raises(FinishError) as refused:
        read(text, unit="in")
    assert refused.value.faults[0].did_you_mean


PRODUCTS = [row for rows in products().values() for row in rows]


@every("product", PRODUCTS, ids=lambda row: row.label)
def test_every_product_is_read_back_by_its_label(product):
    """Size classes of hot-dip documents are chosen by the thread, so any row of the document will do."""
    for unit in ("in", "mm"):
        found = read(product.label, unit=unit).product
        same = found.specification.name == product.specification.name
        assert found is product or (same and product.after_finish)


@pytest.mark.parametrize(
    ("text", "label"),
    [
        ("ASTM B633 Fe/Zn 8", "ASTM B633 Fe/Zn 8 SC2"),
        ("B633 FE/ZN 8 SC2", "ASTM B633 Fe/Zn 8 SC2"),
        ("astm b633-19 type II sc 2", "ASTM B633 Fe/Zn 8 SC2"),
        ("zinc Fe/Zn 8", "ASTM B633 Fe/Zn 8 SC2"),
        ("Fe/Zn 8", "ASTM B633 Fe/Zn 8 SC2"),
        ("Fe/Zn 3", "ASTM F1941 grade 3"),
        ("F1941 Fe/Zn 5C", "ASTM F1941 grade 5"),
        ("AMS-QQ-P-416 Type II Class 2", "QQ-P-416F / AMS-QQ-P-416 Class 2"),
        ("cadmium plate QQ-P-416 class 2", "QQ-P-416F / AMS-QQ-P-416 Class 2"),
        ("MIL-A-8625 Type III", "MIL-A-8625F / MIL-PRF-8625 Type III"),
        ("MIL-PRF-8625 type 3", "MIL-A-8625F / MIL-PRF-8625 Type III"),
        ("MIL–A–8625F, Type III, Class 1", "MIL-A-8625F / MIL-PRF-8625 Type III"),
        ("hard anodize", "MIL-A-8625F / MIL-PRF-8625 Type III"),
        ("hard anodised per MIL-A-8625", "MIL-A-8625F / MIL-PRF-8625 Type III"),
        ("MIL-A-8625 Type IIB", "MIL-A-8625F / MIL-PRF-8625 Type IC, IIB"),
        ("Type II anodize, dyed black", "MIL-A-8625F / MIL-PRF-8625 Type II Class 2"),
        ("ASTM B733 SC3 Type V Class 2", "ASTM B733 SC3"),
        ("electroless nickel SC3", "ASTM B733 SC3"),
        ("ISO 10684:2004", "ISO 10684"),
        ("ISO 10684 6AX", "ISO 10684 6AX"),
        ("black oxide", "MIL-DTL-13924D / MIL-C-13924C"),
        ("passivated", "AMS 2700 / ASTM A967"),
        ("manganese phosphate", "DOD-P-16232F / MIL-DTL-16232G Type M"),
        ("ISO 4042 - 12 µm", "ISO 4042:1999 nominal 12 um"),
        ("ISO 4042/Zn8", "ISO 4042:1999 nominal 8 um"),
        ("ISO 10683 flZn/nc/480h", "ISO 10683:2000 flZnnc 480 h"),
        ("B695-04 Class 55", "ASTM B695 Class 55"),
        ("QQ-N-290 class 1 grade C", "QQ-N-290A / AMS-QQ-N-290 Class 1 Grade C"),
        ("tin plate ASTM B545 class C on steel", "ASTM B545 Class C on steel"),
    ],
)
def test_as_people_type_it(text, label):
    assert read(text, unit="in").product.label == label


@pytest.mark.parametrize(("unit", "document"), [("in", "ASTM F2329"), ("mm", "ISO 10684")])
def test_hot_dip_names_the_document_of_the_unit(unit, document):
    reading = read("hot-dip galvanized", unit=unit)
    assert reading.product.specification.name == document
    assert any(document in line for line in reading.assumptions)


@pytest.mark.parametrize(
    ("text", "code", "meant"),
    [
        ("zinc plate", "finish_ambiguous", "ASTM B633 Fe/Zn 8 SC2"),
        ("anodize", "finish_ambiguous", "MIL-A-8625F / MIL-PRF-8625 Type III"),
        ("ASTM B733", "finish_ambiguous", "ASTM B733 SC3"),
        ("QQ-N-290 class 1", "finish_ambiguous", "QQ-N-290A / AMS-QQ-N-290 Class 1 Grade A"),
        ("hard anodize Type II", "finish_ambiguous", "MIL-A-8625F / MIL-PRF-8625 Type III"),
        ("ASTM B695 Class 107", "finish_class_unknown", "Class 110"),
        ("ASTM B633 Fe/Zn 12 SC2", "finish_conflict", "ASTM B633 Fe/Zn 12 SC3"),
        ("zink platting", "finish_unknown", "zinc plate"),
        ("black oxide per AMS 2485", "finish_unknown", "MIL-DTL-13924D / MIL-C-13924C"),
    ],
)
def test_refused_with_what_was_probably_meant(text, code, meant):
    with pytest.raises(FinishError) as refused:
        read(text, unit="in")
    assert refused.value.code == code
    assert meant in refused.value.faults[0].did_you_mean


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("MIL-A-8625 Type II Class 3", "finish_class_unknown"),
        ("Fe/Zn 9", "finish_class_unknown"),
        ("zinc plate QQ-P-416 class 2", "finish_conflict"),
        ("Fe/Zn 8 per ABC-1234", "finish_unknown"),
        ("ASTM B63 Fe/Zn 8", "finish_unknown"),
        ("", "finish_unknown"),
        ("x" * 201, "finish_unknown"),
    ],
)
def test_refused(text, code):
    with pytest.raises(FinishError) as refused:
        read(text, unit="in")
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("text", "least", "most", "unit"),
    [
        ("electroless nickel 0.0003-0.0005 in", "0.0003", "0.0005", "in"),
        ('electroless nickel .0003" to .0005"', ".0003", ".0005", "in"),
        ("AMS 2404, 0.2 mil to 0.3 mil", "0.0002", "0.0003", "in"),
        ("zinc plate 8 to 12 µm", "0.008", "0.012", "mm"),
        ("silver AMS 2410 0.0002 in", "0.0002", None, "in"),
        ("silver AMS 2410 0.0005 in max", None, "0.0005", "in"),
        ("hard anodize 50 microns", "0.050", None, "mm"),
    ],
)
def test_a_thickness_in_the_text(text, least, most, unit):
    found = read(text, unit="in").thickness
    ends = [None if end is None else Decimal(end) for end in (least, most)]
    assert found is not None
    assert (found.min, found.max, found.unit) == (*ends, unit)


def test_what_changes_nothing_is_said():
    said = read("ASTM B633 Fe/Zn 8 Type II, yellow", unit="in").assumptions
    assert said == (
        "type 2: no effect on the thickness of ASTM B633",
        "words of the finish that were not used: yellow",
    )


def test_the_catalogue_lists_every_product():
    labels = [f"{entry.specification} {entry.finish_class or ''}".strip() for entry in catalogue()]
    assert labels == [product.label for product in PRODUCTS]
    assert len(set(labels)) == len(labels)


@settings(max_examples=300)
@given(st.text(max_size=220))
def test_any_text_is_read_or_refused_with_a_code(text):
    try:
        read(text, unit="mm")
    except BorewrightError as refused:
        assert refused.code.startswith("finish_")


WORDS = st.sampled_from((
    "ASTM", "B633", "Fe/Zn", "8", "12", "SC2", "zinc", "plate", "Type", "II", "III", "Class", "1A", "grade", "C",
    "MIL-A-8625", "hard", "anodize", "0.0003", "in", "-", "to", "um", "4042", ":", ",", "/", "QQ-P-416F", "F2329",
    "A153", "max", "min", "electroless", "nickel", "1/2",
))  # fmt: skip


@settings(max_examples=400)
@given(st.lists(WORDS, min_size=1, max_size=8))
def test_any_mixture_of_finish_words_is_read_or_refused_with_a_code(words):
    try:
        read(" ".join(words), unit="in")
    except BorewrightError as refused:
        assert refused.code.startswith("finish_")
