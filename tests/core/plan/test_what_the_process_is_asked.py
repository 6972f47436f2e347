"""What the process behind a hole is told of it: cutting data, chances and the shop's figures, whole records by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from statistics import NormalDist

import pytest
from borewright.contract.requests import HOLE_SPEC
from borewright.core.chance.acceptance import AcceptanceRequest, chance
from borewright.core.cutting.records import CuttingRequest
from borewright.core.model import Length, TapChamfer
from borewright.core.plan.process import cutting_request, mean_hole
from borewright.core.plan.specify import specify
from borewright.core.requests import Machine
from borewright.core.shop_figures.figures import MeasuredCut, MeasuredOversize, MeasuredTapLife, ShopFigures
from every import every

D = Decimal
INCH = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}
MM = {"type": "blind", "full_thread_depth": "16 mm"}
SHOP = {"machine": {"drill_oversize": {"mean": "0.002 in", "standard_deviation": "0.001 in"}}}


def request(thread, hole, **more):
    return HOLE_SPEC.asked({"thread": thread, "hole": hole, **more}).request


def spec(thread, hole, **more):
    return specify(request(thread, hole, **more))


@every(
    ("kind", "floor", "first", "drill_depth"),
    [
        # tip 22.42 (16 + 4.375 of drill + 3.4 of radius over tan 59), thread 16, travel 16 + 2.5 x 1.25
        ("blind", "0", False, "22.42"),
        ("blind", "3", False, "22.42"),
        ("blind", "3", True, "19.42"),
        ("through", "3", True, "19.42"),
    ],
)
def test_the_hole_as_the_cutting_data_see_it(kind, floor, first, drill_depth):
    found = spec("M8", MM, material="4140")
    machine, drill, tap = Machine(tapping="hand"), found.drill.recommended, found.tap.recommended
    figures = ShopFigures(id="shop")
    chamfer = TapChamfer("semi_bottoming", D(2), D(3))
    asked = cutting_request(
        found.material,
        replace(tap, chamfer=chamfer, style="spiral_flute", surface="TiN"),
        drill=replace(drill, diameter=D("6.8"), expected_hole_diameter=D("6.9")),
        depths=found.depths,
        kind=kind,
        method="cut",
        machine=machine,
        figures=figures,
        floor=D(floor),
        counterbored_first=first,
    )
    assert asked == CuttingRequest(
        material=found.material,
        hole_kind=kind,
        drill_diameter=D("6.8"),
        hole_diameter=D("6.9"),
        drill_depth=D(drill_depth),
        full_thread_depth=16 - D(floor),
        tap_travel=D("19.12") - D(floor),
        method="cut",
        style="spiral_flute",
        chamfer_name="semi_bottoming",
        chamfer_threads=D("2.5"),
        coated=True,
        machine=machine,
        tapped=True,
        shop_figures=figures,
    )


#: A blind hole without counterbore that is cut by a machine of which nothing is known.
BARE = {
    "kind": "blind", "method": "cut", "machine": Machine(), "figures": None, "floor": D(0), "counterbored_first": False,
}  # fmt: skip


@every(
    ("surface", "coated"),
    [("bright", False), ("Bright", False), ("oxide", False), ("nitride", False), ("TiN", True), ("TiCN", True)],
)
def test_a_coat_on_the_tap_is_one_that_allows_more_speed(surface, coated):
    found = spec("M8", MM, material="4140")
    drill, tap = found.drill.recommended, replace(found.tap.recommended, surface=surface)
    asked = cutting_request(found.material, tap, drill=drill, depths=found.depths, **BARE)
    assert asked.coated is coated


def test_without_a_tap_the_thread_is_not_tapped_and_nothing_is_assumed_of_one():
    found = spec("M8", MM, material="4140")
    drill = replace(found.drill.recommended, expected_hole_diameter=None)
    asked = cutting_request(found.material, None, drill=drill, depths=found.depths, **BARE)
    assert (asked.tapped, asked.drill_depth, asked.full_thread_depth, asked.tap_travel) == (
        False, D("22.42"), D(16), D("19.12"),
    )  # fmt: skip
    assert asked.hole_diameter == mean_hole(drill) == D("6.8")
    assert asked.shop_figures is None


@every(
    ("thread", "hole", "more", "minor"),
    [
        # 0.207 is one spread above 0.204 + 0.002, four above 0.201 + 0.002; 0.196 is ten and seven below
        ("1/4-20 UNC-2B", {**INCH, "drill": "#6"}, SHOP, NormalDist().cdf(1)),
        ("1/4-20 UNC-2B", {**INCH, "drill": "#7"}, SHOP, NormalDist().cdf(4)),
        # what a reamer or a forming tap makes of the hole is not known
        ("1/4-20 UNC-2B", INCH, {**SHOP, "percent_thread": {"min": 76, "max": 78}}, None),
        ("1/4-20 UNC-2B", INCH, {**SHOP, "material": "6061-T6", "method": "form"}, None),
        # of a steel told by its hardness alone nothing is drilled
        ("1/4-20 UNC-2B", INCH, {**SHOP, "material": {"hardness": "62 HRC"}}, None),
        # the wall is milled in a hole of the chart: 1.7812 + 0.002 lies ten spreads inside 1.759 to 1.795
        ("2-4.5 UNC-2B", INCH, SHOP, 1.0),
    ],
)
def test_the_chance_of_the_minor_diameter(thread, hole, more, minor):
    found = spec(thread, hole, **more).process.acceptance.minor_diameter
    assert found == (None if minor is None else pytest.approx(minor, abs=1e-6))


@every(("tapping", "driven"), [(None, "rigid"), ("rigid", "rigid"), ("floating", "floating"), ("hand", "hand")])
def test_the_chances_are_those_of_drill_tap_and_drive(tapping, driven):
    machine = {**SHOP["machine"], **({} if tapping is None else {"tapping": tapping})}
    found = spec("1/4-20 UNC-2B", {**INCH, "drill": "#6"}, machine=machine)
    tap = found.tap.recommended
    asked = AcceptanceRequest(
        drill_diameter=D("0.204"),
        hole_mean=D("0.206"),
        tap_band=tap.limit.pitch_diameter,
        cut_oversize=tap.fit.cut_oversize,
        tapping=driven,
        hole_sigma=0.001,
    )
    own, by_hand = found.process.acceptance, chance(found.thread, asked)
    assert (own.minor_diameter, own.pitch_diameter, own.both) == (
        by_hand.minor_diameter, by_hand.pitch_diameter, by_hand.both,
    )  # fmt: skip
    assert tap.fit.cut_oversize > 0


FIGURES = ShopFigures(
    drill_oversize=(
        MeasuredOversize(
            30,
            date="2026-11-19",
            spread=0.0007,
            drill_diameter=Length(D("0.204"), "in"),
            mean=Length(D("0.0016"), "in"),
            unit="in",
        ),
    ),
    tap_oversize=(MeasuredCut(20, spread=0.1, mean=0.2, tapping="hand"),),
    tap_life=(MeasuredTapLife(400, rate=0.0075, rate_high=0.02, broken=3),),
)  # fmt: skip


def figured(thread="1/4-20 UNC-2B", hole=None, **more):
    own = request(thread, hole or {**INCH, "drill": "#6"}, **more)
    return specify(replace(own, shop_figures=FIGURES)).process


def test_the_holes_that_a_shop_measured_make_the_chance():
    """0.204 + 0.0016 is 0.0014 below 0.207: two spreads of 0.0007."""
    found = figured().acceptance
    assert found.minor_diameter == pytest.approx(NormalDist().cdf(2), abs=1e-6)
    (source,) = [one for one in found.notes.sources if one.field == "minor_diameter"]
    assert (source.document, source.edition, source.status) == ("shop figures", "2026-11-19", "measured")


@every(
    ("more", "unused"),
    [
        ({"machine": {"tapping": "hand"}}, []),
        ({}, ["tapped by hand, here rigid"]),
        ({"machine": {"tapping": "floating"}}, ["tapped by hand, here in a floating holder"]),
        ({"material": "6061-T6", "method": "form"}, ["cutting taps"]),
    ],
)
def test_figures_of_another_drive_or_tap_are_told_as_not_used(more, unused):
    notes = figured(**more).notes
    told = [one.text for one in notes.cautions if one.code == "shop_figure_not_used" and "tapped threads" in one.text]
    assert [text.partition("(")[2].rpartition(")")[0] for text in told] == unused
    assert any(
        "a tap of this size breaks once in 133 holes, at most once in 50 holes" in one for one in notes.assumptions
    )


@every(
    ("more", "words"),
    [
        ({"thread": "2-4.5 UNC-2B", "hole": INCH}, [
            "the shop's figures of tapped threads are not used: no tap is chosen here",
            "the shop's figures of taps that broke are not used: no tap is chosen here",
        ]),
        ({"material": {"hardness": "62 HRC"}}, [
            "the shop's figures of drilled holes are not used: no drill is chosen here",
            "the shop's figures of tapped threads are not used: no tap is chosen here",
            "the shop's figures of taps that broke are not used: no tap is chosen here",
        ]),
        ({"machine": {"drill_oversize": {"mean": "0.002 in"}, "tapping": "hand"}}, [
            "the shop's figures of drilled holes are not used: machine.drill_oversize goes before them",
        ]),
        ({"machine": {"tapping": "hand"}}, []),
    ],
)  # fmt: skip
def test_figures_that_a_hole_has_no_use_for_are_told(more, words):
    assert [text for text in figured(**more).notes.assumptions if "are not used" in text] == words


MISSING = "The part material was not given, so chart drill and least-torque drill are not compared: name the material."
GRADE = {"mating_screw": {"grade": "SAE J429 grade 5"}}


@every(
    ("thread", "more", "cautions"),
    [
        ("1/2-13 UNC-2B", {}, []),
        ("1/2-13 UNC-2B", {"material": "4140"}, []),
        ("1/2-13 UNC-2B", {"objective": "least_torque"}, [("comparison_missing", MISSING)]),
        ("1/2-13 UNC-2B", {"objective": "least_torque", "material": "4140"}, []),
        ("1/2-13 UNC-2B", {"material": "4140", **GRADE}, []),
        ("1/2-13 UNC-2B", GRADE, [
            ("strength_missing",
             "The strength of the joint is not worked out: the part material was not given."),
        ]),
        ("1/2-13 UNC-2B", {"material": "grey iron", **GRADE}, [
            ("iron_dust", "grey iron: dry cutting makes fine dust: extract it, no blowing off."),
            ("strength_missing",
             "The strength of the joint is not worked out: no strength is held for grey iron: name an alloy and its"
             " condition, or its tensile strength."),
        ]),
        # of a plastic the tensile strength is held, how much of it shears is not
        ("1/2-13 UNC-2B", {"material": "ABS", **GRADE}, [
            ("strength_missing",
             "The strength of the joint is not worked out: no strength is held for {material}: name an alloy and its"
             " condition, or its tensile strength."),
        ]),
        ("1/2-14 NPT", {"material": "4140", **GRADE}, [
            ("strength_missing",
             "The strength of the joint is not worked out: no screw of known strength fits 1/2-14 NPT."),
        ]),
        ("1/2-13 UNC-2B", {"material": "unobtainium"}, [
            ("cutting_data_missing",
             "No cutting data are held for unobtainium: take speeds, feeds and torque from the shop's record."),
        ]),
        # nothing is planned, so nothing is missed
        ("1/2-13 UNC-2B", {"material": {"hardness": "62 HRC"}}, []),
        ("3/8-18 NPSC", {"material": "4140", "objective": "least_torque", "percent_thread": 1}, [
            ("comparison_missing",
             "The hole of {drill} leaves a 3/8-18 NPSC tap nothing to cut, so chart drill and least-torque drill are"
             " not compared: ask for more percent of thread."),
        ]),
    ],
)  # fmt: skip
def test_what_is_missing_of_the_process_is_said_with_its_reason(thread, more, cautions):
    found = spec(thread, {"type": "blind", "full_thread_depth": "1 in"}, **more)
    label = "" if found.drill is None else found.drill.recommended.drill.label
    told = [(one.code, one.text) for one in found.process.notes.cautions]
    material = "" if found.material is None else found.material.name
    assert told == [(code, text.format(drill=label, material=material)) for code, text in cautions]
