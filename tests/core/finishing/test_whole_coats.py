"""Whole coats, from what is written to what lies on the flank: figures, what is said of them, sources and steps.

Printed: ASTM B633 Fe/Zn 8 at least 0.0003 in, holes exempt; ISO 4042:1999 8 um is 7 to 10 um; ASTM B733 SC2 at least 13
um, the deposit follows the hole; MIL-A-8625 Type III 0.002 in +/-20 %, half of it outside; hard chromium of QQ-C-320
0.002 in by the drawing; ASTM B699 at most 12 um. No maximum: 1.5 times the minimum (ASME B1.1 7.5.2).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from allowances import span
from borewright.core.errors import FinishError
from borewright.core.finishing.coat import coat
from borewright.core.finishing.products import catalogue, family_of, products
from borewright.core.model import FinishInput, Range
from borewright.core.quantity_text import NO_BREAK
from every import every

_EXEMPT = (
    "the minimum thickness does not hold inside a threaded hole (holes are exempt or plate thin), so the least build-up"
    " there is taken as zero; give the thickness itself where the drawing extends it into the hole"
)
_FOLLOWS = "the minimum thickness is counted inside the threaded hole, as the deposit follows the hole"
_GIVEN = "the minimum thickness is counted inside the threaded hole, as the thickness is given directly"
_TIMES = ": 1.5 times the minimum is taken (ASME B1.1-2003 7.5.2)"
_NO_LEAST = "no minimum thickness is known: none is counted"
_ON_SURFACE = "no process is named: the whole thickness is taken to lie on the surface (fraction 1)"
_ONE = "only one figure of thickness is given, taken as minimum or nominal" + _TIMES


def _range(ends):
    return Range(*(None if end is None else Decimal(end) for end in ends))


@every(
    ("finish", "unit", "thickness", "growth", "build_up", "said"),
    [
        (
            FinishInput(text="ASTM B633 Fe/Zn 8"), "in", ("0.0003", "0.00045"), ("1", "1"), ("0", "0.00045"),
            ["the specification states no maximum thickness" + _TIMES, _EXEMPT],
        ),
        (
            FinishInput(text="ISO 4042 8 um"), "mm", ("0.007", "0.010"), ("1", "1"), ("0", "0.010"),
            [_EXEMPT, "ISO 4042:1999 nominal 8 um: limits of the batch average; the local minimum is 8 um on the agreed"
             " measuring area only"],
        ),
        # 7 / 25400 and 10 / 25400, to a hundredth of a microinch
        (
            FinishInput(text="ISO 4042 8 um"), "in", ("0.00027559", "0.00039370"), ("1", "1"), ("0", "0.00039370"),
            [_EXEMPT, "ISO 4042:1999 nominal 8 um: limits of the batch average; the local minimum is 8 um on the agreed"
             " measuring area only"],
        ),
        (
            FinishInput(text="ASTM B733 SC2"), "mm", ("0.013", "0.0195"), ("1", "1"), ("0.013", "0.0195"),
            ["the specification states no maximum thickness" + _TIMES, _FOLLOWS,
             "ASTM B733 SC2: Types are the phosphorus content, Classes the heat treatment: no effect on thickness"],
        ),
        (
            FinishInput(text="MIL-A-8625 Type III"), "in", ("0.0016", "0.0024"), ("0.5", "0.5"), ("0.0008", "0.0012"),
            [_FOLLOWS, "MIL-A-8625F / MIL-PRF-8625 Type III: 0.002 in nominal +/-20 %; where the drawing states a film,"
             " give it"],
        ),
        (
            FinishInput(text="QQ-C-320 Class 2"), "in", ("0.002", "0.003"), ("1", "1"), ("0", "0.003"),
            ["the class leaves the maximum thickness to the drawing, which governs" + _TIMES, _EXEMPT],
        ),
        (
            FinishInput(text="ASTM F1136 Grade 4"), "in", ("0.00031", "0.000465"), ("1", "1"), ("0", "0.000465"),
            ["no maximum thickness is published, the thread gauge governs" + _TIMES, _EXEMPT],
        ),
        (
            FinishInput(text="ASTM B699"), "mm", ("0", "0.012"), ("1", "1"), ("0", "0.012"),
            [_NO_LEAST, _EXEMPT,
             "ASTM B699: only the highest class (12 um) is held: no minimum is counted"],
        ),
        (FinishInput(text="MIL-DTL-13924"), "in", (None, None), ("0", "0"), ("0", "0"), []),
        # what is stated beside a class takes its place; thinner than it asks only below its minimum
        (
            FinishInput(specification="ASTM B633", finish_class="Fe/Zn 8", thickness=span("0.0002", "0.0004")), "in",
            ("0.0002", "0.0004"), ("1", "1"), ("0.0002", "0.0004"),
            ["the thickness given replaces that of ASTM B633 Fe/Zn 8 SC2", _GIVEN],
        ),
        (
            FinishInput(specification="ASTM B633", finish_class="Fe/Zn 8", thickness=span("0.0001", "0.0003")), "in",
            ("0.0001", "0.0003"), ("1", "1"), ("0.0001", "0.0003"),
            ["the thickness given replaces that of ASTM B633 Fe/Zn 8 SC2", _GIVEN],
        ),
        (
            FinishInput(specification="ASTM B633", finish_class="Fe/Zn 8", thickness=span("0.0001", "0.00029")), "in",
            ("0.0001", "0.00029"), ("1", "1"), ("0.0001", "0.00029"),
            ["the thickness given replaces that of ASTM B633 Fe/Zn 8 SC2, which is thinner than the class asks",
             _GIVEN],
        ),
        (
            FinishInput(specification="ASTM B633", finish_class="Fe/Zn 8", thickness=span("0.0002", None)), "in",
            ("0.0002", "0.0003"), ("1", "1"), ("0.0002", "0.0003"),
            ["the thickness given replaces that of ASTM B633 Fe/Zn 8 SC2, which is thinner than the class asks",
             _ONE, _GIVEN],
        ),
        (
            FinishInput(specification="ASTM B633", finish_class="Fe/Zn 8", thickness=span(None, "0.0004")), "in",
            ("0", "0.0004"), ("1", "1"), ("0", "0.0004"),
            ["the thickness given replaces that of ASTM B633 Fe/Zn 8 SC2", _NO_LEAST, _GIVEN],
        ),
        # no process; a fraction of the caller's
        (
            FinishInput(thickness=span("0.0002", "0.0004")), "in", ("0.0002", "0.0004"), ("1", "1"),
            ("0.0002", "0.0004"), [_ON_SURFACE, _GIVEN],
        ),
        (
            FinishInput(thickness=span("0.0002", "0.0004"), growth_fraction=Decimal("0.5")), "in", ("0.0002", "0.0004"),
            ("0.5", "0.5"), ("0.0001", "0.0002"), [_GIVEN],
        ),
        (FinishInput(heat_treat_growth=span("0.0001", None)), "in", (None, None), ("1", "1"), ("0", "0"), []),
        (FinishInput(masked=True), "in", (None, None), ("1", "1"), ("0", "0"), []),
        (
            FinishInput(text="ASTM B633 Fe/Zn 8", masked=True), "mm", ("0.008", None), ("1", "1"), ("0", "0"), [],
        ),
        (
            FinishInput(text="nitriding", heat_treat_growth=span("0.0001", None)), "in", (None, None), ("1", "1"),
            ("0", "0"), ['"nitride" names no document: nitriding is taken (common practice)'],
        ),
    ],
)  # fmt: skip
def test_what_lies_on_the_flank(finish, unit, thickness, growth, build_up, said):
    found = coat(finish, unit=unit)
    assert (found.thickness, found.growth, found.build_up) == (_range(thickness), _range(growth), _range(build_up))
    assert [one.replace(NO_BREAK, " ") for one in found.notes.assumptions] == said


_ADVICE = "ASME B1.1-2003 7.4.2, 7.5.2"


@every(
    ("finish", "steps"),
    [
        (
            FinishInput(text="ASTM B633 Fe/Zn 8"),
            [("thickness.min", "table", {"specification": "ASTM B633 Fe/Zn 8 SC2"}, "0.0003", "", "ASTM B633"),
             ("thickness.max", "1.5 * t_min", {"t_min": "0.0003"}, "0.00045", "", _ADVICE),
             ("build_up.max", "fraction * t", {"fraction": "1", "t": "0.00045"}, "0.00045", "in", "build-up a surface"),
             ("build_up.min", "0", {}, "0", "in", "conservative reading: holes exempt or plated thin")],
        ),
        (
            FinishInput(text="MIL-A-8625 Type III"),
            [("thickness.min", "table", {"specification": "MIL-A-8625F / MIL-PRF-8625 Type III"}, "0.0016", "",
              "MIL-A-8625F"),
             ("thickness.max", "table", {"specification": "MIL-A-8625F / MIL-PRF-8625 Type III"}, "0.0024", "",
              "MIL-A-8625F"),
             ("build_up.max", "fraction * t", {"fraction": "0.5", "t": "0.0024"}, "0.0012", "in", "build-up a surface"),
             ("build_up.min", "fraction * t", {"fraction": "0.5", "t": "0.0016"}, "0.0008", "in",
              "build-up a surface")],
        ),
        (
            FinishInput(thickness=span(None, "0.0004")),
            [("thickness.max", "stated", {"stated": "0.0004"}, "0.0004", "", "as given"),
             ("build_up.max", "fraction * t", {"fraction": "1", "t": "0.0004"}, "0.0004", "in", "build-up a surface"),
             ("build_up.min", "fraction * t", {"fraction": "1", "t": "0"}, "0", "in", "build-up a surface")],
        ),
    ],
)  # fmt: skip
def test_steps_of_a_coat(finish, steps):
    found = [
        (one.quantity, one.formula, {name: str(value) for name, value in one.inputs.items()}, one.value, one.unit,
         one.source)
        for one in coat(finish, unit="in").notes.steps
    ]  # fmt: skip
    assert found == [(f"finish.{name}", *rest[:2], Decimal(rest[2]), *rest[3:]) for name, *rest in steps]


def test_sources_of_a_coat():
    """The class and how much of it grows each have their own status; where no maximum is printed, whose advice it is"""

    def sources(text):
        return [(one.field, one.document, one.edition, one.locator, one.status)
                for one in coat(FinishInput(text=text), unit="in").notes.sources]  # fmt: skip

    table = "table as reproduced; exemption of holes from B633-98 7.1.2"
    printed = "Table 2 (class, service condition, minimum), as reproduced in a plater's white paper"
    advice = "7.4.2, 7.5.2; Machinery's Handbook 27th ed. p. 1793 (1.5 times where no maximum is given)"
    assert sources("ASTM B633 Fe/Zn 8") == [
        ("finish.thickness", "ASTM B633", table, printed, "second_hand"),
        ("finish.thickness.max", "ASME B1.1", "1989, 2003", advice, "published"),
        ("finish.growth_fraction", "ASTM B633", table, "build-up of electrodeposited zinc", "computed"),
    ]
    film = "6.10.4; standard film 0.002 in of a processor, +/-20 % from memory"
    assert sources("MIL-A-8625 Type III") == [
        ("finish.thickness", "MIL-A-8625F", "F", film, "from_memory"),
        ("finish.growth_fraction", "MIL-A-8625F", "F", "build-up of hard anodize", "common_practice"),
    ]


@every(
    ("finish", "name", "meant"),
    [
        (FinishInput(text="AMS 2404"), "AMS 2404", ()),
        (FinishInput(text="nitriding"), "nitriding", ()),
        (
            FinishInput(text="zinc plate", heat_treat_growth=span("0.0001", None)), "ASTM B633",
            ("ASTM B633 Fe/Zn 5 SC1", "ASTM B633 Fe/Zn 8 SC2", "ASTM B633 Fe/Zn 12 SC3", "ASTM B633 Fe/Zn 25 SC4"),
        ),
    ],
)  # fmt: skip
def test_a_thickness_that_is_nowhere_is_asked_for(finish, name, meant):
    with pytest.raises(FinishError) as refused:
        coat(finish, unit="in")
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer, fault.did_you_mean) == ("finish_thickness_missing", "/finish/thickness", meant)
    assert (
        fault.detail == f"{name} states no thickness that is held here: take it from the drawing or order and give it."
    )


@every(
    ("text", "unit", "least", "most"),
    [
        # in its own unit as printed; else over 25.4, to a hundredth of a microinch or a nanometre
        ("ASTM B633|Fe/Zn 8 SC2", "in", "0.0003", None), ("ASTM B633|Fe/Zn 8 SC2", "mm", "0.008", None),
        ("ASTM B733|SC2", "in", "0.00051181", None), ("ISO 4042:1999|nominal 8 um", "mm", "0.007", "0.010"),
        ("QQ-N-290A / AMS-QQ-N-290|Class 2", "mm", "0.0508", "0.0762"), ("ASTM B699|", "in", None, "0.00047244"),
        ("AMS 2404|", "in", None, None), ("ASTM F1136|Grade 4", "mm", "0.007874", None),
    ],
)  # fmt: skip
def test_a_printed_thickness_in_either_unit(text, unit, least, most):
    name, _, finish_class = text.partition("|")
    (row,) = [one for one in products()[name] if (one.finish_class or "") == finish_class]
    assert row.thickness(unit) == _range((least, most))


@every(("name", "family"), [("ASTM B633", "zinc"), ("nitriding", "heat_treatment"), ("no such", ""), (None, "")])
def test_the_family_of_a_specification(name, family):
    assert family_of(name) == family


def test_what_the_catalogue_says_of_a_finish():
    by_label = {(one.specification, one.finish_class): one for one in catalogue()}
    zinc, bath, film = (
        by_label[key]
        for key in (("ASTM B633", "Fe/Zn 8 SC2"), ("ISO 10684", "6AX"), ("MIL-A-8625F / MIL-PRF-8625", "Type III"))
    )
    assert (zinc.family, zinc.process, zinc.substrate) == ("zinc", "electrodeposited zinc", "iron and steel")
    assert (zinc.thickness_um, zinc.thickness_in) == (_range(("8", None)), _range(("0.0003", None)))
    assert [one.applied for one in (zinc, bath, film)] == ["before_finish", "after_finish", "before_finish"]
    assert [one.minimum_holds_in_holes for one in (zinc, bath, film)] == [False, False, True]
    assert [one.max_rule for one in (zinc, bath, film)] == ["one_and_a_half", "gauge", "stated"]
    assert (film.growth_fraction, film.document, film.edition, film.status) == (
        _range(("0.5", "0.5")), "MIL-A-8625F", "F", "from_memory",
    )  # fmt: skip


@every(("steel", "least"), [({}, "0.008"), ({"on_steel": False}, "0.008"), ({"on_steel": True}, "0.010")])
def test_only_a_part_that_is_known_as_steel_has_its_thickness_of_tin(steel, least):
    """ASTM B545 class C: 8 um of tin, 10 um on steel."""
    assert coat(FinishInput(text="ASTM B545 Class C"), unit="mm", **steel).thickness.min == Decimal(least)
