"""Which figure of a shop holds for a hole, how it is told, and what is said of the others: each end of each bound."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

import pytest
from borewright.core import callout, finishing, standards
from borewright.core.materials import part_material
from borewright.core.model import FinishInput, Length, LengthRange, MaterialInput
from borewright.core.shop_figures import serving
from borewright.core.shop_figures.data import Group
from borewright.core.shop_figures.figures import (
    Grouped,
    MeasuredCoat,
    MeasuredCut,
    MeasuredOversize,
    MeasuredTapLife,
    MeasuredTorque,
    ShopFigures,
    machines,
    same_machine,
)
from borewright.core.shop_figures.group_words import group_words
from borewright.core.shop_figures.hole_notes import hole_notes
from borewright.core.shop_figures.left_out import HoleServed, left_out
from every import every


def inch(value):
    return Length(Decimal(str(value)), "in")


def mm(value):
    return Length(Decimal(str(value)), "mm")


@cache
def thread(name):
    return standards.resolve(callout.read(name))


STEEL, ALUMINIUM = (part_material.find(MaterialInput(name=name), strict=True) for name in ("4140", "6061-T6"))


def drilled(at=0.3125, **more):
    return MeasuredOversize(30, spread=0.0007, drill_diameter=inch(at), mean=inch(0.0016), unit="in", **more)


def cut(**more):
    return MeasuredCut(20, spread=0.1, mean=0.2, **more)


NAMED = FinishInput(specification="ASTM B633", finish_class="Fe/Zn 8 SC2")


def coat(mean=0.0004, finish=NAMED, **more):
    return MeasuredCoat(20, spread=0.0001, finish=finish, mean=inch(mean), unit="in", **more)


def torque(**more):
    return MeasuredTorque(9, median=1.2, low=1.0, high=1.5, **more)


def life(**more):
    return MeasuredTapLife(400, rate=0.0075, rate_high=0.02, broken=3, **more)


# --- how a figure is told ---------------------------------------------------------------------------------


@every(
    ("figure", "told"),
    [
        (Grouped(1), "1 piece"),
        (Grouped(2), "2 pieces"),
        (Grouped(0), "0 pieces"),
        (Grouped(30, weight=0.966), "30 pieces, weight of the data 97 %"),
        (Grouped(30, weight=0.0), "30 pieces, weight of the data 0 %"),
        (Grouped(3, 0.5, "2026-11-19", "P", "VMC 2"),
         "3 pieces, ISO 513 group P, VMC 2, weight of the data 50 %, measured 2026-11-19"),
        (drilled(drill_style="stub", machine="VMC 2"), "30 pieces, stub, VMC 2"),
        (cut(tap_style="spiral_flute", material_group="N"), "20 pieces, spiral_flute, ISO 513 group N"),
        (coat(plater="Ridge Plating"), "20 pieces, ASTM B633, Fe/Zn 8 SC2, Ridge Plating"),
        (coat(finish=FinishInput()), "20 pieces"),
        (torque(fluid="oil", tap_style="form"), "9 pieces, oil, form"),
        (life(), "400 pieces, 3 broken"),
    ],
)  # fmt: skip
def test_a_figure_says_what_it_comes_of(figure, told):
    assert figure.told() == told


def test_a_spread_of_few_pieces_is_several_deviations():
    assert drilled().scatter() == 0.0007
    assert drilled().scatter(2.0) == 0.0014
    several = drilled(scale_factors=(0.5, 1.0, 3.0))
    assert several.scatter() == pytest.approx((0.00035, 0.0007, 0.0021))
    assert several.scatter(2.0) == pytest.approx((0.0007, 0.0014, 0.0042))


@every(
    ("group", "words"),
    [
        (Group("drill_oversize", ((0.25, 0.5), "P", "VMC 2", "stub")),
         "over 0.25 to 0.5 in, ISO 513 group P, VMC 2, stub"),
        (Group("drill_oversize", ((0.0, 0.0625), None, None, None)), "over 0 to 0.0625 in"),
        (Group("tap_oversize", ("K", "VMC 2", "cut", "rigid", "hand", False)),
         "cut taps, ISO 513 group K, VMC 2, rigid, hand, taps not measured"),
        (Group("tap_oversize", (None, None, "form", None, None, True)), "forming taps"),
        (Group("coat", (("ASTM B633", "Fe/Zn 8 SC2"), "Ridge Plating")), "ASTM B633, Fe/Zn 8 SC2, Ridge Plating"),
        (Group("coat", ((None, None), None)), "all"),
        (Group("tapping_torque", ("N", "VMC 2", "oil", "spiral_flute")), "ISO 513 group N, VMC 2, oil, spiral_flute"),
        (Group("tapping_torque", (None, None, None, None)), "all"),
        (Group("tap_life", ((1.0, 1e9), "P", None)), "over 1 in, ISO 513 group P"),
        (Group("go_no_go", ("1/4-20 UNC-2B", "minor", "VMC 2")), "1/4-20 UNC-2B, minor diameter, VMC 2"),
    ],
)  # fmt: skip
def test_a_group_is_told_in_words(group, words):
    assert group_words(group) == words


# --- which figure holds -----------------------------------------------------------------------------------


def test_a_machine_is_known_however_it_is_written():
    assert same_machine("VMC 2", "vmc-2")
    assert not same_machine("VMC 2", "VMC 3")
    assert not same_machine("VMC 2", None)
    assert same_machine("--", "--")
    assert not same_machine("--", "++")
    assert machines((Grouped(1, machine="VMC 2"), Grouped(1, machine="vmc2"), Grouped(1), Grouped(1, machine="M"))) == {
        "vmc2", "m"
    }  # fmt: skip


@every(
    ("machine", "group", "wanted"),
    [
        # the part's own group first, of each the machine's own first; groups of other parts never
        ("vmc-2", "P", ["steel on 2", "steel", "any on 2", "any"]),
        ("VMC 2", "N", ["any on 2", "any"]),
        ("VMC 3", "P", ["steel on 3", "steel", "any"]),
        ("lathe", "P", ["steel", "any"]),
        # two machines have figures: without a name neither holds
        (None, "P", ["steel", "any"]),
        (None, None, ["any"]),
    ],
)
def test_the_own_group_and_machine_go_first(machine, group, wanted):
    listed = {
        "any": torque(),
        "any on 2": torque(machine="VMC 2"),
        "steel on 3": torque(material_group="P", machine="VMC 3"),
        "steel": torque(material_group="P"),
        "steel on 2": torque(material_group="P", machine="VMC 2"),
        "cast on 2": torque(material_group="K", machine="VMC 2"),
    }
    figures = ShopFigures(machine=machine, tapping_torque=tuple(listed.values()))
    found = list(figures.of(figures.tapping_torque, group))
    assert found == [listed[name] for name in wanted]


def test_the_figures_of_a_single_machine_hold_where_none_is_named():
    only = torque(machine="VMC 2")
    figures = ShopFigures(tapping_torque=(only,))
    assert list(figures.of(figures.tapping_torque, "P")) == [only]
    assert list(figures.on("VMC 2").of(figures.tapping_torque, "P")) == [only]
    assert list(figures.on("VMC 3").of(figures.tapping_torque, "P")) == []
    assert figures.on("VMC 3").on(None).machine == "VMC 3"
    assert serving.torque(figures, STEEL) is only
    assert serving.torque(ShopFigures(), STEEL) is None
    assert serving.torque(None, STEEL) is None


@every(
    ("measured", "drill", "unit", "served"),
    [
        # bands end at 1/16, 1/8, 1/4, 1/2, 3/4 and 1 in, each end in its own
        (0.3125, "0.2501", "in", "same"),
        (0.3125, "0.5", "in", "same"),
        (0.3125, "0.5001", "in", "next"),
        (0.3125, "0.25", "in", "next"),
        (0.3125, "0.1251", "in", "next"),
        (0.3125, "0.125", "in", None),
        (0.3125, "0.75", "in", "next"),
        (0.3125, "0.7501", "in", None),
        (0.3125, "12.7", "mm", "same"),
        (0.3125, "12.71", "mm", "next"),
        (0.9, "1", "in", "same"),
        (0.9, "1.0001", "in", None),  # beyond the table
        (1.1, "1.1", "in", None),
        (0.05, "0.0626", "in", "next"),
    ],
)
def test_a_figure_of_drills_serves_its_own_band_and_the_next(measured, drill, unit, served):
    found = serving.MeasuredDrills((drilled(measured),)).serving(Decimal(drill), unit)
    assert (None if found is None else found[1]) == {"same": False, "next": True, None: None}[served]


def test_a_figure_of_the_own_band_goes_before_one_of_the_next():
    """In the order of the list of equal ones."""
    neighbour, own, other = drilled(0.2), drilled(0.3), drilled(0.4)
    of = serving.MeasuredDrills((neighbour, own, other))
    assert of.serving(Decimal("0.35"), "in") == (own, False)
    assert of.serving(Decimal("0.15"), "in") == (neighbour, False)
    assert of.serving(Decimal("0.6"), "in") == (own, True)
    assert serving.drills(ShopFigures(), STEEL) is None
    assert serving.drills(None, STEEL) is None
    held = ShopFigures(drill_oversize=(drilled(material_group="N"), own))
    assert serving.drills(held, STEEL).figures == (own,)
    assert serving.drills(held, ALUMINIUM).figures[-1] is own


def test_a_figure_of_taps_is_of_the_method_and_of_how_the_tap_is_driven():
    by_hand, formed, any_way = cut(tapping="hand"), cut(method="form", tapping="rigid"), cut()
    figures = ShopFigures(tap_oversize=(by_hand, formed, any_way))
    assert serving.cut(figures, STEEL, "cut", "hand") is by_hand
    assert serving.cut(figures, STEEL, "cut", "rigid") is any_way
    assert serving.cut(figures, STEEL, "form", "rigid") is formed
    assert serving.cut(figures, STEEL, "form", "hand") is None
    assert serving.cut(None, STEEL, "cut", "hand") is None


@every(
    ("band", "name", "fits"),
    [
        ((inch(0.25), inch(0.5)), "1/4-20 UNC-2B", False),  # the lower end is of the band before
        ((inch(0.25), inch(0.5)), "5/16-18 UNC-2B", True),
        ((inch(0.25), inch(0.5)), "1/2-13 UNC-2B", True),
        ((inch(0.25), inch(0.5)), "9/16-12 UNC-2B", False),
        ((inch(0.25), inch(0.5)), "M12", True),  # 12 mm are 0.4724 in, 14 mm 0.5512
        ((inch(0.25), inch(0.5)), "M14", False),
        ((mm(6), mm(8)), "M8", True),
        ((mm(6), mm(8)), "M6", False),
        ((None, inch(0.5)), "#0-80 UNF-2B", True),
        ((inch(0.25), None), "4-4 UNC-2B", True),
        ((None, None), "M64", True),
    ],
)
def test_taps_that_broke_are_of_a_band_of_sizes(band, name, fits):
    figure = life(size_from=band[0], size_to=band[1])
    assert serving.is_of_size(figure, thread(name)) is fits
    found = serving.tap_life(ShopFigures(tap_life=(figure,)), STEEL, thread(name))
    assert found is (figure if fits else None)
    assert serving.tap_life(None, STEEL, thread(name)) is None


#: 0.0003 to 0.0005 in without a name.
FILM = FinishInput(thickness=LengthRange(inch("0.0003"), inch("0.0005")), growth_fraction=Decimal(1))
ZINC = FinishInput(text="ASTM B633 Fe/Zn 8")
UNNAMED = FinishInput()
#: A heat treatment that grows and is no coat.
GROWN = FinishInput(heat_treat_growth=LengthRange(inch("0.0002"), inch("0.0004")))


def allowed(finish, name="3/8-16 UNC-2B"):
    return finishing.allow(thread(name), finish)


@every(
    ("figure", "finish", "why"),
    [
        (coat(), ZINC, None),
        (coat(finish=FinishInput(specification="b633 fe/zn8")), ZINC, None),
        (coat(finish=FinishInput(specification="B633", finish_class="Fe/Zn 5")), ZINC,
         "the hole has ASTM B633 Fe/Zn 8 SC2"),
        (coat(finish=FinishInput(finish_class="zing")), ZINC, "no finish of the tables has that name"),
        (coat(finish=UNNAMED), ZINC, "the hole has ASTM B633 Fe/Zn 8 SC2"),
        (coat(), FILM, "the hole has a coat without a name"),
        # its mean inside the thickness asked for, both ends of it
        (coat("0.0003", UNNAMED), FILM, None),
        (coat("0.0005", UNNAMED), FILM, None),
        (coat("0.000299", UNNAMED), FILM, "0.000299 in is not the thickness asked for, 0.0003 in to 0.0005 in"),
        (coat("0.000501", UNNAMED), FILM, "0.000501 in is not the thickness asked for, 0.0003 in to 0.0005 in"),
        (coat("0.0004", UNNAMED), FinishInput(thickness=LengthRange(inch("0.000425"), inch("0.000525"))),
         "0.0004 in is not the thickness asked for, 0.000425 in to 0.000525 in"),
        (coat("0.0004", UNNAMED), GROWN, "0.0004 in is not the thickness asked for, which is not known"),
    ],
)  # fmt: skip
def test_a_coat_holds_by_its_name_or_its_thickness(figure, finish, why):
    figures, allowance = ShopFigures(coat=(figure,)), allowed(finish)
    assert serving.coat(figures, allowance, "in") is (figure if why is None else None)
    assert serving.coat(figures, None, "in") is None
    hole = HoleServed(thread("3/8-16 UNC-2B"), STEEL, allowance=allowance)
    said = [one.text.replace("\N{NO-BREAK SPACE}", " ") for one in left_out(figures, hole).cautions]
    assert said == [] if why is None else f"({why})" in said[0]


def test_no_coat_is_used_that_does_not_reach_the_thread():
    masked = allowed(FinishInput(specification="ASTM B633", finish_class="Fe/Zn 8", masked=True))
    assert serving.coat(ShopFigures(coat=(coat(),)), masked, "in") is None


# --- what is not used -------------------------------------------------------------------------------------

HOLE = HoleServed(thread("3/8-16 UNC-2B"), STEEL, Decimal("0.3125"), method="cut", torque=True)


@every(
    ("figures", "hole", "assumption", "caution"),
    [
        # used, and nothing else there
        (ShopFigures(drill_oversize=(drilled(),)), HOLE, None, None),
        (ShopFigures(), HOLE, None, None),
        # what the hole asks nothing of
        (ShopFigures(drill_oversize=(drilled(),)), HOLE._replace(drill=None),
         "the shop's figures of drilled holes are not used: no drill is chosen here", None),
        (ShopFigures(drill_oversize=(drilled(),)), HOLE._replace(stated_oversize=True),
         "the shop's figures of drilled holes are not used: machine.drill_oversize goes before them", None),
        (ShopFigures(tap_oversize=(cut(),)), HOLE._replace(method=None),
         "the shop's figures of tapped threads are not used: no tap is chosen here", None),
        (ShopFigures(coat=(coat(),)), HOLE, "the shop's figures of coats are not used: no coat reaches the thread",
         None),
        (ShopFigures(tapping_torque=(torque(),)), HOLE._replace(torque=False),
         "the shop's figures of tapping torque are not used: no tapping torque is told here", None),
        (ShopFigures(tap_life=(life(),)), HOLE._replace(method=None),
         "the shop's figures of taps that broke are not used: no tap is chosen here", None),
        # another one is used
        (ShopFigures(tapping_torque=(torque(), torque(fluid="oil"))), HOLE,
         "figures of the shop for tapping torque that are not used: 9 pieces, oil (another of them fits better or comes"
         " first)", None),
        (ShopFigures(tapping_torque=(torque(), *(torque(fluid=name) for name in "abc"))), HOLE,
         "figures of the shop for tapping torque that are not used: 9 pieces, a (another of them fits better or comes"
         " first); 9 pieces, b (another of them fits better or comes first); 9 pieces, c (another of them fits better"
         " or comes first)", None),
        # none holds: three are named, the others are counted
        (ShopFigures(tap_oversize=(cut(method="form"),)), HOLE, None,
         "None of the shop's figures for tapped threads holds for this hole, so none is used: 20 pieces (forming"
         " taps)."),
        (ShopFigures(tap_oversize=(cut(),)), HOLE._replace(method="form"), None, "20 pieces (cutting taps)."),
        (ShopFigures(tap_oversize=(cut(tapping="floating"),)), HOLE, None,
         "20 pieces (tapped in a floating holder, here rigid)."),
        (ShopFigures(tap_oversize=(cut(tapping="rigid"),)), HOLE._replace(tapping="hand"), None,
         "20 pieces (tapped rigid, here by hand)."),
        (ShopFigures(tap_oversize=tuple(cut(tapping="hand", tap_style=name) for name in "abcde")), HOLE, None,
         "so none is used: 20 pieces, a (tapped by hand, here rigid); 20 pieces, b (tapped by hand, here rigid);"
         " 20 pieces, c (tapped by hand, here rigid); 2 more."),
        (ShopFigures(drill_oversize=(drilled(1),)), HOLE, None, "30 pieces (drills of 1 in, here it is 0.3125 in)."),
        (ShopFigures(tap_life=(life(size_to=inch(0.25)),)), HOLE, None,
         "400 pieces, 3 broken (threads of other sizes)."),
        # why a group does not hold, the machine before the material
        (ShopFigures(tapping_torque=(torque(material_group="N"),)), HOLE, None,
         "9 pieces, ISO 513 group N (the part is of ISO 513 group P)."),
        (ShopFigures(tapping_torque=(torque(material_group="N"),)), HOLE._replace(material=None), None,
         "(the material of the part is not told)."),
        (ShopFigures(machine="Mill 7", tapping_torque=(torque(machine="VMC 2", material_group="N"),)), HOLE, None,
         "(the hole is made on Mill 7)."),
        (ShopFigures(machine="VMC-2", tapping_torque=(torque(machine="VMC 2", material_group="N"),)), HOLE, None,
         "(the part is of ISO 513 group P)."),
        (ShopFigures(tapping_torque=(torque(machine="VMC 2"), torque(machine="VMC 3"))), HOLE, None,
         "9 pieces, VMC 2 (which of several machines makes the hole is not told: machine.name); 9 pieces, VMC 3 (which"
         " of several machines makes the hole is not told: machine.name)."),
        # a single machine holds unnamed, so that it is the material that does not
        (ShopFigures(tapping_torque=(torque(machine="VMC 2", material_group="N"), torque(machine="vmc2",
         material_group="K"))), HOLE, None, "(the part is of ISO 513 group P); 9 pieces, ISO 513 group K, vmc2 (the"),
    ],
)  # fmt: skip
def test_what_is_not_used_is_told_with_its_reason(figures, hole, assumption, caution):
    notes = left_out(figures, hole)
    told = [text.replace("\N{NO-BREAK SPACE}", " ") for text in notes.assumptions]
    warned = [one.text.replace("\N{NO-BREAK SPACE}", " ") for one in notes.cautions]
    assert told == ([] if assumption is None else [assumption])
    assert len(warned) == (caution is not None)
    assert caution is None or caution in warned[0]
    assert {one.code for one in notes.cautions} <= {"shop_figure_not_used"}


def test_without_figures_nothing_is_said():
    for told in (left_out(None, HOLE), hole_notes(None, HOLE)):
        assert (told.assumptions, told.cautions, told.sources) == ((), (), ())


@every(
    ("rate", "high", "said"),
    [
        (0.0075, 0.02, "breaks once in 133 holes, at most once in 50 holes,"),  # 133.3
        (0.0008, 0.002, "breaks once in 1,250 holes, at most once in 500 holes,"),
        (0.0, 0.0041, "breaks never, at most once in 244 holes,"),  # 243.9
        (1.0, 1.0, "breaks once in 1 holes, at most once in 1 holes,"),
    ],
)
def test_how_often_a_tap_breaks_is_told_in_holes(rate, high, said):
    counted = MeasuredTapLife(400, rate=rate, rate_high=high, broken=3, date="2026-11-20")
    notes = hole_notes(ShopFigures(tap_life=(counted,)), HOLE)
    assert notes.assumptions == (
        f"a tap of this size {said} by what the shop counted: 400 pieces, 3 broken, measured 2026-11-20",
    )
    (source,) = notes.sources
    assert (source.edition, source.locator, source.status) == ("2026-11-20", counted.told(), "measured")
    untapped = hole_notes(ShopFigures(tap_life=(counted,)), HOLE._replace(method=None))
    assert untapped.sources == ()
    assert "no tap is chosen here" in untapped.assumptions[0]
