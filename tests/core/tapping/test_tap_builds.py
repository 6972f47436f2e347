"""How a tap is built for a hole and a metal (common practice), on both sides of every boundary.

An M8 thread has a pitch of 1.25 mm: a plug chamfer of 5 threads takes 6.25 mm, a semi-bottoming one of 2.5 threads
3.125 mm, a bottoming one of 2 threads 2.5 mm, and the shortest one, form F of 1.5 threads, 1.875 mm.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest
from borewright.core import callout, standards
from borewright.core.errors import TapError
from borewright.core.model import BasicDiameters, Material, Thread
from borewright.core.requests import TapBuild
from borewright.core.tapping import ChamferRoom, TapRequest, tap_build
from borewright.tables import load
from every import every


@cache
def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def metal(family: str | None, group: str | None, chips: str = "long", hardness: float | None = None) -> Material:
    return Material(family or "part", family, group, chips, hardness, None, None, None, None, None)


METALS = {
    "": None,
    "mild steel": metal("carbon steel", "P", hardness=150),
    "steel that breaks short": metal("carbon steel", "P", "short", 150),
    "steel of 299 HB": metal("alloy steel", "P", hardness=299),
    "steel of 300 HB": metal("alloy steel", "P", hardness=300),
    "steel of 500 HB": metal("alloy steel", "P", hardness=500),
    "unknown, 300 HB": metal(None, None, hardness=300),
    "grey iron": metal("grey iron", "K", "long", 200),
    "bronze, short": metal("bronze", "N", "short"),
    "bronze, long": metal("bronze", "N", "long"),
    "stainless": metal("stainless austenitic", "M"),
    "superalloy": metal("superalloy", "S"),
    "hardened": metal(None, "H", hardness=560),
    "copper": metal("copper", "N"),
    "aluminium": metal("aluminium wrought", "N"),
}


def request(name: str, kind: str | None, drive: str = "rigid", room: str | None = None, **known) -> TapRequest:
    """A hole: ``drive`` rigid, hand or form; ``room`` in mm below the full thread, "free" for the longest chamfer."""
    left = None if room is None else ChamferRoom(None if room == "free" else Decimal(room))
    method = "form" if drive == "form" else "cut"
    tapping = "rigid" if drive == "form" else drive
    return TapRequest(kind, METALS[name], method, chamfer_room=left, tapping=tapping, **known)


PUSHES, BREAKS, DRAW = "pushes the chips ahead", "through hole, chips break short", "draw the chips out"
HOLD, SHORT, TEETH = "break short: straight flutes hold them", "keeps the drilled depth short", "over more teeth"
NO_ROOM, NO_LONGER = "a bottoming tap finishes the thread", "the bottoming tap has 1 to 1.5 threads"
BOTH, SQUARE, SET = "serve blind and through holes", "hand tap with a {} chamfer", "bottoming tap of the set finishes"
FORMED, LONG_ENTRY, SHORT_ENTRY = "makes no chips", "entry taper forms more gently", "nearer the bottom"

BUILDS = [
    # metal, hole, drive, room, style, chamfer, chamfer of a second tap, what the reasons say in their order
    ("mild steel", None, "rigid", None, "straight_flute", "plug", None, (BOTH,)),
    ("", "through", "rigid", None, "spiral_point", "plug", None, (PUSHES,)),
    ("mild steel", "through", "rigid", None, "spiral_point", "plug", None, (PUSHES,)),
    ("mild steel", "through", "floating", "0.5", "spiral_point", "plug", None, (PUSHES,)),
    # the chips of most families are those of their row, whatever the part's own say
    ("steel that breaks short", "through", "rigid", None, "spiral_point", "plug", None, (PUSHES,)),
    ("grey iron", "through", "rigid", None, "straight_flute", "plug", None, (BREAKS,)),
    ("bronze, short", "through", "rigid", None, "straight_flute", "plug", None, (BREAKS,)),
    ("bronze, long", "through", "rigid", None, "spiral_point", "plug", None, (PUSHES,)),
    # blind, long chips: semi-bottoming while it has room, then two taps
    ("", "blind", "rigid", None, "spiral_flute", "semi_bottoming", None, (DRAW, SHORT)),
    ("mild steel", "blind", "rigid", None, "spiral_flute", "semi_bottoming", None, (DRAW, SHORT)),
    ("mild steel", "blind", "rigid", "free", "spiral_flute", "semi_bottoming", None, (DRAW, SHORT)),
    ("mild steel", "blind", "rigid", "3.125", "spiral_flute", "semi_bottoming", None, (DRAW, SHORT)),
    ("mild steel", "blind", "rigid", "3.124", "spiral_flute", "plug", "bottoming", (DRAW, NO_ROOM)),
    ("mild steel", "blind", "rigid", "2.5", "spiral_flute", "plug", "bottoming", (DRAW, NO_ROOM)),
    ("mild steel", "blind", "rigid", "2.499", "spiral_flute", "plug", "F", (DRAW, NO_ROOM, NO_LONGER)),
    ("mild steel", "blind", "rigid", "1.875", "spiral_flute", "plug", "F", (DRAW, NO_ROOM, NO_LONGER)),
    ("mild steel", "blind", "rigid", "1.874", "spiral_flute", "plug", "bottoming", (DRAW, NO_ROOM)),
    # blind, short chips: plug first
    ("grey iron", "blind", "rigid", None, "straight_flute", "plug", None, (HOLD, TEETH)),
    ("grey iron", "blind", "rigid", "6.25", "straight_flute", "plug", None, (HOLD, TEETH)),
    ("grey iron", "blind", "rigid", "6.249", "straight_flute", "semi_bottoming", None, (HOLD, SHORT)),
    ("grey iron", "blind", "rigid", "3.124", "straight_flute", "plug", "bottoming", (HOLD, NO_ROOM)),
    # blind, tough: plug too
    ("steel of 299 HB", "blind", "rigid", None, "spiral_flute", "semi_bottoming", None, (DRAW, SHORT)),
    ("steel of 300 HB", "blind", "rigid", None, "spiral_flute", "plug", None, (DRAW, TEETH)),
    ("unknown, 300 HB", "blind", "rigid", None, "spiral_flute", "plug", None, (DRAW, TEETH)),
    ("stainless", "blind", "rigid", "6.25", "spiral_flute", "plug", None, (DRAW, TEETH)),
    ("stainless", "blind", "rigid", "6.249", "spiral_flute", "semi_bottoming", None, (DRAW, SHORT)),
    ("superalloy", "blind", "rigid", None, "spiral_flute", "plug", None, (DRAW, TEETH)),
    # by hand
    ("mild steel", None, "hand", None, "straight_flute", "plug", None, (SQUARE.format("plug"),)),
    ("mild steel", "through", "hand", None, "straight_flute", "plug", None, (SQUARE.format("plug"),)),
    ("", "blind", "hand", None, "straight_flute", "plug", "bottoming", (SQUARE.format("plug"), SET)),
    ("mild steel", "blind", "hand", "2.4", "straight_flute", "plug", "F", (SQUARE.format("plug"), SET, NO_LONGER)),
    ("stainless", "through", "hand", None, "straight_flute", "taper", None, (SQUARE.format("taper"),)),
    ("superalloy", "blind", "hand", None, "straight_flute", "taper", "bottoming", (SQUARE.format("taper"), SET)),
    ("hardened", "through", "hand", None, "straight_flute", "taper", None, (SQUARE.format("taper"),)),
    # forming
    ("mild steel", None, "form", None, "forming", "forming_plug", None, (FORMED, LONG_ENTRY)),
    ("mild steel", "through", "form", "0.5", "forming", "forming_plug", None, (FORMED, LONG_ENTRY)),
    ("mild steel", "blind", "form", None, "forming", "forming_bottoming", None, (FORMED, SHORT_ENTRY)),
    ("mild steel", "blind", "form", "free", "forming", "forming_plug", None, (FORMED, LONG_ENTRY)),
    ("mild steel", "blind", "form", "6.25", "forming", "forming_plug", None, (FORMED, LONG_ENTRY)),
    ("mild steel", "blind", "form", "6.249", "forming", "forming_bottoming", None, (FORMED, SHORT_ENTRY)),
]  # fmt: skip


@every("name,kind,drive,room,style,chamfer,second,said", BUILDS)
def test_builds_of_an_m8_tap(name, kind, drive, room, style, chamfer, second, said):
    found = tap_build.plan(thread("M8"), request(name, kind, drive, room))
    first = tap_build.chamfer(chamfer)
    assert (found.made.style, found.made.chamfer) == (style, first.chamfer)
    assert found.second == (None if second is None else tap_build.chamfer(second))
    assert len(found.reasons) == len(said) + 1  # the last one is that of the grade and coat
    for word, reason in zip(said, found.reasons, strict=False):
        assert word in reason
    assert found.sources[0] == first.source
    assert [(one.field, one.document, one.status) for one in found.sources[1:]] == [
        (f"recommended.{field}", "shop practice", "common_practice") for field in ("style", "substrate", "surface")
    ]


UNKNOWN_HOLE = "whether the hole is blind or through was not given, so a tap that serves both is taken"
UNKNOWN_PART = "the part material was not given, so long chips and a plain tap are taken"


@every(
    "name,kind,said",
    [
        ("", None, (UNKNOWN_HOLE, UNKNOWN_PART)),
        ("", "blind", (UNKNOWN_PART,)),
        ("mild steel", None, (UNKNOWN_HOLE,)),
        ("mild steel", "through", ()),
    ],
)
def test_what_is_not_known_of_a_hole_is_said(name, kind, said):
    assert tap_build.plan(thread("M8"), request(name, kind)).assumptions == said


# --- grade and coat -----------------------------------------------------------------------------------

GRADES = [
    # family, ISO 513 group, HB, substrate, surface, word of the reason: rows of the table of tap practice
    ("carbon steel", "P", None, "HSS", "oxide", "steam-oxide"),
    ("carbon steel", "P", 220, "HSS", "oxide", "steam-oxide"),
    ("carbon steel", "P", 220.5, "HSS-E", "TiN", "medium hardness"),
    ("alloy steel", "P", 300, "HSS-E", "TiN", "medium hardness"),
    ("alloy steel", "P", 301, "HSS-E-PM", "TiCN", "hard steel"),
    ("alloy steel", "P", 420, "HSS-E-PM", "TiCN", "hard steel"),
    ("alloy steel", "P", 421, "carbide", "TiAlN", "hardened steel"),
    ("free-machining steel", "P", 300, "HSS", "bright", "kind to a plain bright tap"),
    ("free-machining steel", "P", 301, "HSS-E-PM", "TiCN", "hard steel"),
    ("stainless PH", "M", 320, "HSS-E", "TiCN", "precipitation-hardening"),
    ("stainless PH", "M", 321, "HSS-E", "TiCN", "stainless steel work-hardens and galls"),
    ("grey iron", "K", 200, "HSS-E", "nitride", "grey iron wears"),
    ("brass", "N", None, "HSS", "bright", "sharp uncoated edge and straight flutes"),
    ("titanium", "S", 330, "HSS-E-PM", "nitride", "galls and springs back"),
    (None, "S", None, "HSS-E-PM", "TiCN", "heat-resistant"),
    (None, "H", 560, "carbide", "TiAlN", "heat-resistant coat"),
    (None, None, None, "HSS", "bright", "material not known"),
    (None, None, 300, "HSS", "bright", "material not known"),
    (None, None, 301, "HSS-E-PM", "TiCN", "hard metal, not known which"),
    (None, None, 421, "carbide", "TiAlN", "hardened metal, not known which"),
]


@every("family,group,hardness,substrate,surface,word", GRADES)
def test_grade_and_coat_by_family_group_and_hardness(family, group, hardness, substrate, surface, word):
    part = metal(family, group, hardness=hardness)
    found = tap_build.plan(thread("M8"), TapRequest("through", part))
    assert (found.made.substrate, found.made.surface) == (substrate, surface)
    assert word in found.reasons[-1]
    by_hand = tap_build.plan(thread("M8"), TapRequest("through", part, tapping="hand")).made
    assert (by_hand.substrate, by_hand.surface) == ("HSS-E-PM" if substrate == "carbide" else substrate, surface)


# --- forming ------------------------------------------------------------------------------------------

FORMED_METALS = [
    # family, group, chips, HB, whether it forms: yes, trial, no
    (None, None, "long", None, "trial"),
    ("copper", "N", "long", None, "yes"),
    ("brass", "N", "long", None, "yes"),
    ("brass", "N", "short", None, "no"),
    (None, "N", "long", None, "yes"),
    (None, "N", "short", None, "no"),
    ("aluminium cast", "N", "long", None, "trial"),
    ("carbon steel", "P", "long", 300, "yes"),
    ("carbon steel", "P", "long", 301, "no"),
    ("grey iron", "K", "short", None, "no"),
]


@every("family,group,chips,hardness,forms", FORMED_METALS)
def test_which_metals_form(family, group, chips, hardness, forms):
    asked = TapRequest("through", metal(family, group, chips, hardness), "form")
    if forms == "no":
        with pytest.raises(TapError) as refused:
            tap_build.plan(thread("M8"), asked)
        (fault,) = refused.value.faults
        assert (fault.code, fault.pointer, fault.allowed) == ("method_not_applicable", "/method", ("cut",))
        assert fault.detail.startswith(f"{family or 'part'} does not flow")
        return
    found = tap_build.plan(thread("M8"), asked)
    trial = (["forming_trial"], []) if forms == "trial" else ([], ["forming_needs_trial"])
    assert ([one.code for one in found.decisions], [one.code for one in found.cautions]) == trial


def test_what_is_cut_has_nothing_to_say_of_forming():
    found = tap_build.plan(thread("M8"), request("mild steel", "blind"))
    assert (found.decisions, found.cautions) == ((), ())


def test_a_part_of_which_nothing_is_known_forms_with_a_caution():
    found = tap_build.plan(thread("M8"), request("", "blind", "form"))
    assert ([one.code for one in found.cautions], found.decisions) == (["forming_needs_trial"], ())


# --- deep forms and taper threads ---------------------------------------------------------------------


def form_of(angle: str, height: str) -> Thread:
    """An M8 thread with another angle and height of its form, in pitches."""
    found = thread("M8")
    minor = found.nominal_diameter - Decimal(height) * found.pitch
    basic = BasicDiameters(found.nominal_diameter, found.basic.pitch_diameter, minor)
    return replace(found, thread_angle=Decimal(angle), basic=basic)


@every(
    "angle,height,kind,chamfers",
    [
        ("29", "1", "through", ("taper", "plug")),
        ("29", "1", None, ("taper", "plug")),
        ("29", "1", "blind", ("plug", "bottoming")),
        ("30", "0.9", "blind", ("plug", "bottoming")),
        ("30", "0.89", "blind", ("semi_bottoming", None)),
        ("31", "1", "blind", ("semi_bottoming", None)),
        ("29", "0.6", "through", ("plug", None)),
    ],
)
def test_a_deep_form_is_roughed_and_finished(angle, height, kind, chamfers):
    """From 0.9 of a pitch (stub Acme has 0.6, Acme 1) on an angle of up to 30 degrees (common practice)."""
    found = tap_build.plan(form_of(angle, height), request("mild steel", kind))
    second = None if found.second is None else found.second.chamfer.name
    assert (found.made.chamfer.name, second) == chamfers
    if second is not None:
        assert found.made.style == "straight_flute"
        assert "the form is deep" in found.reasons[0]


@every(
    "name,text,style,entry",
    [
        ("", "1/2-14 NPT", "taper_pipe", "taper_pipe"),
        ("mild steel", "1/2-14 NPT", "taper_pipe", "taper_pipe"),
        ("stainless", "1/2-14 NPT", "interrupted", "taper_pipe"),
        ("superalloy", "1/2-14 NPT", "interrupted", "taper_pipe"),
        ("aluminium", "1/2-14 NPT", "interrupted", "taper_pipe"),
        ("bronze, short", "1/2-14 NPT", "taper_pipe", "taper_pipe"),
        ("grey iron", "1/2-14 NPT", "taper_pipe", "taper_pipe"),
        ("mild steel", "Rc 1/2", "taper_pipe", "taper_pipe_iso"),
        ("stainless", "Rc 1/2", "interrupted", "taper_pipe_iso"),
    ],
)
def test_taper_threads_take_taps_of_their_own(name, text, style, entry):
    """Long chips of groups M, S and N tear a taper thread: every other tooth is left out (common practice)."""
    for kind, drive in (("blind", "rigid"), ("through", "rigid"), ("through", "hand")):
        found = tap_build.plan(thread(text), request(name, kind, drive))
        assert (found.made.style, found.made.chamfer) == (style, tap_build.chamfer(entry).chamfer)
        assert found.sources[0] == tap_build.chamfer(entry).source
        assert found.second is None
        assert ("metal that tears" in found.reasons[0]) is (style == "interrupted")
        assert ("gauged by turns" in found.reasons[0]) is (style == "taper_pipe")


# --- room ---------------------------------------------------------------------------------------------


@every(
    "name,kind,drive,room,text",
    [
        (
            "mild steel",
            "blind",
            "rigid",
            "1.874",
            "1.874 mm below the full thread, a bottoming chamfer takes up to 2.5",
        ),
        ("mild steel", "blind", "rigid", "1.875", None),
        ("mild steel", "through", "rigid", "0.5", None),
        ("mild steel", None, "rigid", "0.5", None),
        ("mild steel", "blind", "rigid", None, None),
        ("mild steel", "blind", "rigid", "free", None),
        ("mild steel", "blind", "form", "3.125", None),
        ("mild steel", "blind", "form", "3.12", "3.12 mm below the full thread, a bottoming chamfer takes up to 3.125"),
    ],
)
def test_a_chamfer_without_room_is_cautioned_with_both_lengths(name, kind, drive, room, text):
    said = tap_build.plan(thread("M8"), request(name, kind, drive, room)).cautions
    said = [one.text.replace("\N{NO-BREAK SPACE}", " ") for one in said if one.code == "chamfer_room_short"]
    wanted = [] if text is None else [f"the hole leaves {text} mm: drill deeper or shorten the thread"]
    assert said == wanted


def test_the_chamfer_of_a_taper_tap_is_named_with_a_hyphen():
    """NPT 1/2: 3.5 threads of 1/14 in are 0.25 in."""
    found = tap_build.plan(thread("1/2-14 NPT"), request("mild steel", "blind", room="0.2"))
    (said,) = found.cautions
    assert "a taper-pipe chamfer takes up to 0.25\N{NO-BREAK SPACE}in" in said.text


@every("room,held", [("12.5", "12.5"), ("12.51", None), ("12.49", "12.49"), ("0", "0")])
def test_more_room_than_the_longest_chamfer_takes_is_no_figure(room, held):
    """The longest chamfer, of a taper tap, has 10 threads: 12.5 mm in M8."""
    wanted = None if held is None else Decimal(held)
    assert tap_build.chamfer_room(thread("M8"), Decimal(room)) == ChamferRoom(wanted)


# --- builds of the tap of another hole ----------------------------------------------------------------

POINT_SEMI, FLUTE_SEMI = ("spiral_point", "semi_bottoming"), ("spiral_flute", "semi_bottoming")
STRAIGHT_SEMI, FLUTE_PLUG = ("straight_flute", "semi_bottoming"), ("spiral_flute", "plug")

OTHER_BUILDS = [
    ("mild steel", "through", "rigid", None, (POINT_SEMI, FLUTE_SEMI)),
    ("mild steel", "through", "floating", "3.125", (POINT_SEMI, FLUTE_SEMI)),
    ("mild steel", "through", "rigid", "3.124", ()),
    ("steel of 300 HB", "through", "rigid", None, (FLUTE_PLUG,)),
    ("steel of 300 HB", "through", "rigid", "6.249", ()),
    ("grey iron", "through", "rigid", None, (STRAIGHT_SEMI,)),
    ("hardened", "through", "rigid", None, ()),
    ("mild steel", "blind", "rigid", None, ()),
    ("stainless", "blind", "rigid", None, ()),
    ("stainless", "blind", "rigid", "6.249", ()),
    ("grey iron", "blind", "rigid", None, (STRAIGHT_SEMI,)),
    ("grey iron", "blind", "rigid", "6.249", ()),
    ("grey iron", "blind", "rigid", "3", ()),
    ("mild steel", None, "rigid", None, ()),
    ("mild steel", "through", "hand", None, ()),
    ("mild steel", "through", "form", None, ()),
]  # fmt: skip


@every("name,kind,drive,room,builds", OTHER_BUILDS)
def test_builds_that_serve_a_hole_too(name, kind, drive, room, builds):
    asked = request(name, kind, drive, room)
    assert tap_build.other_builds(thread("M8"), asked) == tuple(TapBuild(*one) for one in builds)
    for style in ("spiral_point", "spiral_flute", "straight_flute"):
        for chamfer in ("plug", "semi_bottoming", "bottoming"):
            _prescribe(asked, TapBuild(style, chamfer), served=(style, chamfer) in builds)


def _prescribe(asked: TapRequest, build: TapBuild, *, served: bool) -> None:
    """A build that is prescribed is taken with its reasons, or refused with its name; the usual one is as it was."""
    usual = tap_build.plan(thread("M8"), asked)
    wanted = asked._replace(build=build)
    if build == TapBuild(usual.made.style, usual.made.chamfer.name):
        assert tap_build.plan(thread("M8"), wanted) == usual
        return
    if not served:
        with pytest.raises(TapError) as refused:
            tap_build.plan(thread("M8"), wanted)
        (fault,) = refused.value.faults
        assert (fault.code, fault.pointer) == ("tap_not_found", "/hole")
        assert f"{build.style} with {build.chamfer} chamfer".replace("_", " ") in fault.detail
        return
    found = tap_build.plan(thread("M8"), wanted)
    assert (found.made.style, found.made.chamfer) == (build.style, tap_build.chamfer(build.chamfer).chamfer)
    assert found.second is None
    assert (found.made.substrate, found.made.surface) == (usual.made.substrate, usual.made.surface)
    text = " / ".join(found.reasons)
    assert "serves this hole too" in text
    assert ("clear them" in text) is (build.style != usual.made.style)
    assert ("over fewer teeth" in text) is (build.chamfer != usual.made.chamfer.name)


@every("found", lambda: [form_of("29", "1"), thread("1/2-14 NPT")])
def test_deep_forms_and_taper_threads_have_no_build_but_their_own(found):
    for kind in ("blind", "through"):
        assert tap_build.other_builds(found, request("mild steel", kind)) == ()


def test_every_row_of_the_practice_is_the_first_of_some_metal():
    """No row is hidden behind an earlier one."""
    seen = set()
    for row in load("tap_practice").rows:
        hardness = float(row["hardness_to_hb"] or 500)
        part = metal(row["family"] or None, row["iso_group"] or None, "long", hardness)
        seen.add(tap_build.plan(thread("M8"), TapRequest("through", part)).reasons[-1])
    assert seen == {row["reason"] for row in load("tap_practice").rows}
