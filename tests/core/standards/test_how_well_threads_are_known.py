"""How well each figure of a whole thread is known: as the head of its table says, and no better."""

from __future__ import annotations

from collections import defaultdict

from every import every

#: What an insert hole of 1 to 3 diameters tells of its depths.
LENGTHS = ("1d", "1_5d", "2d", "2_5d", "3d")


def depths(*names: str) -> str:
    return " ".join(f"insert.{name}_{length}" for length in LENGTHS for name in names)


DIAMETERS = "major_diameter pitch_diameter minor_diameter"
BASIC = " ".join(f"basic.{name}" for name in DIAMETERS.split())
EVERY_LIMIT = " ".join(
    f"{side}.{name}.{end}" for side in ("internal", "external") for name in DIAMETERS.split() for end in ("min", "max")
)
LEAST = " ".join(f"internal.{name}.min" for name in DIAMETERS.split())
GREATEST = "internal.pitch_diameter.max internal.minor_diameter.max"
#: Columns of ANSI/ASME B1.20.1-1983 Table 2 that were read, and those of the tap blanks of ANSI/ASME B94.9.
NPT_TABLE = " ".join(
    f"pipe.{name}"
    for name in (
        *("gauge_plane_pitch_diameter", "handtight_engagement", "small_end_pitch_diameter", "effective_length"),
        *("pitch_diameter_at_effective_length", "vanish_length", "overall_external_length"),
        *("full_form_external_length", "pitch_diameter_at_full_form_length", "small_end_minor_diameter"),
        "tap_projection",
    )
)
TURNS = "pipe.gauge_plane_tolerance pipe.diameter_change_per_turn pipe.tap_travel"
MAKE_UP = "pipe.wrench_makeup pipe.pitch_diameter_at_wrench_makeup"
STRAIGHT_HOLE = "pipe.straight_hole_diameter.min pipe.straight_hole_diameter.max"
NPT_FORM = ["sharp_height", "height_max", "height_min", "truncation_min", "truncation_max", "flat_min", "flat_max"]
M_TABLES = "internal.pitch_diameter internal.minor_diameter external.pitch_diameter external.major_diameter"

#: Callout; figures by how well they are known.
KNOWN = [
    # ISO 261 and ISO 965-1 from copies; the recommended classes were not read
    (
        "M8x1.25-6H",
        {
            "second_hand": f"series {M_TABLES}",
            "computed": "basic tensile_stress_area",
            "from_memory": "mating_class",
        },
    ),
    ("M13x1-6H SPL", {"second_hand": M_TABLES, "computed": "basic tensile_stress_area", "from_memory": "mating_class"}),
    # the figures of ISO 10684 for M8 were not seen: computed with tolerances that were read in copies; those of
    # ISO 965-5 for M12 stand on a page that repeats them
    (
        "M8-6AZ",
        {
            "second_hand": f"series internal {M_TABLES}",
            "computed": "basic tensile_stress_area",
            "from_memory": "mating_class",
        },
    ),
    (
        "M12-6AZ",
        {
            "second_hand": f"series internal {M_TABLES}",
            "computed": "basic tensile_stress_area",
            "from_memory": "mating_class",
        },
    ),
    # of 3 mm over 180 mm TD2 was read in a handbook, Td2 is from memory
    (
        "M200x3-6H",
        {
            "published": "internal.pitch_diameter",
            "second_hand": "series internal.minor_diameter external.major_diameter",
            "computed": "basic tensile_stress_area",
            "from_memory": "external.pitch_diameter mating_class",
        },
    ),
    # its tolerances are those of ISO 965-1 and no better known; the root of its screw is from memory
    (
        "MJ8x1.25-4H5H",
        {
            "second_hand": "series internal.pitch_diameter internal.minor_diameter external",
            "computed": "tensile_stress_area",
            "from_memory": "external_root",
        },
    ),
    # FED-STD-H28/2B prints series and minor diameters; what is by the formulas is computed
    (
        "1/2-13 UNC-2B",
        {
            "published": "series internal.minor_diameter",
            "computed": "basic internal.major_diameter internal.pitch_diameter external external_reference standard",
            "second_hand": "tensile_stress_area",
        },
    ),
    # cells of the table of series that no document was seen for, or an open copy only
    (
        "3 5/8-4 UN-2B",
        {
            "from_memory": "series",
            "computed": "basic internal.major_diameter internal.pitch_diameter internal.minor_diameter external"
            " external_reference standard",
            "second_hand": "tensile_stress_area",
        },
    ),
    (
        "3 1/2-4 UNC-2B",
        {
            "second_hand": "series tensile_stress_area",
            "computed": "basic internal.major_diameter internal.pitch_diameter internal.minor_diameter external"
            " external_reference standard",
        },
    ),
    (
        "1/2-13 UNJC-3B",
        {
            "published": "series",
            "computed": "internal.pitch_diameter external",
            "second_hand": "tensile_stress_area",
            "from_memory": "internal.minor_diameter external_root",
        },
    ),
    ("0.80 UNM", {"published": "internal.minor_diameter", "computed": "internal.pitch_diameter"}),
    # a data sheet of 2009 confirms the formulas of B1.5, not the greatest major diameter; those of B1.8 are from memory
    (
        "1-5 ACME-2G",
        {
            "computed": f"{BASIC} {LEAST} {GREATEST} external.major_diameter.max external.pitch_diameter.min"
            " external.pitch_diameter.max external.minor_diameter.min external.minor_diameter.max",
            "from_memory": "internal.major_diameter.max",
        },
    ),
    (
        "1/2-10 STUB ACME",
        {"computed": f"{BASIC} {LEAST}", "from_memory": f"internal.major_diameter.max {GREATEST}"},
    ),
    # the table of crest clearances and tolerances is from memory, the profile of ISO 2901 a formula
    (
        "Tr 40x7-7H",
        {
            "computed": f"{BASIC} internal.pitch_diameter.min internal.minor_diameter.min",
            "from_memory": f"internal.major_diameter.min {GREATEST}",
        },
    ),
    ("1/2-12 BSW", {"computed": f"{BASIC} {LEAST}", "from_memory": GREATEST}),
    ("2 BA", {"published": f"{BASIC} {LEAST}", "computed": GREATEST}),
    ("SQUARE 40x7 DEPTH 3.5", {"computed": f"{BASIC} internal.major_diameter.min internal.minor_diameter.min"}),
    # the least minor diameter of the form and the tolerances of the hole are from memory
    (
        "M8x1.25 STI 5H",
        {
            "computed": "basic.major_diameter basic.pitch_diameter internal.major_diameter.min"
            " internal.pitch_diameter.min insert.set_down.min insert.set_down.max "
            + depths("insert_length", "full_thread_depth", "drill_depth_plug_tap", "drill_depth_bottoming_tap"),
            "from_memory": f"basic.minor_diameter internal.minor_diameter.min {GREATEST}",
            "common_practice": "insert.countersink_angle",
        },
    ),
    (
        "1/4-20 UNC-2B STI",
        {
            "computed": "basic.major_diameter basic.pitch_diameter internal.major_diameter.min"
            " internal.pitch_diameter.min " + depths("insert_length", "full_thread_depth", "full_thread_depth_callout"),
            "from_memory": "basic.minor_diameter internal.minor_diameter.min",
            "second_hand": "insert.countersink_angle",
        },
    ),
    # Tables 1 and 2 of B1.20.1 were read; what is worked out on the cone from them is computed
    (
        "1/2-14 NPT",
        {
            "published": f"{MAKE_UP} {NPT_TABLE} {' '.join(f'truncation.{name}' for name in NPT_FORM)}",
            "computed": f"{TURNS} {STRAIGHT_HOLE} pipe.full_thread_depth pipe.straight_hole_full_crest_depth"
            f" {BASIC} {EVERY_LIMIT}",
        },
    ),
    # lengths of NPTF are those of NPT, L3 by its rule; the dryseal form is from memory, and so is what comes of it
    (
        "1/2-14 NPTF-2",
        {
            "published": NPT_TABLE,
            "computed": f"{MAKE_UP} {TURNS} pipe.full_thread_depth",
            "from_memory": f"{STRAIGHT_HOLE} pipe.straight_hole_full_crest_depth"
            " pipe.minor_diameter_at_handtight_engagement pipe.minor_diameter_at_full_thread_depth"
            f" pipe.probable_drill_oversize truncation.crest_min truncation.crest_max truncation.root_min"
            f" truncation.root_max {BASIC} {EVERY_LIMIT}",
        },
    ),
    (
        "1/2-14 NPSM",
        {
            "published": f"internal.pitch_diameter.min internal.minor_diameter.min {GREATEST}",
            "computed": f"{BASIC} internal.major_diameter.min",
        },
    ),
    # NPSC has no greatest minor diameter
    (
        "1/2-14 NPSC",
        {
            "published": "internal.pitch_diameter.min internal.pitch_diameter.max internal.minor_diameter.min",
            "computed": f"{BASIC} internal.major_diameter.min internal.major_diameter.max",
        },
    ),
    ("Rc 1/2", {"second_hand": None}),
    ("Rp 1/2", {"second_hand": None}),
    # nothing is set for the minor diameter of the external thread, nor for the greatest major of the internal one
    (
        "G 1/2",
        {
            "second_hand": f"{BASIC} {LEAST} {GREATEST} external.major_diameter.min external.major_diameter.max"
            " external.pitch_diameter.min external.pitch_diameter.max"
        },
    ),
]


@every(("text", "known"), KNOWN)
def test_how_well_every_figure_of_a_thread_is_known(resolved, text, known):
    """None: every figure that there is."""
    found = defaultdict(set)
    for source in resolved(text).notes.sources:
        found[source.status].add(source.field)
    assert found.keys() == known.keys()
    for status, fields in known.items():
        assert fields is None or found[status] == set(fields.split()), status


@every(
    ("text", "documents"),
    [
        ("M8x1.25-6H", ("ISO 261", "ISO 724", "ISO 898-1", "ISO 965-1")),
        ("M12-6AZ", ("ISO 261", "ISO 724", "ISO 898-1", "ISO 965-1", "ISO 965-5")),
        ("MJ8x1.25", ("ISO 5855-1", "ISO 898-1", "ISO 965-1")),
        ("1/2-13 UNC-2B", ("ASME B1.1", "FED-STD-H28/2B")),
        ("1/2-13 UNJC-3B", ("ASME B1.1", "ASME B1.15", "FED-STD-H28/2B")),
        ("1-5 ACME", ("ASME B1.5",)),
        ("1/2-10 STUB ACME", ("ASME B1.8",)),
        ("Tr 40x7", ("ISO 2901", "ISO 2904 and ISO 2903")),
        ("1/2-12 BSW", ("BS 84",)),
        ("2 BA", ("BS 93",)),
        ("SQUARE 40x7 DEPTH 3.5", ("the callout",)),
        ("M8 STI", ("ASME B18.29.2M", "shop practice")),
        ("1/4-20 UNC STI", ("ASME B18.29.1", "ASME B18.29.1 and NASM33537", "NASM33537")),
        ("1/2-14 NPT", ("ANSI/ASME B1.20.1", "ANSI/ASME B94.9")),
        ("1/2-14 NPTF", ("ANSI B1.20.3", "ANSI/ASME B1.20.1", "ANSI/ASME B94.9")),
        ("1/2-14 NPSM", ("ANSI/ASME B1.20.1",)),
        ("1/2-14 NPSC", ("ANSI/ASME B1.20.1",)),
        ("Rc 1/2", ("ISO 7-1",)),
        ("Rp 1/2", ("ISO 7-1",)),
        ("G 1/2", ("ISO 228-1",)),
    ],
)
def test_documents_that_speak_for_a_thread(resolved, text, documents):
    assert tuple(sorted({source.document for source in resolved(text).notes.sources})) == documents
