"""What was decided, written a second time: a threshold or share of our own moves on purpose or not at all.

Nothing is printed that such a figure could be compared with. What it does at both sides of itself is tried in
``test_decided_figures`` and in the tests of its subject; here stands the figure, beside why it is that one.
"""

from __future__ import annotations

from decimal import Decimal

from every import every
from table_rows import held

PRACTICE = """
# audit: bands of percent are no limits, half a band's width over is remarked upon; a tenth of the height is more
# than charts differ, a quarter of that still a drill of another list; a twentieth of a pitch is what drills cut
# oversize; a tenth over the printed range of speed is no mistake; the neighbouring grade of tool; less than the cut
# oversize 0.15
audit_percent_over_band 5; audit_chart_error_share 1/10; audit_chart_warning_share 1/40
audit_cut_drill_under_pitches 1/20; audit_speed_over_range 11/10; audit_softer_grades 1
audit_short_tolerance_share 1/10
# forming: 60 to 65 percent in the handbook and 73.5 by D - P/2 lie inside, 50 and 55 to 80 around both
formable_percent_least 50; formable_percent_most 80; rescue_formed_percent_least 55; rescue_formed_percent_most 80
forming_percent 65; forming_percent_window 10; forming_hole_tolerance_mm 0.03; forming_hole_tolerance_to_mm 10
forming_hole_tolerance_share 1/4
# what a callout may differ by: a thousandth, two hundredths; four printed digits of a lead, three of a pitch; a
# dozen starts
callout_depth_slack_in 0.001; callout_depth_slack_mm 0.02; lead_slack_share 0.002; pitch_slack_share 0.005
most_starts 12
# parts: one hole in twenty is sorted out by gauging; half a second to two between holes; a tenth of a second; a tool
# change takes three to ten seconds
part_least_acceptance 0.95; part_positioning 1; part_time_step 0.1; part_tool_change 6; part_spare_taps_enough 0.95
# chances: one in ten, two in five, one in twenty, one in forty misses; a twentieth between drills of a chart
low_acceptance 0.90; often_outside_acceptance 0.40; least_torque_acceptance 0.95; tap_table_tolerance 1/40
chart_rule_tolerance 1/20
# cutting: constants end at 500 HB; soft steel to 200 HB, hard from 300; carbide over 400; 350 HB is 38 HRC; the
# standard drill of the handbook's Table 7 has a chisel edge of 0.18; half of the usual range of 50 HB; 3 to 5
# threads of a plug tap
hardest_cut_hb 500; middle_feed_to_hb 200; low_feed_from_hb 300; carbide_drill_over_hb 400; hard_drilling_over_hb 350
standard_chisel_edge 0.18; open_speed_range_hb 25; usual_chamfer_threads 4; tough_from_hb 300; hardened_from_hrc 45
# depths in diameters: three in one go, then one a peck; deep tapping past 1.5; half to one and a half is usual
# engagement
peck_over_diameters 3; first_peck_diameters 3; next_peck_diameters 1; deep_tapping_over_diameters 1.5
short_engagement_diameters 0.5; long_engagement_diameters 1.5; routine_depth_diameters 2; deepest_cut_diameters 3
usual_tap_reach_diameters 3; usual_drill_reach_diameters 5; grip_diameters 2; longest_engagement_diameters 10
whitworth_longest_diameters 3; wall_beside_thread_diameters 0.5; largest_rework_diameters 2
# percent of thread: the wall chart's 75, 75 to 83 where few threads hold; a few points, ten where no limit is held
wall_chart_percent 75; short_engagement_percent_least 75; short_engagement_percent_most 83; near_percent 5
open_limit_slack_percent 10; partial_thread_percent 50
# forms by height in pitches: J 0.97, UNM 1.04 and 5/8 H 1.08 inside, pipe 1.6 outside; Acme 1 deep, stub 0.6 not;
# trapezoidal 30 degrees
common_form_height_least 0.9; common_form_height_most 1.2; deep_form_height_pitches 0.9; deep_form_angle_deg 30
# drills that are read, and the border between inches and millimetres of a bare figure
reaming_smallest_drill_share 4/5; smallest_drill_mm 0.1; largest_drill_mm 130; least_bare_drill_mm 1
largest_bare_drill_in 4; note_taper_drill_share 0.02; note_least_depth_share 1/4; note_smallest_drill_share 2/5
note_largest_drill_share 3/2
# coats: half as much again as the least; 0.003 to 0.1 mm is usual on threads, 0.0001 to 0.004 in; 20 HRC is 226 HB;
# 50 um for 0.002 in; a millimetre is ten times what is put on; hours to the bake
coat_max_over_min 1.5; bare_coat_least_mm 0.002; bare_coat_most_in 0.008; no_hydrogen_below_hb 226
same_nominal_share 0.02; same_thickness_share 0.05; thickest_coat_in 0.04; thickest_coat_mm 1; bake_within_h 4
# a tenth of the tolerance for both members of a gauge
plain_gauge_share 1/20
# clearance under the tap: one pitch in step, the wide end of 2 to 3 else, half for a bottoming tap; groove of 1 to 2
clearance_rigid_pitches 1; clearance_floating_pitches 3; clearance_hand_pitches 3; least_clearance_pitches 0.5
relief_groove_pitches 1
# points and countersinks: 118 and 140 degrees, spot as flat or flatter; 1 to 1.05 D, 90 degrees in inch shops, 120
# metric
countersink_ratio 1.05; countersink_angle_in 90; countersink_angle_mm 120; flatter_point_deg 140; drill_point_deg 118
spot_drill_deg 120; flattest_spot_drill_deg 140; largest_spot_drill_in 1; largest_spot_drill_mm 25
largest_countersink_in 3; largest_countersink_mm 75
# BS 1936: a quarter of the depth below M6, a fifth to M12, three twentieths above
bs_1936_small_to_mm 6; bs_1936_small_share 1/4; bs_1936_middle_to_mm 12; bs_1936_middle_share 1/5
bs_1936_large_share 3/20
# strength: a thread lost at each end, load shared over 1.5 to 2 diameters; 0.577 to 0.6 of the tensile strength; a
# conversion differs by three hundredths
incomplete_pitches 2; strip_linear_diameters 1.5; strip_capped_diameters 2; screw_shear_share 0.58
same_hardness_share 0.03; same_strength_share 0.03; weakest_tensile_mpa 1; strongest_tensile_mpa 4000
# a tenth of the diameter oversize; pilots by sixteenths and millimetres; twice the 0.010 in that a reamer takes
most_drill_oversize_share 1/10; pilot_step_in 1/16; pilot_step_mm 1; most_reamed_in 0.020; most_reamed_mm 0.5
# a tap cuts 0.15 of the class oversize (0.0007 in at 1/4-20); its major diameter beyond the thread's
cut_oversize_share 0.15; inch_tap_major_pitches 0.130; metric_tap_major_pitches 0.080
# figures of a shop: prior, grid, batches, outliers, lots; what is another drill, thread, coat or unit
shop_prior_freedom 2; shop_prior_reach 3/2; shop_least_true_variance_share 1/4; shop_scale_shares 16
shop_far_deviations 2; shop_grid_means 101; shop_grid_sigmas 61; shop_batch_alike 1/2; shop_batch_certainty 0.9
shop_least_for_outliers 6; shop_outlier_chance 1/20; shop_outlier_of_values 10; shop_two_lots_chance 1/100
shop_least_in_heap 4; shop_heaps_apart 5.5; shop_hole_off_drill_share 1/10; shop_drill_off_label_share 0.03
shop_pitch_diameter_off_share 0.03; shop_coat_times 5; shop_torque_times 10
"""
WAY_OF_MAKING = """
# high-speed steel taps wear out above 40 to 45 HRC, carbide ones break above 50; a tap drill ends at 55 to 60
review_from_hrc 45; mill_from_hrc 50; blocks_from_hrc 58
# under a full turn nothing holds, two to three are the least of sheet; half a diameter carries part of the screw
blocks_threads 1; review_threads 3; review_diameters 0.5; countersink_share 0.15; edge_break_share 0.05
# a pilot a little wider than the web, then two thirds; from an inch and from one and a half
pilot_share 0.3; second_pilot_share 0.65; pilot_over_in 1; pilot_over_mm 25; second_pilot_over_in 1.5
second_pilot_over_mm 38
# taps are stocked to 1 to 1-1/4 in, M30; pipe taps to 4 in; mills from #4 and M2.5; flanks of 45 degrees
thread_mill_over_in 1.25; thread_mill_over_mm 32; pipe_tap_to_in 4; smallest_mill_in 0.112; smallest_mill_mm 2.5
milled_over_deg 45
# the other unit: under a pitch, over ten diameters; a percent of 1 is a share
doubt_below_pitches 1; doubt_above_diameters 10; doubt_percent_below 1.5
"""
#: Fitted to the measured series in grey iron: test_torque_fit.
FITTED = {"total", "worn"}
TAPPING = """
# chips pack a blind hole from one diameter to two, a spiral flute one later: half as much again
packing 1.5; packing_from_d 1; packing_full_d 2; spiral_flute_later_d 1
# force grows with the root of the strength; thin chips 1.3 to 1.6; spiral point is the measured tap and takes 0.65
# of a straight flute, whose 1/0.65 an interrupted one has too; spiral flute 0.75 of a straight one
strength_exponent 0.5; thin_chip 1.4; spiral_point 1; straight_flute 1.54; interrupted 1.54; spiral_flute 1.15
# scatter of the series 0.23, widened; forming takes half as much again to three times; M2 steel half of 3250 N/mm2
sigma_ln 0.3; forming_low 1.5; forming_high 3; break_stress_n_mm2 1600; core_low 0.42; core_mid 0.5; core_high 0.56
# speeds: forming half as much again; blind or deep 20 to 30 percent less, bottoming 25 less, coated 25 to 50 more;
# taper pipe a half to three quarters
form_speed 1.5; speed_blind_or_deep 0.75; speed_bottoming 0.75; speed_coated 1.25; speed_taper_pipe 0.55
drill_wear 1.3; drill_wear_hard 1.5
"""
SPREAD = """
# a tenth of the tolerance is one deviation of a cut, twice that in a floating holder; a thousandth under the drill
pitch_sigma_share 0.1; pitch_sigma_floating 2; hole_truncation_in 0.001
# a poor set-up, the usual one and a bushing; t to 1.5 t is four deviations of a coat
setup_poor 1.5; setup_usual 1; setup_guided 0.6; coat_sigmas 4
"""


def said(text: str) -> dict[str, Decimal]:
    """Names and figures of lines that are no remarks; 1/20 is a twentieth."""
    found = {}
    for line in text.splitlines():
        for one in line.split("; ") if not line.startswith("#") else ():
            name, _, figure = one.partition(" ")
            over, _, under = figure.partition("/")
            if name:
                assert name not in found
                found[name] = Decimal(over) / Decimal(under or 1)
    return found


@every(
    ("table", "name", "value", "text"),
    [
        ("practice", "name", "value", PRACTICE), ("way_of_making", "name", "value", WAY_OF_MAKING),
        ("tapping_factors", "factor", "value", TAPPING), ("tapping_spread", "factor", "value", SPREAD),
    ],
)  # fmt: skip
def test_figures_are_those_that_were_decided(table, name, value, text):
    assert {row[name]: Decimal(row[value]) for row in held(table) if row[name] not in FITTED} == said(text)


def test_shares_of_a_straight_flute():
    """Torque of a spiral point is 0.6 to 0.7 of a straight flute's, of a spiral flute 0.7 to 0.8: the middles."""
    factor = {row["factor"]: float(row["value"]) for row in held("tapping_factors")}
    assert factor["straight_flute"] == round(1 / 0.65, 2)
    assert factor["interrupted"] == factor["straight_flute"]
    assert factor["spiral_flute"] == round(0.75 / 0.65, 2)


def test_deep_holes_are_drilled_slower():
    """From three diameters a tenth of the speed less, a tenth more with each diameter; feed a tenth, then a fifth."""
    rows = [tuple(map(float, row.values())) for row in held("drilling_depth_factors")]
    assert rows == [(3, 0.9, 0.9), (4, 0.8, 0.9), (5, 0.7, 0.8), (6, 0.6, 0.8)]
