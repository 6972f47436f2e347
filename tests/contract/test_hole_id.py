"""The caller's own id of a hole: a text of at most 200 characters that is not blank."""

from __future__ import annotations

from borewright.contract.hole_id import is_usable, of_item
from every import every


@every(
    ("name", "usable", "shown"),
    [
        ("KRP-1", True, True),
        ("K" * 200, True, True),
        ("K" * 201, False, False),
        (" ", False, True),
        ("", False, True),
        (7, False, False),
        (None, False, False),
    ],
)
def test_which_ids_can_be_used_and_shown(name, usable, shown):
    assert is_usable(name) is usable
    assert of_item({"id": name}) == (name if shown else None)


def test_what_is_no_object_has_no_id():
    assert of_item(["id"]) is None
    assert of_item({}) is None
