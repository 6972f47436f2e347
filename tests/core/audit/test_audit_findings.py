"""Single findings: code, severity, field, planned against expected, and the arithmetic in the text."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from borewright.core import callout
from borewright.core.audit import CODES, AsPlanned, AuditRequest, Finding, PlannedTap, audit
from borewright.core.audit import findings as audit_model
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, MaterialInput, PercentTarget
from borewright.core.model.decision import CODES as DECISIONS
from borewright.core.quantity_text import NO_BREAK
from borewright.core.requests import HoleSpecRequest, Machine

THROUGH = Hole("through", thickness=Length(Decimal("0.5"), "in"))
DRILL, TAP = "27/64", PlannedTap("1/2-13 NC HSS G H3")
UNC = "1/2-13 UNC-2B"


def findings(thread=UNC, *, drill=DRILL, tap=TAP, hole=THROUGH, spec=(), **planned):
    request = HoleSpecRequest(thread=callout.read(thread), hole=hole, **dict(spec))
    said = audit(AuditRequest(request, AsPlanned(drill, tap, **planned))).findings
    order = [("error", "warning", "info").index(one.severity) for one in said]
    assert order == sorted(order)
    return [as_read(one) for one in said if one.code != "cautioned"]


def as_read(finding):
    """A finding with its quantities as they are read, in the thread's own unit."""
    texts = {name: getattr(finding, name).replace(NO_BREAK, " ") for name in ("text", "planned", "expected")}
    return replace(finding, **texts)


def found(code, *args, **kwargs):
    (finding,) = [finding for finding in findings(*args, **kwargs) if finding.code == code]
    return finding


def blind(depth, **fields):
    return Hole("blind", full_thread_depth=Length(Decimal(depth), "mm"), **fields)


def mm(value):
    return Length(Decimal(value), "mm")


def test_drill_above_the_class_shows_the_difference():
    finding = found("drill_too_large", drill="7/16")
    assert finding.severity == "error"
    assert finding.field == "drill"
    # ASME B1.1: largest minor diameter of 1/2-13 UNC-2B is 0.434 in; 0.4375 - 0.434 = 0.0035.
    assert "0.0035 in above" in finding.text
    assert finding.planned == "7/16 (0.4375 in)"
    assert finding.expected.startswith("0.417 to 0.434 in")


TI = MaterialInput(name="Ti-6Al-4V")


def test_percent_is_shown_for_the_drill_and_for_the_expected_hole():
    finding = found(
        "percent_above_practice", "M10", drill="8.4 mm", tap=PlannedTap("M10x1.5 HSS G D6"), spec={"material": TI}
    )
    assert finding.severity == "warning"
    # (10 - 8.4) / (1.299038 x 1.5) = 82.11 %
    assert "82.11 % by the drill" in finding.text


def test_drill_of_the_chart_is_only_remarked_upon():
    finding = found(
        "percent_above_practice", "M10", drill="8.5 mm", tap=PlannedTap("M10x1.5 HSS G D6"), spec={"material": TI}
    )
    assert finding.severity == "info"


def test_percent_outside_the_bounds_of_the_request():
    spec = {"percent_thread": PercentTarget(min=Decimal(67), max=Decimal(72))}
    finding = found("percent_outside_request", drill="27/64", spec=spec)
    assert finding.severity == "warning"
    assert "78.18 % by the drill" in finding.text


def test_taper_drill_off_its_chart_by_a_tenth_of_the_height():
    npt = {"thread": "1/4-18 NPT", "tap": PlannedTap("1/4-18 NPT HSS G")}
    assert "drill_too_small" not in {finding.code for finding in findings(drill="27/64", **npt)}
    assert found("drill_too_small", drill="13/32", **npt).severity == "error"


@pytest.mark.parametrize(("drilled", "fits"), [("0.6", False), ("0.686", False), ("0.687", True), ("0.742", True)])
def test_taper_tap_must_reach_its_gauge_line(drilled, fits):
    """1/4-18 NPT: projection 0.459 + L1 0.2278 = 0.6868 in, whatever full thread the drawing asks for."""
    hole = Hole("blind", full_thread_depth=Length(Decimal("0.3945"), "in"))
    planned = {"tap": PlannedTap("1/4-18 NPT HSS G", chamfer="taper_pipe"), "drill": "7/16", "hole": hole}
    said = findings("1/4-18 NPT", drill_depth=Length(Decimal(drilled), "in"), **planned)
    assert [(one.code, one.severity) for one in said] == ([] if fits else [("hole_too_shallow", "error")])


def test_reaming_is_missed_where_no_drill_holds_the_limits():
    acme = {"thread": "3/4-6 ACME-2G", "tap": PlannedTap("3/4-6 ACME-2G HSS G"), "drill": "37/64"}
    assert found("ream_missing", **acme).severity == "warning"
    reamed = findings(**acme, operations_order=("drill", "ream", "tap"))
    assert "ream_missing" not in {finding.code for finding in reamed}


def test_drill_of_the_chart_that_is_reamed():
    """FED-STD-H28/2B Table II.A.1 lists 2-1/16 for 2 1/4-6, below the limits and without a probable hole."""
    plan = {"thread": "2 1/4-6 UN-2B", "drill": "2-1/16", "tap": PlannedTap(style="straight_flute")}
    assert found("ream_missing", **plan).severity == "warning"
    reamed = findings(**plan, operations_order=("drill", "ream", "tap"))
    # 2-1/4 in is over the 1-1/4 in to which taps are stocked, and half an inch of it is a fifth of the diameter
    assert {item.code for item in reamed if item.severity != "info"} == {"not_to_be_tapped"}


@pytest.mark.parametrize(
    ("thread", "marking", "code"),
    [
        ("M8", "M8x1 HSS G D5", "tap_pitch_differs"),
        ("1/4-28 UNF-2B", "1/4-26 BSF HSS", "tap_system_differs"),
        ("1/2-14 NPT", "Rc 1/2 HSS", "tap_system_differs"),
        ("Rp 1/2", "Rc 1/2 HSS", "tap_system_differs"),
        ("Rp 1/2", "G 1/2 HSS", "tap_system_differs"),
        ("1/2-14 NPTF", "1/2-14 NPT HSS G", "tap_system_differs"),
        ("M6 STI", "M6x1 HSS G D5", "tap_system_differs"),
        ("M12x1.5", "M14x1.5 HSS ISO2", "tap_size_differs"),
        ("1/2-13 UNC-2B LH", "1/2-13 NC HSS G H3", "tap_hand_differs"),
    ],
)
def test_tap_of_another_thread(thread, marking, code):
    finding = found(code, thread, drill="5 mm", tap=PlannedTap(marking))
    assert (finding.severity, finding.field, finding.planned) == ("error", "tap", marking)


@pytest.mark.parametrize(
    ("thread", "marking"),
    [("3/8-24 UNJF-3B", "3/8-24 NF HSS G H1"), ("MJ8x1.25", "M8x1.25 HSS G D3")],
)
def test_threads_that_share_their_taps(thread, marking):
    codes = {finding.code for finding in findings(thread, drill="5 mm", tap=PlannedTap(marking))}
    assert not codes & {"tap_system_differs", "tap_size_differs", "tap_pitch_differs"}


def test_tap_without_marking_is_judged_by_its_limit():
    assert found("tap_limit_too_high", "1/4-20 UNC-3B", drill="#7", tap=PlannedTap(limit="H8")).severity == "error"
    assert found("tap_unreadable", tap=PlannedTap(limit="D5")).severity == "error"
    assert found("tap_unreadable", tap=PlannedTap(limit="third")).severity == "error"


def test_limit_alone_is_read_as_text_too():
    as_text, as_field = (
        findings("1/4-20 UNC-3B", drill="#7", tap=tap) for tap in (PlannedTap("H8"), PlannedTap(limit="H8"))
    )
    assert as_text == as_field
    assert "tap_unreadable" not in {finding.code for finding in findings(tap=PlannedTap("H5"))}


def test_limit_that_only_cut_oversize_passes_is_a_warning():
    # 1/4-20 UNC-3B ends at 0.2211 in; H7 ends at 0.2175 + 0.0035 = 0.2210, which the cut passes.
    finding = found("tap_limit_too_high", "1/4-20 UNC-3B", drill="#7", tap=PlannedTap("1/4-20 NC HSS G H7"))
    assert finding.severity == "warning"
    assert "0.221 in + expected cut oversize" in finding.text


def test_limit_a_little_short_that_the_cut_makes_up_is_a_warning():
    # ASME B94.9 recommends D1 for M3-4H: its band begins 0.002 mm below the basic pitch diameter of 2.675 mm.
    finding = found("tap_limit_too_low", "M3-4H", drill="2.5 mm", tap=PlannedTap("M3x0.5 HSS G D1"))
    assert finding.severity == "warning"
    short = found("tap_limit_too_low", "M10-6G", drill="8.5 mm", tap=PlannedTap("M10x1.5 HSS-E ISO1"))
    assert short.severity == "error"


def test_insert_taps_are_judged_by_their_list():
    sti = {"thread": "#10-24 UNC-3B STI", "drill": "#5"}
    # ASME B94.9 Table 25: H2 for class 3B, H3 for class 2B.
    assert found("tap_limit_too_high", tap=PlannedTap("10-24 NC STI HSS G H3"), **sti).expected == "H2"


def test_zinc_needs_a_stated_limit():
    spec = {"finish": FinishInput(text="ASTM B633 Fe/Zn 8")}
    finding = found("tap_limit_not_stated", "M8", drill="6.8 mm", tap=PlannedTap("M8x1.25 HSS G"), spec=spec)
    assert finding.severity == "warning"


@pytest.mark.parametrize(("method", "style"), [("cut", "forming"), ("form", "spiral_point")])
def test_forming_and_cutting_taps_are_not_exchanged(method, style):
    drill = "6.8 mm" if method == "cut" else "7.45 mm"
    tap = PlannedTap("M8x1.25 HSS", style=style)
    assert found("tap_method_differs", "M8", drill=drill, tap=tap, spec={"method": method}).severity == "error"


def test_forming_drill_for_a_cut_thread():
    assert found("drill_for_forming_tap", "M8", drill="7.4 mm", tap=PlannedTap("M8x1.25 HSS G D5")).severity == "error"


def test_spiral_flute_in_a_through_hole_is_a_remark():
    tap = PlannedTap("1/2-13 NC HSS G H3", style="spiral_flute")
    assert found("tap_style_unsuited", tap=tap).severity == "info"


def test_room_for_the_chamfer_is_summed():
    tap = PlannedTap("M8x1.25 HSS G D5", chamfer="plug")
    short = {"thread": "M8", "drill": "6.8 mm", "tap": tap, "hole": blind(16)}
    # 16 + 3 x 1.25 = 19.75 mm at least, 16 + 5 x 1.25 = 22.25 mm for the longest plug chamfer.
    finding = found("tap_chamfer_no_room", drill_depth=mm(19), **short)
    assert finding.severity == "error"
    assert "= 19.75 mm; 19 mm are drilled" in finding.text
    assert found("tap_chamfer_no_room", drill_depth=mm(21), **short).severity == "warning"
    assert "tap_chamfer_no_room" not in {item.code for item in findings(drill_depth=mm("22.5"), **short)}


def test_second_tap_finishes_a_short_hole():
    plan = {"drill": "6.8 mm", "tap": PlannedTap("M8x1.25 HSS G D5", chamfer="plug"), "drill_depth": mm(19)}
    second = PlannedTap("M8x1.25 HSS G D5", chamfer="bottoming")
    assert "tap_chamfer_no_room" not in {
        item.code for item in findings("M8", hole=blind(16), second_tap=second, **plan)
    }
    wrong = PlannedTap("M8x1 HSS G D5", chamfer="bottoming")
    assert found("tap_pitch_differs", "M8", hole=blind(16), second_tap=wrong, **plan).field == "second_tap"


def test_depth_against_wall_and_limit():
    plan = {"thread": "M8", "drill": "6.8 mm", "tap": PlannedTap("M8x1.25 HSS G D5")}
    # point of 118 degrees: 0.3004 x 6.8 = 2.043 mm; 20 + 2.043 > 22.
    finding = found("drill_breaks_through", hole=blind(12, thickness=mm(22)), drill_depth=mm(20), **plan)
    assert "22.043 mm in a wall of 22 mm" in finding.text
    assert found("wall_thin", hole=blind(12, thickness=mm(23)), drill_depth=mm(20), **plan).severity == "warning"
    limited = blind(12, drill_depth_limit=mm(18))
    assert found("drill_depth_over_limit", hole=limited, drill_depth=mm(20), **plan).severity == "error"


def test_through_hole_is_drilled_through():
    finding = found("hole_too_shallow", drill_depth=Length(Decimal("0.4"), "in"))
    assert (finding.severity, finding.planned, finding.expected) == ("error", "0.4 in", "0.5 in")


def test_speed_is_shown_as_cutting_speed():
    finding = found("drill_speed_too_high", spindle_speed_rpm=9000, spec={"material": MaterialInput(name="4140")})
    # pi x 10.72 x 9000 / 1000 = 303 m/min
    assert "303 m/min" in finding.text.replace("\N{NO-BREAK SPACE}", " ")
    assert finding.severity == "warning"
    assert not [item for item in findings(spindle_speed_rpm=9000) if "speed" in item.code]


def test_speed_above_the_machine():
    spec = {"machine": Machine(max_spindle_speed_rpm=3000.0)}
    for field in ("spindle_speed", "tap_spindle_speed"):
        finding = found("speed_above_machine", spec=spec, **{f"{field}_rpm": 3500.0})
        assert (finding.severity, finding.field, finding.expected) == ("warning", field, "at most 3000 rev/min")


@pytest.mark.parametrize(
    ("order", "code"),
    [
        (("tap", "drill"), "operations_out_of_order"),
        (("drill", "finish", "tap"), "finished_before_tapping"),
        (("drill", "tap", "finish"), None),
        (("drill", "tap"), None),
    ],
)
def test_order_of_a_plated_part(order, code):
    spec = {"finish": FinishInput(text="ASTM B633 Fe/Zn 5")}
    tap = PlannedTap("1/2-13 NC HSS G H6")
    codes = {item.code for item in findings(tap=tap, spec=spec, operations_order=order) if item.severity == "error"}
    assert codes == (set() if code is None else {code})


def test_masked_thread_wants_its_mask():
    spec = {"finish": FinishInput(text="ASTM B633 Fe/Zn 8", masked=True)}
    plan = {"spec": spec, "operations_order": ("drill", "tap", "finish")}
    assert found("mask_missing", **plan).severity == "error"
    masked = findings(spec=spec, operations_order=("drill", "tap", "mask", "finish"))
    assert not [item for item in masked if item.severity == "error"]


def test_finish_without_room_asks_for_a_review():
    """Rejected as the drawing stands; a plan that masks the thread leaves a person to agree to that."""
    thick = {"finish": FinishInput(text="ASTM B633 Fe/Zn 25")}
    plan = {"thread": "#4-40 UNC-3B", "drill": "#43", "tap": PlannedTap(limit="H2"), "spec": thick}
    assert found("finish_not_feasible", **plan).severity == "error"
    masked = found("finish_not_feasible", **plan, operations_order=("drill", "tap", "mask", "finish"))
    assert masked.severity == "warning"


def test_hole_that_cannot_be_specified_is_refused():
    with pytest.raises(BorewrightError) as refusal:
        findings("M6x1.1")
    assert refusal.value.faults[0].pointer == "/thread"


def test_a_finding_has_a_documented_code():
    with pytest.raises(LookupError):
        Finding("drill_odd", "error", "drill", "", "", "")


def test_every_documented_code_is_raised_somewhere():
    folder = Path(audit_model.__file__).parent
    checks = "".join(path.read_text(encoding="utf-8") for path in folder.glob("*.py") if path.name != "findings.py")
    raised = {code for code in CODES if f'"{code}"' in checks} | set(DECISIONS)
    assert set(CODES) - raised == {"drill_speed_too_high", "tap_speed_too_high"}
    assert '"{tool}_speed_too_high"' in checks


def test_words_on_the_shank_that_nobody_reads():
    """0.005 in over an H3 of 0.4515 in is beyond the 0.4565 in of class 2B (ASME B1.1)."""
    finding = found("tap_words_unread", tap=PlannedTap("1/2-13 NC HSS G H3 KRP7"))
    assert (finding.severity, finding.planned) == ("warning", "KRP7")


@pytest.mark.parametrize(
    ("material", "hardness", "marking", "severity"),
    [
        ("304", None, "1/2-13 NC", "warning"),  # no HS on the shank of a cut-thread tap: carbon steel
        ("4140", "45 HRC", "1/2-13 NC HSS G H3", "warning"),
        ("6061-T6", None, "1/2-13 NC HSS G H3", None),
    ],
)
def test_grade_of_the_tap_against_the_part(material, hardness, marking, severity):
    spec = {"material": MaterialInput(name=material, hardness=hardness)}
    said = [one.severity for one in findings(tap=PlannedTap(marking), spec=spec) if one.code == "tap_grade_low"]
    assert said == ([] if severity is None else [severity])


def test_a_plating_tap_in_a_bare_hole():
    """H11 of 1/2-13 ends at 0.45 + 0.0055 = 0.4555 in, 0.001 in below the largest pitch diameter of class 2B."""
    assert found("tap_often_refused", tap=PlannedTap("1/2-13 NC HSS G H11")).severity == "warning"


def test_a_finish_that_the_request_does_not_name():
    plan = {"operations_order": ("drill", "tap", "finish")}
    assert found("finish_not_named", **plan).severity == "warning"


def test_what_the_hole_leaves_to_decide_is_found():
    """0.03 in of wall hold 0.6 turns of 20 threads an inch."""
    thin = Hole("through", thickness=Length(Decimal("0.03"), "in"))
    said = findings("1/4-20 UNC-2B", drill="#7", tap=PlannedTap("1/4-20 NC HSS G H3"), hole=thin)
    assert "error" in {one.severity for one in said}
