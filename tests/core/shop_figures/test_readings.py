"""How each kind of measurement is held against the published figure, and what is refused: both sides of each bound.

Published: mean oversize 0.0044 in of a 5/16 drill (FED-STD-H28/2B Table II.A.1); 0.0012 in is the standard deviation of
holes over 1/4 to 1/2 in. 1/4-20 UNC-2B has a pitch diameter of 0.2175 to 0.2224 in (ASME B1.1), M8-6H of 7.188 to 7.348
mm (ISO 965-2); H3 is 0.2185 to 0.2190 in of it, ISO 2 is 7.226 to 7.251 mm.
"""

from __future__ import annotations

from decimal import Decimal
from math import exp, log, sqrt

import pytest
from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Length, LengthRange, MaterialInput
from borewright.core.shop_figures.data import size_band
from borewright.core.shop_figures.measurements import Gauge, Measurement
from borewright.core.shop_figures.readings import datum
from every import every

QUARTER, M8 = callout.read("1/4-20 UNC-2B"), callout.read("M8-6H")


def of(*values, unit=None):
    return tuple(Length(Decimal(str(value)), unit) for value in values)


def one(value, unit=None):
    return Length(Decimal(str(value)), unit)


def read(kind, *, place=0, unit="in", gauge=None, **given):
    return datum(Measurement(kind, **given), place, unit, gauge)


def refusal(kind, *, place=0, **given):
    """Code, pointer, what is allowed and the text of a refusal, blanks as a reader sees them."""
    with pytest.raises(BorewrightError) as error:
        read(kind, place=place, **given)
    (fault,) = error.value.faults
    said = [text.replace("\N{NO-BREAK SPACE}", " ") for text in (*fault.allowed, fault.detail)]
    return fault.code, fault.pointer, said[:-1], said[-1]


def hole(*measured, drill="5/16", unit="in", gauge=None, place=0, **given):
    return read("drilled_hole", drill=drill, measured=of(*measured), unit=unit, gauge=gauge, place=place, **given)


# --- drilled holes ----------------------------------------------------------------------------------------


def test_a_hole_is_told_in_deviations_off_the_published_oversize():
    """0.3181 - 0.3125 = 0.0056, which is 0.0012 over 0.0044: one deviation; 0.3157 lies one below."""
    found = hole(0.3181, 0.3169, 0.3157, place=4, batch="B 7", machine="VMC 2", drill_style="stub")
    assert found.values == pytest.approx((1, 0, -1))
    assert found.shown == pytest.approx((0.0056, 0.0044, 0.0032))
    assert (found.mean, found.sigma, found.unit, found.place) == (0.0044, 0.0012, "in", 4)
    assert (found.lot, found.band, found.tolerance, found.resolution) == ("B 7", 0.0, 4.0, 0.0)
    assert found.gauge == (0.0, 0.0)
    assert found.group == ("drill_oversize", ((0.25, 0.5), None, "VMC 2", "stub"))
    assert found.extra == {"drill": Decimal("0.3125"), "label": "5/16"}


def test_a_measured_drill_takes_the_place_of_its_label():
    """0.3181 - 0.3131 = 0.0050: half a deviation; the published oversize stays that of the label."""
    assert hole(0.3181, drill_diameter=one(0.3131)).values == pytest.approx((0.5,))


@every(("setup", "sigma"), [("usual", 0.0012), ("poor", 0.0018), ("guided", 0.00072)])
def test_a_set_up_scatters_half_as_much_again_or_six_tenths(setup, sigma):
    found = hole(0.3169 + sigma, setup=setup)
    assert found.sigma == pytest.approx(sigma)
    assert found.values == pytest.approx((1,), abs=1e-9)


def test_lengths_without_a_unit_are_in_that_of_the_drill():
    """A drill of 8 mm cuts 0.0044 in = 0.112 mm over and scatters by 0.0012 in = 0.03048 mm, in any unit asked for."""
    for unit, scale, mean in (("mm", 1, 0.112), ("in", 25.4, 0.0044 * 25.4)):
        found = hole(8.14248, drill="8 mm", unit=unit, drill_diameter=one(8))
        assert found.unit == unit
        assert (found.mean * scale, found.sigma * scale) == pytest.approx((mean, 0.03048))
        assert found.shown == pytest.approx((0.14248 / scale,))
        assert found.values == pytest.approx(((0.14248 - mean) / 0.03048,))
        assert float(found.extra["drill"]) * scale == pytest.approx(8, abs=0.001)
    inch = hole(0.3181, unit="mm", drill_diameter=one(0.3125))
    assert inch.shown == pytest.approx((0.0056 * 25.4,), abs=1e-3)
    assert (inch.unit, inch.sigma) == ("mm", pytest.approx(0.03048))


def test_the_errors_of_a_gauge_count_in_deviations():
    """Steps of 0.0012 in are one deviation, of which a rectangle leaves 1/sqrt(12); 0.0003 is a quarter of it, 0.0006 a
    half: sqrt(1/16 + 1/12). The gauge of the piece goes before that of the list.
    """
    own = Gauge(repeatability=one(0.0003), calibration=one(0.0006), resolution=one(0.0012))
    found = hole(0.3169, gauge=own)
    assert found.gauge == pytest.approx((sqrt(7 / 48), 0.5))
    assert found.resolution == pytest.approx(1)
    in_mm = Gauge(repeatability=one(0.00762, "mm"), calibration=one(0.01524, "mm"), resolution=one(0.03048, "mm"))
    assert hole(0.3169, gauge=in_mm).gauge == pytest.approx((sqrt(7 / 48), 0.5))
    only = datum(Measurement("drilled_hole", drill="5/16", measured=of(0.3169), gauge=own), 0, "in", Gauge(one(9)))
    assert only.gauge == pytest.approx((sqrt(7 / 48), 0.5))
    assert hole(0.3169, gauge=Gauge(repeatability=one(0.0003))).gauge == pytest.approx((0.25, 0))


@every(
    ("diameter", "unit", "band"),
    [
        (0.04, "in", (0.0, 0.0625, 0.0005)),
        (0.0625, "in", (0.0, 0.0625, 0.0005)),
        (0.0626, "in", (0.0625, 0.125, 0.0008)),
        (0.25, "in", (0.125, 0.25, 0.001)),
        (0.2501, "in", (0.25, 0.5, 0.0012)),
        (25.4, "mm", (0.75, 1.0, 0.0016)),
        (12.7, "mm", (0.25, 0.5, 0.0012)),
        (12.8, "mm", (0.5, 0.75, 0.0014)),
        (25.41, "mm", None),
        (1.0001, "in", None),
    ],
)
def test_bands_of_sizes_hold_their_upper_end(diameter, unit, band):
    assert size_band(Decimal(str(diameter)), unit) == band


def test_drills_beyond_the_published_ones_are_refused():
    assert hole(1.007, drill="1 in").mean == 0.0069
    for drill in ("1 1/64", "#57"):  # 1.0156 in is over the last band, 0.0430 in under the first oversize
        code, pointer, _, _ = refusal("drilled_hole", drill=drill, measured=of(0.1))
        assert (code, pointer) == ("value_out_of_range", "/measurements/0/drill")


def test_a_drill_may_be_worn_by_three_percent_and_a_hole_lie_a_tenth_off():
    """0.3125 x 0.03 = 0.009375; a tenth of 0.3125 is 0.03125, of the drill as measured where it was measured."""
    for worn in (0.303125, 0.321875):
        assert hole(0.3169, drill_diameter=one(worn)).place == 0
    for worn in (0.303124, 0.321876):
        assert refusal("drilled_hole", place=2, drill="5/16", drill_diameter=one(worn), measured=of(0.3169)) == (
            "measurement_not_of_this",
            "/measurements/2/drill_diameter",
            ["0.3031 in to 0.3219 in"],
            f"{worn:.4f} in is no diameter of a drill 5/16.",
        )
    assert hole(0.28125, 0.34375).place == 0
    for far, said in ((0.28124, "0.2812 in"), (0.34376, "0.3438 in")):
        code, pointer, allowed, text = refusal("drilled_hole", drill="5/16", measured=of(0.3169, far))
        assert (code, pointer) == ("measurement_not_of_this", "/measurements/0/measured/1")
        assert (allowed, text) == (["0.2812 in to 0.3438 in"], f"{said} is no hole of a drill of 0.3125 in.")
    assert hole(0.3355, drill_diameter=one(0.305)).place == 0
    assert refusal("drilled_hole", drill="5/16", drill_diameter=one(0.305), measured=of(0.3356))[0] == (
        "measurement_not_of_this"
    )


@every(
    ("kind", "given", "field"),
    [
        ("drilled_hole", {"measured": of(0.3)}, "drill"),
        ("drilled_hole", {"drill": "5/16"}, "measured"),
        ("tapped_thread", {"measured": of(0.22), "tap": "H3"}, "thread"),
        ("tapped_thread", {"thread": QUARTER, "tap": "H3"}, "measured"),
        ("tapped_thread", {"thread": QUARTER, "measured": of(0.22)}, "tap_pitch_diameter"),
        ("coat", {"measured": of(0.0003)}, "finish"),
        ("coat", {"finish": FinishInput(text="ASTM B633 Fe/Zn 8"), "after": of(0.45)}, "before"),
        ("coat", {"finish": FinishInput(text="ASTM B633 Fe/Zn 8"), "before": of(0.45)}, "after"),
        ("tapping_torque", {"torque": (1.0,)}, "expected_torque"),
        ("tapping_torque", {"expected_torque_n_m": 1.0}, "torque"),
        ("go_no_go", {"checked": 3}, "thread"),
        ("go_no_go", {"thread": QUARTER}, "checked"),
        ("taps_used", {"holes": 3}, "thread"),
        ("taps_used", {"thread": QUARTER}, "holes"),
    ],
)
def test_a_kind_names_what_it_needs(kind, given, field):
    code, pointer, _, text = refusal(kind, place=3, **given)
    assert (code, pointer) == ("shop_field_missing", f"/measurements/3/{field}")
    assert f"`{field}`" in text


def test_the_part_has_a_group_where_its_material_is_told():
    for name, group in (("4140", "P"), ("6061-T6", "N"), (None, None)):
        material = None if name is None else MaterialInput(name=name)
        assert hole(0.3169, material=material).group.key[1] == group
    code = refusal("drilled_hole", drill="5/16", measured=of(0.3169), material=MaterialInput(name="unobtainium"))[0]
    assert code == "material_unknown"


# --- tapped threads ---------------------------------------------------------------------------------------


def tapped(*measured, thread=QUARTER, **given):
    return read("tapped_thread", thread=thread, measured=of(*measured), **given)


def test_a_thread_is_told_as_a_share_of_the_tolerance_over_its_tap():
    """H3 has its middle at 0.21875; 0.0049 is the tolerance, 0.15 of it the mean and 0.10 the deviation: a quarter of
    the tolerance over the tap is one deviation off. The band is 0.0005 wide, 1.0204 deviations of 0.00049.
    """
    found = tapped(0.219975, 0.21875, tap="H3", place=6, machine="VMC 2", tap_style="spiral_point")
    assert found.values == pytest.approx((1, -1.5))
    assert (found.mean, found.sigma, found.unit) == (0.15, 0.10, "share")
    assert found.shown == pytest.approx((0.25, 0))
    assert found.band == pytest.approx(0.0005 / 0.00049)
    assert (found.tolerance, found.lot, found.place) == (pytest.approx(10), "tap 6", 6)
    assert found.group == ("tap_oversize", (None, "VMC 2", "cut", None, "spiral_point", False))
    assert found.extra == {"thread": "1/4-20 UNC-2B"}


def test_a_measured_tap_has_no_band():
    found = tapped(0.219925, tap_pitch_diameter=one(0.2187), tap_id="T 5")
    assert found.values == pytest.approx((1,))
    assert (found.band, found.lot, found.group.key[-1]) == (0.0, "tap T 5", True)


@every(("tapping", "sigma"), [(None, 0.1), ("rigid", 0.1), ("floating", 0.2), ("hand", 0.2)])
def test_a_tap_that_floats_scatters_twice_as_much(tapping, sigma):
    found = tapped(0.219975, tap="H3", tapping=tapping)
    assert (found.sigma, found.tolerance) == pytest.approx((sigma, 1 / sigma))
    assert found.values == pytest.approx((0.1 / sigma,))
    assert found.group.key[3] == tapping


def test_a_formed_thread_closes_in_by_the_steps_of_its_tap():
    """Two limits of 0.0005 in up to 3/8 in: -0.0010/0.0049; a deviation more than that is 0.10 of the tolerance."""
    found = tapped(0.21875 - 0.0010 + 0.00049, tap="H3", method="form")
    assert found.mean == pytest.approx(-0.0010 / 0.0049)
    assert found.values == pytest.approx((1,))
    assert found.group.key[2] == "form"


def test_the_tolerance_is_that_of_the_general_class_in_the_thread_s_own_unit():
    """3B is three quarters of 2B: 0.0036/0.75 = 0.0048. Of M8 it is 0.160 mm, ISO 2 has its middle at 7.2385."""
    close = tapped(0.21875 + 0.0048 * 0.25, thread=callout.read("1/4-20 UNC-3B"), tap="H3")
    assert close.values == pytest.approx((1,))
    metric = tapped(7.2385 + 0.16 * 0.25, thread=M8, tap="ISO 2", gauge=Gauge(repeatability=one(0.004)))
    assert metric.values == pytest.approx((1,))
    assert metric.band == pytest.approx(0.025 / 0.016)
    assert metric.gauge == pytest.approx((0.25, 0))
    in_inch = read("tapped_thread", thread=M8, tap="D5", measured=of(7.2375 / 25.4, unit="in"))
    assert in_inch.values == pytest.approx((-1.5,), abs=1e-6)  # D5 is 7.222 to 7.253: nothing over its middle


def test_a_pitch_diameter_lies_within_three_percent():
    """0.2175 x 0.03 = 0.006525, of the thread and of the tap."""
    for near in (0.210975, 0.224025):
        assert tapped(near, tap="H3").place == 0
        assert tapped(0.22, tap_pitch_diameter=one(near)).place == 0
    for far, said in ((0.210974, "0.211 in"), (0.224026, "0.224 in")):
        wanted = ["0.211 in to 0.224 in"], f"{said} is no pitch diameter of 1/4-20 UNC-2B."
        refused = refusal("tapped_thread", thread=QUARTER, tap="H3", measured=of(0.22, far))
        assert refused == ("measurement_not_of_this", "/measurements/0/measured/1", *wanted)
        refused = refusal("tapped_thread", thread=QUARTER, measured=of(0.22), tap_pitch_diameter=one(far))
        assert refused == ("measurement_not_of_this", "/measurements/0/tap_pitch_diameter", *wanted)


def test_an_unknown_limit_of_a_tap_names_those_that_are():
    code, pointer, allowed, text = refusal("tapped_thread", thread=QUARTER, tap="H33", measured=of(0.22))
    assert (code, pointer) == ("tap_limit_unknown", "/measurements/0/tap")
    assert allowed[:3] == ["H1", "H2", "H3"]
    assert text.startswith("H33 ")


# --- coats ------------------------------------------------------------------------------------------------

#: 0.0004 to 0.0008 in, all of it outward: the middle is 0.0006, a quarter of the range 0.0001.
FILM = FinishInput(thickness=LengthRange(one("0.0004", "in"), one("0.0008", "in")), growth_fraction=Decimal(1))


def test_a_coat_is_told_in_quarters_of_its_range_off_the_middle():
    found = read("coat", finish=FILM, measured=of(0.0007, 0.0006, 0.0004), place=2, plater="Ridge Plating", batch="7",
                 gauge=Gauge(repeatability=one("0.00005"), calibration=one("0.00002")))  # fmt: skip
    assert found.values == pytest.approx((1, 0, -2))
    assert (found.mean, found.sigma, found.tolerance) == pytest.approx((0.0006, 0.0001, 4))
    assert (found.unit, found.lot, found.place) == ("in", "7", 2)
    assert found.gauge == pytest.approx((0.5, 0.2))
    assert found.group == ("coat", ((None, None), "Ridge Plating"))


@every(
    ("thread", "unit", "values", "scale"),
    [
        (None, "in", (0.0007,), 1),  # without a thread a length is in the unit of the reply
        (None, "mm", (0.01778,), 25.4),
        (QUARTER, "mm", (0.0007,), 25.4),
        (M8, "in", (0.01778,), 1),
        (M8, "mm", (0.01778,), 25.4),
    ],
)
def test_a_coat_in_any_unit_is_the_same(thread, unit, values, scale):
    found = read("coat", finish=FILM, thread=thread, measured=of(*values), unit=unit)
    assert (found.mean, found.sigma) == pytest.approx((0.0006 * scale, 0.0001 * scale), rel=1e-6)
    assert found.values == pytest.approx((1,), rel=1e-5)


@every(
    ("diameter", "growth", "thread", "thinner"),
    [
        ("pitch", 1, QUARTER, 4 * 0.0007),
        ("minor", 1, QUARTER, 2 * 0.0007),
        ("pitch", 0.5, QUARTER, 2 * 0.0007),  # half of it grows inward and takes nothing off
        ("minor", 0.5, QUARTER, 1 * 0.0007),
        # 30 degrees: 2/sin 15 = 7.7274
        ("pitch", 1, callout.read("Tr 20x4"), 7.7274 * 0.0007 * 25.4),
    ],
)
def test_what_a_coat_takes_off_a_diameter(diameter, growth, thread, thinner):
    film = FinishInput(thickness=FILM.thickness, growth_fraction=Decimal(str(growth)))
    before = Decimal("17.5") if thread.unit == "mm" else Decimal("0.2190")
    after = before - Decimal(repr(thinner))
    found = read("coat", finish=film, thread=thread, before=of(before), after=of(after), diameter=diameter)
    assert found.values == pytest.approx((1,), rel=1e-4)


def test_a_coat_of_two_growths_takes_their_middle():
    """Type II grows by 0.33 to 0.50 of its thickness (common practice): 0.415 of 0.0004 in by four on the pitch."""
    anodized = FinishInput(specification="MIL-A-8625", finish_class="Type II")
    after = Decimal("0.2190") - 4 * Decimal("0.415") * Decimal("0.0004")
    found = read("coat", finish=anodized, thread=QUARTER, before=of("0.2190"), after=of(after))
    assert found.shown == pytest.approx((0.0004,))
    assert (found.mean, found.sigma) == pytest.approx(((0.00007 + 0.001) / 2, (0.001 - 0.00007) / 4))


def test_a_coat_that_grows_inward_only_takes_nothing_off_a_diameter():
    inward = FinishInput(thickness=FILM.thickness, growth_fraction=Decimal(0))
    assert read("coat", finish=inward, measured=of(0.0007)).values == pytest.approx((1,))
    bad = refusal("coat", finish=inward, thread=QUARTER, before=of("0.2190"), after=of("0.2190"))
    assert bad[:2] == ("shop_field_missing", "/measurements/0/measured")


def test_a_coat_is_more_than_nothing_and_not_over_five_times_its_thickest():
    """5 x 0.0008 = 0.0040 in."""
    assert read("coat", finish=FILM, measured=of("0.004", "0.000001")).place == 0
    for wrong, said in (("0.004001", "0.004001 in"), (0, "0 in")):
        assert refusal("coat", finish=FILM, measured=of("0.0006", wrong)) == (
            "measurement_not_of_this",
            "/measurements/0/measured/1",
            [],
            f"{said} is no thickness of a coat of 0.0008 in at most.",
        )
    fine = FinishInput(thickness=LengthRange(one("0.0004", "in"), one("0.0008254", "in")))
    text = refusal("coat", finish=fine, measured=of("0.0050016"))[3]
    assert text == "0.005002 in is no thickness of a coat of 0.000825 in at most."
    bad = refusal("coat", finish=FILM, thread=QUARTER, before=of(0.22, 0.21), after=of(0.218, 0.22))
    assert bad[:2] == ("measurement_not_of_this", "/measurements/0/after/1")


def test_threads_before_and_after_the_coat_are_the_same_ones():
    bad = refusal("coat", finish=FILM, thread=QUARTER, before=of(0.22, 0.22), after=of(0.218))
    assert bad[:2] == ("range_inconsistent", "/measurements/0/after")


def test_a_finish_without_a_range_is_nothing_to_compare_with():
    exact = FinishInput(thickness=LengthRange(one(0.001), one(0.001)))
    for finish in (exact, FinishInput(specification="ASTM B633", masked=True)):
        bad = refusal("coat", finish=finish, measured=of(0.0005))
        assert bad[:2] == ("finish_range_missing", "/measurements/0/finish")


def test_a_square_thread_has_neither_a_tolerance_nor_flanks_to_compare_with():
    square = callout.read("1-4 SQUARE DEPTH .125")
    cut = refusal("tapped_thread", thread=square, measured=of("0.88"), tap_pitch_diameter=one("0.87"))
    assert cut[:2] == ("thread_data_missing", "/measurements/0/thread")
    closed = {"thread": square, "before": of("0.8800"), "after": of("0.8790")}
    assert refusal("coat", finish=FILM, diameter="pitch", **closed)[:2] == (
        "thread_data_missing", "/measurements/0/diameter",
    )  # fmt: skip
    # on the minor diameter two surfaces of 0.0005 in are coated, a deviation below the middle
    assert read("coat", finish=FILM, diameter="minor", **closed).values == pytest.approx((-1,))


# --- torque, counts ---------------------------------------------------------------------------------------


def test_a_torque_is_told_as_the_logarithm_of_its_ratio():
    """exp(0.3) is one deviation of the model's scatter; from a tenth to ten times the expected one is believed."""
    found = read("tapping_torque", torque=(10 * exp(0.3), 10.0, 1.0, 100.0), expected_torque_n_m=10.0, batch="B",
                 fluid="oil", tap_style="spiral_flute", place=5)  # fmt: skip
    assert found.values == pytest.approx((1, 0, -log(10) / 0.3, log(10) / 0.3))
    assert (found.mean, found.sigma, found.unit, found.lot, found.place) == (0.0, 0.3, "ln", "B", 5)
    assert (found.tolerance, found.band, found.resolution) == (None, 0.0, 0.0)
    assert found.group == ("tapping_torque", (None, None, "oil", "spiral_flute"))
    for wrong in (0.999, 100.1):
        bad = refusal("tapping_torque", torque=(10.0, wrong), expected_torque_n_m=10.0)
        assert bad[:2] == ("measurement_not_of_this", "/measurements/0/torque/1")


LIMITS = LengthRange(one(0.2170), one(0.2230))


@every(
    ("given", "low", "high", "unit"),
    [
        ({"thread": QUARTER}, 0.2175, 0.2224, "in"),
        ({"thread": QUARTER, "diameter": "minor"}, 0.196, 0.207, "in"),
        ({"thread": QUARTER, "limits": LIMITS}, 0.2170, 0.2230, "in"),
        ({"thread": M8}, 7.188, 7.348, "mm"),
        ({"thread": M8, "limits": LengthRange(one(0.283, "in"), one(7.35))}, 7.1882, 7.35, "mm"),
        # of a minor diameter any pin may be the gauge
        ({"thread": QUARTER, "diameter": "minor", "limits": LengthRange(one(0.1), one(0.4))}, 0.1, 0.4, "in"),
    ],
)
def test_go_and_not_go_are_held_against_the_limits_of_the_thread_or_their_own(given, low, high, unit):
    """Their middle is the mean, a quarter of what lies between is the deviation."""
    found = read("go_no_go", checked=40, go_refused=1, not_go_entered=2, machine="VMC 2", place=3, **given)
    assert found.extra["counts"] == (40, 1, 2, pytest.approx(low), pytest.approx(high))
    assert (found.mean, found.sigma) == pytest.approx(((low + high) / 2, (high - low) / 4))
    assert (found.unit, found.values, found.place) == (unit, (), 3)
    name = "1/4-20 UNC-2B" if unit == "in" else "M8x1.25-6H"
    assert found.group == ("go_no_go", (name, given.get("diameter", "pitch"), "VMC 2"))


@every(
    ("given", "counted"),
    [
        ({}, (0, 0)),
        ({"go_refused": 2}, (2, 0)),
        ({"not_go_entered": 3}, (0, 3)),
        ({"go_refused": 2, "not_go_entered": 3}, (2, 3)),
    ],
)
def test_a_count_that_is_not_given_is_nothing(given, counted):
    """Only what is told was refused."""
    found = read("go_no_go", thread=QUARTER, checked=5, **given).extra["counts"]
    assert (found.go_refused, found.not_go_entered, found.bad) == (*counted, sum(counted))
    assert read("taps_used", thread=QUARTER, holes=250).extra["broken"] == 0


def test_counts_cannot_be_more_than_were_checked():
    assert read("go_no_go", thread=QUARTER, checked=5, go_refused=2, not_go_entered=3).extra["counts"].bad == 5
    bad = refusal("go_no_go", thread=QUARTER, checked=5, go_refused=3, not_go_entered=3)
    assert bad[:2] == ("range_inconsistent", "/measurements/0/checked")
    for low, high in ((None, one(0.22)), (one(0.22), None), (one(0.22), one(0.22)), (one(0.221), one(0.22))):
        bad = refusal("go_no_go", thread=QUARTER, checked=5, limits=LengthRange(low, high))
        assert bad[:2] == ("range_inconsistent", "/measurements/0/limits")
    for low, high, end in ((0.2109, 0.22, "min"), (0.22, 0.2241, "max")):
        bad = refusal("go_no_go", thread=QUARTER, checked=5, limits=LengthRange(one(low), one(high)))
        assert bad[:2] == ("measurement_not_of_this", f"/measurements/0/limits/{end}")


@every(
    ("thread", "band"),
    [
        ("1/4-20 UNC-2B", (0.125, 0.25)),
        ("M8", (0.25, 0.5)),
        ("1-8 UNC-2B", (0.75, 1.0)),
        ("1 1/8-7 UNC-2B", (1.0, 1e9)),
        ("M27", (1.0, 1e9)),
    ],
)
def test_taps_that_broke_are_told_by_the_band_of_their_size(thread, band):
    found = read("taps_used", thread=callout.read(thread), holes=400, broken=3, place=1, machine="VMC 2",
                 material=MaterialInput(name="4140"))  # fmt: skip
    assert found.group == ("tap_life", (band, "P", "VMC 2"))
    assert (found.extra, found.values, found.place) == ({"holes": 400, "broken": 3}, (), 1)
    # a count has no published figure beside it: no mean, no scale, no unit
    assert (found.mean, found.sigma, found.unit, found.shown) == (0.0, 1.0, "", ())


def test_no_more_taps_break_than_holes_are_tapped():
    assert read("taps_used", thread=QUARTER, holes=3, broken=3).extra["broken"] == 3
    assert read("taps_used", thread=QUARTER, holes=3).extra["broken"] == 0
    bad = refusal("taps_used", thread=QUARTER, holes=3, broken=4)
    assert bad[:2] == ("range_inconsistent", "/measurements/0/broken")


def test_a_fault_of_a_drill_is_told_at_the_drill():
    code, pointer, _, _ = refusal("drilled_hole", place=2, drill="5/17", measured=of(0.3))
    assert (code, pointer) == ("drill_unknown", "/measurements/2/drill")
