"""What a refusal shows of what was sent, and how many faults it names: every bound at both sides."""

from __future__ import annotations

from borewright.contract.faults import RequestInvalid, below, collect, invalid, shown, unknown_fields
from borewright.core.errors import Fault
from every import every

KNOWN = ("thread", "hole", "material")


@every(
    ("value", "text"),
    [
        ("M8", "'M8'"), (8, "8"), (None, "None"), ("a\nb", r"'a\nb'"), ("", "''"),
        # 60 characters with the quotes are shown whole, of more the first 57 and that there are more
        ("a" * 58, "'" + "a" * 58 + "'"), ("a" * 59, "'" + "a" * 56 + "..."), ("a" * 900, "'" + "a" * 56 + "..."),
        ([1] * 20, str([1] * 20)), ([1] * 21, str([1] * 21)[:57] + "..."),  # 3 characters an item: 60, 63
    ],
)  # fmt: skip
def test_what_was_sent_is_shown_short(value, text):
    assert shown(value) == text


@every(
    ("unknown", "named", "told"),
    [
        (0, 0, []), (1, 1, []), (5, 5, []), (6, 5, ["1 more unknown field."]), (7, 5, ["2 more unknown fields."]),
        (40, 5, ["35 more unknown fields."]),
    ],
)  # fmt: skip
def test_five_unknown_fields_are_named_and_the_others_counted(unknown, named, told):
    """The first five as sent, those in the order of the alphabet."""
    names = [f"x{index:02}" for index in reversed(range(unknown))]
    faults = unknown_fields({"thread": "M8", **dict.fromkeys(names), "hole": {}}, KNOWN)
    assert {fault.code for fault in faults} <= {"field_unknown"}
    assert {fault.allowed for fault in faults} <= {KNOWN}
    assert [fault.pointer for fault in faults if fault.pointer] == [f"/{name}" for name in sorted(names[:named])]
    assert [fault.detail for fault in faults[named:]] == told


def test_an_unknown_field_offers_the_one_that_was_meant():
    (fault,) = unknown_fields({"thread": "M8", "materal": "1045"}, KNOWN)
    assert (fault.pointer, fault.did_you_mean) == ("/materal", ("material",))
    assert "'materal'" in fault.detail
    (long,) = unknown_fields({"y" * 200: 1}, KNOWN)
    assert long.pointer == "/" + "y" * 80  # longer names are no names


def test_faults_come_in_the_order_of_the_schema_and_unknown_fields_last():
    missing, wrong = Fault("field_missing", "missing", ""), Fault("field_type_wrong", "wrong", "/type")
    inner = Fault("field_missing", "inner", "/thickness")
    messages = {"material": [wrong], "hole": [inner, "a text of the library"], "thread": [missing]}
    found = collect(messages, {"hole": {}, "colour": 1}, KNOWN)
    assert [(fault.code, fault.pointer) for fault in found] == [
        ("field_missing", "/thread"),
        ("field_missing", "/hole/thickness"),
        ("field_type_wrong", "/material/type"),
        ("field_unknown", "/colour"),
    ]
    # what is missing itself is told by its name, what is missing further below already is
    assert "`thread`" in found[0].detail
    assert (found[1].detail, found[2].detail) == ("inner", "wrong")


@every("faults", [49, 50, 51, 400])
def test_fifty_faults_are_enough_and_unknown_fields_still_told(faults):
    messages = {"hole": [Fault("field_type_wrong", str(index), f"/{index}") for index in range(faults)]}
    found = collect(messages, {"colour": 1}, KNOWN)
    assert [fault.pointer for fault in found] == [*(f"/hole/{index}" for index in range(min(faults, 50))), "/colour"]


def test_a_fault_below_a_field_keeps_all_else():
    fault = Fault("field_value_unknown", "text", "/b", ("x",), ("y",))
    assert below("a/", [fault]) == (Fault("field_value_unknown", "text", "/a~1/b", ("x",), ("y",)),)


def test_a_refusal_has_all_that_it_is_given():
    error = invalid("field_value_unknown", "No.", pointer="/a", allowed=["x", "z"], did_you_mean=["z"])
    assert error.faults == (Fault("field_value_unknown", "No.", "/a", ("x", "z"), ("z",)),)
    assert str(error) == "No."
    several = RequestInvalid([Fault("field_missing", "First.", "/a"), Fault("field_missing", "Second.", "/b")])
    assert str(several) == "First."
