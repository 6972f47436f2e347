"""Each kind of field of a reply, in both units: what it shows, its dimension, what its description says of its unit.

Factors (NIST SP 811, 2008, B.8): 25.4 mm an inch, 4.4482216152605 N a pound, 0.3048 m a foot, 550 ft lbf/s a hp.
"""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace

import orjson
from borewright.contract.sections import reply_fields as kind
from borewright.contract.sections.figures_only import figures_only
from borewright.contract.sections.operations import OperationItem, operation_texts
from borewright.contract.sections.schema import ReplyField, SectionSchema, placed, the_record, writer
from borewright.contract.sections.section_text import SharedText, members, pieces, shared
from borewright.contract.unit_view import number, number_or_none, plain, significant, view
from borewright.core.model import Diameters, Range
from borewright.core.plan.operation import Line, Operation
from borewright.core.quantity_text import NO_BREAK
from every import every

LBF, FOOT, INCH = 4.4482216152605, 0.3048, 25.4
HP_W = 550 * FOOT * LBF


def shown(field, value, native="in", asked=None):
    """What a field shows of a value that the record has under the name of the field."""
    schema = type("Single", (SectionSchema,), {"__doc__": "One field.", "figure": field})
    return writer(schema, view(native, asked))(SimpleNamespace(figure=value))["figure"]


HALF_INCH = Decimal("0.5")
LENGTHS = [
    # native, asked, length, shown; 0.4565 x 25.4 = 11.5951; 6.912 / 25.4 = 0.27212598
    ("in", None, "0.4565", 0.4565), ("in", "in", "0.5000", 0.5), ("in", "mm", "0.4565", 11.5951),
    ("mm", None, "6.912", 6.912), ("mm", "mm", "8.0", 8), ("mm", "in", "6.912", 0.272126),
    # seven decimals of an inch, five of a millimetre, half to the even one
    ("in", None, "0.07692307692", 0.0769231), ("mm", None, "1.234565", 1.23456), ("mm", None, "1.234575", 1.23458),
    ("in", "mm", "-0.001", -0.0254),
]  # fmt: skip


@every(("native", "asked", "value", "expected"), LENGTHS)
def test_a_length_is_printed_or_converted_once(native, asked, value, expected):
    assert shown(kind.length("L"), Decimal(value), native, asked) == expected
    assert view(native, asked).length_or_none(Decimal(value)) == expected
    assert view(native, asked).length_or_none(None) is None


AREAS = [
    # 0.1419 x 645.16 = 91.548204; 36.6 / 645.16 = 0.05673011
    ("in", None, "0.1419", 0.1419), ("in", "mm", "0.1419", 91.5482), ("mm", None, "36.6", 36.6),
    ("mm", "in", "36.6", 0.0567301),
]  # fmt: skip


@every(("native", "asked", "value", "expected"), AREAS)
def test_an_area_goes_by_the_square(native, asked, value, expected):
    assert shown(kind.area("A"), Decimal(value), native, asked) == expected
    assert view(native, asked).area_or_none(Decimal(value)) == expected
    assert view(native, asked).area_or_none(None) is None


#: What is held in m/min, N*m, kW, N, MPa, and one of it in the inch set.
PHYSICAL = [
    ("cutting_speed", 30.0, 30 / FOOT), ("torque", 3.7, 3.7 / (LBF * INCH / 1000)), ("power", 0.25, 250 / HP_W),
    ("force", 2313.0, 2313 / LBF), ("stress", 655.0, 655 / (LBF / INCH**2)),
]  # fmt: skip


@every(("dimension", "si", "inch"), PHYSICAL)
def test_physical_figures_have_four_digits(dimension, si, inch):
    field = kind.physical("F", dimension)
    for native in ("in", "mm"):
        assert shown(field, si, native, "mm") == si
        assert shown(field, si, native, "in") == float(f"{inch:.4g}")
    assert shown(field, 123.456, "mm") == 123.5
    assert shown(field, 2000.0, "mm") == 2000
    assert type(shown(field, 2000.0, "mm")) is int


@every(
    ("asked", "value", "expected"), [("in", 25.4, 1), ("in", 0.2, 0.007874), ("mm", 0.2, 0.2), ("mm", 12.34567, 12.35)]
)
def test_millimetres_of_cutting_data(asked, value, expected):
    """0.2 / 25.4 = 0.0078740; four digits."""
    for native in ("in", "mm"):
        assert shown(kind.length_mm("Feed", dimension="feed"), value, native, asked) == expected


ALIKE = [
    # the same in every unit view: all digits, or four, or as they are
    (kind.angle("A"), Decimal("118.00"), 118), (kind.percent("P"), Decimal("73.48"), 73.48),
    (kind.exact("E", "in turns", "count"), Decimal("4.12345"), 4.12345), (kind.ratio("R"), 1.234567, 1.235),
    (kind.chance("C"), 0.98765, 0.9877), (kind.seconds("S"), 12.3456, 12.35), (kind.count("N"), 3, 3),
    (kind.rounded("R", "x", "ratio"), 1234.56, 1235.0), (kind.whole("W", "rev/min", "speed"), 1234567, 1234567),
    (kind.flag("F"), True, True), (kind.word("W"), "0.5 in", "0.5 in"), (kind.choice("C", ("a", "b")), "a", "a"),
]  # fmt: skip


@every(("field", "value", "expected"), ALIKE)
def test_figures_that_no_unit_changes(field, value, expected):
    for native in ("in", "mm"):
        for asked in (None, "in", "mm"):
            assert shown(field, value, native, asked) == expected


QUANTITY = f"drill 0.5{NO_BREAK}in deep"


def test_texts_and_lists():
    for field, value, inch, metric in (
        (kind.text("T"), QUANTITY, "drill 0.5 in deep", "drill 12.7 mm deep"),
        (kind.texts("T"), (QUANTITY, "ream"), ["drill 0.5 in deep", "ream"], ["drill 12.7 mm deep", "ream"]),
        (kind.words("W"), (QUANTITY,), [QUANTITY], [QUANTITY]),
        (kind.limits("L"), Range(HALF_INCH, None), {"min": 0.5, "max": None}, {"min": 12.7, "max": None}),
        (kind.free("F"), {"d": HALF_INCH, "flank_angle": Decimal(60)}, {"d": 0.5, "flank_angle": 60},
         {"d": 12.7, "flank_angle": 60}),
        (kind.section("S", kind.Span), Range(Decimal("2.5"), Decimal(3)), {"min": 2.5, "max": 3},
         {"min": 2.5, "max": 3}),
        (kind.rows("R", kind.Limits), (Range(None, HALF_INCH),), [{"min": None, "max": 0.5}],
         [{"min": None, "max": 12.7}]),
    ):  # fmt: skip
        assert shown(field, value, "in", "in") == inch
        assert shown(field, value, "in", "mm") == metric
        assert shown(field, None, "in", "mm") is None


def test_shared_rows_are_the_text_of_their_rows():
    rows = (Range(HALF_INCH, Decimal(1)), Range(None, None))
    for asked, expected in (("in", [{"min": 0.5, "max": 1}]), ("mm", [{"min": 12.7, "max": 25.4}])):
        text = orjson.loads(orjson.dumps(shown(kind.shared_rows("R", kind.Limits), rows, "in", asked)))
        assert text == [*expected, {"min": None, "max": None}]


def test_diameters():
    three = Diameters(Range(HALF_INCH, None), Range(None, Decimal(1)), Range(Decimal(2), Decimal(3)))
    expected = {
        "major_diameter": {"min": 12.7, "max": None}, "pitch_diameter": {"min": None, "max": 25.4},
        "minor_diameter": {"min": 50.8, "max": 76.2},
    }  # fmt: skip
    assert shown(kind.section("D", kind.DiameterLimits), three, "in", "mm") == expected
    assert view("in", "mm").diameters(three) == view("in", "mm").shown("limits", three) == expected


def test_values_of_mappings():
    """Decimals are lengths but for angles; what is no decimal stays."""
    figures = view("mm", "in")
    values = {"a": Decimal("25.4"), "point_angle": Decimal(118), "b": [Decimal("50.8"), "x"], "c": None, "d": 2.5,
              "e": {"f": Decimal("12.7")}, "g": Range(Decimal("25.4"), None), "h": False}  # fmt: skip
    assert figures.mapping(values) == {
        "a": 1, "point_angle": 118, "b": [2, "x"], "c": None, "d": 2.5, "e": {"f": 0.5}, "g": {"min": 1, "max": None},
        "h": False,
    }  # fmt: skip


def test_values_of_derivations_stay_in_their_own_unit():
    assert plain(Decimal("0.50")) == 0.5
    assert plain(Decimal(8)) == 8
    assert plain(Range(Decimal("0.25"), None)) == {"min": 0.25, "max": None}
    assert plain({"a": (Decimal(1), "x"), "b": [Decimal("1.5")], "c": None}) == {"a": [1, "x"], "b": [1.5], "c": None}


def test_numbers():
    assert [number(one) for one in (Decimal("8.0"), 8.0, Decimal("0.125"), -2.0)] == [8, 8, 0.125, -2]
    assert [type(number(one)) for one in (Decimal("8.0"), 0.5)] == [int, float]
    assert (number_or_none(None), number_or_none(Decimal(2))) == (None, 2)
    assert (significant(None), significant(123456.0), significant(0.000123456)) == (None, 123500.0, 0.0001235)


DESCRIBED = [
    (kind.length("Depth"), "Depth, in `units.length`.", "length"),
    (kind.length("Depth", "in inches"), "Depth, in inches.", "length"),
    (kind.length_mm("Peck"), "Peck, in `units.length`.", "length"),
    (kind.length_mm("Feed", dimension="feed"), "Feed, in `units.feed`.", "feed"),
    (kind.area("Area"), "Area, in the square of `units.length`.", "area"),
    (kind.physical("Torque", "torque"), "Torque, in `units.torque`.", "torque"),
    (kind.angle("Point"), "Point, in degrees.", "angle"),
    (kind.percent("Percent"), "Percent, percent on `percent_basis`.", "percent"),
    (kind.ratio("Margin"), "Margin, a ratio.", "ratio"), (kind.chance("Chance"), "Chance, from 0 to 1.", "chance"),
    (kind.seconds("Time"), "Time, in seconds.", "time"), (kind.count("Pecks"), "Pecks, a count.", "count"),
    (kind.whole("Turns", "rev/min", "rotation"), "Turns, rev/min.", "rotation"), (kind.word("Name."), "Name.", None),
]  # fmt: skip


@every(("field", "description", "dimension"), DESCRIBED)
def test_a_field_says_its_unit_and_what_it_measures(field, description, dimension):
    assert field.metadata["description"] == description
    assert (field.dimension, field.metadata.get("x-dimension")) == (dimension, dimension)


# --- schemas --------------------------------------------------------------------------------------------------------


class Inner(SectionSchema):
    """A part."""

    depth = kind.length("Depth", nullable=True)
    text = kind.text("Text.", present=False)


class Outer(Inner):
    """A whole: its part's fields first."""

    inherited_from = "part"
    further = "more"

    title = kind.word("Title.", source=lambda record: record.name.upper(), data_key="heading")
    inner = kind.section("The part again.", Inner, source="part")
    same = kind.section("The record.", kind.Limits, source=lambda record: Range(record.low, None))


class Whole(SectionSchema):
    """Nothing that could be absent."""

    depth = kind.length("Depth")
    title = kind.word("Title.", source="name")


def test_a_schema_writes_its_record():
    part = SimpleNamespace(depth=HALF_INCH, text=None)
    record = SimpleNamespace(part=part, name="m8", low=Decimal(1), more={"width": Decimal(2), "angle": Decimal(90)})
    assert writer(Outer, view("in", "mm"))(record) == {
        "depth": 12.7, "heading": "M8", "inner": {"depth": 12.7}, "same": {"min": 25.4, "max": None}, "width": 50.8,
        "angle": 90,
    }  # fmt: skip
    part.text = QUANTITY
    written = writer(Outer, view("in", None))(record)
    assert list(written) == ["depth", "text", "heading", "inner", "same", "width", "angle"]
    assert written["text"] == written["inner"]["text"] == "drill 0.5 in deep"
    assert [one.name for one in placed(Outer)] == ["depth", "text", "heading", "inner", "same"]


def test_in_figures_only_what_has_no_value_is_left_out():
    schema = figures_only(Inner, frozenset({"text"}))
    write = writer(schema, view("in", None))
    assert write(SimpleNamespace(depth=None)) == {}
    assert write(SimpleNamespace(depth=HALF_INCH)) == {"depth": 0.5}
    assert schema.in_full is Inner
    assert figures_only(kind.Limits) is kind.Limits
    assert figures_only(Whole) is Whole
    outer = writer(figures_only(Outer, frozenset({"inner.depth", "heading"})), view("in", None))
    record = SimpleNamespace(part=SimpleNamespace(depth=HALF_INCH, text="t"), name="m8", low=None, more={})
    assert outer(record) == {"depth": 0.5, "text": "t", "inner": {"text": "t"}, "same": {"min": None, "max": None}}
    (depth,) = [one.field for one in placed(schema) if one.name == "depth"]
    assert (depth.required, depth.allow_none) == (False, False)
    assert the_record(record) is record


def test_an_operation_is_a_line_with_its_number():
    """Times to three digits, 12.345 s is 12.3; without one there is none."""
    tool = {"label": "27/64", "point_angle": Decimal(118)}
    line = Line("drill", tool, {"depth": HALF_INCH}, f"Drill 0.5{NO_BREAK}in deep", 12.345)
    (text,) = operation_texts(OperationItem, [Operation(20, line)], view("in", "mm"))
    assert orjson.loads(bytes(text)) == {
        "sequence": 20, "operation": "drill", "tool": {"label": "27/64", "point_angle": 118},
        "parameters": {"depth": 12.7}, "time": 12.3, "text": "Drill 12.7 mm deep",
    }  # fmt: skip
    (other,) = operation_texts(OperationItem, [Operation(30, Line("mask", {}, {}, "Mask."))], view("in", "in"))
    assert orjson.loads(bytes(other)) == {
        "sequence": 30,
        "operation": "mask",
        "tool": {},
        "parameters": {},
        "text": "Mask.",
    }


# --- texts that replies share ---------------------------------------------------------------------------------------


def test_pieces_of_a_reply():
    """The first piece and every second one are the reply's own; a shared text of 160 bytes is a piece, one less not."""
    long, short = SharedText(b"x" * 160), SharedText(b"y" * 159)
    found = pieces([b"{", short, b"a", long, b"b", b"}"])
    assert found == (b"{" + short + b"a", long, b"b}")
    assert found[1] is long
    assert pieces([long, long]) == (b"", long, b"", long, b"")
    assert pieces([b"{", b"z" * 200, b"}"]) == (b"{" + b"z" * 200 + b"}",)
    assert pieces([]) == (b"",)


def test_members_stand_between_the_brackets():
    assert members(b'{"a":1}') == b'"a":1'
    assert type(members(b"[]")) is bytes
    assert type(members(shared([1, 2]))) is SharedText
    assert members(shared([1, 2])) == b"1,2"


def test_a_field_tells_its_dimension_where_it_has_one():
    assert ReplyField("A length.", {}, dimension="length").metadata["x-dimension"] == "length"
    assert "x-dimension" not in ReplyField("A word.", {}).metadata


def test_a_field_is_there_and_has_a_value_unless_it_says_otherwise():
    declared = [ReplyField("A word.", {}, **given) for given in ({}, {"nullable": True}, {"present": False})]
    assert [(one.required, one.allow_none) for one in declared] == [(True, False), (True, True), (False, False)]


def test_an_end_of_two_may_be_open():
    for schema in (kind.Limits, kind.Span):
        assert [(one.name, one.field.allow_none) for one in placed(schema)] == [("min", True), ("max", True)]
