"""Cases of rework worked by hand and by formula (files of ``tests/derived``), each held with its own tolerance."""

from __future__ import annotations

import json
from decimal import Decimal
from pathlib import Path

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, LengthRange, Range
from borewright.core.requests import HoleSpecRequest
from borewright.core.rework import FaultFound, Measured, ReworkRequest, envelope, insert_in_place, rework
from borewright.core.rework.larger_thread import first_that_cleans
from borewright.core.rework.rework_case import case_of
from borewright.core.rounding import plain
from outside_figures import derived

FILE = Path(__file__).parents[2] / "derived" / "rework_cases.json"
CASES = json.loads(FILE.read_text(encoding="utf-8"))["cases"]
#: Of a length, of a coat, of a percent, of a ratio, as the file says.
LENGTH, COAT = {"in": 1.01e-4, "mm": 1.01e-3}, {"in": 1e-5, "mm": 1e-4}
PERCENT, RATIO = 0.1, 0.002


def length(value, unit):
    return None if value is None else Length(Decimal(str(value)), unit)


def request(case, found, *, depth=2, finish=None, thickness=None):
    """The hole of a case, blind and deep enough."""
    thread, unit = callout.read(case["thread"]), case["unit"]
    depth = float(thread.nominal_diameter) * depth if depth < 5 or unit == "mm" else depth
    hole = Hole("blind", full_thread_depth=length(round(depth, 4), unit), thickness=length(thickness, unit))
    return ReworkRequest(HoleSpecRequest(thread, hole, finish=finish), found)


def coat(case):
    low, high = (length(end, case["unit"]) for end in case["given"]["coat"])
    return FinishInput(thickness=LengthRange(low, high), growth_fraction=Decimal(1), reading="asme")


def proofs(answer, *names):
    """Figures of the ways by name."""
    return {one.name: one.proof for one in answer.ways if not names or one.name in names}


def of(situation):
    return [case for case in CASES if case["situation"] == situation]


@pytest.mark.parametrize("case", of("drilled_oversize"), ids=lambda case: case["id"])
def test_drilled_oversize(case):
    unit, wanted = case["unit"], case["expect"]
    found = FaultFound("drilled_oversize", measured=Measured(hole_diameter=length(case["given"]["hole"], unit)))
    answer = rework(request(case, found))
    first = answer.ways[0].proof
    assert first["percent_of_thread"] == pytest.approx(wanted["percent_of_thread"], abs=PERCENT)
    assert first["percent_if_formed"] == pytest.approx(wanted["percent_if_formed"], abs=PERCENT)
    assert float(first["minor_diameter_max"]) == pytest.approx(wanted["minor_diameter_max"], abs=LENGTH[unit])
    assert float(first["over_by"]) == pytest.approx(wanted["over_by"], abs=LENGTH[unit])
    names = [one.name for one in answer.ways]
    assert (names[0] == "tap_as_planned") is wanted["conforms"]
    if not wanted["conforms"]:
        assert ("insert_in_the_same_place" in names) is wanted["own_insert_possible"]
        assert wanted["next_larger_untapped"] in {designation(one.thread) for one in answer.ways if one.thread}
    if "use_with_less_thread" in names:
        shown = proofs(answer)["use_with_less_thread"]
        assert shown["external_shear_area_ratio"] == pytest.approx(wanted["external_shear_area_ratio"], abs=RATIO)


def designation(text):
    return text.rsplit("-", 1)[0].removeprefix("#") if text else text


@pytest.mark.parametrize("case", of("tapped_oversize"), ids=lambda case: case["id"])
def test_tapped_oversize(case):
    unit, wanted, pitch = case["unit"], case["expect"], case["given"]["pd"]
    found = FaultFound("tapped_oversize", "before_finish", Measured(pitch_diameter=length(pitch, unit)))
    thick = FinishInput(thickness=LengthRange(length("0.00001", unit), length({"in": 0.001, "mm": 0.02}[unit], unit)))
    plain_hole = FaultFound("tapped_oversize", measured=Measured(pitch_diameter=length(pitch, unit)))
    shown = proofs(rework(request(case, plain_hole)))["use_oversize"]
    assert float(shown["pitch_diameter_max"]) == pytest.approx(wanted["pitch_diameter_max"], abs=LENGTH[unit])
    assert float(shown["over_by"]) == pytest.approx(wanted["over_by"], abs=LENGTH[unit])
    assert shown["internal_shear_area_ratio"] == pytest.approx(wanted["internal_shear_area_ratio"], abs=RATIO)
    coated = proofs(rework(request(case, found, finish=thick)))["thicker_coat"]
    assert float(coated["coat_needed"]) == pytest.approx(wanted["coat_thickness_to_bring_in"], abs=COAT[unit])
    assert float(coated["minor_closes_by"]) == pytest.approx(wanted["minor_closes_by"], abs=2 * COAT[unit])


@pytest.mark.parametrize("case", of("go_before_finish"), ids=lambda case: case["id"])
def test_go_refused_before_the_finish(case):
    unit, wanted = case["unit"], case["expect"]
    measured = Measured(pitch_diameter=length(case["given"]["pd"], unit))
    answer = rework(request(case, FaultFound("go_does_not_enter", "before_finish", measured), finish=coat(case)))
    shown = proofs(answer)["tap_again_same_limit"]
    low, high = wanted["window_before_finish"]
    assert (float(shown["window"].min), float(shown["window"].max)) == pytest.approx((low, high), abs=LENGTH[unit])
    assert float(shown["short_by"]) == pytest.approx(wanted["short_by"], abs=LENGTH[unit])
    if "h_limits_inside_window" in wanted:
        numbers = [int(label[1:]) for label in shown["limits_inside_window"]]
        assert numbers == wanted["h_limits_inside_window"][: len(numbers)]  # the table of limits ends earlier
        assert len(numbers) >= 5


@pytest.mark.parametrize("case", of("go_after_finish"), ids=lambda case: case["id"])
def test_go_refused_after_the_finish(case):
    unit, wanted = case["unit"], case["expect"]
    measured = Measured(pitch_diameter=length(case["given"]["pd"], unit))
    answer = rework(request(case, FaultFound("go_does_not_enter", "after_finish", measured), finish=coat(case)))
    chased, stripped = proofs(answer)["chase_the_coated_thread"], proofs(answer)["strip_tap_and_coat_again"]
    assert float(chased["short_by"]) == pytest.approx(wanted["short_by"], abs=LENGTH[unit])
    assert float(chased["cut_per_side"]) == pytest.approx(wanted["chase_cuts_coat_per_side"], abs=COAT[unit])
    assert chased["bare_after_chase"] is wanted["bare_after_chase"]
    window = stripped["window_before_finish"]
    told = (float(window.min), float(window.max))
    assert told == pytest.approx(tuple(wanted["retap_before_replate_window"]), abs=LENGTH[unit])


@pytest.mark.parametrize("case", of("too_shallow"), ids=lambda case: case["id"])
def test_too_shallow(case):
    unit, wanted, given = case["unit"], case["expect"], case["given"]
    measured = Measured(full_thread_depth=length(given["full"], unit), drill_depth=length(given["drill_depth"], unit))
    found = FaultFound("too_shallow", measured=measured, tap_chamfer_threads=Decimal(str(given["c"])))
    thread = callout.read(case["thread"])
    hole = Hole("blind", full_thread_depth=length(given["wanted"], unit))
    answer = rework(ReworkRequest(HoleSpecRequest(thread, hole), found))
    shown = proofs(answer)["drill_and_tap_deeper"]
    assert float(shown["missing"]) == pytest.approx(wanted["missing"], abs=LENGTH[unit])
    reach = wanted["deepest_full_thread_with_this_tap"]
    assert float(shown["deepest_full_thread"]) == pytest.approx(reach, abs=LENGTH[unit])
    assert ("tap_deeper" in proofs(answer)) is wanted["deeper_tap_reaches"]
    assert float(shown["extra_drill_depth"]) == pytest.approx(wanted["extra_drill_depth_needed"], abs=LENGTH[unit])


@pytest.mark.parametrize("case", of("wrong_thread"), ids=lambda case: case["id"])
def test_wrong_thread(case):
    unit, wanted = case["unit"], case["expect"]
    found = FaultFound("wrong_thread", wrong_thread=callout.read(case["given"]["tapped"]))
    asked = request(case, found)
    answer = rework(asked)
    shown = next(one.proof for one in answer.ways if "envelope" in one.proof)
    assert float(shown["envelope"]) == pytest.approx(wanted["tapped_envelope"], abs=LENGTH[unit])
    names = [one.name for one in answer.ways]
    assert ("drill_and_tap_as_drawn" in names) is (wanted["can_still_cut_intended"] != "no")
    assert ("insert_in_the_same_place" in names) is (wanted["own_insert_cleans"] == "yes")
    first = first_that_cleans(case_of(asked), shown["envelope"])
    words = {"coarse": "metric coarse", "fine": "metric fine"}
    told = {words.get(series, series): designation(one.thread.designation) for series, one in first.items()}
    assert told == wanted["first_larger_that_cleans"]


@pytest.mark.parametrize("case", of("stripped_insert"), ids=lambda case: case["id"])
def test_insert_in_a_stripped_hole(case):
    unit, wanted, given = case["unit"], case["expect"], case["given"]
    found = FaultFound("stripped", edge_distance=length(given["edge"], unit))
    thread = standards.resolve(callout.read(case["thread"]))
    depth = float(thread.nominal_diameter) * given["length_d"] + 1.01 * float(thread.pitch)
    hole = Hole("blind", full_thread_depth=length(round(depth, 4), unit), thickness=length(given["thick"], unit))
    answer = rework(ReworkRequest(HoleSpecRequest(callout.read(case["thread"]), hole), found))
    shown = proofs(answer)["insert_in_the_same_place"]
    assert shown["cleans_up"] == "full_any_hole"
    for name in ("radial_clean_up", "wall_before", "wall_after", "full_thread_depth", "drill_depth_bottoming_tap",
                 "drill_depth_plug_tap", "floor_left_bottoming", "floor_left_plug"):  # fmt: skip
        assert float(shown[name]) == pytest.approx(wanted[name], abs=1.5 * LENGTH[unit]), name


def thread_of(name):
    """A thread of the tables, in the writing of callouts."""
    text = name.replace(" STI", "") if "STI" in name else name
    found = standards.resolve(callout.read(text))
    return insert_in_place.hole_for_insert(found) if "STI" in name else found


def test_every_larger_thread_and_insert_of_the_table():
    """453 pairs: the verdict, how far the drill may run off, and the percent that is left of a partial thread."""
    rows = [(row, made(row["damaged"]), made(row["candidate"])) for row in derived("rework_clean_up")]
    known = [(row, old, new) for row, old, new in rows if old is not None and new is not None]
    assert len(known) > 380  # inserts of sizes without a standard and the largest threads are not held
    for row, old, new in known:
        left = envelope.of_tap(old)
        assert float(left) == pytest.approx(float(row["old_envelope"]), abs=LENGTH[row["unit"]]), row
        minor = envelope.limits_in(new.internal.minor_diameter, new.unit, old.unit)
        found = envelope.cleans_up(minor, left, thread=new, unit=old.unit)
        if found.verdict != row["verdict"]:  # limits told in the other unit may round across
            assert abs(distance(minor, left)) <= 2 * LENGTH[row["unit"]], (row, found)
        elif found.cleans:
            told = float(found.radial) * (25.4 if old.unit == "in" else 1)
            assert told == pytest.approx(float(row["radial_clean_up_mm"]), abs=0.0135), (row, found)  # 0.0005 in
        elif row["percent_left_if_partial"]:
            assert found.percent_left == pytest.approx(float(row["percent_left_if_partial"]), abs=0.5), row


def made(name):
    try:
        return thread_of(name)
    except BorewrightError:
        return None


def distance(minor: Range, left):
    return min((float(left - end) for end in (minor.min, minor.max) if end is not None), key=abs)


def test_every_wrong_thread_of_the_table():
    """142 pairs of a thread that was wanted and one that was tapped."""
    for row in derived("rework_wrong_thread"):
        right, wrong = made(row["intended"]), made(row["tapped"])
        assert right is not None
        assert wrong is not None
        left = envelope.in_unit(envelope.of_tap(wrong), wrong.unit, right.unit)
        assert float(left) == pytest.approx(float(row["tapped_envelope"]), abs=LENGTH[right.unit]), row
        found = envelope.cleans_up(right.internal.minor_diameter, left, thread=right, unit=right.unit)
        assert found.verdict == row["can_still_cut_intended"], (row, found)
        opened = insert_in_place.hole_for_insert(right)
        if opened is not None:
            clean = envelope.cleans_up(opened.internal.minor_diameter, left, thread=opened, unit=right.unit)
            assert clean.cleans is row["insert_of_intended_cleans"].startswith("yes"), (plain(left), row)


@pytest.mark.parametrize(
    ("hole", "words"),
    [("0.332", "too small for a forming tap: it would form 101.2 %"), ("0.355", "too large for a forming tap as well")],
)
def test_a_hole_outside_of_the_band_of_forming_says_on_which_side(hole, words):
    """3/8-16: 147.06 x 16 x (0.375 - hole), percent of the formed thread: 101.2 and 47.1."""
    found = FaultFound("drilled_oversize", measured=Measured(hole_diameter=length(hole, "in")))
    answer = rework(request({"thread": "3/8-16 UNC", "unit": "in"}, found))
    (told,) = [one.why for one in answer.ruled_out if one.name == "form_the_thread"]
    assert told.startswith(words)


@pytest.mark.parametrize(("finish", "opens"), [("MIL-A-8625 Type II", True), ("ASTM B633 Fe/Zn 8", False)])
def test_stripping_opens_a_thread_whose_coat_has_grown_into_it(finish, opens):
    """An anodic coat is half inside the metal, electrodeposited zinc lies upon it."""
    found = FaultFound(
        "go_does_not_enter", stage="after_finish", measured=Measured(pitch_diameter=length("0.2170", "in"))
    )
    answer = rework(request({"thread": "1/4-20 UNC", "unit": "in"}, found, finish=FinishInput(text=finish)))
    said = {one.code for way in answer.ways for one in way.cautions}
    assert "strip_by_the_standard" in said
    assert ("stripping_opens_thread" in said) is opens
