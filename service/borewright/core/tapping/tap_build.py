"""Style, chamfer, substrate and surface of a tap, by hole, depth and part material (common practice).

A spiral point pushes its chips ahead and wants a through hole; a spiral flute draws them back out of a blind one;
straight flutes do for chips that break short. The chamfer of a blind hole is as long as the hole leaves room for.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Literal, NamedTuple, cast

from borewright.core.caches import read_once
from borewright.core.errors import TapError
from borewright.core.model import Caution, Material, Source, Status, TapChamfer, Thread
from borewright.core.model.decision import Decision
from borewright.core.practice import figure, number
from borewright.core.quantity_text import length
from borewright.core.requests import TapBuild
from borewright.core.standards.systems import traits
from borewright.tables import load

from . import forming, shop_practice
from .shop_practice import Habit
from .tap_candidates import ChamferRoom, TapRequest

ChamferName = Literal["taper", "plug", "semi_bottoming", "bottoming", "taper_pipe"]

_DEEP_FORM_PITCHES, _DEEP_FORM_DEG = figure("deep_form_height_pitches"), figure("deep_form_angle_deg")
#: Bottoming chamfer of 1 to 1.5 threads.
_SHORT = "F"
#: Hardness from which the longer, stronger chamfer of a plug tap is worth its room, HB.
_TOUGH_HB = number("tough_from_hb")
#: A carbide tap does not outlive the side load of a hand wrench (common practice).
_BY_HAND = {"carbide": "HSS-E-PM"}
_PRACTICE_FIELDS = ("recommended.style", "recommended.substrate", "recommended.surface")


class Chamfer(NamedTuple):
    """A chamfer and where its length comes from."""

    chamfer: TapChamfer
    source: Source


class Made(NamedTuple):
    """How a tap is made: style, chamfer, grade and coat."""

    style: str
    chamfer: TapChamfer
    substrate: str
    surface: str


class Tooling(NamedTuple):
    """The tap's build, the chamfer of a second tap, and what is said of them."""

    made: Made
    second: Chamfer | None
    reasons: tuple[str, ...]
    assumptions: tuple[str, ...]
    cautions: tuple[Caution, ...]
    decisions: tuple[Decision, ...]
    sources: tuple[Source, ...]


class _Draft(NamedTuple):
    style: str
    chamfer: str
    second: str | None
    reasons: tuple[str, ...]


def plan(thread: Thread, request: TapRequest) -> Tooling:
    """The tap's build for a hole and material.

    Args: ``thread`` resolved; ``request`` what is known of the hole.
    Raises: TapError ``method_not_applicable`` when a forming tap cannot make the thread or the material not flow,
    ``tap_not_found`` where the build asked for does not serve the hole.
    Source: common practice; chamfer lengths TM 9-254, DIN 2197, Machinery's Handbook 31st ed. p. 985.
    """
    habit = shop_practice.habit(request.material)
    if request.method == "form":
        forming.check(thread, request.material)
    draft = _short_last(thread, request, _draft(thread, request, habit))
    draft = draft if request.build is None else _shared(thread, request, draft, request.build)
    first = chamfer(draft.chamfer)
    cautions = _room_cautions(thread, request, draft)
    substrate = _BY_HAND.get(habit.substrate, habit.substrate) if _is_by_hand(request) else habit.substrate
    return Tooling(
        made=Made(draft.style, first.chamfer, substrate, habit.surface),
        second=chamfer(draft.second) if draft.second is not None else None,
        reasons=(*draft.reasons, habit.reason),
        assumptions=_assumptions(request),
        cautions=cautions if request.method == "cut" else (*cautions, *forming.cautions(request.material)),
        decisions=() if request.method == "cut" else forming.decisions(request.material),
        sources=(first.source, *_practice_sources()),
    )


def other_builds(thread: Thread, request: TapRequest) -> tuple[TapBuild, ...]:
    """Builds that serve the hole too, for a tap that another hole of the part needs anyway.

    Spiral flutes serve a through hole as well: their chips come back out of it. A shorter chamfer serves where a longer
    one does, but in tough metal, where each of its few teeth would cut too much. A spiral point never serves a blind
    hole, where its chips are packed. Forming taps, hand taps, sets and taper taps have no build but their own.

    Args: ``thread`` resolved; ``request`` what is known of the hole.
    Source: common practice.
    """
    single = thread.taper is None and request.method == "cut"
    if not single or _is_by_hand(request) or request.hole_kind is None:
        return ()
    usual = _draft(thread, request, shop_practice.habit(request.material))
    if usual.second is not None:
        return ()
    styles = (usual.style, "spiral_flute") if usual.style == "spiral_point" else (usual.style,)
    key = "plug" if _is_tough(request.material) else "semi_bottoming"
    builds = (TapBuild(style, key) for style in styles if _fits(key, thread, request))
    return tuple(build for build in builds if build != TapBuild(usual.style, usual.chamfer))


def _shared(thread: Thread, request: TapRequest, usual: _Draft, build: TapBuild) -> _Draft:
    """The draft with the build of another hole's tap."""
    if build == TapBuild(usual.style, usual.chamfer):
        return usual
    words = f"{build.style} with {build.chamfer} chamfer".replace("_", " ")
    if build not in other_builds(thread, request):
        raise TapError("tap_not_found", f"a tap of {words} does not serve the hole", pointer="/hole")
    why = [f"prescribed: {words} serves this hole too"]
    if build.style != usual.style:
        why.append("spiral flutes bring the chips of a through hole back out at the top: clear them")
    if build.chamfer == "semi_bottoming" != usual.chamfer:
        why.append("the shorter chamfer spreads the cut over fewer teeth")
    return _Draft(build.style, build.chamfer, None, tuple(why))


def chamfer_room(thread: Thread, length: Decimal) -> ChamferRoom:
    """The room that a length below the full thread leaves for a chamfer.

    Args: ``length`` in the thread's unit.
    Source: tap_chamfers table.
    """
    return ChamferRoom(None if length > _most_threads() * thread.pitch else length)


@read_once
def _most_threads() -> Decimal:
    """The longest chamfer there is, in threads."""
    return max(known.chamfer.threads_max for known in _chamfers().values())


def chamfer(key: str) -> Chamfer:
    """The chamfer ``key`` of the table, a name or a form letter of DIN 2197, in threads."""
    return _chamfers()[key]


def _draft(thread: Thread, request: TapRequest, habit: Habit) -> _Draft:
    if thread.taper is not None:
        return _taper_pipe(thread, request.material)
    if request.method == "form":
        return _forming(thread, request)
    if _is_deep_form(thread):
        return _roughing_and_finishing(request)
    if _is_by_hand(request):
        return _by_hand(request)
    if request.hole_kind is None:
        return _Draft(
            "straight_flute", "plug", None, ("straight flutes and a plug chamfer serve blind and through holes",)
        )
    short = _short_chips(habit, request.material)
    if request.hole_kind == "through":
        return _through(short=short)
    return _blind(thread, request, short=short)


def _short_last(thread: Thread, request: TapRequest, draft: _Draft) -> _Draft:
    """The shortest bottoming chamfer there is where the usual one has no room."""
    if draft.second != "bottoming" or _fits("bottoming", thread, request) or not _fits(_SHORT, thread, request):
        return draft
    why = "the hole leaves no room for a longer chamfer: the bottoming tap has 1 to 1.5 threads"
    return draft._replace(second=_SHORT, reasons=(*draft.reasons, why))


def _is_by_hand(request: TapRequest) -> bool:
    return request.tapping == "hand" and request.method == "cut"


def _by_hand(request: TapRequest) -> _Draft:
    """Hand taps: a long chamfer starts square and turns lightly, a bottoming one finishes a blind hole."""
    first = "taper" if _is_tough(request.material) else "plug"
    why = f"tapped by hand: a straight-flute hand tap with a {first} chamfer starts square and turns lightly"
    if request.hole_kind != "blind":
        return _Draft("straight_flute", first, None, (why,))
    return _Draft("straight_flute", first, "bottoming", (why, "the bottoming tap of the set finishes the thread"))


def _through(*, short: bool) -> _Draft:
    if short:
        return _Draft("straight_flute", "plug", None, ("through hole, chips break short: straight flutes are enough",))
    return _Draft("spiral_point", "plug", None, ("through hole: the spiral point pushes the chips ahead of the tap",))


def _blind(thread: Thread, request: TapRequest, *, short: bool) -> _Draft:
    style = "straight_flute" if short else "spiral_flute"
    why = (
        "blind hole, chips break short: straight flutes hold them"
        if short
        else "blind hole: the spiral flutes draw the chips out of the hole"
    )
    key, second, room = _blind_chamfer(thread, request, plug_first=short)
    return _Draft(style, key, second, (why, room))


def _blind_chamfer(thread: Thread, request: TapRequest, *, plug_first: bool) -> tuple[str, str | None, str]:
    if _fits("plug", thread, request) and (plug_first or _is_tough(request.material)):
        return "plug", None, "the hole leaves room for a plug chamfer, which spreads the cut over more teeth"
    if _fits("semi_bottoming", thread, request):
        return "semi_bottoming", None, "a semi-bottoming chamfer keeps the drilled depth short"
    return (
        "plug",
        "bottoming",
        "the hole leaves no room for the first tap's chamfer: a bottoming tap finishes the thread",
    )


def _forming(thread: Thread, request: TapRequest) -> _Draft:
    why = "a forming tap displaces metal and makes no chips"
    if request.hole_kind != "blind" or (request.chamfer_room is not None and _fits("forming_plug", thread, request)):
        return _Draft("forming", "forming_plug", None, (why, "the longer entry taper forms more gently"))
    return _Draft("forming", "forming_bottoming", None, (why, "the short entry taper reaches nearer the bottom"))


def _taper_pipe(thread: Thread, material: Material | None) -> _Draft:
    entry = "taper_pipe_iso" if traits(thread).taper_pipe == "iso" else "taper_pipe"
    tears = material is not None and (
        material.iso_group in ("M", "S") or (material.iso_group == "N" and material.chip_type == "long")
    )
    if tears:
        return _Draft(
            "interrupted",
            entry,
            None,
            ("taper thread in a metal that tears: every other tooth is left out of an interrupted-thread tap",),
        )
    return _Draft(
        "taper_pipe", entry, None, ("taper thread: its size is set by how deep the tap runs, gauged by turns",)
    )


def _roughing_and_finishing(request: TapRequest) -> _Draft:
    why = "the form is deep: a roughing tap takes most of the metal, a finishing tap sizes the flanks"
    last = "bottoming" if request.hole_kind == "blind" else "plug"
    return _Draft("straight_flute", "taper" if request.hole_kind != "blind" else "plug", last, (why,))


def _is_deep_form(thread: Thread) -> bool:
    """Whether a form of 30 degrees or less is cut about half a pitch deep (Acme, trapezoidal, square; not stub)."""
    if thread.thread_angle > _DEEP_FORM_DEG:
        return False
    height = thread.basic.major_diameter - thread.basic.minor_diameter
    return height >= _DEEP_FORM_PITCHES * thread.pitch


def _fits(key: str, thread: Thread, request: TapRequest) -> bool:
    room = request.chamfer_room
    return room is None or room.fits(chamfer(key).chamfer.threads_max * thread.pitch)


def _is_tough(material: Material | None) -> bool:
    if material is None:
        return False
    hard = material.hardness_hb is not None and material.hardness_hb >= _TOUGH_HB
    return hard or material.iso_group in ("M", "S", "H")


def _short_chips(habit: Habit, material: Material | None) -> bool:
    if habit.chips == "by_material":
        return material is not None and material.chip_type == "short"
    return habit.chips == "short"


def _room_cautions(thread: Thread, request: TapRequest, draft: _Draft) -> tuple[Caution, ...]:
    room = None if request.chamfer_room is None else request.chamfer_room.length
    last = draft.second or draft.chamfer
    if request.hole_kind != "blind" or room is None or _fits(last, thread, request):
        return ()
    needed = chamfer(last).chamfer.threads_max * thread.pitch
    return (
        Caution(
            "chamfer_room_short",
            f"the hole leaves {length(room, thread.unit)} below the full thread, a"
            f" {chamfer(last).chamfer.name.replace('_', '-')} chamfer takes up to {length(needed, thread.unit)}:"
            " drill deeper or shorten the thread",
        ),
    )


def _assumptions(request: TapRequest) -> tuple[str, ...]:
    said = []
    if request.hole_kind is None:
        said.append("whether the hole is blind or through was not given, so a tap that serves both is taken")
    if request.material is None:
        said.append("the part material was not given, so long chips and a plain tap are taken")
    return tuple(said)


@read_once
def _practice_sources() -> tuple[Source, ...]:
    locator = "style, grade and coat by hole and material"
    return tuple(Source(field, "shop practice", "", locator, "common_practice") for field in _PRACTICE_FIELDS)


@read_once
def _chamfers() -> Mapping[str, Chamfer]:
    return {row["key"]: _chamfer(row) for row in load("tap_chamfers").rows}


def _chamfer(row: Mapping[str, str]) -> Chamfer:
    status = cast(Status, row["status"])
    shape = TapChamfer(cast(ChamferName, row["name"]), Decimal(row["threads_min"]), Decimal(row["threads_max"]))
    return Chamfer(shape, Source("recommended.chamfer", row["document"], row["edition"], row["locator"], status))
