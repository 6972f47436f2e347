"""What is easy to get wrong in pipe threads, one test a trap, with the source beside each figure."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from outside_figures import outside

D = Decimal


def rows_of(name):
    return outside(name)


def codes(thread):
    return {caution.code for caution in thread.notes.cautions}


def text_of(thread, code):
    return next(caution.text for caution in thread.notes.cautions if caution.code == code)


def status_of(thread, field):
    return {source.status for source in thread.notes.sources if source.field == field}


# --- taper pipe --------------------------------------------------------------------------------------


def crest_depth(thread, drill):
    """z = 16 (E1 - H + 2 f max - d), worked out here from the printed figures."""
    e1, form = thread.extra["pipe"]["gauge_plane_pitch_diameter"], thread.extra["truncation"]
    return 16 * (e1 - form["sharp_height"] + 2 * form["truncation_max"] - D(drill))


@pytest.mark.parametrize("row", [row for row in rows_of("npt_tap_drill") if row["method"] == "without reaming"])
def test_b94_9_drills_give_full_crests_to_l1(resolved, row):
    """ANSI/ASME B94.9-2008 Table 24a note d: direct tapping gives full threads for about L1."""
    thread = resolved(f"{row['size']} NPT")
    pipe = thread.extra["pipe"]
    assert pipe["straight_hole_drill"] == row["drill"].replace(" ", "-")
    assert pipe["straight_hole_drill_diameter"] == D(row["drill_in"])
    assert abs(pipe["straight_hole_full_crest_depth"] - crest_depth(thread, row["drill_in"])) <= D("0.0005")
    assert pipe["straight_hole_full_crest_depth"] >= pipe["handtight_engagement"]
    assert pipe["straight_hole_gives_full_crest"] is True
    limits = pipe["straight_hole_diameter"]
    assert limits.min < D(row["drill_in"]) < limits.max


def test_larger_shop_drills_lose_crests(resolved):
    """The shop list keeps full crests to L1 in 1/4 and 2 1/2 only."""
    kept = {
        row["size"]
        for row in rows_of("npt_tap_drill")
        if row["method"].startswith("general")
        and crest_depth(thread := resolved(f"{row['size']} NPT"), row["drill_in"])
        >= thread.extra["pipe"]["handtight_engagement"]
    }
    assert kept == {"1/4", "2 1/2"}


@pytest.mark.parametrize("row", [row for row in rows_of("npt_tap_drill") if row["method"].startswith("with ")])
def test_reamed_hole_starts_smaller(resolved, row):
    """ANSI B1.20.3-1976 suggested tap drills (from memory) are for the minor diameter at L1 + L3."""
    pipe = resolved(f"{row['size']} NPT").extra["pipe"]
    assert pipe["reamed_hole_drill"] == row["drill"].replace(" ", "-")
    assert pipe["reamed_hole_drill_diameter"] <= pipe["straight_hole_drill_diameter"]


def test_three_inch_drill_is_not_the_misprint(resolved):
    """One reprint prints 3 15/16, larger than the 3.500 pipe."""
    assert resolved("3 NPT").extra["pipe"]["straight_hole_drill"] == "3-15/64"


@pytest.mark.parametrize(("size", "old"), [("1/8", ".180"), ("1/4", ".200")])
def test_old_engagement_lengths(resolved, size, old):
    """L1 of 1/8 and 1/4 changed with ANSI/ASME B1.20.1-1983."""
    assert old in text_of(resolved(f"{size} NPT"), "npt_old_engagement")


def test_other_sizes_kept_their_engagement(resolved):
    assert "npt_old_engagement" not in codes(resolved("1/2 NPT"))


def test_makeup_of_npt_and_nptf_differs_at_8_threads(resolved):
    """NPT: 2 threads (Machinery's Handbook 27th ed. p. 1862); NPTF: 3 threads, not settled."""
    npt, nptf = resolved("3 NPT"), resolved("3 NPTF")
    assert str(npt.extra["pipe"]["wrench_makeup"]) == "0.2500"
    assert str(nptf.extra["pipe"]["wrench_makeup"]) == "0.3750"
    assert "nptf_makeup_unsettled" in codes(nptf)
    assert "nptf_makeup_unsettled" not in codes(npt) | codes(resolved("1 NPTF"))


def test_depth_of_full_thread_is_l1_plus_l3(resolved):
    """ANSI/ASME B1.20.1-1983 Table 2: 1/4 NPT .2278 + .1667."""
    assert resolved("1/4 NPT").extra["pipe"]["full_thread_depth"] == D("0.3945")


def test_one_turn_is_the_gauging_tolerance(resolved):
    pipe = resolved("1/4-18 NPT").extra["pipe"]
    assert pipe["gauge_plane_tolerance_turns"] == 1
    assert str(pipe["gauge_plane_tolerance"]) == "0.05556"


@pytest.mark.parametrize(
    "row",
    [row for row in rows_of("npt_dimensions") if row["size"] not in ("4", "6", "1 1/2")],
    ids=lambda row: row["size"],
)
def test_npt_table_against_its_formulas(resolved, row):
    """ANSI/ASME B1.20.1-1983: E0 = D - (0.05 D + 1.1) p, E1 = E0 + L1/16, L2 = (0.80 D + 6.8) p, K0 = E0 - 0.8 p.

    Left out: 4 (E1 and E2 printed .00001 low), 6 (E1 printed .00001 high), 1 1/2 (E2 printed .00001 low).
    """
    d, n = D(row["pipe_od_in"]), D(row["tpi"])
    thread = resolved(f"{row['size']} NPT")
    pipe = thread.extra["pipe"]
    e0 = d - (D("0.05") * d + D("1.1")) / n
    half = D("0.000005")
    assert abs(pipe["small_end_pitch_diameter"] - e0) <= half
    e1 = pipe["small_end_pitch_diameter"] + pipe["handtight_engagement"] / 16
    assert abs(pipe["gauge_plane_pitch_diameter"] - e1) <= half
    assert abs(pipe["effective_length"] - (D("0.8") * d + D("6.8")) / n) <= 10 * half
    e2 = pipe["small_end_pitch_diameter"] + pipe["effective_length"] / 16
    assert abs(pipe["pitch_diameter_at_effective_length"] - e2) <= half
    assert abs(pipe["small_end_minor_diameter"] - (pipe["small_end_pitch_diameter"] - D("0.8") / n)) <= 10 * half
    assert abs(thread.extra["truncation"]["sharp_height"] - D("0.866025") / n) <= half


@pytest.mark.parametrize("row", rows_of("nptf_dimensions"), ids=lambda row: row["size"])
def test_dryseal_minor_diameters_against_their_formula(resolved, row):
    """E0 - H + crest min + crest max at L1; three pitches deeper at L1 + L3 (within .00015 in)."""
    thread = resolved(f"{row['size']} NPTF")
    pipe, form, n = thread.extra["pipe"], thread.extra["truncation"], D(row["tpi"])
    at_l1 = pipe["small_end_pitch_diameter"] - D("0.866025") / n + form["crest_min"] + form["crest_max"]
    assert abs(pipe["minor_diameter_at_handtight_engagement"] - at_l1) <= D("0.00016")
    assert abs(pipe["minor_diameter_at_full_thread_depth"] - (at_l1 - 3 / (16 * n))) <= D("0.00016")
    assert form["crest_max"] == form["root_min"]


def test_dryseal_truncation_is_the_flat_of_the_tap(resolved):
    """Flats of the taper-pipe-tap industry standard Table 338: 1.1547 x the least root truncation."""
    flats = {"1/8": "0.0040", "1/4": "0.0050", "1/2": "0.0050", "1": "0.0060", "3": "0.0080"}
    for size, flat in flats.items():
        least = resolved(f"{size} NPTF").extra["truncation"]["root_min"]
        assert abs(D("1.1547") * least - D(flat)) <= D("0.0001")


def test_short_thread_starts_one_turn_inside(resolved):
    """ANSI B1.20.3-1976 1.4.1.2: internal short thread lacks one thread at the entry end."""
    short, full = resolved("1/8-27 PTF-SAE SHORT"), resolved("1/8-27 NPTF")
    assert full.extra["pipe"]["handtight_engagement"] - short.extra["pipe"]["handtight_engagement"] == D("0.0370")
    assert full.basic.pitch_diameter - short.basic.pitch_diameter == D("0.00231")
    assert short.external == full.external
    assert "PTF-SAE SHORT external" in short.extra["mates"]["not_allowed"]
    assert "ptf_short_mates" in codes(short)


def test_anpt_is_npt_with_a_note(resolved):
    anpt, npt = resolved("1/4-18 ANPT"), resolved("1/4-18 NPT")
    assert anpt.internal == npt.internal
    assert "anpt_gauging_not_held" in codes(anpt)


def test_npt_seals_with_sealant_and_dryseal_by_contact(resolved):
    assert resolved("1/4 NPT").extra["pipe"]["sealing"] == "sealant_required"
    assert resolved("1/4 NPTF").extra["pipe"]["sealing"].startswith("dryseal")
    assert "dryseal_mates" in codes(resolved("1/4 NPTF"))


@pytest.mark.parametrize(
    "text", ["1/2 NPT", "1/2 NPTF", "Rc 1/2", "Rp 1/2", "G 1/2", "1/2 NPSM", "1/2 NPSC", "1/2 NPSF", "1/2 NPSI"]
)
def test_every_pipe_thread_warns(resolved, text):
    """Pressure, and 60 against 55 degrees with the same 14 threads per inch."""
    thread = resolved(text)
    assert "pressure_service" in codes(thread)
    assert "14 threads per inch" in text_of(thread, "pipe_forms_never_interchange")


@pytest.mark.parametrize("text", ["1/4 NPT", "1/8 NPTF", "G 1/4", "Rc 1", "1 NPT"])
def test_forms_that_do_not_start_together_need_no_caution(resolved, text):
    """1/4: 18 against 19 threads per inch, 1/8: 27 against 28, 1: 11.5 against 11 (ASME B1.20.1, ISO 7-1 Table 1)."""
    assert "pipe_forms_never_interchange" not in codes(resolved(text))


# --- ISO pipe ----------------------------------------------------------------------------------------


def test_g_and_rp_share_the_size_not_the_limits(resolved):
    """ISO 228-1:2000 Table 1 and ISO 7-1:1994 Table 1."""
    g, rp = resolved("G 1/2"), resolved("Rp 1/2")
    assert g.basic == rp.basic
    assert (str(g.internal.pitch_diameter.min), str(rp.internal.pitch_diameter.min)) == ("19.793", "19.651")
    assert "g_is_not_rp" in codes(g) & codes(rp)


def test_taper_and_parallel_of_iso_7(resolved):
    rc, rp = resolved("Rc 1/2"), resolved("Rp 1/2")
    assert (rc.taper, rp.taper) == (D("0.0625"), None)
    assert "NPT and NPTF external" in rc.extra["mates"]["not_allowed"]


@pytest.mark.parametrize(
    ("text", "name", "right"),
    [
        ("Rp 1/8", "pitch_diameter", "9.147"),
        ("Rp 1/4", "pitch_diameter", "12.301"),
        ("Rp 3/8", "minor_diameter", "14.950"),
        ("Rp 1 1/4", "major_diameter", "41.910"),
        ("Rp 1 1/2", "pitch_diameter", "46.324"),
    ],
)
def test_misread_figures_of_a_reprint_are_not_carried(resolved, text, name, right):
    """A scan of IS 554:1999 shows 9.728, 13.157, 15.806, 41.010 and 40.324 in these places."""
    assert str(getattr(resolved(text).basic, name)) == right


def test_four_inch_gauge_length(resolved):
    """JIS B 0203 prints 25.40; an encyclopaedia lists 25.5."""
    assert str(resolved("Rc 4").extra["pipe"]["handtight_engagement"]) == "25.4"


@pytest.mark.parametrize("row", [row for row in rows_of("iso7_tap_drill") if row["series"] == "Rp"])
def test_rp_drills_are_too_large_for_rc(resolved, row):
    """The same figures stand under 'taper thread' in another edition of their list."""
    rp, rc = resolved(f"Rp {row['size']}"), resolved(f"Rc {row['size']}")
    drill = D(row["drill_mm"])
    assert rp.internal.minor_diameter.min <= drill <= rp.internal.minor_diameter.max
    assert rp.extra["pipe"]["straight_hole_drill_diameter"] == drill
    assert drill >= rc.basic.minor_diameter
    assert rc.extra["pipe"]["straight_hole_drill_diameter"] < rc.basic.minor_diameter


def test_rc_hole_for_the_reamer(resolved):
    """Minor diameter of the 1:16 cone: D1 at the face, D1 - (useful length)/16 at its end (1/2: 18.631 - 15.0/16)."""
    pipe = resolved("Rc 1/2").extra["pipe"]
    assert str(pipe["reamed_hole_diameter_at_face"]) == "18.631"
    assert str(pipe["reamed_hole_drill_diameter"]) == "17.69"
    assert str(pipe["straight_hole_full_crest_depth"]) == "6.10"


# --- straight American -------------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows_of("npsc_dimensions"), ids=lambda row: row["size"])
def test_npsc_is_one_and_a_half_turns_about_e1(resolved, row):
    """ANSI/ASME B1.20.1-1983: pitch diameter E1 -/+ 1.5 x 0.0625 p, minor = least pitch diameter - 0.8 p."""
    limits, e1, p = resolved(f"{row['size']} NPSC").internal, resolved(f"{row['size']} NPT").basic, 1 / D(row["tpi"])
    assert abs(limits.pitch_diameter.min - (e1.pitch_diameter - D("0.09375") * p)) <= D("0.0001")
    assert abs(limits.pitch_diameter.max - (e1.pitch_diameter + D("0.09375") * p)) <= D("0.0001")
    assert abs(limits.minor_diameter.min - (limits.pitch_diameter.min - D("0.8") * p)) <= D("0.0006")


@pytest.mark.parametrize("row", rows_of("npsf_npsi_dimensions"), ids=lambda row: row["size"])
def test_npsi_is_npsf_one_turn_larger(resolved, row):
    """NPSF: E1 less 3/8 and 1 7/8 turns (from memory, within .0001 in)."""
    npsf, npsi = resolved(f"{row['size']} NPSF").internal, resolved(f"{row['size']} NPSI").internal
    e1, turn = resolved(f"{row['size']} NPTF").basic.pitch_diameter, D("0.0625") / D(row["tpi"])
    assert abs(npsf.pitch_diameter.max - (e1 - D("0.375") * turn)) <= D("0.00015")
    assert abs(npsf.pitch_diameter.min - (e1 - D("1.875") * turn)) <= D("0.00015")
    assert abs(npsi.pitch_diameter.min - npsf.pitch_diameter.min - turn) <= D("0.0002")


@pytest.mark.parametrize("row", rows_of("npsm_dimensions"), ids=lambda row: row["size"])
def test_npsm_is_a_class_2b_thread_on_the_pipe_diameter(resolved, row):
    """E1 plus 1.3 (.0015 D^1/3 + .0015 (9 p)^1/2 + .015 p^2/3), within .0002 in."""
    thread, p = resolved(f"{row['size']} NPSM"), 1 / float(row["tpi"])
    d = float(thread.nominal_diameter)
    tolerance = 1.3 * (0.0015 * d ** (1 / 3) + 0.0015 * math.sqrt(9 * p) + 0.015 * p ** (2 / 3))
    assert abs(float(thread.internal.pitch_diameter.width) - tolerance) <= 0.0002


def test_npsc_states_no_greatest_minor_diameter(resolved):
    thread = resolved("1/2 NPSC")
    assert thread.internal.minor_diameter.max is None
    assert "minor_max_not_held" in codes(thread)


@pytest.mark.parametrize(("size", "status"), [("3/4", "published"), ("1", "from_memory")])
def test_npsm_rows_keep_their_own_status(resolved, size, status):
    assert status_of(resolved(f"{size} NPSM"), "internal.pitch_diameter.max") == {status}
