"""The column of a sheet that a field of a request has: its kind, what it means in short, the words that it may hold."""

from __future__ import annotations

from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array, Object, ObjectSchema, OneOf, ShortForm
from borewright.contract.fields.strict import Boolean, Choice, QuantityField, Text, Whole
from borewright.contract.requests import shop_figures_fit
from borewright.contract.requests.csv_columns import Column, column_of, fields_with_columns
from every import every


class _Coat(ObjectSchema):
    name = Text("Its name.", longest=20)
    plater = Text("Who put it on.", longest=20)


class _Hole(ObjectSchema):
    id = Text("Its name.", longest=20)
    recess = Object("A recess.", _Coat)
    coat = ShortForm("A coat.", Text("Its name.", longest=20), Object("All of it.", _Coat), short="name")
    kept = OneOf("A coat kept.", Text("Its name.", longest=20), Object("All of it.", _Coat))
    out = Object("Has no columns.", _Coat)


@every(
    ("field", "column"),
    [
        # the first sentence, small where its first word is a word of the language
        (Text("Name of the part. It comes back.", longest=9), ("text", "name of the part", ())),
        (Text("ISO 513 group letter.", longest=9), ("text", "ISO 513 group letter", ())),
        (Text("A callout.", longest=9), ("text", "A callout", ())),
        (Text("A class, e.g. 2B or 6H. Default: 2B.", longest=9), ("text", "A class, e.g. 2B or 6H", ())),
        (Text("Wall, 0.5 in say. More. And more.", longest=9), ("text", "wall, 0.5 in say", ())),
        (Boolean("The thread is masked."), ("flag", "the thread is masked", ())),
        (Whole("How many.", ranges.PIECES), ("figure", "how many", ())),
        # words that the sentence does not have stand behind it, the last after "or"
        (
            Choice("Blind or through.", ("Blind", "through")),
            ("text", "blind or through (Blind or through)", ("Blind", "through")),
        ),
        (Choice("How: cut or form.", ("cut", "form")), ("text", "how: cut or form", ("cut", "form"))),
        (Choice("How: cut.", ("cut", "form")), ("text", "how: cut (cut or form)", ("cut", "form"))),
        (Array("What for.", Choice("One.", ("a", "b", "cc"))), ("list", "what for (a, b or cc)", ("a", "b", "cc"))),
        (Array("Drills.", Text("A label.", longest=9)), ("list", "drills", ())),
        # a bare number of a length is in the unit of the request, of all else in one of two units
        (
            QuantityField("Strength.", "stress", ranges.STRESS),
            ("figure", "strength; a bare number is in psi or MPa", ()),
        ),
        (QuantityField("Depth.", "length", ranges.LENGTH), ("figure", "depth", ())),
        # a cell holds what is no object
        (OneOf("Either.", Object("All of it.", _Coat), Text("Its name.", longest=9)), ("text", "its name", ())),
        (OneOf("Either.", Text("Its name.", longest=9), Object("All of it.", _Coat)), ("text", "its name", ())),
    ],
)
def test_the_column_of_a_field(field, column):
    assert column_of(field) == Column(*column)


def test_fields_within_objects_have_columns_of_their_own():
    """Of an object that may be a text the text has its own column, and its field none besides."""
    found = [name for name, _ in fields_with_columns(_Hole, "hole.", {"hole.out": "no columns"})]
    assert found == [
        *("hole.id", "hole.recess.name", "hole.recess.plater", "hole.coat", "hole.coat.plater"),
        *("hole.kept", "hole.kept.name", "hole.kept.plater"),
    ]


def test_a_column_of_measurements_has_several_values_where_pieces_are_alike():
    """A cell of a diameter, a thickness or a torque may hold those of several pieces; a count or a gauge is one."""
    kinds = {name: column.kind for name, column in shop_figures_fit.COLUMNS.items()}
    assert {name for name, kind in kinds.items() if kind == "figures"} == {"measured", "before", "after", "torque"}
    assert {kinds[name] for name in ("drill_diameter", "holes", "limits.min", "gauge_uncertainty")} == {"figure"}
    assert {kinds[name] for name in ("kind", "drill", "thread", "date")} == {"text"}
