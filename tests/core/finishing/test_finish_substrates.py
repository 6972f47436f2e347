"""What a finish does in holes, and on which material it is put: the cautions by family."""

from __future__ import annotations

from decimal import Decimal

import pytest
from allowances import codes, resolved, said_of, span
from borewright.core.finishing import allow, cautions, substrate
from borewright.core.finishing.finish_text import read
from borewright.core.model import FinishInput, Material
from every import every

HALF = resolved("1/2-13 UNC-2B")


def _row(text):
    return read(text, unit="in", thickness_given=True).product


def _part(family):
    return Material("the part", family, None, None, None, None, None, None, None, None)


@every(
    ("finish", "said"),
    [
        ("ASTM B633 SC2", ["plate_thin_in_deep_holes"]),
        ("ASTM F1941 grade 5", ["plate_thin_in_deep_holes"]),
        ("QQ-P-416 Class 2", ["plate_thin_in_deep_holes"]),
        ("QQ-N-290 Class 2", ["plate_thin_in_deep_holes"]),
        ("ASTM B841", ["plate_thin_in_deep_holes"]),
        ("AMS 2418", ["plate_thin_in_deep_holes"]),
        ("ASTM B545 Class C", ["plate_thin_in_deep_holes"]),
        ("QQ-S-365", ["plate_thin_in_deep_holes"]),
        ("MIL-C-8837 Class 1", ["plate_thin_in_deep_holes"]),  # a line of sight
        ("pvd", ["plate_thin_in_deep_holes"]),
        ("ASTM B695 Class 8", ["plate_thin_in_deep_holes"]),
        ("ASTM B650 Class 1", ["plate_thin_in_deep_holes", "mask_chromium"]),
        ("hard chrome", ["plate_thin_in_deep_holes", "mask_chromium", "finish_thickness_on_drawing"]),
        ("electroless nickel SC1", []),  # it follows the hole
        ("black oxide", []),
        ("MIL-DTL-16232 Type M", []),
        ("ASTM B696 Class 5", []),
        ("hard anodize", ["anodize_thin_in_deep_holes"]),
        ("flZnnc 480 h", ["flake_fills_roots"]),
        ("nitride", ["mask_heat_treatment"]),
    ],
)
def test_what_a_process_leaves_thin_or_full(finish, said):
    """A thickness of 0.0001 in on 1/2-13 moves the pitch diameter by 0.0004 of 0.0065 in."""
    given = FinishInput(specification=finish, masked=False, thickness=span("0.0001", "0.0001"))
    if finish == "nitride":
        given = FinishInput(text=finish, heat_treat_growth=span("0.0001", "0.0001"))
    found = [code for code in codes(allow(HALF, given)) if code != "hydrogen_embrittlement"]
    assert found == said


def test_the_drawing_has_the_thickness_of_hard_chrome():
    found = allow(HALF, FinishInput(text="hard chrome"))
    assert "QQ-C-320B / AMS-QQ-C-320 Class 2 leaves the thickness" in said_of(found, "finish_thickness_on_drawing")


@pytest.mark.parametrize(("most", "thick"), [("0.001225", False), ("0.00122501", True)])
def test_a_coat_that_takes_more_than_the_whole_tolerance_is_thick(most, thick):
    """1/4-20 2B: 0.2175 to 0.2224 in are 0.0049 in, four times 0.001225 in."""
    found = allow(resolved("1/4-20 UNC-2B"), FinishInput(thickness=span("0.0001", most)))
    assert ("thick_coat" in codes(found)) is thick


def test_square_flanks_have_no_tolerance_of_pitch_diameter_to_compare():
    found = allow(resolved("1-4 SQUARE DEPTH .125"), FinishInput(thickness=span("0.0002", "0.02")))
    assert codes(found) == ["square_flanks"]
    assert "square_flanks" not in codes(allow(HALF, FinishInput(thickness=span("0.0002", "0.0003"))))


@every(
    ("finish", "family", "told"),
    [
        ("hard anodize", "titanium", "is for aluminium; the part is the part"),
        ("hard anodize", "aluminium, wrought", None),
        ("hard anodize", "carbon steel", None),  # impossible, which is a decision
        ("hard anodize", None, None),
        ("ASTM B633 Fe/Zn 8", "aluminium, cast", "is for iron and steel"),
        ("ASTM B633 Fe/Zn 8", "carbon steel", None),
        ("ASTM B633 Fe/Zn 8", "titanium", None),
        ("QQ-P-416 Class 2", "aluminium", "is for steel"),
        ("ASTM B650 Class 1", "aluminium", "is for ferrous metals"),
        ("ISO 4042 8 um", "aluminium", "is for steel and copper alloys"),
        ("electroless nickel SC1", "aluminium", None),  # any metal
        ("AMS 2410", "aluminium", None),  # heat resistant alloys are not all of iron
        ("QQ-N-290 Class 2", "aluminium", "is for steel, copper and zinc alloys"),
    ],
)
def test_a_finish_for_another_metal_is_told(finish, family, told):
    row = _row(finish)
    found = [one for one in cautions.of_material(row, _part(family)) if one.code == "finish_substrate"]
    assert bool(found) is (told is not None)
    if told:
        assert found[0].text.startswith(row.label)
        assert told in found[0].text


def test_no_material_no_substrate():
    assert "finish_substrate" not in {one.code for one in cautions.of_material(_row("hard anodize"), None)}


@every(
    ("finish", "impossible", "possible"),
    [
        ("hot dip galvanize", "aluminium magnesium zinc plastic brass bronze copper titanium superalloy nickel"
         " stainless",
         "carbon#steel alloy#steel free-machining#steel grey#iron ductile#iron malleable#iron"),
        ("hard anodize", "carbon#steel alloy#steel free-machining#steel tool#steel stainless grey#iron ductile#iron"
         " malleable#iron brass bronze copper nickel superalloy zinc plastic", "aluminium magnesium titanium"),
        ("MIL-DTL-5541", "carbon#steel alloy#steel tool#steel stainless grey#iron brass bronze copper nickel superalloy"
         " titanium plastic", "aluminium magnesium zinc"),
        ("black oxide", "aluminium magnesium zinc plastic titanium", "carbon#steel stainless grey#iron copper"),
        ("MIL-DTL-16232 Type M", "plastic titanium brass bronze copper stainless nickel superalloy",
         "carbon#steel alloy#steel grey#iron"),
        ("passivate", "carbon#steel alloy#steel grey#iron aluminium magnesium brass bronze copper zinc plastic",
         "stainless titanium"),
        ("ASTM B633 Fe/Zn 8", "plastic", "carbon#steel aluminium"),
        ("nitride", "plastic aluminium magnesium zinc brass bronze copper", "alloy#steel stainless titanium"),
    ],
)  # fmt: skip
def test_what_cannot_be_put_on_a_material_at_all(finish, impossible, possible):
    """finish_substrates.csv (common practice), by the first words of a family."""
    row = _row(finish)
    for name in impossible.split():
        found = substrate.impossible(row, _part(f"{name.replace('#', ' ')}, of some kind"))
        assert found is not None, name
        assert (found.code, found.blocks, found.pointer) == ("finish_substrate_impossible", True, "/finish")
        assert found.text.startswith(f"{row.label} cannot be put on the part: ")
    for name in possible.split():
        assert substrate.impossible(row, _part(name.replace("#", " "))) is None, name
    assert substrate.impossible(row, _part(None)) is None
    assert substrate.impossible(row, None) is None


def test_the_coat_of_a_thread_gauged_before_it():
    """1/2-13 with 0.0002 to 0.0003 in: four times 0.0003 in is what the coat takes of the pitch diameter."""
    finish = FinishInput(thickness=span("0.0002", "0.0003"), dimensions_apply="before_finish")
    assert "takes up to 0.0012\N{NO-BREAK SPACE}in of the" in said_of(allow(HALF, finish), "gauge_before_finish")
    none = FinishInput(text="black oxide", dimensions_apply="before_finish")
    assert "gauge_before_finish" not in codes(allow(HALF, none))
    grown = FinishInput(heat_treat_growth=span("0", "0.0003"), dimensions_apply="before_finish")
    assert "gauge_before_finish" not in codes(allow(HALF, grown))
    assert allow(HALF, grown).change.pitch_diameter.min == Decimal(0)
