"""The rules behind the tap limits of each system, at both sides of every boundary of size, pitch and label.

Inch, H n: basic + (n - 1) * 0.0005 to basic + n * 0.0005 in through 1 in. Metric, D n: basic + n * 0.013 mm less the
tolerance of its pitch and size; ISO 1 to 3: 0.1 to 0.3, 0.3 to 0.5 and 0.5 to 0.7 of t.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from functools import cache

from borewright.core import callout, standards
from borewright.core.citation import Cite
from borewright.core.model import BasicDiameters, Range, Thread
from borewright.core.tapping import fit, ground_inch, insert, limits, metric
from borewright.core.tapping.limit_derivation import limit_source, limit_steps, oversize_source
from every import every


@cache
def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def sized(text: str, nominal: str, pitch: str | None = None, **changed) -> Thread:
    """A thread with another nominal diameter and pitch, its basic pitch diameter kept."""
    found = thread(text)
    per = {} if pitch is None else {"pitch": Decimal(pitch)}
    return replace(found, nominal_diameter=Decimal(nominal), **per, **changed)


def ends(found) -> tuple[str, str] | None:
    """The two ends of a limit as they are printed, its label and status beside them."""
    return None if found is None else (str(found.limit.pitch_diameter.min), str(found.limit.pitch_diameter.max))


def rounded(how: str):
    return lambda value, places: value.quantize(Decimal(1).scaleb(-places), rounding=how)


ROUNDING = {"half_even": rounded(ROUND_HALF_EVEN), "half_up": rounded(ROUND_HALF_UP)}


def redone(formula: str, inputs: Mapping[str, object]) -> Decimal:
    """A formula of a derivation, in decimals."""
    words = formula.replace("(", " ( ").replace(")", " ) ").replace(",", " , ").split()
    text = " ".join(f"Decimal('{one}')" if one.replace(".", "").isdigit() and "." in one else one for one in words)
    return eval(text, {"__builtins__": {}}, {"Decimal": Decimal, **ROUNDING, **inputs})


def check_derivation(found, of: Thread) -> None:
    """Formulas and inputs give both ends, which are those of the limit."""
    assert (found.low, found.high) == (found.limit.pitch_diameter.min, found.limit.pitch_diameter.max)
    for step, end in zip(limit_steps(found, of, "limit"), ("max", "min"), strict=True):
        assert step.quantity == f"limit.pitch_diameter.{end}"
        assert (step.value, step.unit) == (getattr(found.limit.pitch_diameter, end), of.unit)
        if step.formula != "table":
            assert redone(step.formula, step.inputs) == step.value


# --- inch ---------------------------------------------------------------------------------------------

RULE = Cite("ASME B94.9", "2008 (R2018)", "Machinery's Handbook 31st ed. p. 972", "published")
OLDER = Cite("ASME B94.9", "1979/1987/1999", "rule for sizes over 1 in", "from_memory")
OLDEST = Cite("ASME B94.9", "1979/1987", "rule for sizes over 1 in", "from_memory")
TABLE_21 = Cite("ASME B94.9", "2008 (R2018)", "Table 21, Machinery's Handbook 31st ed. p. 997", "published")

RULES = [
    # nominal and threads per inch, label, tolerance, status, where
    ("0.060", "80", "H1", "0.0005", "published", RULE),
    ("0.5", "13", "H11", "0.0005", "published", RULE),
    ("0.5", "13", "H12", "0.0005", "computed", RULE),
    ("0.5", "13", "L1", "0.0005", "computed", RULE),
    ("0.5", "13", "L2", "0.0005", "published", RULE),
    ("0.5", "13", "L5", "0.0005", "computed", RULE),
    ("1", "8", "H4", "0.0005", "published", RULE),
    ("1", "3", "H4", "0.0005", "published", RULE),
    # rows printed for a size: the printed label, and steps from it
    ("1.125", "7", "H4", "0.0005", "published", TABLE_21),
    ("1.125", "7", "H6", "0.0005", "computed", TABLE_21),
    ("2", "4.5", "H4", "0.0005", "published", TABLE_21),
    # over 1 to 1.5 in from 6 threads per inch on, then coarser or larger
    ("1.0001", "16", "H4", "0.0010", "from_memory", OLDER),
    ("1.25", "16", "H3", "0.0010", "from_memory", OLDER),
    ("1.5", "8", "H4", "0.0010", "from_memory", OLDER),
    ("1.25", "6", "H4", "0.0010", "from_memory", OLDER),
    ("1.25", "5.9", "H4", None, None, None),
    ("1.5", "5", "H4", None, None, None),
    ("1.5001", "8", "H4", "0.0015", "from_memory", OLDEST),
    ("1.75", "12", "H6", "0.0015", "from_memory", OLDEST),
    ("3", "4", "H4", "0.0015", "from_memory", OLDEST),
]  # fmt: skip


@every("nominal,tpi,label,tolerance,status,place", RULES)
def test_the_tolerance_of_a_limit_number_by_size_and_pitch(nominal, tpi, label, tolerance, status, place):
    found = ground_inch.label_rule(label, nominal_in=Decimal(nominal), tpi=Decimal(tpi))
    if tolerance is None:
        assert found is None
        return
    assert (found.tolerance_in, found.status, found.origin) == (Decimal(tolerance), status, place)
    older = status == "from_memory"
    assert (found.note is not None) is older
    assert not older or found.note.startswith("the list ends below this size: an older rule is used")


INCH = [
    # thread, basic pitch diameter, label, ends worked out from it
    ("1/2-13 UNC-2B", "0.4500", "H1", ("0.4500", "0.4505")),
    ("1/2-13 UNC-2B", "0.4500", "H7", ("0.4530", "0.4535")),
    ("1/2-13 UNC-2B", "0.4500", "L1", ("0.4495", "0.4500")),
    ("1/2-13 UNC-2B", "0.4500", "L4", ("0.4480", "0.4485")),
    ("1 1/4-16 UN-2B", "1.2094", "H4", ("1.2104", "1.2114")),
    ("1 3/4-12 UN-2B", "1.6959", "H4", ("1.6964", "1.6979")),
    ("1 1/4-7 UNC-2B", "1.1572", "H4", ("1.1587", "1.1592")),
    ("1 1/4-7 UNC-2B", "1.1572", "H2", ("1.1577", "1.1582")),
    ("1/2-13 UNC-2B", "0.4500", "D5", None),
    ("1/2-13 UNC-2B", "0.4500", "ISO 2", None),
]  # fmt: skip


@every("text,basic,label,band", INCH)
def test_limits_of_inch_taps(text, basic, label, band):
    found_for = thread(text)
    assert str(found_for.basic.pitch_diameter) == basic
    found = limits.labelled(found_for, label)
    assert ends(found) == band
    if band is not None:
        assert found.limit.label == label
        check_derivation(found, found_for)


def test_the_pitch_of_an_inch_thread_counts_where_its_threads_per_inch_are_not_told():
    """1.25 in with a pitch of 1/6.25 in is inside the rule from 6 threads per inch on, with 1/5 outside."""
    fine = sized("1/2-13 UNC-2B", "1.25", "0.16", threads_per_inch=None)
    coarse = sized("1/2-13 UNC-2B", "1.25", "0.2", threads_per_inch=None)
    assert ends(ground_inch.labelled(fine, "H4")) == ("0.4510", "0.4520")
    assert ground_inch.labelled(coarse, "H4") is None
    assert (ground_inch.plus_tolerance(fine), ground_inch.plus_tolerance(coarse)) == (Decimal("0.0010"), None)


@every(
    "nominal,labels",
    [
        ("0.5", [f"H{n}" for n in range(1, 12)]),
        ("1", [f"H{n}" for n in range(1, 12)]),
        ("1.0001", ["H2", "H4", "H6", "H8", "H10"]),
        ("2", ["H2", "H4", "H6", "H8", "H10"]),
    ],
)
def test_limits_that_are_made_through_1_in_and_over(nominal, labels):
    found = ground_inch.h_limits(sized("1/2-13 UNC-2B", nominal))
    assert [one.limit.label for one in found] == labels
    assert limits.limits_of_tables(thread("1/2-13 UNC-2B"), "metric_d") == ()


@every(
    "text,band",
    [
        ("#0-80 UNF-2B", ("0.0521", "0.0531")),
        ("#8-32 UNC-2B", ("0.1442", "0.1457")),
        ("1/4-20 UNC-2B", None),
        ("#5-44 UNF-2B", None),
    ],
)
def test_cut_thread_taps_are_read_from_their_table(text, band):
    found = ground_inch.cut_thread(thread(text))
    assert ends(found) == band
    if found is not None:
        assert (found.limit.label, found.limit.status) == ("cut", "published")
        assert found.origin.locator == "Table 22, Machinery's Handbook 31st ed."
        check_derivation(found, thread(text))


# --- metric -------------------------------------------------------------------------------------------

METRIC = [
    # M8x1.25: basic 7.188, tolerance of a D limit 0.031, t (TD2 of grade 5) 0.125
    ("M8", "D5", ("7.222", "7.253"), "from_memory"),
    ("M8", "D1", ("7.170", "7.201"), "from_memory"),
    ("M8", "DU2", ("7.131", "7.162"), "from_memory"),
    ("M8", "DU1", ("7.144", "7.175"), "from_memory"),
    ("M8", "ISO 1", ("7.201", "7.226"), "from_memory"),  # 0.0125 and 0.0375, half up
    ("M8", "ISO 2", ("7.226", "7.251"), "from_memory"),  # 0.0375 and 0.0625
    ("M8", "ISO 3", ("7.251", "7.276"), "from_memory"),  # 0.0625 and 0.0875
    ("M8", "H3", None, None),
    # M3x0.5: basic 2.675, tolerance 0.015
    ("M3", "D3", ("2.699", "2.714"), "from_memory"),
    # M24x3: basic 22.051, tolerance 0.041
    ("M24", "D8", ("22.114", "22.155"), "from_memory"),
    # M30x2 has no D limits, M1x0.2 no class
    ("M30x2", "D5", None, None),
    ("M1x0.2-4H", "ISO 2", None, None),
    # two starts: the limits of the pitch
    ("M8x2(P1)-6H", "D5", ("7.390", "7.415"), "from_memory"),
]  # fmt: skip


@every("text,label,band,status", METRIC)
def test_limits_of_metric_taps(text, label, band, status):
    found = limits.labelled(thread(text), label)
    assert ends(found) == band
    if band is not None:
        assert (found.limit.label, found.limit.status) == (label, status)
        check_derivation(found, thread(text))
        document = "ISO 2857" if label.startswith("ISO") else "ASME B94.9"
        assert (found.origin.document, limit_source(found, "x").status) == (document, status)


@every(
    "diameter,pitch,tolerance",
    [
        ("1.6", "0.35", "0.015"),
        ("6.3", "0.8", "0.020"),
        ("6.301", "0.8", None),
        ("6.3", "1", "0.025"),
        ("6.301", "1", "0.025"),
        ("6.3", "1.25", None),
        ("6.301", "1.25", "0.031"),
        ("25", "3", "0.041"),
        ("25.001", "3", None),
        ("25", "3.5", None),
        ("25.001", "3.5", "0.052"),
        ("36", "4", "0.052"),
    ],
)
def test_the_tolerance_of_a_d_limit_by_size_band_and_pitch(diameter, pitch, tolerance):
    """Bands through 6.3 and 25 mm; the tolerance of a pitch is that of the row in its band."""
    wanted = None if tolerance is None else Decimal(tolerance)
    assert metric.d_tolerance_mm(sized("M8", diameter, pitch)) == wanted


@every(
    "diameter,pitch,count",
    [("1.59", "0.35", 0), ("1.6", "0.35", 11), ("36", "4", 11), ("36.01", "4", 0), ("20", "1", 11), ("30", "2", 0)],
)
def test_d_limits_are_listed_from_m1_6_to_m36(diameter, pitch, count):
    found = [one.limit.label for one in metric.listed_d(sized("M8", diameter, pitch))]
    assert found == [f"D{number}" for number in range(1, 12)][:count]


@every(
    "text,labels",
    [("M8", ("D5", "D3")), ("M8x1", ("D5",)), ("M3.5", ("D4", "D2")), ("M30x2", ()), ("M12x1.25", ())],
)
def test_d_limits_of_the_table(text, labels):
    assert metric.tabled_d(thread(text)) == labels


@every(
    "text,label,note",
    [
        ("M8-6H", "D5", False),
        ("M8-4H", "D3", False),
        ("M8-4H6H", "D3", False),
        ("M8x1-6H", "D5", False),
        ("M8x1-4H", None, False),
        ("M3.5-4H", "D2", True),
        ("M3.5-6H", "D4", False),
        ("M8-5H", None, False),
        ("M8-6G", None, False),
        ("M12x1.25-6H", None, False),
    ],
)
def test_d_limits_by_class(text, label, note):
    found = metric.recommended_d(thread(text))
    assert (None if found is None else found[0]) == label
    assert (found is not None and found[1] is not None) is note


@every(
    "name,part",
    [("6H", "6H"), ("4H6H", "4H"), ("4H5H", "4H"), ("6AZ", "6AZ"), ("6AX", "6AX"), ("2B", "2B"), (None, None)],
)
def test_the_part_of_a_class_that_is_for_the_pitch_diameter(name, part):
    assert metric.pitch_class(name) == part


@every(
    "name,label",
    [
        *((name, "ISO 1") for name in ("4H", "5H", "4H5H", "4H6H")),
        *((name, "ISO 2") for name in ("6H", "4G", "5G", "6H7H", "5G6G")),
        *((name, "ISO 3") for name in ("7H", "8H", "6G", "7H8H")),
        *((name, None) for name in ("6AZ", "6AX", "7G", "8G", "2B", None)),
    ],
)
def test_the_tap_class_that_is_meant_for_a_thread_class(name, label):
    """ISO 2857:1973, correspondence (from memory)."""
    found = metric.iso_class_for(name)
    assert (None if found is None else found.label) == label


@every(
    "text,label,etched",
    [
        ("M8", "ISO 1", "4H"),
        ("M8", "ISO 2", "6H"),
        ("M8", "ISO 3", "6G"),
        ("M2.2x0.25-5H", "ISO 1", "4H"),
        ("M2.2x0.25-5H", "ISO 2", None),
        ("M2.2x0.25-5H", "ISO 3", None),
    ],
)
def test_the_class_that_is_etched_beside_a_tap_class(text, label, etched):
    """ISO 965-1 has grades 4 and 5 only at a pitch of 0.25 mm."""
    assert metric.class_etched(thread(text), label) == etched


@every(
    "text,unit,tolerance",
    [("M8", "0.125", "0.025"), ("M10", "0.140", "0.028"), ("M12", "0.160", "0.032"), ("M3", "0.080", "0.016")],
)
def test_the_unit_of_the_classes_and_a_fifth_of_it(text, unit, tolerance):
    """t is TD2 of grade 5 of ISO 965-1; a tap by amount has 0.2 t."""
    assert metric.t_mm(thread(text)) == Decimal(unit)
    assert limits.plus_tolerance(thread(text)) == Decimal(tolerance)


# --- inserts ------------------------------------------------------------------------------------------

INSERTS = [
    # Table 25: 1/4-20 2B H3 0.2835 to 0.2840, 3B H2 0.2830 to 0.2835; other numbers are steps of 0.0005 away
    ("1/4-20 UNC STI 2B", "H3", ("0.2835", "0.2840"), "published"),
    ("1/4-20 UNC STI 2B", "H2", ("0.2830", "0.2835"), "published"),
    ("1/4-20 UNC STI 2B", "H5", ("0.2845", "0.2850"), "computed"),
    ("1/4-20 UNC STI 2B", "H1", ("0.2825", "0.2830"), "computed"),
    ("1/4-20 UNC STI 2B", "L1", None, None),
    # Table 26a, inches: M8x1.25 4H H2 0.3475 to 0.3480, 5H and 6H H3 0.3480 to 0.3485; in mm, half even to 0.0001
    ("M8 STI 5H", "H2", ("8.8265", "8.8392"), "published"),
    ("M8 STI 5H", "H3", ("8.8392", "8.8519"), "published"),
    ("M8 STI 5H", "H4", ("8.8519", "8.8646"), "computed"),
    ("M5 STI 5H", "H3", ("5.5474", "5.5601"), "computed"),  # 0.2184 to 0.2189, a misprint set right
    ("M8 STI 5H", "D3", None, None),
    # a pitch or size that the tables do not hold
    ("9/16-12 UNC STI 2B", "H3", None, None),
]  # fmt: skip


@every("text,label,band,status", INSERTS)
def test_limits_of_taps_for_inserts(text, label, band, status):
    found = limits.labelled(thread(text), label)
    assert ends(found) == band
    if band is not None:
        assert (found.limit.label, found.limit.status) == (label, status)
        check_derivation(found, thread(text))
        table = "Table 26a" if text.startswith("M") else "Table 25"
        assert found.origin.locator.startswith(table)
        assert (found.note is not None) is (text.startswith("M5") and label == "H3")


def test_a_step_from_the_printed_limit_is_in_inches_for_a_metric_thread_too():
    (step, _) = limit_steps(limits.labelled(thread("M8 STI 5H"), "H4"), thread("M8 STI 5H"), "limit")
    assert step.formula == "half_even((printed_max + (n - printed_n) * step) * 25.4, 4)"
    assert step.inputs == {
        "printed_min": Decimal("0.3475"),
        "printed_max": Decimal("0.3480"),
        "n": 4,
        "printed_n": 2,
        "step": Decimal("0.0005"),
        "tap_min": Decimal("8.8519"),
    }


@every(
    "text,printed",
    [
        ("1/4-20 UNC STI 2B", [("2B", "H3"), ("3B", "H2")]),
        ("M8 STI 5H", [("4H", "H2"), ("4H5H", "H2"), ("5H", "H3"), ("6H", "H3")]),
        ("9/16-12 UNC STI 2B", []),
    ],
)
def test_classes_of_the_printed_limits(text, printed):
    """4H5H has the pitch diameter of 4H; one column of Table 26a is for 5H and 6H."""
    found = insert.printed_limits(thread(text))
    assert [(name, one.limit.label) for name, one in found] == printed
    tabled = limits.limits_of_tables(thread(text), "inch_h")
    assert [one.limit.label for one in tabled] == list(dict.fromkeys(label for _, label in printed))


def test_an_insert_thread_without_threads_per_inch_has_no_printed_limit():
    found = replace(thread("1/4-20 UNC STI 2B"), threads_per_inch=None)
    assert (insert.printed_limits(found), insert.for_class(found), insert.labelled(found, "H3")) == ((), None, None)


# --- whatever the system ------------------------------------------------------------------------------


@every(
    "text,label",
    [
        ("h3", "H3"),
        (" H03 ", "H3"),
        ("L-2", "L2"),
        ("D 5", "D5"),
        ("du2", "DU2"),
        ("iso2", "ISO 2"),
        ("ISO-3", "ISO 3"),
        ("ISO 1", "ISO 1"),
        ("H99", "H99"),
        ("H100", None),
        ("H0", None),
        ("ISO 0", None),
        ("ISO 4", None),
        ("ISO 12", None),
        ("X3", None),
        ("H", None),
        ("3", None),
    ],
)
def test_spellings_of_a_label(text, label):
    assert limits.normal_label(text) == label


@every(
    "text,asked,used,said",
    [
        ("1/2-13 UNC-2B", None, "inch_h", None),
        ("1/2-13 UNC-2B", "inch_h", "inch_h", None),
        ("1/2-13 UNC-2B", "metric_d", "inch_h", "taps of {} are not made to D limits: told in H limits"),
        ("1/2-13 UNC-2B", "iso_class", "inch_h", "taps of {} are not made to ISO classes: told in H limits"),
        ("M8", None, "iso_class", None),
        ("M8", "metric_d", "metric_d", None),
        ("M8", "iso_class", "iso_class", None),
        ("M8", "inch_h", "iso_class", "taps of {} are not made to H limits: told in ISO classes"),
        ("M8 STI 5H", None, "inch_h", None),
        ("1/2-14 NPT", None, None, None),
        ("1/2-14 NPT", "inch_h", None, "taps of {} have no tabulated limits: H limits were asked for"),
    ],
)
def test_one_system_of_limits_a_thread(text, asked, used, said):
    found = thread(text)
    assert limits.system_for(found, asked) == used
    assert limits.other_system(found, asked) == (() if said is None else (said.format(found.designation),))


@every(
    "text,systems,letters,family",
    [
        ("1/2-13 UNC-2B", ("inch_h",), ("H", "L"), "inch"),
        ("M8", ("iso_class", "metric_d"), ("D", "DU", "ISO"), "metric"),
        ("M8 STI 5H", ("inch_h",), ("H",), "insert"),
        ("1/2-14 NPT", (), (), None),
    ],
)
def test_systems_and_letters_of_a_thread(text, systems, letters, family):
    found = thread(text)
    assert (limits.systems_for(found), limits.letters_for(found), limits.family(found)) == (systems, letters, family)
    assert limits.limits_of_tables(found, "inch_h") != () if "inch_h" in systems else family in (None, "metric")


@every(
    "text,tolerance",
    [("1/2-13 UNC-2B", "0.0005"), ("1 1/4-16 UN-2B", "0.0010"), ("M8 STI 5H", None), ("1/2-14 NPT", None)],
)
def test_the_tolerance_of_a_tap_by_amount(text, tolerance):
    assert limits.plus_tolerance(thread(text)) == (None if tolerance is None else Decimal(tolerance))


@every(
    "text,amount,tolerance,label,band,status,place",
    [
        (
            "7/16-14 UNC-2B", "0.0017", "0.0005", "basic plus 0.0017", ("0.3928", "0.3933"), "computed",
            "Machinery's Handbook 31st ed. p. 972, limits off the even numbers",
        ),
        (
            "M8", "0.100", "0.025", "basic plus 0.100", ("7.288", "7.313"), "from_memory",
            "band of 0.2 t, position given as an amount over basic",
        ),
    ],
)  # fmt: skip
def test_a_limit_by_amount(text, amount, tolerance, label, band, status, place):
    """Machinery's Handbook 31st ed. p. 972: 7/16-14 plus .0017 is 0.3911 + 0.0017 = 0.3928 in at least."""
    found = limits.basic_plus(thread(text), amount=Decimal(amount), tolerance=Decimal(tolerance))
    assert (found.limit.label, ends(found), found.limit.status) == (label, band, status)
    assert (found.origin.locator, found.origin.status) == (place, status)
    check_derivation(found, thread(text))


def test_a_limit_that_is_raised_keeps_its_place():
    found = limits.raised(limits.labelled(thread("3/8-16 UNC-2B"), "H3"), Decimal("0.005"))
    assert (found.limit.label, ends(found), found.limit.status) == ("H3 plus 0.005", ("0.3404", "0.3409"), "computed")
    check_derivation(found, thread("3/8-16 UNC-2B"))


# --- oversize and closing in --------------------------------------------------------------------------


@every(
    "text,tolerance,amount",
    [
        # the tolerance of 2B; that of 1B is 1.5, of 3B 0.75 times as wide
        ("1/2-13 UNC-2B", "0.0065", "0.0010"),
        ("1/2-13 UNC-3B", "0.006400", "0.0010"),  # 0.0048 / 0.75
        ("1/2-13 UNC-1B", "0.006467", "0.0010"),  # 0.0097 / 1.5
        ("#0-80 UNF-3B", "0.002267", "0.0003"),  # 0.0017 / 0.75
        # TD2 of grade 6, whatever the class
        ("M8-6H", "0.160", "0.024"),
        ("M8-4H", "0.160", "0.024"),
        ("M8-7H", "0.160", "0.024"),
        ("M12-6AZ", "0.200", "0.030"),
        # no grade 6 at 0.25 mm: its own, grade 5
        ("M2.2x0.25-5H", "0.060", "0.009"),
        # another system: its own
        ("1/2-13 UNJC-3B", "0.006400", "0.0010"),
    ],
)
def test_the_tolerance_that_oversize_is_a_share_of(text, tolerance, amount):
    found = fit.expected_oversize(thread(text))
    assert (found.tolerance, str(found.amount)) == (Decimal(tolerance), amount)


def test_no_oversize_is_told_of_a_thread_whose_tolerance_is_open():
    found = thread("1/2-13 UNC-2B")
    for pitch in (Range(Decimal("0.45"), None), Range(None, Decimal("0.4565"))):
        one = replace(found, internal=replace(found.internal, pitch_diameter=pitch))
        assert fit.expected_oversize(one) is None


@every(
    "text,nominal,offset,closing",
    [
        ("1/2-13 UNC-2B", "0.138", 1, "0.0005"),
        ("1/2-13 UNC-2B", "0.1381", 2, "0.0010"),
        ("1/2-13 UNC-2B", "0.375", 2, "0.0010"),
        ("1/2-13 UNC-2B", "0.3751", 2, "0.0010"),
        ("M8", "3.505", 1, "0.013"),  # 0.13799 in
        ("M8", "3.506", 2, "0.026"),  # 0.13803 in
        ("M8", "20", 2, "0.026"),
    ],
)
def test_how_far_a_formed_thread_closes_in(text, nominal, offset, closing):
    """Common practice: a limit number through 0.138 in, two above; 0.0005 in or 0.013 mm each."""
    found = sized(text, nominal)
    assert (fit.forming_offset(found), fit.closing_in(found)) == (offset, Decimal(closing))


@every(
    "oversize,largest,above,below",
    [
        # H5 of 1/2-13, 0.4520 to 0.4525, in 0.4500 to 0.4565
        ("0.0010", "0.4535", "0.0020", "0.0030"),
        ("0.0050", "0.4575", "0.0020", "-0.0010"),
        ("0", "0.4525", "0.0020", "0.0040"),
        ("-0.0010", "0.4525", "0.0010", "0.0040"),
        ("-0.0030", "0.4525", "-0.0010", "0.0040"),
    ],
)
def test_oversize_counts_at_the_top_and_closing_in_at_the_bottom(oversize, largest, above, below):
    found = thread("1/2-13 UNC-2B")
    pitch = found.internal.pitch_diameter
    judge = fit.judge(found, pitch, tolerance=Decimal("0.0065"), coat=None, tapping="rigid")
    for asked in (None, judge):
        weighed = fit.weigh(
            limits.labelled(found, "H5"), low=pitch.min, high=pitch.max, window=pitch, oversize=Decimal(oversize),
            judge=asked,
        )  # fmt: skip
        told = weighed.fit
        assert (told.limits, told.cut_oversize) == (pitch, Decimal(oversize))
        assert (told.largest_cut, told.margin_above_min, told.margin_below_max) == (
            Decimal(largest), Decimal(above), Decimal(below),
        )  # fmt: skip
        assert weighed.margin == min(Decimal(above), Decimal(below))
        assert (weighed.chance is not None) is (asked is not None and weighed.margin >= 0)


def test_metric_basic_diameters_are_those_of_the_thread():
    """Taps for inserts are raised over the nominal thread; the rule takes the basic of whatever thread it is given."""
    found = replace(thread("M8"), basic=BasicDiameters(Decimal(9), Decimal("8.188"), Decimal("7.647")))
    assert ends(metric.numbered(found, "D5")) == ("8.222", "8.253")
    assert ends(metric.classed(found, 2)) == ("8.226", "8.251")


def test_the_usual_oversize_of_a_cut_has_no_document_behind_it():
    """No edition of anything: 15 percent of the tolerance is an assumption, and said to be one."""
    source = oversize_source("recommended.oversize")
    assert (source.field, source.document, source.edition) == ("recommended.oversize", "common practice", "")
    assert source.locator.startswith("assumption: 0.15 of the pitch-diameter tolerance")
    assert source.status == "common_practice"
