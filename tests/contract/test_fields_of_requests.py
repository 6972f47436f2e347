"""What a field of a request takes: ranges at both of their ends, lists by number and by length, texts, numbers."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.faults import RequestInvalid, shown
from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array
from borewright.contract.fields.strict import Number, Text, Whole
from every import every
from marshmallow import ValidationError


def refusal(field, value):
    """Code and detail of the refusal of a value, None where it is taken."""
    try:
        field.deserialize(value)
    except ValidationError as error:
        return error.messages[0].code, error.messages[0].detail
    return None


# --- ranges -----------------------------------------------------------------------------------------------------------


@every(
    ("allowed", "value", "unit", "inside"),
    [
        (ranges.LENGTH, "0.0001", "in", True),
        (ranges.LENGTH, "0.00009", "in", False),
        (ranges.LENGTH, "100", "in", True),
        (ranges.LENGTH, "100.1", "in", False),
        (ranges.LENGTH, "0.001", "mm", True),
        (ranges.LENGTH, "0.0009", "mm", False),
        (ranges.LENGTH, "2540", "mm", True),
        (ranges.LENGTH, "2540.1", "mm", False),
        # a bare number may be in either unit
        (ranges.LENGTH, "0.0001", None, True),
        (ranges.LENGTH, "2540", None, True),
        (ranges.LENGTH, "2540.1", None, False),
        (ranges.LENGTH, "0", "in", False),
        (ranges.LENGTH, "-1", "in", False),
        (ranges.LENGTH_OR_NONE, "0", "in", True),
        (ranges.LENGTH_OR_NONE, "0.00009", "in", False),
        (ranges.LENGTH_OR_NONE, "-1", "in", False),
        # growth may be below zero, by as much
        (ranges.GROWTH, "-1", "in", True),
        (ranges.GROWTH, "-1.1", "in", False),
        (ranges.GROWTH, "-0.000001", "in", True),
        (ranges.GROWTH, "-0.0000009", "in", False),
        (ranges.GROWTH, "0", "in", True),
        (ranges.LENGTH, "NaN", "in", False),
        (ranges.LENGTH, "Infinity", "in", False),
    ],
)
def test_a_value_is_inside_its_range(allowed, value, unit, inside):
    if inside:
        allowed.check(Decimal(value), unit, written=value)
        return
    with pytest.raises(RequestInvalid) as refused:
        allowed.check(Decimal(value), unit, written=value)
    assert refused.value.code == "value_out_of_range"


@every(
    ("allowed", "least", "most", "zero"),
    [
        (ranges.COAT, "0.000001", "25", False), (ranges.COAT_OR_NONE, "0.000001", "25", True),
        (ranges.STRESS, "1", "1000000", False), (ranges.TORQUE, "0.001", "800000", False),
        (ranges.POWER, "0.001", "13000", False), (ranges.FRACTION, "0.0001", "1", True),
        (ranges.PERCENT, "0.1", "100", False), (ranges.SPINDLE_SPEED, "0.1", "200000", False),
        (ranges.THREADS_PER_INCH, "0.5", "1000", False), (ranges.STARTS, "1", "24", False),
        (ranges.POINT_ANGLE, "60", "180", False), (ranges.CHAMFER_THREADS, "0.5", "12", False),
        (ranges.SAFETY_FACTOR, "0.1", "10", False), (ranges.PAGE, "1", "100000", False),
        (ranges.PAGE_SIZE, "1", "500", False), (ranges.SECONDS, "0.01", "3600", True),
        (ranges.PIECES, "1", "1000000", False), (ranges.MEASURED_PIECES, "1", "1000000", False),
        (ranges.BROKEN, "1", "1000000", True), (ranges.SPREAD, "0.0000001", "1000", False),
        (ranges.SCALE_FACTOR, "0.001", "100000", False), (ranges.TORQUE_FACTOR, "0.01", "100", False),
        (ranges.CONFIDENCE, "0.5", "0.999", False),
    ],
)  # fmt: skip
def test_a_bare_number_is_inside_the_widest_of_both_units(allowed, least, most, zero):
    """A thousandth less than the least, and more than the most, is outside; so is what is below zero."""
    for value, inside in (
        (Decimal(least), True), (Decimal(least) * Decimal("0.999"), False),
        (Decimal(most), True), (Decimal(most) * Decimal("1.001"), False),
        (Decimal(0), zero), (-Decimal(least), False),
    ):  # fmt: skip
        try:
            allowed.check(value, None, written=value)
        except RequestInvalid:
            assert not inside, value
        else:
            assert inside, value


@every(
    ("allowed", "words"),
    [
        (ranges.LENGTH, "from 0.0001 to 100 in, or from 0.001 to 2540 mm"),
        (ranges.LENGTH_OR_NONE, "from 0.0001 to 100 in, or from 0.001 to 2540 mm; or 0"),
        (ranges.GROWTH, "from 0.000001 to 1 in, or from 0.00001 to 25 mm; or 0, or as much below 0"),
        (ranges.STARTS, "from 1 to 24"),
        (ranges.PERCENT, "from 0.1 to 100 %"),
    ],
)
def test_a_refusal_tells_the_whole_range(allowed, words):
    with pytest.raises(RequestInvalid) as refused:
        allowed.check(Decimal("9999999.50"), "in", written=Decimal("9999999.50"))
    (fault,) = refused.value.faults
    assert fault.detail == f"9999999.5 in is out of range: {words}."
    assert ", or from ".join(fault.allowed) in words


@every(
    ("allowed", "schema"),
    [
        # the widest of 0.0001 to 100 in and 0.001 to 2540 mm
        (ranges.LENGTH, {"type": "number", "minimum": 0.0001, "maximum": 2540}),
        (
            ranges.LENGTH_OR_NONE,
            {
                "type": "number",
                "minimum": 0,
                "maximum": 2540,
                "not": {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 0.0001},
            },
        ),
        (
            ranges.GROWTH,
            {
                "type": "number",
                "minimum": -25,
                "maximum": 25,
                "not": {
                    "anyOf": [
                        {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 0.000001},
                        {"type": "number", "exclusiveMinimum": -0.000001, "exclusiveMaximum": 0},
                    ]
                },
            },
        ),
    ],
)
def test_the_schema_of_a_range(allowed, schema):
    assert allowed.json_schema() == schema


# --- numbers, texts and lists -----------------------------------------------------------------------------------------


@every(
    ("field", "value", "refused"),
    [
        (Whole("A count.", ranges.STARTS), 24, None),
        (Whole("A count.", ranges.STARTS), 2.0, None),
        (Whole("A count.", ranges.STARTS), 2.5, ("field_type_wrong", "Expected a whole number.")),
        (Whole("A count.", ranges.STARTS), 25, ("value_out_of_range", "25 is out of range: from 1 to 24.")),
        (Whole("A count.", ranges.STARTS), True, ("field_type_wrong", "Expected number, not boolean.")),
        (Number("A count.", ranges.STARTS), 2.5, None),
        (Number("A count.", ranges.STARTS), "2", ("field_type_wrong", "Expected number, not string.")),
        (Text("A word.", longest=3), "abc", None),
        (Text("A word.", longest=3), "abcd", ("text_length_wrong", "Expected at most 3 characters, not 4.")),
        (Text("A word.", longest=3), " ", ("text_length_wrong", "Expected a text that is not blank.")),
        (Text("A word.", longest=3), None, None),
        (Text("A word.", required=True), None, ("field_type_wrong", "Expected string, not null.")),
    ],
)
def test_what_a_field_takes(field, value, refused):
    assert refusal(field, value) == refused


@every(
    ("value", "refused"),
    [
        (["a"], None),
        (["a", "b", "cdef"], None),
        ([], ("list_length_wrong", "Expected 1 to 3 items, not 0.")),
        (["a", "b", "c", "d"], ("list_length_wrong", "Expected 1 to 3 items, not 4.")),
        (["a", "b", "a"], ("list_not_unique", "An item stands in the list twice.")),
        (["abc", "def"], None),
        (["abc", "defg"], ("list_length_wrong", "Expected at most 6 characters, not 7.")),
        (["a", None], ("field_type_wrong", "Expected string, not null.")),
        ("a", ("field_type_wrong", "Expected array, not string.")),
    ],
)
def test_what_a_list_takes(value, refused):
    field = Array("Words.", Text("One."), least=1, most=3, unique=True, most_characters=6)
    assert refusal(field, value) == refused


def test_a_list_and_a_text_tell_their_bounds():
    bounded = Array("Words.", Whole("One.", ranges.STARTS), least=1, most=3, unique=True, most_characters=6)
    one = {"type": "integer", "minimum": 1, "maximum": 24, "description": "One."}
    assert bounded.json_schema(None) == {
        "type": "array", "items": one, "minItems": 1, "maxItems": 3, "uniqueItems": True,
    }  # fmt: skip
    assert Array("Words.", Whole("One.", ranges.STARTS)).json_schema(None) == {"type": "array", "items": one}
    assert Text("A word.", longest=3).json_schema(None) == {
        "type": "string", "minLength": 1, "maxLength": 3, "pattern": r"\S",
    }  # fmt: skip
    assert bounded.metadata["description"] == "Words. At most 6 characters together."


def test_what_was_written_is_shown_up_to_sixty_characters():
    """With its quotation marks; of more than that 57 and three points."""
    assert shown("a" * 58) == f"'{'a' * 58}'"
    assert shown("a" * 59) == f"'{'a' * 56}..."
    assert shown("a" * 4000) == f"'{'a' * 56}..."
    assert shown(2.5) == "2.5"
