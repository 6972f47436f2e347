"""What may be said beside a note: defaults of a bounded size, and general notes; a query says each thing once."""

from __future__ import annotations

import pytest
from borewright.contract.faults import RequestInvalid
from borewright.contract.requests.note import NOTE
from borewright.contract.requests.queries import ExplainQuery, query_object
from every import every


@every(
    ("defaults", "refused"),
    [
        (None, None),
        ({}, None),
        # {"id":""} are 9 bytes, 32768 may be
        ({"id": "x" * 32_759}, None),
        ({"id": "x" * 32_760}, ("text_length_wrong", "/defaults")),
        # three bytes a sign
        ({"id": "€" * 10_919}, None),
        ({"id": "€" * 10_920}, ("text_length_wrong", "/defaults")),
        ({"percent_thread": 1e308}, None),
        ({"percent_thread": float("inf")}, ("value_out_of_range", "/defaults")),
        ({"hole": {"thickness": -float("inf")}}, ("value_out_of_range", "/defaults")),
        ({"percent_thread": 10**400}, ("value_out_of_range", "/defaults")),
        ({"unit_system": "metric"}, None),
    ],
    ids=lambda value: str(value)[:60],
)
def test_defaults_of_a_note(defaults, refused):
    try:
        asked = NOTE.asked({"note": "M8 ↧16", "defaults": defaults})
    except RequestInvalid as error:
        assert refused == (error.faults[0].code, error.faults[0].pointer)
    else:
        assert (refused, asked.request.defaults) == (None, defaults or {})


@every(
    ("said", "unit"),
    [
        ({}, None),
        ({"unit_system": "metric"}, "mm"),
        ({"defaults": {"unit_system": "metric"}}, "mm"),
        ({"defaults": {"unit_system": "inch"}}, "in"),
        ({"unit_system": "inch", "defaults": {"unit_system": "metric"}}, "in"),
    ],
)
def test_the_unit_of_a_note_is_that_of_the_request_else_of_its_defaults(said, unit):
    assert NOTE.asked({"note": "M8 ↧16", **said}).request.request.unit == unit


@every(
    ("name", "pointer"),
    [("explain", "/explain"), ("a/b", "/a~1b"), ("a" * 80, "/" + "a" * 80), ("a" * 90, "/" + "a" * 80)],
)
def test_a_parameter_that_is_given_twice_is_refused(name, pointer):
    assert list(query_object([(name, "x"), ("b", "x")], ExplainQuery)) == [name, "b"]
    with pytest.raises(RequestInvalid) as refused:
        query_object([(name, "x"), ("b", "x"), (name, "y")], ExplainQuery)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer, fault.detail) == (
        "parameter_repeated",
        pointer,
        "A query parameter is given once.",
    )
