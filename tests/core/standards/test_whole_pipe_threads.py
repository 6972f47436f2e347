"""Whole pipe threads, worked out by hand from the printed rows of their size: one of every series.

Rows of 1/2: ANSI/ASME B1.20.1-1983 Table 2 (D .840, n 14, E1 .77843, L1 .320, L3 .2143), Table 1 (14 an inch: H .06186,
truncation .0024 to .0056); ANSI B1.20.3-1976 from memory (crest .0026 to .0043, root .0043 to .0061); straight threads
as tests/published and tests/derived have them; ISO 7-1 and ISO 228-1 Table 1.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import standards
from borewright.core.model import Length
from every import every
from whole_threads import OPEN, basic, codes, ends, form, head, limits, refused, statuses, text_of

D = Decimal
E1, H = D(".77843"), D(".06186")
NPT = (D(".0024"), D(".0056"))
CREST, ROOT = (D(".0026"), D(".0043")), (D(".0043"), D(".0061"))
#: A turn of the gauge is .0625 / 14 = .004464 in.
TURNED = ("0.77397", "0.78289")
ISO = ("R external (ISO 7-1)", "G external (ISO 228-1)")


def outward(e1, truncation):
    """Limits of a major diameter: cut down to the pitch line's other side by H less twice the truncation."""
    return str(e1 + H - 2 * truncation[1]), str(e1 + H - 2 * truncation[0])


def inward(e1, truncation):
    """Limits of a minor diameter."""
    return str(e1 - H + 2 * truncation[0]), str(e1 - H + 2 * truncation[1])


#: Callout; head; how the hole seals; who mates and who must not; cautions.
AMERICAN_TAPER = [
    (
        "1/2 NPT",
        ("1/2-14 NPT", "NPT", "1/2", None, None),
        "sealant_required",
        (("NPT external with sealant", "NPTF external with sealant"), ISO),
        ("pressure_service", "pipe_forms_never_interchange", "pipe_sealant_required"),
    ),
    (
        "1/2-14 ANPT LH",
        ("1/2-14 ANPT LH", "ANPT", "1/2", None, None),
        "sealant_required",
        (("NPT external with sealant", "NPTF external with sealant"), ISO),
        ("pressure_service", "pipe_forms_never_interchange", "pipe_sealant_required", "anpt_gauging_not_held"),
    ),
    (
        "1/2 NPTF-2",
        ("1/2-14 NPTF-2", "NPTF", "1/2", "2", None),
        "dryseal: metal to metal at crest, root and flank",
        (("NPTF external", "PTF-SAE SHORT external", "NPT external with sealant only"), ISO),
        ("pressure_service", "pipe_forms_never_interchange", "dryseal_mates"),
    ),
    (
        "1/2-14 PTF-SAE SHORT",
        ("1/2-14 PTF-SAE SHORT", "PTF-SAE SHORT", "1/2", None, None),
        "dryseal: metal to metal at crest, root and flank",
        (("NPTF external",), ("PTF-SAE SHORT external", *ISO)),
        ("pressure_service", "pipe_forms_never_interchange", "dryseal_mates", "ptf_short_mates"),
    ),
]


@every(("text", "named", "sealing", "mates", "cautions"), AMERICAN_TAPER)
def test_what_an_american_taper_thread_is_for(resolved, text, named, sealing, mates, cautions):
    thread = resolved(text)
    pipe = thread.extra["pipe"]
    assert head(thread) == named
    assert form(thread) == ("in", "0.84", "0.0714286", "14", "0.0714286", "1", "60", "0.0625")
    assert pipe["sealing"] == sealing
    assert (pipe["tap_style"], pipe["taper_reamer"], pipe["gauge_form"]) == ("taper_pipe", "1:16", "taper_plug")
    assert (thread.extra["mates"]["allowed"], thread.extra["mates"]["not_allowed"]) == mates
    assert codes(thread) == cautions


def test_gauges_of_american_taper_threads(resolved):
    """All by an L1 plug within a turn; dryseal ones also by an L3 plug, ANPT by plain plugs besides (SAE AS71051)."""
    gauges = {text: resolved(f"1/2 {text}").extra["pipe"]["gauge"] for text in ("NPT", "ANPT", "NPTF", "PTF-SAE SHORT")}
    assert all("L1 taper thread plug, notch flush with the face within 1 turn" in one for one in gauges.values())
    assert [text for text, one in gauges.items() if "L3 plug that agrees" in one] == ["NPTF", "PTF-SAE SHORT"]
    assert [text for text, one in gauges.items() if "AS71051" in one and "plain taper plugs" in one] == ["ANPT"]
    assert [text for text, one in gauges.items() if one.startswith("short ")] == ["PTF-SAE SHORT"]


def test_npt_by_hand(resolved):
    thread = resolved("1/2 NPT")
    form_ = (outward(E1, NPT), TURNED, inward(E1, NPT))
    assert basic(thread) == (str(E1 + H - sum(NPT)), "0.77843", str(E1 - H + sum(NPT)))
    assert limits(thread.internal) == limits(thread.external) == form_


def test_nptf_by_hand(resolved):
    """The hole's root is at its major diameter, the pipe's at its minor one."""
    thread = resolved("1/2 NPTF")
    assert basic(thread) == (str(E1 + H - sum(ROOT)), "0.77843", str(E1 - H + sum(CREST)))
    assert limits(thread.internal) == (outward(E1, ROOT), TURNED, inward(E1, CREST))
    assert limits(thread.external) == (outward(E1, CREST), TURNED, inward(E1, ROOT))


def test_short_dryseal_by_hand(resolved):
    """The hole begins a turn further in (.77843 - .00446); its mate is a full external thread."""
    thread = resolved("1/2 PTF-SAE SHORT")
    short = D(".77397")
    assert limits(thread.internal) == (outward(short, ROOT), ("0.76951", "0.77843"), inward(short, CREST))
    assert limits(thread.external) == (outward(E1, CREST), TURNED, inward(E1, ROOT))


#: Callout; L1 (short: .320 - 1/14); L1 + L3; turns by hand, L1 n; travel, .579 + L1; straight hole from
#: E1 - (L1 + L3)/16 - H + 2 f least up to E1 - L1/16 - H + 2 f most; 16 (E1 - H + 2 f most - .7031).
HOLES = [
    ("1/2 NPT", "0.320", "0.5343", 4.48, "0.899", ("0.6880", "0.7077"), "0.395"),
    ("1/2 NPTF", "0.320", "0.5343", 4.48, "0.899", ("0.6884", "0.7051"), "0.353"),
    ("1/2 PTF-SAE SHORT", "0.2486", "0.4629", 3.48, "0.8276", ("0.6884", "0.7051"), "0.282"),
]


@every(("text", "l1", "full", "turns", "travel", "straight", "crest"), HOLES)
def test_hole_of_an_american_taper_thread(resolved, text, l1, full, turns, travel, straight, crest):
    pipe = resolved(text).extra["pipe"]
    assert (str(pipe["handtight_engagement"]), str(pipe["full_thread_depth"])) == (l1, full)
    assert pipe["handtight_engagement_turns"] == turns
    assert (str(pipe["tap_projection"]), str(pipe["tap_travel"])) == ("0.579", travel)
    assert ends(pipe["straight_hole_diameter"]) == straight
    assert str(pipe["straight_hole_full_crest_depth"]) == crest
    assert pipe["straight_hole_gives_full_crest"] is True
    assert (pipe["straight_hole_drill"], str(pipe["straight_hole_drill_diameter"])) == ("45/64", "0.7031")
    assert (pipe["reamed_hole_drill"], str(pipe["reamed_hole_drill_diameter"])) == ("11/16", "0.6875")
    assert (str(pipe["gauge_plane_tolerance"]), str(pipe["diameter_change_per_turn"])) == ("0.07143", "0.00446")
    # .5337 in of effective external thread at 14 an inch
    assert pipe["effective_length_turns"] == 7.47


def test_tap_without_a_known_projection(resolved):
    """8 NPT: L1 1.063 + L3 .2500 and a chamfer of 3.5 threads at 8 an inch, .4375: 1.7505 in."""
    thread = resolved("8 NPT")
    pipe = thread.extra["pipe"]
    assert str(pipe["tap_travel"]) == "1.7505"
    assert "tap_projection" not in pipe
    assert "straight_hole_drill" not in pipe
    assert "straight_hole_gives_full_crest" not in pipe
    assert "reamed_hole_drill" not in pipe
    said = " / ".join(thread.notes.assumptions)
    assert "chamfer of 3.5 threads" in said
    assert "no published straight-hole drill is held for this size" in said
    assert statuses(thread, "pipe.tap_travel") == {"pipe.tap_travel": "common_practice"}
    assert "chamfer of 3.5" not in " / ".join(resolved("2 NPT").notes.assumptions)


def test_only_dryseal_holes_have_minor_diameters_to_drill_to(resolved):
    """ANSI B1.20.3 suggested tap drills, 1/2: minor diameters at L1 and at L1 + L3, probable oversize."""
    pipe = resolved("1/2 NPTF").extra["pipe"]
    names = ("minor_diameter_at_handtight_engagement", "minor_diameter_at_full_thread_depth", "probable_drill_oversize")
    assert [str(pipe[name]) for name in names] == ["0.7034", "0.6901", "0.0051"]
    assert not set(names) & set(resolved("1/2 NPT").extra["pipe"])


def test_how_well_american_taper_threads_are_known(resolved):
    """B1.20.1 was read, its formula rows from 3 1/2 up are computed; the dryseal form is from memory."""
    npt, nptf, large = statuses(resolved("1/2 NPT")), statuses(resolved("3 NPTF")), statuses(resolved("8 NPT"))
    assert (npt["pipe.handtight_engagement"], npt["pipe.wrench_makeup"]) == ("published", "published")
    assert (npt["internal.pitch_diameter.min"], npt["internal.major_diameter.max"]) == ("computed", "computed")
    assert npt["pipe.tap_projection"] == "published"
    assert (nptf["pipe.wrench_makeup"], nptf["pipe.pitch_diameter_at_wrench_makeup"]) == ("computed", "computed")
    assert nptf["pipe.minor_diameter_at_handtight_engagement"] == "from_memory"
    assert nptf["internal.pitch_diameter.min"] == "from_memory"
    assert nptf["truncation.crest_min"] == "from_memory"
    assert nptf["pipe.tap_projection"] == nptf["pipe.tap_travel"] == "from_memory"
    assert (large["pipe.handtight_engagement"], large["pipe.wrench_makeup"]) == ("published", "computed")
    assert large["pipe.vanish_length"] == "computed"


def test_class_of_dryseal_is_assumed_only_where_it_could_be_written(resolved):
    """Classes 1 and 2 of NPTF differ in inspection only; the short thread and NPT have none."""

    def of_class(text):
        return [one for one in resolved(text).notes.assumptions if "dryseal class" in one]

    assert len(of_class("1/2-14 NPTF")) == 1
    assert [of_class(f"1/2-14 {text}") for text in ("NPTF-1", "NPT", "PTF-SAE SHORT")] == [[], [], []]


@every(
    ("text", "words", "meant"),
    [
        ("1/2 NPT-1", "NPT has no class '1'.", "1/2-14 NPT"),
        ("1/2-14 NPT 2", "NPT has no class '2'.", "1/2-14 NPT"),
        ("1/2-14 NPT-A", "NPT has no class 'A'.", "1/2-14 NPT"),
        ("1/2-14 NPTF-B", "NPTF has no class 'B'.", "1/2-14 NPTF"),
        ("1-11.5 NPSM CLASS 1", "NPSM has no class '1'.", "1-11.5 NPSM"),
        ("1/4 PTF-SAE SHORT-1", "PTF-SAE SHORT has no class '1'.", "1/4-18 PTF-SAE SHORT"),
        ("Rc 1/2 CLASS 2", "Rc has no class '2'.", "Rc 1/2"),
        ("Rp 1/2 A", "Rp has no class 'A'.", "Rp 1/2"),
        ("G 1/2 CLASS 1", "G has no class '1': the internal thread has one class, A and B are the mate's.", "G 1/2"),
    ],
)
def test_classes_that_a_pipe_thread_does_not_have(resolved, text, words, meant):
    """ANSI B1.20.3 has 1 and 2 for NPTF, ISO 228-1 A and B for G: what was meant is the thread without the class."""
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.pointer, fault.did_you_mean) == ("thread_class_unknown", "/thread", (meant,))
    assert fault.detail == words


@every(("text", "thread_class"), [("1/2-14 NPTF-1", "1"), ("1/2 NPTF 2", "2"), ("1 1/2-11.5 NPTF CLASS 1", "1")])
def test_classes_of_nptf(resolved, text, thread_class):
    found = resolved(text)
    assert (found.series, found.thread_class) == ("NPTF", thread_class)


def test_engagement_changes_no_pipe_thread(resolved):
    for text in ("1/2 NPT", "1/2 NPSM", "Rc 1/2", "G 1/2"):
        read = resolved(text)
        told = standards.resolve(read.callout, engagement=Length(D("0.5"), "in"))
        assert limits(told.internal) == limits(read.internal)
        more = [one for one in told.notes.assumptions if one not in read.notes.assumptions]
        assert len(more) == 1
        assert "length of engagement does not change" in more[0]


# --- cautions with figures ---------------------------------------------------------------------------


def test_words_of_old_and_unsettled_lengths(resolved):
    """L1 before 1983: 1/8 .180 (now .1615), 1/4 .200 (now .2278); L3 at 8 an inch: 3 threads .3750, NPT 2 .2500."""
    eighth, quarter = (text_of(resolved(f"{size} NPT"), "npt_old_engagement") for size in ("1/8", "1/4"))
    assert "was 0.180 in, not 0.1615 in" in eighth
    assert "was 0.200 in, not 0.2278 in" in quarter
    unsettled = text_of(resolved("3 NPTF"), "nptf_makeup_unsettled")
    assert "3 threads (0.3750 in)" in unsettled
    assert "2 threads (0.2500 in)" in unsettled


@every(
    ("text", "mine", "theirs"),
    [("1/2 NPT", "NPT and NPTF (60", "Rc, Rp, R and G (55"), ("G 1/2", "Rc, Rp, R and G (55", "NPT and NPTF (60")],
)
def test_each_form_is_warned_of_the_other(resolved, text, mine, theirs):
    said = text_of(resolved(text), "pipe_forms_never_interchange")
    assert said.startswith(mine)
    assert theirs in said.partition("never interchange with")[2]


# --- straight ----------------------------------------------------------------------------------------

#: Callout; basic: E1 + .649519/14 and E1 - .433013/14 for NPSM, E1 +- .8/14 for the rest; least and greatest major
#: diameter: E least + .649519/14 for NPSM, else E + H - 2 root; printed pitch and minor diameters.
STRAIGHT = [
    ("NPSM", ("0.8248", "0.7784", "0.7475"), ("0.8248", None), ("0.7784", "0.7851"), ("0.747", "0.759")),
    ("NPSC", ("0.8356", "0.7784", "0.7213"), ("0.8224", "0.8422"), ("0.7717", "0.7851"), ("0.715", None)),
    ("NPSF", ("0.8356", "0.7784", "0.7213"), ("0.8197", "0.8300"), ("0.7700", "0.7767"), ("0.7133", None)),
    ("NPSI", ("0.8356", "0.7784", "0.7213"), ("0.8242", "0.8345"), ("0.7745", "0.7812"), ("0.7180", None)),
]


@every(("series", "expected", "major", "pitch", "minor"), STRAIGHT)
def test_american_straight_threads_by_hand(resolved, series, expected, major, pitch, minor):
    thread = resolved(f"1/2 {series} LH")
    assert head(thread) == (f"1/2-14 {series} LH", series, "1/2", None, None)
    assert form(thread) == ("in", "0.84", "0.0714286", "14", "0.0714286", "1", "60", None)
    assert basic(thread) == expected
    assert limits(thread.internal) == (major, pitch, minor)
    assert thread.external is None
    assert ("minor_max_not_held" in codes(thread)) is (series != "NPSM")


#: Series; how it seals; gauge form; words of the gauge; mates; who must not; its own caution.
STRAIGHT_USE = [
    ("NPSM", "no_pressure_on_thread", "parallel_plugs", "GO and NOT GO", ("NPSM external",),
     ("NPT external", *ISO), "npsm_is_mechanical"),
    ("NPSC", "sealant_required", "taper_plug", "within 1.5 turns", ("NPT external with sealant",), ISO,
     "npsc_low_pressure"),
    ("NPSF", "dryseal: with an NPTF", "taper_plug", "L1 taper thread plug of the dryseal", ("NPTF external",),
     ("PTF-SAE SHORT external", *ISO), "dryseal_straight_mates"),
    ("NPSI", "dryseal: with a PTF-SAE SHORT", "taper_plug", "L1 taper thread plug of the dryseal",
     ("PTF-SAE SHORT external",), ISO, "dryseal_straight_mates"),
]  # fmt: skip


@every(("series", "sealing", "gauge_form", "gauge", "allowed", "refused", "caution"), STRAIGHT_USE)
def test_what_a_straight_thread_is_for(resolved, series, sealing, gauge_form, gauge, allowed, refused, caution):
    thread = resolved(f"1/2 {series}")
    pipe, mates = thread.extra["pipe"], thread.extra["mates"]
    assert pipe["sealing"].startswith(sealing)
    assert (pipe["tap_style"], pipe["gauge_form"]) == ("straight_flute", gauge_form)
    assert gauge in pipe["gauge"]
    assert (mates["allowed"], mates["not_allowed"]) == (allowed, refused)
    assert [one for one in codes(thread) if one != "minor_max_not_held"] == [
        "pressure_service",
        caution,
        "pipe_forms_never_interchange",
    ]
    document = {"NPSM": "ANSI/ASME B1.20.1", "NPSC": "ANSI/ASME B1.20.1"}.get(series, "ANSI B1.20.3")
    assert thread.standard.document == document


def test_how_well_straight_threads_are_known(resolved):
    """B1.20.1 as read or from memory by row; what B1.20.3 has is from memory, and so is what follows from it."""
    for text, printed, major in (
        ("1/2 NPSM", "published", "computed"),
        ("1 NPSM", "from_memory", "from_memory"),
        ("1/2 NPSC", "published", "computed"),
        ("1/2 NPSF", "from_memory", "from_memory"),
    ):
        known = statuses(resolved(text), "internal")
        assert known["internal.minor_diameter.min"] == known["internal.pitch_diameter.max"] == printed
        assert known["internal.major_diameter.min"] == major


# --- ISO ---------------------------------------------------------------------------------------------


def about(size, shift):
    return str(D(size) - D(shift)), str(D(size) + D(shift))


@every(
    ("text", "series", "taper", "allowed", "refused", "own"),
    [
        ("Rc 1/2", "Rc", "0.0625", ("R external",), ("NPT and NPTF external", "G external"), "rc_drill_lists"),
        (
            "Rp 1/2",
            "Rp",
            None,
            ("R external",),
            ("NPT and NPTF external", "G external where the joint must seal"),
            "g_is_not_rp",
        ),
    ],
)
def test_iso_7_by_hand(resolved, text, series, taper, allowed, refused, own):
    """Internal +- .142; external: a turn of gauge length either way, 1 x 1.814 / 16 = .113."""
    thread = resolved(text)
    sizes = ("20.955", "19.793", "18.631")
    assert head(thread) == (text, series, "1/2", None, None)
    assert form(thread) == ("mm", "20.955", "1.814", "14", "1.814", "1", "55", taper)
    assert basic(thread) == sizes
    assert limits(thread.internal) == tuple(about(size, ".142") for size in sizes)
    assert limits(thread.external) == tuple(about(size, ".113") for size in sizes)
    assert (thread.extra["mates"]["allowed"], thread.extra["mates"]["not_allowed"]) == (allowed, refused)
    assert codes(thread) == ("pressure_service", "pipe_forms_never_interchange", own)


def test_gauge_length_tolerance_of_large_iso_7_threads(resolved):
    """From 2 1/2: one and a half turns, 1.5 x 2.309 / 16 = .2165 mm; its column is from memory there."""
    thread = resolved("Rc 3")
    assert ends(thread.external.pitch_diameter) == about("86.405", ".216")
    assert statuses(thread, "external")["external.pitch_diameter.max"] == "from_memory"
    assert statuses(resolved("Rc 1/2"), "external")["external.pitch_diameter.max"] == "second_hand"


def test_hole_of_iso_7_threads(resolved):
    """Rc 1/2: tip at 15.0 + 3 x 1.814 = 20.442; cone 18.631 - 15.0/16; straight 16 (18.631 - 18.25) = 6.096."""
    rc, rp = resolved("Rc 1/2").extra["pipe"], resolved("Rp 1/2").extra["pipe"]
    assert (str(rc["tap_travel"]), str(rc["diameter_change_per_turn"])) == ("20.442", "0.1134")
    assert ends(rc["straight_hole_diameter"]) == ("17.69", "18.63")
    assert (rc["straight_hole_drill"], str(rc["straight_hole_full_crest_depth"])) == ("18.25 mm", "6.10")
    assert (rc["tap_style"], rc["taper_reamer"], rc["gauge_form"]) == ("taper_pipe", "1:16", "taper_plug")
    assert (rp["tap_style"], rp["gauge_form"], rp["straight_hole_drill"]) == (
        "straight_flute",
        "taper_plug",
        "18.75 mm",
    )
    assert not {"taper_reamer", "tap_travel", "straight_hole_diameter", "straight_hole_full_crest_depth"} & set(rp)
    assert rc["gauge"] == rp["gauge"]
    assert "steps" in rp["gauge"]


def test_tap_travel_of_iso_7_has_three_decimals(resolved):
    """Rc 1/8: pitch .907, useful thread for the longest gauge 7.4: 7.4 + 2.721 = 10.121."""
    assert str(resolved("Rc 1/8").extra["pipe"]["tap_travel"]) == "10.121"


def test_iso_7_size_without_a_drill(resolved):
    """The charts end at 2: Rp has no drill there, Rc the hole of its cone."""
    for text in ("Rc 4", "Rp 4"):
        thread = resolved(text)
        assert "straight_hole_drill" not in thread.extra["pipe"]
        assert "no straight-hole drill is held for this size: hole by its limits" in thread.notes.assumptions
    assert "tap_travel" in resolved("Rc 4").extra["pipe"]
    assert not [one for one in resolved("Rp 1/2").notes.assumptions if "drill" in one]


@pytest.mark.parametrize(
    ("text", "mate", "width", "assumed"),
    [("G 1/2", "A", "0.142", "taken as class A"), ("G 1/2 B", "B", "0.284", "class B read as")],
)
def test_g_by_hand(resolved, text, mate, width, assumed):
    """All of the hole above its basic size, the mate below it: .541 on the minor diameter, .284 on the mate's major."""
    thread = resolved(text)
    assert head(thread) == ("G 1/2", "G", "1/2", None, mate)
    assert form(thread) == ("mm", "20.955", "1.814", "14", "1.814", "1", "55", None)
    assert basic(thread) == ("20.955", "19.793", "18.631")
    assert limits(thread.internal) == (("20.955", None), ("19.793", "19.935"), ("18.631", "19.172"))
    assert limits(thread.external) == (
        ("20.671", "20.955"),
        (str(D("19.793") - D(width)), "19.793"),
        OPEN,
    )
    assert any(assumed in one for one in thread.notes.assumptions)
    assert codes(thread) == ("pressure_service", "g_is_not_rp", "pipe_forms_never_interchange")
    pipe, mates = thread.extra["pipe"], thread.extra["mates"]
    assert pipe["sealing"].startswith("joint_not_on_thread")
    assert (pipe["tap_style"], pipe["gauge_form"]) == ("straight_flute", "parallel_plugs")
    assert "not more than one turn" in pipe["gauge"]
    assert mates["allowed"] == ("G A external", "G B external")
    assert mates["not_allowed"][1] == "NPT, NPTF and NPSM external"


# --- what is held ------------------------------------------------------------------------------------

#: System; its document and edition; smallest and largest size; what is not held; a table of its drills.
HELD = [
    ("npt", "ANSI/ASME B1.20.1", "1983", "1/16 to 24 OD", "NPTR", "tap_drill_npt"),
    ("nptf", "ANSI B1.20.3", "1976 (R2013)", "NPTF 1/16 to 3", "make-up at 8", "tap_drill_nptf"),
    ("npsm", "ANSI/ASME B1.20.1", "1983", "NPSM 1/8 to 6", "external threads", None),
    ("npsc", "ANSI/ASME B1.20.1", "1983", "NPSC 1/8 to 4", "greatest minor diameter", None),
    ("npsf", "ANSI B1.20.3", "1976 (R2013)", "NPSF 1/16 to 1", "greatest minor diameter", "tap_drill_dryseal_straight"),
    ("npsi", "ANSI B1.20.3", "1976 (R2013)", "NPSI 1/16 to 1", "greatest minor diameter", "tap_drill_dryseal_straight"),
    ("iso_7", "ISO 7-1", "1994", "Rc and Rp 1/16 to 6", "gauge limits of ISO 7-2", "tap_drill_iso_7"),
    ("iso_228", "ISO 228-1", "2000", "G 1/16 to 6", "truncated crests", "tap_drill_iso_228"),
]


@every(("system", "document", "edition", "covers", "lacks", "drills"), HELD)
def test_what_is_held_of_pipe_threads(system, document, edition, covers, lacks, drills):
    found = next(one for one in standards.coverages() if one.system == system)
    assert (found.document, found.edition) == (document, edition)
    assert covers in found.covers
    assert lacks in found.does_not_cover
    assert ("greatest minor" in found.does_not_cover) is (system in ("npsc", "npsf", "npsi"))
    charts = [table.name for table in found.tables if table.name.startswith("tap_drill")]
    assert charts == ([drills] if drills else [])


@every(
    ("text", "rests_on_memory"),
    [
        ("Rc 1/2", ()),
        (
            "Rc 3",
            (
                *("handtight_engagement_tolerance", "wrench_makeup"),
                *("effective_length_for_max_gauge", "effective_length_for_min_gauge", "tap_travel"),
            ),
        ),
    ],
)
def test_lengths_of_iso_7_that_rest_on_the_gauge_length_tolerance(resolved, text, rests_on_memory):
    """From 2 1/2 that tolerance and the fitting allowance are from memory, the other lengths of the row were read."""
    known = statuses(resolved(text), "pipe.")
    assert {name.removeprefix("pipe.") for name, status in known.items() if status == "from_memory"} == set(
        rests_on_memory
    )
    # 3: gauge length 20.6 -+ 3.5, useful 29.8, 33.3 and 26.3, internal 33.3 from the face, 29.8 from the plane, 21.1
    if text == "Rc 3":
        pipe = resolved(text).extra["pipe"]
        read = ("handtight_engagement", "handtight_engagement_tolerance", "wrench_makeup", "gauge_plane_tolerance")
        assert [str(pipe[name]) for name in read] == ["20.6", "3.5", "9.2", "3.5"]
        useful = ("effective_length", "effective_length_for_max_gauge", "effective_length_for_min_gauge")
        assert [str(pipe[name]) for name in useful] == ["29.8", "33.3", "26.3"]
        depths = ("full_thread_depth", "full_thread_depth_from_gauge_plane", "full_thread_depth_with_relief")
        assert [str(pipe[name]) for name in depths] == ["33.3", "29.8", "21.1"]


def test_how_well_iso_7_holes_are_known(resolved):
    """ISO 7-1 prints limits of Rp, those of Rc follow from the axial tolerance of its gauge plane."""
    for text, follows in (("Rp 1/2", False), ("Rc 1/2", True)):
        of_hole = [one for one in resolved(text).notes.sources if one.field.startswith("internal.")]
        assert {one.status for one in of_hole} == {"second_hand"}
        assert {"gauge plane at the face within its axial tolerance" in one.locator for one in of_hole} == {follows}


def test_how_american_taper_limits_are_worked_out(resolved):
    """Greatest and least lie to either side of E1: one turn, or the height less its truncation."""
    formulas = {step.quantity: step.formula for step in resolved("1/2 NPT").notes.steps}
    for member in ("internal", "external"):
        assert formulas[f"{member}.pitch_diameter.min"] == "half_up(E1 - 0.0625 / n, 5)"
        assert formulas[f"{member}.pitch_diameter.max"] == "half_up(E1 + 0.0625 / n, 5)"
        for end in ("min", "max"):
            assert formulas[f"{member}.major_diameter.{end}"] == "E1 + (H - 2 * f)"
            assert formulas[f"{member}.minor_diameter.{end}"] == "E1 - (H - 2 * f)"
