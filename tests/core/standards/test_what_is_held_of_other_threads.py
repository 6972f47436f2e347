"""What is held of other threads than unified and metric ones."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import standards
from every import every

D = Decimal


#: System; document; smallest and largest, classes; what is lacking; tables.
HELD = [
    ("acme", "ASME B1.5", "1/4 to 5", "centralizing", ("acme", "tap_drill_acme")),
    ("stub_acme", "ASME B1.8", "", "", ("acme",)),
    ("trapezoidal", "ISO 2901 to ISO 2904", "Tr 8 to 100", "external limits", ("trapezoidal", "tap_drill_trapezoidal")),
    ("whitworth", "BS 84", "BSW 1/8 to 6, BSF 3/16 to 4 1/4", "bolts", ("whitworth", "tap_drill_whitworth")),
    (
        "british_association",
        "BS 93",
        "0 to 16 BA",
        "17 to 25",
        ("british_association", "tap_drill_british_association"),
    ),
    ("square", "none", "basic dimensions only", "no current standard", ()),
    ("unified_miniature", "ASME B1.10", "0.30 to 1.40", "largest pitch diameter", ("unified_miniature",)),
    (
        "insert_unified",
        "ASME B18.29.1 and NASM33537",
        "44 threads #1 to 1 1/2, classes 2B and 3B",
        "greatest pitch and minor",
        ("insert_unified", "tap_limits_sti_inch", "tap_drill_insert_unified"),
    ),
    (
        "insert_metric",
        "ASME B18.29.2M",
        "43 threads M2 to M39, classes 5H and 4H5H",
        "countersink diameters",
        ("insert_metric", "tap_limits_sti_metric", "tap_drill_insert_metric", "iso965_tolerances"),
    ),
]


@every(("system", "document", "covers", "lacks", "tables"), HELD)
def test_what_is_held_of_other_threads(system, document, covers, lacks, tables):
    found = next(one for one in standards.coverages() if one.system == system)
    assert found.document == document
    assert covers in found.covers
    assert lacks in found.does_not_cover
    assert set(tables) <= {table.name for table in found.tables}


@every(
    ("system", "designation", "classes"),
    [
        ("acme", "1/4-16 ACME-2G", ("2G", "3G", "4G")),
        ("stub_acme", "1/4-16 STUB ACME", ("2G",)),
        ("trapezoidal", "Tr 8x1.5-7H", ("7H", "8H", "9H")),
        ("whitworth", "1/8 in - 40 BSW (medium)", ("close", "medium", "normal")),
        ("british_association", "0 BA", ()),
        ("unified_miniature", "0.30 UNM", ()),
        ("insert_unified", "#1-64 UNC-2B STI", ("2B", "3B")),
        ("insert_metric", "M2x0.4 STI 5H", ("5H", "4H5H")),
        ("npt", "1/16-27 NPT", ()),
        ("nptf", "1/16-27 NPTF", ("1", "2")),
        ("npsm", "1/8-27 NPSM", ()),
        ("iso_7", "Rc 1/16", ()),
        ("iso_228", "G 1/16", ()),
    ],
)
def test_catalogue_begins_with_the_smallest_and_names_the_classes(system, designation, classes):
    first = next(one for one in standards.catalogue() if one.system == system)
    assert (first.designation, first.classes) == (designation, classes)


@every(
    ("system", "table", "status"),
    [
        # its head says second_hand; rows of FED-STD-H28/2B are published, those without a document from memory
        ("unified", "unified_selected_uns", "second_hand (some rows from_memory, published)"),
        ("whitworth", "whitworth", "second_hand"),
    ],
)
def test_a_table_whose_rows_are_known_differently_says_so(system, table, status):
    (found,) = (one for one in standards.systems.of(system).coverage().tables if one.name == table)
    assert found.status == status
