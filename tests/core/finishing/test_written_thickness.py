"""A thickness among the words of a finish, read by itself: its ends, its unit, what it is called, and what it is not.

A mil is 0.001 in, a tenth 0.0001 in, a micron 0.001 mm, an inch 25.4 mm.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import FinishError
from borewright.core.finishing.designators import items
from borewright.core.finishing.thickness import refuse_unread, thickness
from every import every


def _read(text, taken=frozenset()):
    words = items(text)
    found, places = thickness(words, set(taken), bare="in")
    left = " ".join(item.text for at, item in enumerate(words) if at not in places)
    return found, left


def _ends(found):
    return [None if end is None else round(float(end), 12) for end in (found.min, found.max)]


@every(
    ("text", "least", "most", "unit", "called", "left"),
    [
        # one figure, with and without a unit, called least or greatest before it or after it
        (".002", 0.002, None, "in", "bare", ""),
        ("zinc .002 black", 0.002, None, "in", "bare", "zinc black"),
        ("2 mil", 0.002, None, "in", "", ""),
        ("0.5 mil zinc", 0.0005, None, "in", "", "zinc"),
        ("8 um", 0.008, None, "mm", "", ""),
        ("3 tenths", 0.0003, None, "in", "", ""),
        (".002 min", 0.002, None, "in", "bare at least", "min"),
        ("min .002", 0.002, None, "in", "bare at least", "min"),
        ("8 um minimum", 0.008, None, "mm", "at least", "minimum"),
        ("at least 8 um", 0.008, None, "mm", "at least", "at least"),
        ("8 um thick per side min", 0.008, None, "mm", "at least", "thick per side min"),
        (".002 max", None, 0.002, "in", "bare", "max"),
        ("max .002", None, 0.002, "in", "bare", "max"),
        ("8 um maximum", None, 0.008, "mm", "", "maximum"),
        ("at most 8 um", None, 0.008, "mm", "", "at most"),
        ("8 um thk max", None, 0.008, "mm", "", "thk max"),
        ("max 8 um min", 0.008, None, "mm", "at least", "max min"),
        ("8 um thick zinc min", 0.008, None, "mm", "", "thick zinc min"),
        # behind a bake, a seal or a salt spray test: in a clause of its own, or called a thickness
        ("bake 3 h, .0005 thick", 0.0005, None, "in", "bare", "bake 3 h thick"),
        ("bake 3 h, .0005", 0.0005, None, "in", "bare", "bake 3 h"),
        ("bake 3 h; .0005 black", 0.0005, None, "in", "bare", "bake 3 h black"),
        ("seal .0005 thk", 0.0005, None, "in", "bare", "seal thk"),
        ("salt spray 96 h thickness .0005", 0.0005, None, "in", "bare", "salt spray 96 h thickness"),
        ("bake 3.5 h, .0005, seal 0.5", 0.0005, None, "in", "bare", "bake 3.5 h seal 0.5"),
        ("2 thous", 0.002, None, "in", "", ""),
        # two figures
        (".0002 to .0005", 0.0002, 0.0005, "in", "bare", ""),
        (".0002-.0005 zinc", 0.0002, 0.0005, "in", "bare", "zinc"),
        (".0002 - .0005", 0.0002, 0.0005, "in", "bare", ""),
        (".0002/.0005", 0.0002, 0.0005, "in", "bare", ""),
        (".0002 min .0005 max zinc", 0.0002, 0.0005, "in", "bare", "zinc"),
        ("min .0002 max .0005", 0.0002, 0.0005, "in", "bare", "min"),
        (".0002 min to .0005", 0.0002, 0.0005, "in", "bare", ""),
        (".0002 min - .0005 zinc", 0.0002, 0.0005, "in", "bare", "zinc"),
        (".0002 to .0005 max zinc", 0.0002, 0.0005, "in", "bare", "zinc"),
        ("8 to 12 um", 0.008, 0.012, "mm", "", ""),
        ("8-12 um thick", 0.008, 0.012, "mm", "", "thick"),
        ("0.2 to 0.3 mil", 0.0002, 0.0003, "in", "", ""),
        ("0.2 mil to 0.3 mil", 0.0002, 0.0003, "in", "", ""),
        ("0.2 mil to 0.0003", 0.0002, 0.0000003, "in", "", ""),  # the unit of the lower is that of both
        ("2.54 um to 0.3 mil", 0.0001, 0.0003, "in", "", ""),
        ("0.1 mil to 5 um", 0.00254, 0.005, "mm", "", ""),
        ("0.1 mil to 0.0003 in", 0.0001, 0.0003, "in", "", ""),
        ("5/8 um", 0.005, 0.008, "mm", "", ""),
        # a nominal with its tolerance
        (".002 +/-.0005", 0.0015, 0.0025, "in", "bare", ""),
        (".002 +- .0005 zinc", 0.0015, 0.0025, "in", "bare", "zinc"),
        (".002 -/+ .0005", 0.0015, 0.0025, "in", "bare", ""),
        (".002 plus or minus .0005 zinc", 0.0015, 0.0025, "in", "bare", "zinc"),
        (".002 +.0005/-.0003", 0.0017, 0.0025, "in", "bare", ""),
        (".002 + .0005 - .0003 zinc", 0.0017, 0.0025, "in", "bare", "zinc"),
        ("2 mil +/- .5", 0.0015, 0.0025, "in", "", ""),
        ("2 +/- .5 mil", 0.0015, 0.0025, "in", "", ""),
        ("2 mil +1/-.5 mil", 0.0015, 0.003, "in", "", ""),
        ("2 mil +1 mil/-.5", 0.0015, 0.003, "in", "", ""),
        ("2 +1 mil/-.5", 0.0015, 0.003, "in", "", ""),
        ("2 +1/-.5 mil", 0.0015, 0.003, "in", "", ""),
        ("2 mil +/- .0005 in", 0.0015, 0.0025, "in", "", ""),
        ("2 mil +/- 12.7 um", 0.0015, 0.0025, "in", "", ""),
        ("50.8 um +/- 0.5 mil", 0.0381, 0.0635, "mm", "", ""),
        ("50 um +/-10 % zinc", 0.045, 0.055, "mm", "", "zinc"),
        ("50 um +10/-20 %", 0.040, 0.055, "mm", "", ""),
        # a second figure that is the first in another unit, to 5 percent of the larger
        (".002 in (50 um) zinc", 0.002, None, "in", "", "zinc"),
        (".0020 in .0019 in", 0.002, None, "in", "", ""),
        (".0019 in .0020 in", 0.0019, None, "in", "", ""),
        ("5 to 8 um (.0002-.0003)", 0.005, 0.008, "mm", "", ""),
        ("max 25.4 um (.001 in max)", None, 0.0254, "mm", "", "max max"),
        # figures that are something else stay where they are
        ("2 mil, 4 h, 48 HRC, rev 2, table 3.5", 0.002, None, "in", "", "4 h 48 hrc rev 2 table 3.5"),
        ("2 mil 3/8 in studs", 0.002, None, "in", "", "3 8 in stud"),
        ("2 mil, salt spray 96.5", 0.002, None, "in", "", "salt spray 96.5"),
        ("2 mil, 1999", 0.002, None, "in", "", "1999"),
        ("bake 2 mil", 0.002, None, "in", "", "bake"),
        ("hardness zone 2 8 um", 0.008, None, "mm", "", "hardness zone 2"),
        ("zinc - .0005", 0.0005, None, "in", "bare", "zinc"),
        ("zinc-.0005", 0.0005, None, "in", "bare", "zinc"),
        ("- .0005 zinc", 0.0005, None, "in", "bare", "zinc"),
    ],
)
def test_what_is_written_is_what_is_read(text, least, most, unit, called, left):
    found, unread = _read(text)
    assert _ends(found) == [least, most]
    assert (found.unit, found.bare, found.at_least) == (unit, "bare" in called, "at least" in called)
    assert unread == left


@every(
    "text",
    [
        "2", "zinc", "8-12", "8 to 12", "0.2 to 12", "3/8 in", "3/8", "5/16 in bolt", "48.5 HRC", "0.5 h",
        "2.5 C", "0.5 %", "3.5x", "A0.5", "rev 1.2", "table 4.2", "note 0.5", "bake 3.5", "relief 2.5", "seal 0.5",
        "zinc, bake 3.5", "2 +/- 1", "0.5 places", "1.5 holes", "0.7 oz", "at 0.5", "within 2.5",
    ],
)  # fmt: skip
def test_other_figures_are_no_thickness(text):
    assert _read(text) == (None, " ".join(item.text for item in items(text)))


def test_what_is_taken_is_not_read_again():
    """The 8 um of a class that is understood, and the words beside it."""
    assert _read("8 um", taken={0}) == (None, "8 um")
    found, _ = _read(".0002 to .0005", taken={2})
    assert (found.min, found.max) == (Decimal(".0002"), None)
    assert _read("growth .0002", taken={0})[0].min == Decimal(".0002")


@every(
    ("text", "code", "words"),
    [
        (".002 in .0018 in", "finish_conflict", "two thicknesses"),
        (".002 in (48 um)", "finish_conflict", "two thicknesses"),  # 0.00189 in is 5.5 percent less
        (".0018 in .002 in", "finish_conflict", "two thicknesses"),
        (".0002 min .0005", "finish_conflict", "two thicknesses"),
        (".0002 .0005 max", "finish_conflict", "two thicknesses"),
        (".0002-.0005 5-14 um", "finish_conflict", "two thicknesses"),  # 14 um are 0.00055 in
        (".0002-.0005 6-12.7 um", "finish_conflict", "two thicknesses"),
        (".0002 +.0005", "finish_conflict", "two thicknesses"),
        ("zinc -.0005", "value_out_of_range", "-.0005"),
        ("zinc,-.0005", "value_out_of_range", "-.0005"),
        ("-.0005 zinc", "value_out_of_range", "-.0005"),
        (" -.0005 zinc", "value_out_of_range", "-.0005"),
        (".002 on diameter", "finish_ambiguous", '"diameter"'),
        (".002 dia", "finish_ambiguous", '"dia"'),
        (".002 diametral", "finish_ambiguous", '"diametral"'),
        (".002 buildup", "finish_ambiguous", '"buildup"'),
        (".002 build-up", "finish_ambiguous", '"build up"'),
        (".002 penetration", "finish_ambiguous", '"penetration"'),
        (".002 growth", "finish_ambiguous", '"growth"'),
    ],
)
def test_figures_that_contradict_or_mean_something_else_are_refused(text, code, words):
    with pytest.raises(FinishError) as refused:
        _read(text)
    assert refused.value.code == code
    assert words in refused.value.faults[0].detail


@every("text", ["zinc build-up", "zinc on diameter", "4 h build-up", "build-up 2", "up build 4 h"])
def test_words_of_a_growth_without_a_figure_are_only_words(text):
    assert _read(text)[0] is None


def test_building_and_up_apart_are_no_build_up():
    assert _read(".002 up build")[0].min == Decimal(".002")


def _unread(text, taken=frozenset()):
    refuse_unread(items(text), set(taken))


@every(
    "text",
    [
        "zinc", "4 h", "4 hours", "48 HRC", "375 F", "190 deg", "10 plc", "6 x", "96 %", "32 Ra", "note 3", "rev 2",
        "amendment 1", "paragraph 3", "no 5", "at 4", "within 4", "1999", "2019", "b7", "7b", "3/8 in", "3/8 studs",
        "bake 4", "bake, 4", "grade a50",
        "salt spray 96", "temper 375", "b 7 h", "3/8", "type 2",
    ],
)  # fmt: skip
def test_whole_numbers_that_say_what_they_are_pass(text):
    _unread(text)


@every(
    ("text", "said"),
    [
        ("zinc 50", "50"), ("50", "50"), ("b 7", "7"), ("7 b", "7"), ("1899", "1899"), ("2100", "2100"),
        ("zinc/50", "50"), ("b7 50", "50"), ("19990", "19990"), ("50 bake", "50"), ("5/8 um", "5"), ("3-8", "3"),
        ("h 4", "4"),
    ],
)  # fmt: skip
def test_whole_numbers_that_may_be_a_thickness_are_refused_with_how_to_write_them(text, said):
    with pytest.raises(FinishError) as refused:
        _unread(text)
    fault = refused.value.faults[0]
    assert (fault.code, fault.allowed) == ("finish_ambiguous", (f"{said} um", f"{said} mil"))
    assert f'"{said}"' in fault.detail


@every("word", ["thou", "thousandth", "tenths", "microns", "micrometers", "micrometres"])
def test_a_spoken_unit_without_a_figure_is_refused(word):
    with pytest.raises(FinishError) as refused:
        _unread(f"zinc twelve {word}")
    assert refused.value.code == "finish_ambiguous"


def test_what_is_taken_is_not_unread():
    _unread("zinc 50 thou", taken={1, 2})
