"""A whole list fitted: what is one figure, what is kept of it and what must be said of the pieces, at each bound.

Drills of 5/16: published 0.0044 in over on the average, deviation 0.0012 in (see test_readings).
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import exp, log, sqrt
from statistics import NormalDist

import pytest
from borewright.core import callout, finishing, standards
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Length, LengthRange, MaterialInput, Range
from borewright.core.shop_figures import counted, lots, measured_finish, normal_fit
from borewright.core.shop_figures.counted import Gauged
from borewright.core.shop_figures.figures import MeasuredCoat
from borewright.core.shop_figures.fitted import fit_measurements
from borewright.core.shop_figures.measurements import FitRequest, Gauge, Measurement
from borewright.core.shop_figures.normal_fit import GaugeError, Pieces, Prior
from borewright.quantiles.special import QUANTILES
from every import every

QUARTER, M8 = callout.read("1/4-20 UNC-2B"), callout.read("M8-6H")
COAT = FinishInput(thickness=LengthRange(Length(Decimal("0.0004"), "in"), Length(Decimal("0.0008"), "in")))


def one(value, unit=None):
    return Length(Decimal(str(value)), unit)


def of(*values, unit=None):
    return tuple(one(value, unit) for value in values)


def fit(*measurements, **more):
    return fit_measurements(FitRequest(measurements, **more), QUANTILES)


def drilled(*off, **more):
    """Holes of a 5/16 drill so many published deviations off the published oversize."""
    holes = of(*(round(0.3125 + 0.0044 + 0.0012 * value, 9) for value in off))
    return Measurement("drilled_hole", drill="5/16", measured=holes, **{"selection": "all", **more})


def torqued(*ratios, **more):
    return Measurement("tapping_torque", torque=ratios, expected_torque_n_m=1.0, **{"selection": "all", **more})


def refused(*measurements):
    with pytest.raises(BorewrightError) as error:
        fit(*measurements)
    return error.value.faults[0]


def codes(row):
    return {remark.code for remark in row.remarks}


# --- the list ---------------------------------------------------------------------------------------------


@every(
    ("first", "unit"),
    [
        (drilled(0, 1), "in"),
        (Measurement("drilled_hole", drill="8 mm", measured=of(8.1, 8.11)), "mm"),
        (Measurement("taps_used", thread=QUARTER, holes=9), "in"),
        (Measurement("taps_used", thread=M8, holes=9), "mm"),
        (Measurement("coat", finish=COAT, measured=of(0.012, 0.013, unit="mm")), "mm"),
        (Measurement("coat", finish=COAT, measured=of(0.0005, 0.0006)), "in"),
        (Measurement("coat", finish=COAT, before=of(9.2, unit="mm"), after=of(9.16, unit="mm")), "mm"),
        (torqued(1.0, 1.1), "in"),
    ],
)
def test_the_reply_is_in_the_unit_of_the_first_piece(first, unit):
    """Where none is asked for: that of its drill, its thread, its lengths, else inches."""
    assert fit(first).unit == unit
    assert fit(first, drilled(0, 1), Measurement("taps_used", thread=M8, holes=9)).unit == unit
    assert fit(first, Measurement("taps_used", thread=QUARTER, holes=9)).unit == unit
    assert fit(first, torqued(1.0, 1.1), unit="mm").unit == "mm"
    assert fit(first, unit="in").unit == "in"


def test_a_drill_that_is_not_known_is_told_at_the_first_piece():
    fault = refused(Measurement("drilled_hole", drill="5/17", measured=of(0.3)))
    assert (fault.code, fault.pointer) == ("drill_unknown", "/measurements/0/drill")


def test_ten_thousand_values_and_a_thousand_figures_are_fitted_at_once():
    after = Measurement("coat", finish=COAT, before=of(0.219), after=of(*[0.217] * 3_001))
    many = torqued(*[1.0 + place / 5000 for place in range(4_000)])
    fault = refused(drilled(*[0.0] * 3_000), many, after)
    assert (fault.code, fault.pointer) == ("measurements_too_many", "/measurements")
    assert "10000 values" in fault.detail
    assert fit(torqued(*[1.0 + place / 5000 for place in range(10_000)])).rows[0].posterior.count == 10_000
    taps = [Measurement("taps_used", thread=QUARTER, holes=9, machine=f"VMC {place}") for place in range(1_001)]
    fault = refused(*taps)
    assert (fault.code, fault.pointer) == ("measurements_too_many", "/measurements")
    assert "At most 1000 figures" in fault.detail
    assert "these are of 1001" in fault.detail
    assert len(fit(*taps[1:]).rows) == 1_000


def test_figures_come_in_the_same_order_whatever_that_of_the_list():
    """And the pieces of one in the order of the list: the outlier is told by its place in it."""
    pieces = (torqued(1.0, 1.2, machine="B"), drilled(0, 0.5), torqued(1.1, 1.3, machine="A"), drilled(1, 1.5))
    rows = fit(*pieces).rows
    assert [(row.group.figure, [one.place for one in row.data]) for row in rows] == [
        ("drill_oversize", [1, 3]), ("tapping_torque", [2]), ("tapping_torque", [0])
    ]  # fmt: skip
    assert [row.group for row in fit(*pieces[::-1]).rows] == [row.group for row in rows]
    assert fit(*pieces[::-1]).figures.id == fit(*pieces).figures.id


def test_the_published_figure_of_several_drills_is_their_middle():
    """A drill of 9/32 (0.28125 in) lies between those of 0.2810 and 0.2812 with 0.0042 in: (0.0044 + 0.0042)/2."""
    second = Measurement("drilled_hole", drill="9/32", measured=of(0.28545, 0.28665, 0.28425), selection="all")
    (row,) = fit(drilled(0, 1), second).rows
    assert (row.mean, row.sigma) == pytest.approx((0.0043, 0.0012))
    assert row.pieces.values == pytest.approx((0, 1, 0, 1, -1))
    assert row.value(2.0) == pytest.approx(0.0043 + 0.0024)
    assert row.remarks == ()


# --- outliers, equal values -------------------------------------------------------------------------------

#: Eleven values of which the last lies outside: without it mean 0, deviations of half a sigma.
TEN = (-0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5)


def test_an_outlier_is_told_in_both_ways_and_left_out_where_asked():
    pieces = drilled(*TEN[:4]), drilled(*TEN[4:], 6.0)
    (kept,) = fit(*pieces).rows
    assert kept.outliers == ((1, pytest.approx(0.0044 + 6 * 0.0012)),)
    assert (kept.posterior.count, kept.without.count, kept.excluded) == (11, 10, False)
    assert kept.posterior.sample_mean == pytest.approx(6 / 11)
    assert kept.without.sample_mean == pytest.approx(0, abs=1e-9)
    assert codes(kept) == {"outliers_flagged"}
    assert "1 value lies outside" in kept.remarks[0].text
    (dropped,) = fit(*pieces, exclude_flagged=True).rows
    assert (dropped.posterior.count, dropped.excluded) == (10, True)
    assert dropped.pieces.values == pytest.approx(TEN)
    assert dropped.posterior == kept.without
    (fine,) = fit(drilled(*TEN), exclude_flagged=True).rows
    assert (fine.without, fine.excluded, fine.outliers) == (None, False, ())
    two = [value * 0.2 for value in TEN] * 2
    (row,) = fit(drilled(*two, 6.0, 7.0)).rows
    assert "2 values lie outside" in row.remarks[0].text


def test_more_than_two_equal_values_need_the_step_of_the_gauge():
    fault = refused(torqued(1.0, 1.1), drilled(0.5, 0.5, 0.5))
    assert (fault.code, fault.pointer) == ("measurements_without_spread", "/measurements/1")
    assert refused(drilled(0.5, 0.5), torqued(1.0, 1.1), drilled(0.5)).pointer == "/measurements/0"
    assert fit(drilled(0.5, 0.5)).rows[0].posterior.count == 2
    assert fit(drilled(0.5, 0.5, 0.6)).rows[0].posterior.count == 3
    step = Gauge(resolution=one("0.0001"))
    assert fit(drilled(0.5, 0.5, 0.5), gauge=step).rows[0].posterior.count == 3
    assert fit(drilled(0.5), drilled(0.5, 0.5, gauge=step)).rows[0].posterior.count == 3


# --- what pieces stand for --------------------------------------------------------------------------------


def test_parts_of_a_batch_stand_for_fewer_and_those_of_none_for_themselves():
    """Four parts of a batch, half alike: 4/(1 + 3 x 0.5) = 1.6; two without a batch count whole."""
    (row,) = fit(drilled(0, 1, 0.5, 0.7, batch="B 1"), drilled(0.2, 0.3)).rows
    assert row.pieces.effective == pytest.approx(2 + 1.6)
    assert row.posterior.freedom == pytest.approx(2 + 3.6 - 1)
    assert codes(row) == {"one_batch"}
    (alone,) = fit(drilled(0, 1, 0.5)).rows
    assert alone.pieces.effective is None
    (pairs,) = fit(drilled(0, 1, batch="B 1"), drilled(0.2, 0.9, batch="B 2")).rows
    assert codes(pairs) == set()
    (single,) = fit(drilled(0.4, batch="B 1"), selection="all").rows
    assert codes(single) == {"few_pieces"}
    (pair,) = fit(drilled(0.4, 0.5, batch="B 1")).rows
    assert codes(pair) == {"few_pieces", "one_batch"}


def tapped(tap_id, *over, tap="H3", **more):
    """Threads so many tenths of the tolerance (0.00049 in) over the middle of H3, 0.21875."""
    sizes = of(*(round(0.21875 + 0.00049 * value, 9) for value in over))
    return Measurement("tapped_thread", thread=QUARTER, tap=tap, tap_id=tap_id, measured=sizes, selection="all", **more)


@every(
    ("taps", "remark"),
    [
        (1, "Holes of 1 tap of unknown size tell about that tap: give tap_pitch_diameter, or measure 3 taps."),
        (2, "Holes of 2 taps of unknown size tell about those taps: give tap_pitch_diameter, or measure 3 taps."),
        (3, None),
    ],
)
def test_few_unmeasured_taps_tell_of_themselves(taps, remark):
    (row,) = fit(*(tapped(f"T {place}", 1.4, 1.6) for place in range(taps))).rows
    assert row.pieces.taps == (2,) * taps
    assert row.pieces.band == pytest.approx(0.0005 / 0.00049)
    # a tap of two holes: variance / 2 and its place in the band; so many of them share it
    alone = row.posterior.observed_sigma**2 / 2 + row.pieces.band**2 / 12
    assert row.posterior.mean_uncertainty**-2 == pytest.approx(taps / alone + 1 / 1.5**2)
    told = [one.text for one in row.remarks if one.code == "few_taps"]
    assert told == ([] if remark is None else [remark])
    assert "one_batch" not in codes(row)


def test_the_widest_band_of_unmeasured_taps_counts():
    """0.0005 in of an H limit: in tenths of the 0.0049 in of 1/4-20 UNC-2B 1.02, of the 0.0065 in of 1/2-13 0.77."""
    half = Measurement(
        "tapped_thread",
        thread=callout.read("1/2-13 UNC-2B"),
        tap="H3",
        tap_id="T 2",
        measured=of(0.45225, 0.45235),
        selection="all",
    )
    (row,) = fit(half, tapped("T 1", 1.4, 1.6)).rows
    assert row.pieces.band == pytest.approx(0.0005 / 0.00049)


def test_measured_taps_have_no_band():
    known = {"tap": None, "tap_pitch_diameter": one("0.21875")}
    (row,) = fit(tapped("T 1", 1.4, 1.6, **known), tapped("T 2", 1.5, **known)).rows
    assert (row.pieces.taps, row.pieces.band) == ((), 0.0)
    assert codes(row) == set()
    assert row.posterior.weight == pytest.approx(1 / (1 + (row.posterior.observed_sigma**2 / 3) / 1.5**2))


def test_the_worst_gauge_of_a_list_counts():
    fine = Gauge(repeatability=one("0.0001"), calibration=one("0.0006"))
    coarse = Gauge(repeatability=one("0.0006"), calibration=one("0.0001"))
    (row,) = fit(drilled(0, 3, gauge=fine), drilled(-3, 1, gauge=coarse)).rows
    assert row.pieces.gauge == pytest.approx(GaugeError(0.5, 0.5))


# --- what must be said ------------------------------------------------------------------------------------


@every(
    ("pieces", "more", "said"),
    [
        (drilled(0), {}, {"few_pieces"}),
        (drilled(0, 1), {}, {"few_pieces"}),
        (drilled(0, 1, 0.5), {}, set()),
        (drilled(0, 1, 0.5, selection=None), {}, {"selection_not_stated"}),
        (drilled(0, 1, 0.5, selection=None), {"selection": "all"}, set()),
        (drilled(0, 1, 0.5, selection=None), {"selection": "good_only"}, {"only_good_pieces"}),
        (drilled(0, 1, 0.5, selection="all"), {"selection": "good_only"}, set()),
        # the whole tolerance of four deviations is twice the expanded uncertainty of one deviation
        (drilled(0, 1, 0.5), {"gauge": Gauge(calibration=one("0.0012"))}, {"gauge_worse_than_tolerance"}),
        (drilled(0, 1, 0.5), {"gauge": Gauge(calibration=one("0.00119"))}, set()),
        (drilled(0, 3, -3), {"gauge": Gauge(repeatability=one("0.0012"))}, {"gauge_worse_than_tolerance"}),
        # (2 + 2)/4 of variance 1; three quarters of it are the gauge's, and a quarter always stays
        (drilled(-1, 1, 0), {"gauge": Gauge(repeatability=one("0.00104"))}, {"gauge_hides_spread"}),
        (drilled(-1, 1, 0), {"gauge": Gauge(repeatability=one("0.00103"))}, set()),
        (drilled(-1, 1, 0), {"gauge": Gauge(repeatability=one("0.0011"))}, {"gauge_hides_spread"}),
        # torque has no tolerance that a gauge could take
        (torqued(1.0, 1.1, 1.2), {"gauge": Gauge(repeatability=one(9))}, set()),
        # the middle of the first is 3.167, of the second 2.933
        (drilled(3.2, 3.2, 3.1), {}, {"far_from_published"}),
        (drilled(2.9, 2.9, 3.0), {}, set()),
    ],
)  # fmt: skip
def test_what_must_be_said_of_the_pieces(pieces, more, said):
    """Far: variance (2 x 1 + squares)/4 = 0.50 of three pieces, 0.167 of their mean: 2 sqrt(0.167 + 2.25) = 3.109."""
    (row,) = fit(pieces, **more).rows
    assert codes(row) == said
    assert row.is_kept is ("only_good_pieces" not in said)
    if "few_pieces" in said:
        n = len(pieces.measured)
        (remark,) = row.remarks
        assert remark.text.startswith("1 piece tells next" if n == 1 else f"{n} pieces tell next")


def test_lists_of_two_sizes_that_differ_are_not_one_population():
    """9/32 drills 6 deviations over those of 5/16; of one drill the same values are one list."""
    high = [6 + value for value in (0, 0.2, -0.2)]
    other = Measurement("drilled_hole", drill="9/32", selection="all",
                        measured=of(*(round(0.28125 + 0.0042 + 0.0012 * value, 9) for value in high)))  # fmt: skip
    (row,) = fit(drilled(0, 0.2, -0.2), other).rows
    assert "not_one_population" in codes(row)
    (row,) = fit(drilled(0, 0.2, -0.2, *high)).rows  # three a heap are too few
    assert "not_one_population" not in codes(row)
    (row,) = fit(drilled(0, 0.2, -0.2, 0.1, *high, 6.1)).rows
    assert "not_one_population" in codes(row)
    threads = [
        Measurement("tapped_thread", thread=thread, tap_pitch_diameter=one(size), measured=measured, selection="all")
        for thread, size, measured in (
            (QUARTER, "0.21875", of("0.2190", "0.2191", "0.2189")),
            (callout.read("5/16-18 UNC-2B"), "0.2776", of("0.2800", "0.2801", "0.2799")),
        )
    ]
    (row,) = fit(*threads).rows
    assert "not_one_population" in codes(row)


# --- what is handed on ------------------------------------------------------------------------------------


def test_the_figure_of_a_drill_is_told_in_its_own_lengths():
    alike = {"machine": "VMC 2", "drill_style": "stub", "material": MaterialInput(name="4140")}
    done = fit(drilled(0, 1, 0.5, date="2026-11-19", **alike), drilled(0.4, date="2026-11-20", **alike))
    (row,) = done.rows
    (figure,) = done.figures.drill_oversize
    found = row.posterior
    assert (figure.count, figure.date, figure.material_group, figure.machine, figure.drill_style) == (
        4, "2026-11-20", "P", "VMC 2", "stub"
    )  # fmt: skip
    assert figure.drill_diameter == one("0.3125", "in")
    assert figure.mean.value == pytest.approx(Decimal(repr(0.0044 + 0.0012 * found.mean)), abs=Decimal("5e-8"))
    assert figure.mean.value.as_tuple().exponent == -7
    assert (figure.mean.unit, figure.unit) == ("in", "in")
    assert (figure.weight, figure.spread, figure.standard_deviation) == pytest.approx(
        (found.weight, 0.0012 * found.spread, 0.0012 * found.sigma), rel=1e-6
    )
    assert figure.spread == float(f"{0.0012 * found.spread:.7g}")
    assert figure.scale_factors == pytest.approx(row.scale_factors, rel=1e-6)
    assert len(figure.scale_factors) == 16
    assert len(done.figures.id) == 16
    assert done.figures.id != fit(drilled(0, 1, 0.6)).figures.id
    metric = fit(drilled(0, 1, 0.5), unit="mm").figures.drill_oversize[0]
    assert metric.drill_diameter == one("7.938", "mm")  # 7.9375, to even
    assert metric.mean.value.as_tuple().exponent == -6
    inch = fit(drilled(0, 1, 0.5)).figures.drill_oversize[0]
    assert float(metric.mean.value) / 25.4 == pytest.approx(float(inch.mean.value), abs=2e-5)
    second = Measurement("drilled_hole", drill="9/32", measured=of(0.28545, 0.28665), selection="all")
    both = fit(drilled(0, 1), second).figures.drill_oversize[0]
    assert both.drill_diameter == one("0.2969", "in")  # (0.3125 + 0.28125)/2 = 0.296875


def test_only_what_is_no_chosen_list_and_no_count_of_gauges_is_handed_on():
    gauged = Measurement("go_no_go", thread=QUARTER, checked=40)
    figures = fit(gauged, drilled(0, 1, 0.5, selection="good_only"), torqued(1.0, 1.2)).figures
    assert (figures.drill_oversize, len(figures.tapping_torque)) == ((), 1)


def test_the_figure_of_a_tap_says_whether_the_taps_were_measured():
    for tap, known in (("H3", False), (None, True)):
        size = None if tap else one("0.21875")
        done = fit(tapped("T 1", 1.5, 2.5, tap=tap, tap_pitch_diameter=size, tapping="floating", tap_style="form",
                          machine="VMC 2"))  # fmt: skip
        (figure,) = done.figures.tap_oversize
        assert (figure.taps_measured, figure.method, figure.tapping) == (known, "cut", "floating")
        assert (figure.tap_style, figure.machine, figure.material_group) == ("form", "VMC 2", None)
        # floating: deviation 0.2 of the tolerance
        assert figure.mean == pytest.approx(0.15 + 0.2 * done.rows[0].posterior.mean, rel=1e-6)
        assert figure.spread == pytest.approx(0.2 * done.rows[0].posterior.spread, rel=1e-6)


def test_the_figure_of_a_coat_keeps_the_names_of_the_finish():
    zinc = FinishInput(text="ASTM B633 Fe/Zn 8")
    done = fit(Measurement("coat", finish=zinc, plater="Ridge Plating", measured=of(0.0003, 0.0004, 0.00035)))
    (figure,) = done.figures.coat
    assert (figure.finish.specification, figure.finish.finish_class) == ("ASTM B633", "Fe/Zn 8 SC2")
    assert (figure.plater, figure.unit, figure.mean.unit) == ("Ridge Plating", "in", "in")
    # 0.0003 to 0.00045 in: middle 0.000375, a quarter of the range 0.0000375
    assert float(figure.mean.value) == pytest.approx(0.000375 + 0.0000375 * done.rows[0].posterior.mean, abs=6e-8)


def test_the_figure_of_torque_is_a_ratio_of_the_model():
    """ln of the ratio over 0.3: its middle and both ends for the next hole as ratios again."""
    ratios = (1.2, 1.3, 1.4, 1.5)
    done = fit(torqued(*ratios, fluid="oil", tap_style="form", machine="VMC 2"))
    (row,), (figure,) = done.rows, done.figures.tapping_torque
    assert row.pieces.values == pytest.approx([log(ratio) / 0.3 for ratio in ratios])
    assert (figure.median, figure.low, figure.high) == pytest.approx(
        [exp(0.3 * value) for value in (row.posterior.mean, row.of_next.low, row.of_next.high)], rel=1e-6
    )
    assert (figure.count, figure.fluid, figure.tap_style, figure.machine) == (4, "oil", "form", "VMC 2")
    assert figure.weight == pytest.approx(row.posterior.weight, rel=1e-6)


def test_taps_that_broke_are_counted_together():
    """3 + 1 in 250 + 150 holes: Jeffreys' rate has shape 4.5; a hundred more holes break 4.5/4 in the mean, none in
    (400/500)^4.5 of the lots. The printed Poisson limit of 4 seen by one side of 0.975 is 10.24 (half of what is
    outside 95 percent), of none 3.689.
    """
    pieces = (
        Measurement("taps_used", thread=QUARTER, holes=250, broken=3, date="2026-11-18"),
        Measurement("taps_used", thread=QUARTER, holes=150, broken=1, date="2026-11-20"),
    )
    done = fit(*pieces)
    (row,), (figure,) = done.rows, done.figures.tap_life
    assert (row.checked, row.bad) == (400, 4)
    assert row.breakage.expected_breaks == pytest.approx(4.5 / 4)
    assert row.breakage.chance_of_a_break == pytest.approx(1 - 0.8**4.5)
    assert row.breakage.exact_upper == pytest.approx(10.2416 / 400, rel=1e-4)
    assert (figure.count, figure.broken, figure.date) == (400, 4, "2026-11-20")
    assert (figure.rate, figure.rate_high) == pytest.approx((row.breakage.median, row.breakage.exact_upper), rel=1e-6)
    assert (figure.size_from, figure.size_to) == (one("0.125", "in"), one("0.25", "in"))
    assert codes(row) == {"constant_rate"}
    (none,) = fit(Measurement("taps_used", thread=QUARTER, holes=400)).rows
    assert none.breakage.exact_upper == pytest.approx(3.6889 / 400, rel=1e-4)
    assert none.breakage.interval.low == 0


def test_the_date_is_the_last_one_told():
    assert fit(torqued(1.0, 1.2), torqued(1.1)).figures.tapping_torque[0].date is None
    dated = torqued(1.0, date="2026-11-20"), torqued(1.1, date="2026-11-18"), torqued(1.2)
    assert fit(*dated).figures.tapping_torque[0].date == "2026-11-20"


# --- counts of GO and NOT GO ------------------------------------------------------------------------------


def gauged(checked, by_go=0, entered=0, **more):
    return Measurement("go_no_go", thread=QUARTER, checked=checked, go_refused=by_go, not_go_entered=entered, **more)


def test_counts_of_gauges_are_added():
    (row,) = fit(gauged(30, 1, 2), gauged(70, 2)).rows
    assert (row.checked, row.bad, row.more) == (100, 5, None)
    assert row.share.counted == 0.05
    assert codes(row) == {"share_only"}
    low, high, normal = 0.2175, 0.2224, NormalDist()
    sigma = (high - low) / (normal.inv_cdf(0.98) - normal.inv_cdf(0.03))
    assert row.probit == pytest.approx((low - sigma * normal.inv_cdf(0.03), sigma))


def test_counts_within_other_limits_are_not_added():
    """Those of another thread or machine are rows of their own, whatever their limits."""
    wider = LengthRange(Length(Decimal("0.2170"), "in"), Length(Decimal("0.2230"), "in"))
    fault = refused(gauged(30), gauged(40), gauged(70, limits=wider))
    assert (fault.code, fault.pointer) == ("range_inconsistent", "/measurements/2/limits")
    own = LengthRange(Length(Decimal("0.2175"), "in"), Length(Decimal("0.2224"), "in"))
    assert [row.checked for row in fit(gauged(30), gauged(40, limits=own)).rows] == [70]
    assert sorted(row.checked for row in fit(gauged(30), gauged(70, limits=wider, machine="VMC 2")).rows) == [30, 70]


@every(
    ("checked", "confidence", "more"),
    [
        # 59 without failure prove 95 % by 95 % (success run), 22 prove 90 % by 90 %
        (1, 0.95, 58),
        (58, 0.95, 1),
        (59, 0.95, 0),
        (60, 0.95, 0),
        (20, 0.90, 2),
    ],
)
def test_how_many_more_pieces_without_a_failure_prove_the_share(checked, confidence, more):
    assert fit(gauged(checked), confidence=confidence).rows[0].more == more
    assert fit(gauged(checked, 1), confidence=confidence).rows[0].more is None


def test_pieces_without_failure_at_a_whole_number():
    """ln(1 - 0.75)/ln 0.5 = 2 and ln(1 - 0.5)/ln 0.5 = 1 are whole: no piece more."""
    assert counted.pieces_without_failure(good_share_ratio=0.5, chance=0.75) == 2
    assert counted.pieces_without_failure(good_share_ratio=0.5, chance=0.76) == 3
    assert counted.pieces_without_failure(good_share_ratio=0.5, chance=0.5) == 1


@every(
    ("counts", "told"),
    [
        (Gauged(10, 1, 1, 0.0, 1.0), True),
        (Gauged(10, 0, 1, 0.0, 1.0), False),
        (Gauged(10, 1, 0, 0.0, 1.0), False),
        (Gauged(2, 1, 1, 0.0, 1.0), False),  # nothing is good
        (Gauged(3, 1, 1, 0.0, 1.0), True),
    ],
)
def test_both_counts_tell_mean_and_deviation(counts, told):
    assert (counted.probit(counts) is not None) is told


def weighed_shares(counts, mean, sigma):
    """Share inside and weight over the grid of the reference: means within four of 1.5 deviations in 101 points,
    deviations of a tenth to ten times in 61 by their logarithm; scaled inverse chi-square of 2 degrees, multinomial.
    """
    found = []
    for step in range(61):
        ratio = 10 ** (-1 + 2 * step / 60)
        for place in range(101):
            z = -4 + 8 * place / 100
            curve = NormalDist(mean + z * 1.5 * sigma, ratio * sigma)
            under, over = curve.cdf(counts.low), 1 - curve.cdf(counts.high)
            inside = max(curve.cdf(counts.high) - under, 0.0)
            chance = under**counts.go_refused * over**counts.not_go_entered * inside ** (counts.checked - counts.bad)
            found.append((inside, chance * ratio**-2 * exp(-1 / ratio**2 - z * z / 2)))
    return sorted(found)


@every("counts", [Gauged(100, 3, 2, 0.3344, 0.3401), Gauged(20, 0, 1, 0.3344, 0.3401), Gauged(8, 0, 0, 0.336, 0.340),
                  Gauged(5, 5, 0, 0.3344, 0.3401), Gauged(6, 0, 6, 0.3344, 0.3401)])  # fmt: skip
def test_the_share_inside_by_the_grid_of_the_reference(counts):
    shares = weighed_shares(counts, 0.337, 0.0014)
    total = sum(weight for _, weight in shares)
    found = counted.share_inside(counts, Prior(0.337, 0.0014), 0.90)
    below = sum(weight for share, weight in shares if share < found.low - 1e-9) / total
    up_to = sum(weight for share, weight in shares if share <= found.low + 1e-9) / total
    assert below <= 0.05 + 1e-6 <= up_to + 2e-6
    below = sum(weight for share, weight in shares if share < found.high - 1e-9) / total
    up_to = sum(weight for share, weight in shares if share <= found.high + 1e-9) / total
    assert below <= 0.95 + 1e-6 <= up_to + 2e-6


# --- shares and rates where a count is nothing or all -----------------------------------------------------


def test_ends_of_a_share_where_none_or_all_are_bad():
    """None of 20: Clopper and Pearson 1 - 0.05^(1/20); all of 20: up to 1, and from 0.05^(1/20)."""
    none = counted.exact_share(bad=0, checked=20, quantiles=QUANTILES, chance=0.90)
    assert none == (0.0, pytest.approx(1 - 0.05 ** (1 / 20)))
    every_one = counted.exact_share(bad=20, checked=20, quantiles=QUANTILES, chance=0.90)
    assert every_one == (pytest.approx(0.05 ** (1 / 20)), 1.0)
    bad = counted.share_bad(bad=20, checked=20, quantiles=QUANTILES, chance=0.90)
    assert (bad.interval.high, bad.exact_upper, bad.counted) == (1.0, 1.0, 1.0)
    assert 0.8 < bad.interval.low < 1
    good = counted.share_bad(bad=0, checked=20, quantiles=QUANTILES, chance=0.90)
    assert (good.interval.low, good.exact_upper) == (0.0, pytest.approx(1 - 0.05 ** (1 / 20)))
    assert 0 < good.interval.high < good.exact_upper


# --- lots: where a test begins ----------------------------------------------------------------------------


@every(
    ("values", "heaps"),
    [
        # four a heap; means 10 apart, inside each 4 x 1 of squares: sqrt(8/6) = 1.1547, 8.66 of them apart
        ([-1, -1, 1, 1, 9, 9, 11, 11], True),
        # 6.3 apart are 5.456 of them, 6.4 are 5.543: 5.5 is the bound
        ([-1, -1, 1, 1, 5.3, 5.3, 7.3, 7.3], False),
        ([-1, -1, 1, 1, 5.4, 5.4, 7.4, 7.4], True),
        # of seven no split leaves four on each side
        ([-1, 0, 1, 9, 9, 11, 11], False),
        # nor do three beside five, on either side
        ([-1, 0, 1, 9, 9, 10, 11, 11], False),
        ([-11, -11, -10, -9, -9, -1, 0, 1], False),
        # nothing scatters inside
        ([0, 0, 0, 0, 1, 1, 1, 1], True),
        ([0] * 8, True),
    ],
)
def test_two_heaps_are_four_each_and_far_apart(values, heaps):
    assert lots.two_heaps([float(value) for value in values]) is heaps


def test_the_larger_of_two_values_that_lie_as_far_is_taken_first():
    """1, 5 and 9 off their middle: 4 over a standard deviation of 4."""
    for values, place in (((1.0, 5.0, 9.0), 2), ((9.0, 1.0, 5.0), 0)):
        assert lots.ValuesLeft(values).farthest() == (place, pytest.approx(1))


def test_of_a_regular_list_nothing_lies_outside():
    """Of thirty values up to three may: none does of 0, 1, 2 to 29."""
    assert lots.outliers([float(value) for value in range(30)], QUANTILES) == ()


def test_the_share_inside_of_many_pieces_is_about_what_was_counted():
    """Of 1000 threads a tenth is refused by GO and a twentieth by NOT GO, as is published: 0.85."""
    normal = NormalDist()
    counts = Gauged(1000, 100, 50, normal.inv_cdf(0.1), normal.inv_cdf(0.95))
    found = counted.share_inside(counts, Prior(0, 1), 0.90)
    assert 0.82 < found.low <= found.high < 0.88


@every(
    ("mean", "unit", "asked", "said"),
    [
        ("0.0004", "in", ("0.0004", "0.0008"), None),
        ("0.0008", "in", ("0.0004", "0.0008"), None),
        ("0.00081234", "in", ("0.00041234", "0.00080001"),
         "0.000812 in is not the thickness asked for, 0.000412 in to 0.0008 in"),
        ("0.0003", "in", (None, None), "0.0003 in is not the thickness asked for, which is not known"),
        ("0.02", "mm", ("0.010", "0.0150"), "0.02 mm is not the thickness asked for, 0.01 mm to 0.015 mm"),
    ],
)  # fmt: skip
def test_a_coat_without_a_name_is_known_by_its_thickness(mean, unit, asked, said):
    """Told to a millionth of an inch or of a millimetre."""
    ends = [None if end is None else Decimal(end) for end in asked]
    bare = finishing.allow(
        standards.resolve(callout.read("M8" if unit == "mm" else "1/4-20 UNC-2B")),
        FinishInput(thickness=LengthRange(one("0.01", unit), one("0.02", unit))),
    ).finish
    figure = MeasuredCoat(count=9, spread=1.0, finish=FinishInput(), mean=one(mean, unit), unit=unit)
    found = measured_finish.against(figure, replace(bare, thickness=Range(*ends)), unit)
    assert (found if found is None else found.replace("\N{NO-BREAK SPACE}", " ")) == said


def test_the_name_of_a_coat_is_read_as_that_of_a_part_of_any_metal():
    """ASTM B545 asks for more of some classes on steel, which a figure does not tell."""
    found = measured_finish.names(FinishInput(specification="ASTM B545", finish_class="Class C"), "mm")
    assert found == ("ASTM B545", "Class C")


def test_lots_differ_by_more_than_their_own_scatter():
    """Printed F at 0.99 of 1 and 4 degrees: 21.20. Lots (c - 1, c, c + 1): within 1, between 3/2 x (difference)^2."""
    near, far = sqrt(21.1 / 1.5), sqrt(21.3 / 1.5)
    for apart, differ in ((near, False), (far, True)):
        assert lots.differ([[-1.0, 0.0, 1.0], [apart - 1, apart, apart + 1]], QUANTILES) is differ
    assert not lots.differ([[0.0, 1.0, 2.0]], QUANTILES)
    assert not lots.differ([[0.0], [9.0]], QUANTILES)
    assert not lots.differ([[0.0], [9.0, 9.1]], QUANTILES)  # one piece more than lots tells no scatter
    assert lots.differ([[0.0, 0.0], [1.0, 1.0]], QUANTILES)
    assert not lots.differ([[1.0, 1.0], [1.0, 1.0]], QUANTILES)
    assert lots.differ([[0.0, 0.1], [9.0, 9.1]], QUANTILES)


def test_parts_of_batches_by_their_number():
    """One batch, and as many batches as parts, tell nothing of how alike parts are: half as is taken."""
    assert lots.effective_pieces([[0.0, 1.0]], QUANTILES) == (0.5, pytest.approx(2 / 1.5))
    assert lots.effective_pieces([[0.0], [1.0], [2.0]], QUANTILES) == (0.5, pytest.approx(3))
    # (0, 1), (4, 5): within 1/2, between 16, of batches (16 - 0.5)/2 = 7.75
    two = lots.effective_pieces([[0.0, 1.0], [4.0, 5.0]], QUANTILES)
    assert two == pytest.approx((7.75 / 8.25, 4 / (1 + 7.75 / 8.25)))
    # (0, 0), (1, 1), (2, 2): nothing within, all between: alike altogether, three pieces
    assert lots.effective_pieces([[0.0, 0.0], [1.0, 1.0], [2.0, 2.0]], QUANTILES) == pytest.approx((1, 3))
    # pairs 0.1 apart whose middles are 0.2 apart: within 0.005, between 0.08, of batches (0.08 - 0.005)/2 = 0.0375
    small = lots.effective_pieces([[0.0, 0.1], [0.2, 0.3], [0.4, 0.5]], QUANTILES)
    assert small.within_batch == pytest.approx(0.0375 / 0.0425)
    assert lots.effective_pieces([[1.0, 1.0], [1.0, 1.0], [1.0, 1.0]], QUANTILES) == (0, pytest.approx(6))


@every(
    ("count", "flagged"),
    [
        # at most one of ten, but one of few; none of fewer than six
        (5, 0),
        (6, 1),
        (19, 1),
        (20, 2),
    ],
)
def test_at_most_one_of_ten_lies_outside(count, flagged):
    """All but three are one thousandth apart; those lie a million deviations off, farther and farther."""
    far = [1e3, -1e6, 1e9][: max(flagged + 1, 1)]
    values = [place / 1000 for place in range(count - len(far))] + far
    found = lots.outliers(values, QUANTILES)
    assert len(found) == flagged
    assert set(found) <= set(range(count - len(far), count))


def test_the_bound_of_an_outlier_is_that_of_grubbs():
    """Two-sided 5 % of 6 values: printed 1.887. Five of which the mean is 0 and one far off: (n - 1)/sqrt(n) = 2.041 at
    most."""
    assert lots.critical_distance(6, QUANTILES, chance=0.025) == pytest.approx(1.887, abs=0.0006)
    for far, outside in ((3.6, False), (4.4, True)):
        values = [-1.0, -0.5, 0.0, 0.5, 1.0, far]
        mean = far / 6
        sigma = sqrt((sum((value - mean) ** 2 for value in values)) / 5)
        assert ((far - mean) / sigma > 1.887) is outside
        assert lots.outliers(values, QUANTILES) == ((5,) if outside else ())


# --- the fit itself ---------------------------------------------------------------------------------------


def test_a_single_piece_and_one_that_lies_far_off():
    """One piece: freedom 2, the published variance; V = 1, weight 1/(1 + 1/2.25) = 0.6923. Far: 2 sqrt(1 + 2.25)."""
    for value, far in ((3.605, False), (3.606, True), (-3.605, False), (-3.606, True)):
        found = normal_fit.fit(Pieces((value,)), Prior(0.0, 1.0))
        assert (found.count, found.effective, found.freedom, found.sigma) == (1, 1, 2, 1)
        assert found.weight == pytest.approx(2.25 / 3.25)
        assert found.mean == pytest.approx(value * 2.25 / 3.25)
        assert found.mean_uncertainty == pytest.approx(sqrt(1 / (1 + 1 / 2.25)))
        assert found.spread == pytest.approx(sqrt(1 + 2.25 / 3.25))
        assert found.far is far


def test_two_pieces_scatter_by_their_squares():
    """(2 x 1 + 2)/(2 + 1) of -1 and 1; 1/(V/2) + 1/2.25."""
    found = normal_fit.fit(Pieces((-1.0, 1.0)), Prior(0.0, 1.0))
    assert found.observed_sigma**2 == pytest.approx(4 / 3)
    assert found.mean_uncertainty**-2 == pytest.approx(1.5 + 1 / 2.25)


def test_fewer_effective_pieces_weigh_and_scatter_less():
    """Four values of squares 4 that stand for two: half of the squares' freedom, 4 x 1/3; (2 + 4/3)/3 = 1.1111."""
    found = normal_fit.fit(Pieces((-1.0, -1.0, 1.0, 1.0), effective=2), Prior(0.0, 1.0))
    assert (found.count, found.effective, found.freedom) == (4, 2, 3)
    assert found.observed_sigma**2 == pytest.approx(10 / 9)
    assert found.mean_uncertainty**-2 == pytest.approx(2 / (10 / 9) + 1 / 2.25)


def test_taps_of_unlike_holes_weigh_by_what_they_tell():
    """V = 1/(1/(s/1 + b/12) + 1/(s/3 + b/12)) with s the variance and b the square of the band."""
    pieces = Pieces((-1.0, 1.0, -1.0, 1.0), taps=(1, 3), band=2.0)
    found = normal_fit.fit(pieces, Prior(0.0, 1.0))
    s, b = found.observed_sigma**2, 4 / 12
    assert found.mean_uncertainty**-2 == pytest.approx(1 / (s + b) + 1 / (s / 3 + b) + 1 / 2.25)
    without = normal_fit.fit(Pieces((-1.0, 1.0, -1.0, 1.0), taps=(1, 3)), Prior(0.0, 1.0))
    assert without.mean_uncertainty**-2 == pytest.approx(4 / s + 1 / 2.25)


def test_how_many_more_halve_the_interval():
    """By the definition: with so many more pieces t times the uncertainty is half as long, with one fewer it is not."""
    for values, chance in (((-1.0, 0.5, 1.0), 0.95), (tuple(float(place % 5) for place in range(40)), 0.90)):
        found = normal_fit.fit(Pieces(values), Prior(0.0, 1.0))
        more = normal_fit.more_to_halve(found, QUANTILES, chance)
        s = found.observed_sigma**2
        before = normal_fit.mean_interval(found, QUANTILES, chance)

        def length(pieces, found=found, s=s, chance=chance):
            t = QUANTILES.student_t((1 + chance) / 2, freedom=found.freedom + pieces)
            return 2 * t / sqrt((found.count + pieces) / s + 1 / 2.25)

        assert length(0) == pytest.approx(before.high - before.low)
        assert length(more) <= length(0) / 2 < length(more - 1)


def test_what_a_few_taps_leave_open_does_not_count_against_more_pieces():
    """An uncertainty of .5 tells of four pieces, eight are there: as many more as there are halve it, 16^-.5 = .5/2."""
    (row,) = fit(*(tapped(f"T {place}", 1.4, 1.6) for place in range(3))).rows
    found = replace(row.posterior, mean_uncertainty=0.5, effective=8, observed_sigma=1.0, freedom=1000.0)
    assert normal_fit.more_to_halve(found, QUANTILES, 0.95) == 8


def test_more_pieces_than_are_thought_of():
    """3333 pieces take three times as many more, 9,999; one more would be past what is looked for."""
    for count, wanted in ((3_330, True), (3_340, False)):
        values = tuple((-1.0) ** place for place in range(count))
        found = normal_fit.fit(Pieces(values), Prior(0.0, 1.0))
        assert (normal_fit.more_to_halve(found, QUANTILES, 0.95) is not None) is wanted
