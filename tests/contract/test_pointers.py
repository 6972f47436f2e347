"""A name as a step of a JSON pointer: RFC 6901 section 3 writes ``~`` as ``~0`` and ``/`` as ``~1``."""

from __future__ import annotations

from borewright.contract.faults import step, unknown_field
from every import every


@every(
    ("name", "pointer"),
    [("thread", "/thread"), ("a/b", "/a~1b"), ("a~b", "/a~0b"), ("~1", "/~01"), ("", "/"), (0, "/0")],
)
def test_steps_of_a_pointer(name, pointer):
    assert step(name) == pointer


def test_an_unknown_field_is_pointed_at_by_its_own_name():
    assert unknown_field("thread~", ("thread",)).pointer == "/thread~0"
