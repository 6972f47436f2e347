"""Reach: a hole at the bottom of a bore or beside a wall, and what its tools must be like.

The holder is taken to stay above the access, so a tool must reach the bottom and still leave shank to be held. Where
standard lengths are held (from memory) the shortest tool that does is named; where none are, the reach that is needed
and the kind of tool are told, never a guessed length.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from . import tool_lengths
from .errors import HoleError
from .model import MM_PER_INCH, Caution, Depths, Drill, Hole, Notes, Source, Step, Thread
from .rounding import half_even, plain
from .tool_lengths import DrillLength, TapLength

#: A shank no larger than the thread passes where the thread's own tap passes (geometry).
Shank = Literal["standard", "small_shank"]
#: Shank that a holder must have to grip, in diameters of the tool (our own limit).
GRIP_DIAMETERS = Decimal(2)
_PLACES = {"in": 3, "mm": 2}


@dataclass(frozen=True, slots=True)
class ToolReach:
    """A standard tool that reaches the bottom: its kind and, in the thread's unit, what it measures and leaves."""

    kind: str
    document: str
    overall_length: Decimal
    cutting_length: Decimal | None
    shank_diameter: Decimal | None
    left_for_holder: Decimal


@dataclass(frozen=True, slots=True, eq=False)
class Reach:
    """Reach from the top of the access to the deepest point of each tool, in the thread's unit.

    ``tap`` and ``drill`` are the shortest standard tools held that reach, None where no length is held that does.
    """

    access_depth: Decimal
    clearance_diameter: Decimal | None
    drill_reach: Decimal
    tap_reach: Decimal
    length: Literal["standard", "extended"]
    shank: Shank
    drill: ToolReach | None
    tap: ToolReach | None
    advice: tuple[str, ...]
    notes: Notes


@dataclass(frozen=True, slots=True)
class _Way:
    """What stands in the way of the tools, in the thread's unit."""

    thread: Thread
    access: Decimal
    clearance: Decimal | None
    drill_diameter: Decimal
    tip_depth: Decimal
    tap_travel: Decimal

    @property
    def drill_reach(self) -> Decimal:
        return self.access + self.tip_depth

    @property
    def tap_reach(self) -> Decimal:
        return self.access + self.tap_travel

    def say(self, length: Decimal) -> str:
        """A length with its unit."""
        return f"{plain(half_even(length, _PLACES[self.thread.unit]))} {self.thread.unit}"


def reach(thread: Thread, hole: Hole, *, depths: Depths, drill: Drill) -> Reach | None:
    """What the tools must reach, None where nothing stands above the entry face.

    Raises: HoleError ``hole_not_reachable`` when the clearance is smaller than the tools themselves, or when the
        longest standard tap that is held does not reach.
    Source: geometry; lengths of taps ASME B94.9, ISO 529, ISO 2283, of drills ISO 235, ISO 494, all from memory.
    """
    if hole.access_depth is None and hole.clearance_diameter is None:
        return None
    unit = thread.unit
    access = hole.access_depth.to(unit) if hole.access_depth is not None else Decimal(0)
    clearance = hole.clearance_diameter.to(unit) if hole.clearance_diameter is not None else None
    way = _Way(thread, access, clearance, drill.diameter(unit), depths.drill_tip_depth, depths.tap_travel)
    _passes(way)
    known_taps, known_drills = tool_lengths.taps_of(thread), tool_lengths.drills_of(drill)
    tap, drilled = _tap(way, known_taps), _drill(way, known_drills)
    extended = _is_extended(way, known_taps, tap), _is_extended(way, known_drills, drilled)
    shank: Shank = "small_shank" if _needs_small_shank(way, known_taps) else "standard"
    said = (_tap_words(way, tap, shank, extended=extended[0]), _drill_words(way, drill, drilled, extended=extended[1]))
    return Reach(
        access_depth=access,
        clearance_diameter=clearance,
        drill_reach=way.drill_reach,
        tap_reach=way.tap_reach,
        length="extended" if any(extended) else "standard",
        shank=shank,
        drill=drilled,
        tap=tap,
        advice=said,
        notes=Notes(_ASSUMED, tuple(_cautions(tap, drilled)), tuple(_sources(way, tap, drilled)), _steps(way)),
    )


_ASSUMED = (
    "the holder stays above the access; a tool leaves two diameters of shank to be held (our own limit)",
    "where the shank is not known, a clearance under twice the thread asks for one no larger than the thread",
)


def _passes(way: _Way) -> None:
    """Refuse a clearance that the tools themselves do not pass."""
    thread, clearance = way.thread, way.clearance
    widest = max(thread.internal.major_diameter.min or thread.nominal_diameter, way.drill_diameter)
    if clearance is not None and clearance < widest:
        raise HoleError(
            "hole_not_reachable",
            f"the tap is {way.say(widest)} wide: {way.say(widest - clearance)} of clearance are missing",
            pointer="/hole/clearance_diameter",
            allowed=(f"at least {way.say(widest)}",),
        )


def _tap(way: _Way, known: tuple[TapLength, ...]) -> ToolReach | None:
    """The shortest tap that reaches, None where no length is held or only standard ones, and those too short.

    Raises: HoleError ``hole_not_reachable`` when extended lengths are held and the longest is too short.
    """
    grip = GRIP_DIAMETERS * way.thread.nominal_diameter
    for one in known:
        left = one.overall - way.tap_reach
        if left >= grip:
            return ToolReach(one.kind, one.document, one.overall, one.thread, one.shank, left)
    longest = known[-1] if known else None
    if longest is None or longest.kind != "extended":
        return None
    missing = grip + way.tap_reach - longest.overall
    raise HoleError(
        "hole_not_reachable",
        f"the tap must reach {way.say(way.tap_reach)} and be held; the longest standard one held is"
        f" {way.say(longest.overall)} long ({longest.document}, from memory): {way.say(missing)} are missing. A special"
        " tap or a slim holder extension may reach: give the access that is left above it",
        pointer="/hole/access_depth",
        allowed=(f"at most {way.say(max(way.access - missing, Decimal(0)))}",),
    )


def _drill(way: _Way, known: tuple[DrillLength, ...]) -> ToolReach | None:
    """The shortest drill whose flutes hold the hole and whose length reaches, None where none is held that does."""
    scale = Decimal(1) if way.thread.unit == "mm" else 1 / MM_PER_INCH
    for one in known:
        flute, overall = one.flute_mm * scale, one.overall_mm * scale
        left = overall - way.drill_reach
        if flute >= way.tip_depth and left >= GRIP_DIAMETERS * way.drill_diameter:
            return ToolReach(one.series, one.document, overall, flute, way.drill_diameter, left)
    return None


def _is_extended(way: _Way, known: tuple[object, ...], found: ToolReach | None) -> bool:
    """Whether a tool longer than the usual one is needed: where no length is held, any access asks for it."""
    if found is not None:
        return found.kind not in ("standard", "jobber")
    return bool(known) or way.access > 0


def _needs_small_shank(way: _Way, known: tuple[TapLength, ...]) -> bool:
    """Whether the usual shank does not pass the clearance, or would enter a hole deeper than the tap's thread."""
    standard = next((one for one in known if one.kind == "standard"), None)
    if standard is None or standard.shank is None or standard.thread is None:
        return way.clearance is not None and way.clearance < 2 * way.thread.nominal_diameter
    narrow = way.clearance is not None and standard.shank >= way.clearance
    return narrow or (way.tap_travel > standard.thread and standard.shank >= way.drill_diameter)


def _tap_words(way: _Way, tap: ToolReach | None, shank: Shank, *, extended: bool) -> str:
    small = f", shank or neck slimmer than the {way.say(way.drill_diameter)} hole" if shank == "small_shank" else ""
    if tap is not None:
        kind = "extended-shank" if extended else "standard"
        return (
            f"tap: {kind} length, {way.say(tap.overall_length)} overall ({tap.document}), reaches"
            f" {way.say(way.tap_reach)} and leaves {way.say(tap.left_for_holder)} for the holder{small}"
        )
    kind = "an extended-shank" if extended else "a standard"
    return f"tap: {kind} tap that reaches {way.say(way.tap_reach)} below the top of the access{small}; length not held"


def _drill_words(way: _Way, drill: Drill, found: ToolReach | None, *, extended: bool) -> str:
    if found is not None:
        return (
            f"drill {drill.label}: {found.kind} length, {way.say(found.overall_length)} overall ({found.document}),"
            f" reaches {way.say(way.drill_reach)} and leaves {way.say(found.left_for_holder)} for the holder"
        )
    kind = "a long, taper-length or extra-length" if extended else "a standard"
    return (
        f"drill {drill.label}: {kind} drill that reaches {way.say(way.drill_reach)} from the top of the access, its"
        f" flutes at least {way.say(way.tip_depth)}; its length is not held"
    )


def _cautions(tap: ToolReach | None, drill: ToolReach | None) -> Iterator[Caution]:
    missing = [name for name, tool in (("tap", tap), ("drill", drill)) if tool is None]
    if missing:
        yield Caution(
            "tool_length_not_held",
            f"No length that reaches is held for the {' and the '.join(missing)}: compare the reach with flute and"
            " shank length of the tool at hand; long tools run slower and wander more.",
        )
    if len(missing) < 2:
        yield Caution(
            "tool_length_from_memory",
            "Lengths of taps and drills are from memory: check flute, thread and shank of the tool at hand; long tools"
            " run slower and wander more.",
        )


def _sources(way: _Way, tap: ToolReach | None, drill: ToolReach | None) -> Iterator[Source]:
    yield Source("drill_reach", "geometry", "", "access depth plus depth of the tip", "computed")
    if tap is not None:
        yield tool_lengths.tap_source("tap.overall_length", way.thread)
    if drill is not None:
        yield tool_lengths.drill_source("drill.overall_length")


def _steps(way: _Way) -> tuple[Step, ...]:
    inputs = {"access": way.access, "tip": way.tip_depth, "travel": way.tap_travel}
    unit = way.thread.unit
    return (
        Step("drill_reach", "access + tip", inputs, way.drill_reach, unit, "geometry"),
        Step("tap_reach", "access + travel", inputs, way.tap_reach, unit, "geometry"),
    )
