"""The operations of a routing: sequence, tool, parameters and ready-to-print text.

The order is what the shop does: hot-dip zinc goes on before the thread is tapped, every other coat after it; a
thread that is coated is gauged before the finish (with before-finish limits) and again afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from .machining.records import CuttingData
from .model import MM_PER_INCH, Allowance, Depths, DrillChoice, Hole, Material, Range, Tap, TapChoice, Thread, Unit
from .rounding import half_even, plain

SEQUENCE_STEP = 10
#: Above what is left for a machine reamer on diameter (TM 1-420 par. 37, twice its upper end) the hole is bored.
_MOST_REAMED: dict[Unit, Decimal] = {"in": Decimal("0.020"), "mm": Decimal("0.5")}


@dataclass(frozen=True, slots=True)
class Operation:
    """One line of a routing. A Decimal in ``tool`` or ``parameters`` is a length in the thread's unit."""

    sequence: int
    operation: str
    tool: Mapping[str, object]
    parameters: Mapping[str, object]
    time_s: float | None
    text: str


@dataclass(frozen=True, slots=True)
class _Line:
    operation: str
    tool: Mapping[str, object]
    parameters: Mapping[str, object]
    text: str
    time_s: float | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything the operations are written from."""

    thread: Thread
    hole: Hole
    allowance: Allowance | None
    to_make: Range
    drill: DrillChoice
    tap: TapChoice
    depths: Depths
    cutting: CuttingData | None = None
    material: Material | None = None


def operations(plan: Plan) -> tuple[Operation, ...]:
    """The operations of one hole in shop order, numbered by tens."""
    lines = [*_hole_making(plan), *_threading_and_finish(plan)]
    return tuple(
        Operation(SEQUENCE_STEP * number, line.operation, line.tool, line.parameters, line.time_s, line.text)
        for number, line in enumerate(lines, start=1)
    )


def _hole_making(plan: Plan) -> Iterator[_Line]:
    depths, drill = plan.depths, plan.drill.recommended
    yield _Line(
        "spot_drill",
        {"kind": "spot drill", "included_angle": _spot_angle(plan)},
        {"diameter": depths.countersink_diameter},
        f"Spot drill, {plain(_spot_angle(plan))} degree point",
    )
    where = _depth_words(plan)
    yield _Line(
        "drill",
        {
            "kind": "twist drill",
            "label": drill.drill.label,
            "series": drill.drill.series,
            "diameter": drill.diameter,
            "point_angle": plan.hole.point_angle_deg,
        },
        {
            "depth": depths.drill_depth,
            "tip_depth": depths.drill_tip_depth,
            "breakthrough": depths.breakthrough,
            **_drill_cut(plan),
        },
        f"Drill {_drill_name(plan)} {where}{_drill_words(plan)}",
        plan.cutting.drill.time_s if plan.cutting is not None and plan.cutting.drill is not None else None,
    )
    if drill.operation == "drill_and_ream":
        yield _ream(plan)
    yield _Line(
        "countersink",
        {"kind": "countersink", "included_angle": depths.countersink_angle_deg},
        {"diameter": depths.countersink_diameter},
        f"Countersink {_say(plan, depths.countersink_diameter)} diameter,"
        f" {plain(depths.countersink_angle_deg)} degrees",
    )


def _ream(plan: Plan) -> _Line:
    if plan.thread.taper is not None:
        return _Line(
            "ream",
            {"kind": "taper reamer", "taper": "1 in 16 on diameter"},
            {"depth": plan.depths.full_thread_depth},
            f"Taper ream 1 in 16, {_say(plan, plan.depths.full_thread_depth)} deep",
        )
    size = plan.drill.ream_diameter or plan.drill.target_hole_diameter
    boring = size - plan.drill.recommended.diameter > _MOST_REAMED[plan.thread.unit]
    return _Line(
        "bore" if boring else "ream",
        {"kind": "boring bar" if boring else "reamer", "diameter": size},
        {"depth": plan.depths.drill_depth},
        f"{'Bore' if boring else 'Ream'} {_say(plan, size)} diameter",
    )


def _threading_and_finish(plan: Plan) -> Iterator[_Line]:
    allowance = plan.allowance
    applied = allowance.finish.applied if allowance is not None and allowance.feasible else "masked"
    if allowance is None:
        yield from _taps(plan)
        yield _inspect(plan, "Inspect thread")
    elif applied == "after_finish":
        yield _finish(plan, allowance, "Finish before tapping")
        yield from _taps(plan)
        yield _inspect(plan, "Inspect thread (tapped after the finish)")
    elif applied == "masked":
        yield from _taps(plan)
        yield _inspect(plan, "Inspect thread")
        yield _wash()
        yield _Line("mask", {"kind": "plug or stop-off"}, {}, f"Mask or plug thread {plan.thread.designation}")
        yield from _finished(plan, allowance)
        yield _Line("strip", {"kind": "mask"}, {}, f"Remove mask and leakage from thread {plan.thread.designation}")
        yield _Line("inspect", {"kind": "thread plug gauge"}, {}, f"Check unmasked thread {plan.thread.designation}")
    else:
        yield from _taps(plan)
        yield _inspect(plan, "Inspect thread before finish, with before-finish gauges")
        yield _wash()
        yield from _finished(plan, allowance)
        yield _Line(
            "inspect",
            {"kind": "thread plug gauge", "condition": "finished"},
            _limits(plan.thread.internal.pitch_diameter),
            f"Inspect finished thread {plan.thread.designation} with GO and NOT GO thread plugs",
        )


def _wash() -> _Line:
    return _Line("wash", {"kind": "wash"}, {}, "Wash chips and fluid out of the hole")


def _finished(plan: Plan, allowance: Allowance) -> Iterator[_Line]:
    """The finish, and the bake that its standard may ask of hard steel."""
    yield _finish(plan, allowance, "Finish")
    bake = next((note for note in allowance.notes.cautions if note.code == "hydrogen_embrittlement"), None)
    if bake is not None and plan.material is not None:
        yield _Line("bake", {"kind": "oven"}, {}, f"Bake against hydrogen embrittlement where it applies. {bake.text}")


def _taps(plan: Plan) -> Iterator[_Line]:
    first, second = plan.tap.recommended, plan.tap.second_tap
    yield _tap(plan, first, last=second is None)
    if second is not None:
        yield _tap(plan, second, last=True)


def _tap(plan: Plan, tap: Tap, *, last: bool) -> _Line:
    style = tap.style.replace("_", " ")
    chamfer = tap.chamfer.name.replace("_", "-")
    deep = f"full thread {_say(plan, plan.depths.full_thread_depth)} deep" if last else "ahead of the second tap"
    return _Line(
        "tap",
        {
            "kind": "tap",
            "marking": tap.marking,
            "style": tap.style,
            "chamfer": tap.chamfer.name,
            "limit": tap.limit.label if tap.limit is not None else None,
            "substrate": tap.substrate,
            "surface": tap.surface,
        },
        {
            "full_thread_depth": plan.depths.full_thread_depth,
            "travel": plan.depths.tap_travel,
            "lead": plan.thread.lead,
        },
        f"Tap {tap.marking}, {style}, {chamfer} chamfer, {deep}{_tap_words(plan)}",
        plan.cutting.tap.time_s if plan.cutting is not None and plan.cutting.tap is not None else None,
    )


def _drill_cut(plan: Plan) -> dict[str, object]:
    cut = plan.cutting.drill if plan.cutting is not None else None
    if cut is None:
        return {}
    peck = cut.peck
    pecks = {} if peck.first_mm is None else {"pecks": peck.count, "first_peck": _length(plan, peck.first_mm)}
    return {"spindle_speed": cut.spindle_speed_rpm, "feed": _length(plan, cut.feed_mm_rev), **pecks}


def _drill_words(plan: Plan) -> str:
    cut = plan.cutting.drill if plan.cutting is not None else None
    if cut is None:
        return ""
    pecks = "" if cut.peck.first_mm is None else f", {cut.peck.count} pecks"
    return f", {cut.spindle_speed_rpm} rev/min, feed {_length(plan, cut.feed_mm_rev)} {plan.thread.unit}/rev{pecks}"


def _tap_cut(plan: Plan) -> dict[str, object]:
    cut = plan.cutting.tap if plan.cutting is not None else None
    return {} if cut is None or cut.spindle_speed_rpm is None else {"spindle_speed": cut.spindle_speed_rpm}


def _tap_words(plan: Plan) -> str:
    cut = plan.cutting.tap if plan.cutting is not None else None
    if cut is None:
        return ""
    speed = "by hand" if cut.spindle_speed_rpm is None else f"{cut.spindle_speed_rpm} rev/min"
    fluid = plan.cutting.fluid if plan.cutting is not None else None
    return f", {speed}" + (f", {fluid.tapping}" if fluid is not None else "")


def _length(plan: Plan, millimetres: float) -> Decimal:
    """A length of the cutting data in the thread's unit."""
    exact = Decimal(repr(millimetres))
    return half_even(exact / MM_PER_INCH, 4) if plan.thread.unit == "in" else half_even(exact, 3)


def _finish(plan: Plan, allowance: Allowance, word: str) -> _Line:
    finish = allowance.finish
    name = (
        " ".join(part for part in (finish.specification, finish.finish_class) if part) or finish.process or "as given"
    )
    return _Line(
        "finish",
        {"kind": finish.process or "finish"},
        {"specification": finish.specification, "class": finish.finish_class, "thickness": finish.thickness},
        f"{word}: {name}",
    )


def _inspect(plan: Plan, words: str) -> _Line:
    pitch = plan.to_make
    return _Line(
        "inspect",
        {"kind": "thread plug gauge and plain plug gauge"},
        _limits(pitch),
        f"{words}: {plan.thread.designation}{_window(plan, pitch)}",
    )


def _limits(pitch: Range) -> dict[str, object]:
    return {"pitch_diameter": pitch}


def _window(plan: Plan, pitch: Range) -> str:
    if pitch.min is None or pitch.max is None:
        return ""
    return f", pitch diameter {pitch.min} to {pitch.max} {plan.thread.unit}"


def _spot_angle(plan: Plan) -> Decimal:
    """A spot drill's angle is at least the drill's (common practice): 120 for 118, else 140 or more."""
    return Decimal(120) if plan.hole.point_angle_deg <= 120 else max(Decimal(140), plan.hole.point_angle_deg)


def _drill_name(plan: Plan) -> str:
    drill = plan.drill.recommended
    return f"{drill.drill.label} ({_say(plan, drill.diameter)})"


def _depth_words(plan: Plan) -> str:
    if plan.hole.kind == "through":
        return f"through {_say(plan, plan.depths.drill_depth)}"
    return f"{_say(plan, plan.depths.drill_depth)} deep at full diameter, tip {_say(plan, plan.depths.drill_tip_depth)}"


def _say(plan: Plan, length: Decimal) -> str:
    places = 4 if plan.thread.unit == "in" else 2
    return f"{plain(half_even(length, places))} {plan.thread.unit}"
