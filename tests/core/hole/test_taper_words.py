"""Words and lengths of taper pipe threads, reckoned by hand.

1/4-18 NPT: pitch diameter 0.48816 to 0.49510 in at the face, middle 0.49163; taper 1 in 16; lead 1/18 in. A middle
0.00104 in larger is 16 x 0.00104 = 0.01664 in or 18 x 0.01664 = 0.30 turns deeper; a range of 0.006 in is 16 x 0.003 =
0.048 in or 0.86 turns either way. L1 = 0.2278, L1 + L3 = 0.3945 in; of Rc 1/2 9.1 and 15.0 mm (JIS B 0203).
"""

from __future__ import annotations

import math
from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.hole import taper_pipe, taper_pipe_depths
from borewright.core.model import Hole, Length, Range, Tap, TapChamfer
from borewright.core.model.holes import StatedCountersink
from every import every


def thread(text):
    return standards.resolve(callout.read(text))


NPT, RC = thread("1/4-18 NPT"), thread("Rc 1/2")


def span(low, high):
    return Range(Decimal(low), Decimal(high))


OWN = span("0.48816", "0.49510")
LARGER, SMALLER = span("0.48967", "0.49567"), span("0.48759", "0.49359")  # middles 0.49267 and 0.49059


def words(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


@every(
    ("limits", "said"),
    [
        (OWN, "L1 taper thread plug, notch flush with the face within 1 turn either way"),
        (
            LARGER,
            "L1 taper thread plug, 0.3 turns (0.017 in) deeper than for the finished thread, within 0.86 turns either"
            " way",
        ),
        (
            SMALLER,
            "L1 taper thread plug, 0.3 turns (0.017 in) less deep than for the finished thread, within 0.86 turns",
        ),
    ],
)
def test_where_the_plug_must_stand(limits, said):
    assert words(taper_pipe.gauge_words(NPT, limits)).startswith(said)


@every(
    ("found", "travel", "limits", "said"),
    [
        (NPT, "0.68684", OWN, "to the gauge line, tip 0.687 in past the face"),
        (NPT, "0.70344", LARGER, "0.3 turns past the gauge line, tip 0.703 in past the face"),
        (NPT, "0.67016", SMALLER, "0.3 turns short of the gauge line, tip 0.67 in past the face"),
        (RC, "20.446", RC.internal.pitch_diameter, "to the gauge line, tip 20.45 mm past the face"),
    ],
)
def test_how_deep_the_tap_runs(found, travel, limits, said):
    assert words(taper_pipe.travel_words(found, Decimal(travel), to_make=limits)) == said


def test_turns_are_told_to_a_hundredth():
    """0.016 x 18 = 0.288; 0.6868 x 18 = 12.3624; 0.01664 x 18 = 0.2995."""
    assert str(taper_pipe.turns(NPT, Decimal("0.016"))) == "0.29"
    told = taper_pipe.tap_turns(NPT, Decimal("0.6868"), to_make=LARGER)
    assert told == {"turns": 12.36, "turns_past_gauge_line": 0.3}
    assert taper_pipe.tap_turns(thread("M10"), Decimal(20), to_make=span("9.1", "9.2")) == {}


def test_how_far_past_the_gauge_line():
    assert taper_pipe.past_gauge_line(NPT, LARGER) == Decimal("0.01664")
    assert taper_pipe.past_gauge_line(NPT, SMALLER) == Decimal("-0.01664")
    assert taper_pipe.past_gauge_line(NPT, OWN) == 0
    assert taper_pipe.past_gauge_line(thread("M10"), span("9.1", "9.2")) == 0


def tap(style):
    entry = TapChamfer("taper_pipe", Decimal(2), Decimal("3.5"))
    return Tap(style, entry, limit=None, fit=None, substrate="HSS", surface="bright", marking="", reasons=())


@every(
    ("style", "name"),
    [("interrupted", "interrupted-thread taper pipe tap"), ("straight_flute", "taper pipe tap")],
)
def test_names_of_the_tap(style, name):
    """0.6868 x 18 = 12.4 turns."""
    assert taper_pipe.style_words(tap(style)) == name
    said = words(taper_pipe.tap_words(NPT, tap(style), Decimal("0.6868"), to_make=OWN))
    line = "to the gauge line, tip 0.687 in past the face"
    assert said == f"{name}, chamfer of 2 to 3.5 threads, {line} (12.4 turns at its lead)"


# --- depths of both standards --------------------------------------------------------------------------------


def build(found, full, *, drill="0.4375", wall=None, sink=None, run_out="chamfer", milled=False):
    unit = found.unit
    hole = Hole(
        "blind",
        full_thread_depth=Length(Decimal(full), unit),
        thickness=None if wall is None else Length(wall, unit),
        run_out=run_out,
        countersink=None if sink is None else StatedCountersink(Length(Decimal(sink), unit), None, "one"),
    )
    return taper_pipe_depths.build(
        found,
        hole,
        full=Decimal(full),
        drill_diameter=Decimal(drill),
        chamfer=None if milled else tap("").chamfer,
        clearance=found.pitch,
        past=Decimal(0),
    )


@every(
    ("found", "full", "said"),
    [
        (NPT, "0.2", "The full thread of 0.2 in is less than the 0.2278 in (hand-tight engagement L1) that 1/4-18 NPT"),
        (NPT, "0.2", "Decide: 0.3945 in of thread (L1 + L3, with wrench make-up) in a deeper hole"),
        (
            NPT,
            "0.3",
            "0.3 in of thread are less than 0.3945 in (L1 + L3, with wrench make-up): the fitting may run out",
        ),
        (RC, "9", "9 mm is less than the 9.1 mm (useful thread that ends in a relief or a through hole)"),
        (RC, "9", "Decide: 15 mm of thread (useful thread for the longest gauge length)"),
        (RC, "12.3456", "12.346 mm of thread are less than 15 mm (useful thread for the longest gauge length)"),
    ],
)
def test_how_much_thread_each_standard_asks_for(found, full, said):
    notes = build(found, full, drill="0.4375" if found is NPT else "18.25").notes
    assert said in words(" ".join(one.text for one in (*notes.decisions, *notes.cautions)))


def test_depths_of_rc():
    """20.442 mm of travel, a pitch of 1.814 of clearance: 22.256; 0.30043 x 18.25 = 5.4828 of point; 3.5 x 1.814."""
    found = build(RC, "15", drill="18.25")
    assert (str(found.drill_depth), str(found.drill_tip_depth)) == ("22.26", "27.74")
    assert (str(found.tap_travel), str(found.chamfer_length)) == ("20.442", "6.35")
    travel = next(one for one in found.notes.sources if one.field == "tap_travel")
    assert (travel.document, next(iter(build(NPT, "0.4").notes.sources)).document) == ("ISO 7-1", "ANSI/ASME B94.9")


def test_the_countersink_is_the_smallest_thread_at_the_face():
    """0.53304 in less half the tolerance of one turn, 0.0031: 0.52994; or what the drawing states."""
    assert str(build(NPT, "0.4").countersink_diameter) == "0.530"
    assert str(build(RC, "15", drill="18.25").countersink_diameter) == "20.81"
    assert str(build(NPT, "0.4", sink="0.6").countersink_diameter) == "0.600"
    (place,) = [one for one in build(NPT, "0.4").notes.sources if one.field == "countersink_diameter"]
    assert (place.locator, place.status) == ("no larger than the thread at the face", "from_memory")


def test_the_most_that_a_tap_at_size_cuts():
    """0.6868 - 2 x 0.0555556 = 0.5756888: just that is cut by a short chamfer, more is not."""
    at, over = build(NPT, "0.5756888").notes, build(NPT, "0.5756889").notes
    assert ([one.code for one in at.cautions], at.decisions) == (["run_out_short"], ())
    assert ([one.code for one in over.cautions], [one.code for one in over.decisions]) == ([], ["pipe_thread_deep"])


def test_a_pitch_of_wall_is_not_thin():
    point = Decimal(0.5 / math.tan(math.radians(59))) * Decimal("0.4375")
    pitch = NPT.pitch
    for less, codes in (("0.00001", ["thin_wall"]), ("-0.00001", [])):
        wall = Decimal("0.6868") + pitch + point + pitch - Decimal(less)
        assert [one.code for one in build(NPT, "0.4", wall=wall).notes.cautions] == codes


@every(
    ("full", "drill", "run_out", "crests", "unused"),
    [
        # the largest minor diameter at the face is 0.45332 in: 16 (0.45332 - 0.4375) = 0.253 in behind 7/16
        ("0.253", "0.4375", "chamfer", False, False),
        ("0.254", "0.4375", "chamfer", True, False),
        ("0.254", "0.4219", "chamfer", False, False),
        ("0.254", "0.4375", "bs_1936", True, True),
    ],
)
def test_what_is_assumed_of_a_taper_hole(full, drill, run_out, crests, unused):
    said = words(" ".join(build(NPT, full, drill=drill, run_out=run_out).notes.assumptions))
    assert ("the straight hole leaves full crests to 0.253 in, cut short below" in said) is crests
    assert ("run_out bs_1936 is not used" in said) is unused


def test_a_milled_thread_is_full_to_its_end():
    assert build(NPT, "0.5", milled=True).full_thread_depth == Decimal("0.5")
    assert not build(NPT, "0.5", milled=True).notes.decisions
