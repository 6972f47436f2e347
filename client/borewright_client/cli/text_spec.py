"""The sheet of a whole specification, in the order in which a hole is planned."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from .sheet import Paint, Row, Sheet
from .text_parts import (
    LimitRow,
    finish_name,
    first,
    limits_of,
    limits_table,
    listed_drills,
    listed_taps,
    pipe_rows,
    reasons,
    remarks,
    screw_limits,
    standard_line,
    tap_rows,
)
from .words import Reply, evenly, number, percent, plain, window, with_unit

_DEPTHS = ("full_thread_depth", "drill_depth", "drill_tip_depth", "tap_travel", "chamfer_length", "breakthrough",
           "wall_left")  # fmt: skip
_CHANCES = (("minor_diameter", "minor diameter in limits"), ("pitch_diameter", "pitch diameter in limits"),
            ("both", "both"))  # fmt: skip
#: Rows of the cutting data: name, field, unit.
_CUTS = (
    ("cutting speed", "cutting_speed", "cutting_speed"),
    ("spindle speed", "spindle_speed", None),
    ("feed", "feed", "feed"),
    ("torque", "torque", "torque"),
    ("power", "power", "power"),
    ("thrust", "thrust", "force"),
    ("time", "time", None),
)
#: Rows of the comparison of two drills: name, what is shown of each, unit.
_COMPARED: tuple[tuple[str, Callable[[Reply], str], str], ...] = (
    ("drill", lambda option: str(option["label"]), ""),
    ("mean hole", lambda option: number(option["hole_diameter"]), "length"),
    ("percent of thread", lambda option: number(option["expected_percent_thread"]), "%"),
    ("torque to tap", lambda option: _figure(option["torque"]), "torque"),
    ("margin to breaking", lambda option: _figure(option["break_margin"]), "times"),
    ("safety factor", lambda option: number(option["safety_factor"]), ""),
    ("fails first", lambda option: plain(option["fails_first"]), ""),
    ("holes in limits", lambda option: percent(option["acceptance"]), ""),
)
#: The limits by what they are for, in words.
_PURPOSES = {"to_tap": "to tap", "finished": "finished"}
_UNITS = {"spindle_speed": "rev/min", "time": "s"}


def spec(reply: Reply, paint: Paint | None = None) -> str:
    """A complete hole specification."""
    units = reply["units"]
    sheet = Sheet(paint)
    name = "  ".join(filter(None, (reply.get("id"), reply["thread"]["designation"])))
    material = (reply.get("material") or {}).get("name")
    about = "; ".join(filter(None, (material, f"lengths in {units['length']}")))
    sheet.title(name, standard_line(reply["thread"]), about)
    first(sheet, reply)
    _limits(sheet, reply)
    pipe_rows(sheet, reply["thread"])
    if reply["drill"]:
        listed_drills(sheet, reply["drill"])
        reasons(sheet, "Why this drill", reply["drill"]["recommended"]["reasons"])
    if reply["tap"]:
        _tap(sheet, reply["tap"], units["length"])
    _depths(sheet, reply)
    _comparison(sheet, reply.get("comparison"), units)
    _cutting(sheet, reply.get("cutting_data"), units)
    _strength(sheet, reply.get("strength"), units)
    _chances(sheet, reply.get("acceptance"))
    _gauges(sheet, reply.get("gauging"))
    sheet.heading("Operations")
    sheet.rows((f"{line['sequence']:>3}", line["text"]) for line in reply["operations"])
    remarks(sheet, reply)
    sheet.heading("Record")
    sheet.rows(
        [("specification", reply["spec_id"]), ("tables", reply["tables_version"]), ("rules", reply["rules_version"])]
    )
    return str(sheet)


def _limits(sheet: Sheet, reply: Reply) -> None:
    finish = reply.get("finish")
    rows = [*_by_purpose(reply)]
    if (reply.get("drill") or {}).get("hole_limits"):
        rows.append(LimitRow("hole, by length of engagement", reply["drill"]["hole_limits"]))
    limits_table(sheet, "Limits of size", rows)
    purpose = reply["limits"]
    if purpose["to_tap"] != purpose["finished"]:
        sheet.rows([("gauge after tapping", f"by the limits {_PURPOSES[purpose['gauge_now']]}")])
    if finish:
        sheet.heading("Finish")
        sheet.rows(_finish_rows(finish, reply["units"]["length"]))


def _by_purpose(reply: Reply) -> Iterator[LimitRow]:
    """The limits that the tap must make, those of the finished part where they differ, and those of the screw."""
    purpose, thread = reply["limits"], reply["thread"]
    same = purpose["to_tap"] == purpose["finished"]
    yield from limits_of("" if same else _PURPOSES["to_tap"], purpose["to_tap"])
    if not same:
        yield from limits_of(_PURPOSES["finished"], purpose["finished"])
    yield from screw_limits(thread)


def _finish_rows(finish: Reply, unit: str) -> Iterator[Row]:
    yield "specification", finish_name(finish["finish"])
    yield "thickness a surface", window(finish["finish"]["thickness"], unit)
    yield "can be made", "yes" if finish["feasible"] else "no"
    for remedy in finish.get("remedies", []):
        yield "would help", remedy


def _tap(sheet: Sheet, tap: Reply, unit: str) -> None:
    sheet.heading("Tap")
    sheet.rows(tap_rows(tap["recommended"], unit))
    reasons(sheet, "Why this tap", tap["recommended"]["reasons"])
    listed_taps(sheet, tap)


def _depths(sheet: Sheet, reply: Reply) -> None:
    depths = reply["depths"]
    names = [name for name in _DEPTHS if depths.get(name) is not None]
    rows = zip(map(plain, names), evenly(depths[name] for name in names), strict=True)
    sheet.table("Depths from the entry face", ("",), [*rows])
    if depths.get("countersink_diameter") is not None:
        width, angle = number(depths["countersink_diameter"]), number(depths.get("countersink_angle"))
        sheet.rows([("countersink", f"{width} {reply['units']['length']} diameter, {angle} degrees")])
    if depths.get("counterbore_diameter") is not None:
        sheet.rows([_counterbore(depths, reply["units"]["length"])])
    reasons(sheet, "Reach of the tools", (reply.get("reach") or {}).get("advice", ()))


def _counterbore(depths: Reply, unit: str) -> tuple[str, str]:
    wide = f"{number(depths['counterbore_diameter'])} {unit} diameter"
    deep = depths.get("counterbore_depth")
    return ("spotface", wide) if deep is None else ("counterbore", f"{wide}, {number(deep)} {unit} deep")


def _comparison(sheet: Sheet, compared: Reply | None, units: Reply) -> None:
    """The chart's drill beside the one for least torque."""
    if not compared:
        return
    options = [compared[name] for name in ("chart", "least_torque")]
    rows = [[title, *(show(option) for option in options), units.get(unit, unit)] for title, show, unit in _COMPARED]
    sheet.table("Least torque", ("by chart", "taken", ""), rows)
    reasons(sheet, "What it gains", compared["reasons"])


def _cutting(sheet: Sheet, data: Reply | None, units: Reply) -> None:
    if not data:
        return
    drill, tap = data.get("drill") or {}, data.get("tap") or {}
    rows = [
        [name, _figure(drill.get(field)), _figure(tap.get(field)), _UNITS.get(field) or units[unit or ""]]
        for name, field, unit in _CUTS
    ]
    sheet.table("Cutting data", ("drilling", "tapping", ""), rows)
    sheet.rows(_fluid_rows(data, drill.get("peck") or {}))
    if tap.get("torque"):
        _torque(sheet, tap, units["torque"])


def _figure(value: Reply | float | None) -> str:
    return number(value.get("value") if isinstance(value, dict) else value)


def _fluid_rows(data: Reply, peck: Reply) -> Iterator[Row]:
    fluid = data.get("fluid") or {}
    if peck.get("first") is not None:
        yield "pecks", f"{peck['count']}, the first {number(peck['first'])}, each more {number(peck['next'])}"
    if fluid.get("drilling"):
        yield "fluid", f"drilling: {fluid['drilling']}"
    if fluid.get("tapping"):
        yield "fluid" if not fluid.get("drilling") else "", f"tapping: {fluid['tapping']}"


def _torque(sheet: Sheet, tap: Reply, unit: str) -> None:
    rows = [
        [f"{title} ({of})", *(number(tap[field][part]) for part in ("low", "value", "high"))]
        for title, field, of in (
            ("torque to tap", "torque", unit),
            ("torque that breaks the tap", "breaking_torque", unit),
            ("margin to breaking", "break_margin", "times"),
        )
        if tap.get(field)
    ]
    sheet.table("Torque of the tap", ("low", "likely", "high"), rows)
    if tap.get("clutch_torque") is not None:
        sheet.rows([("set the clutch to", with_unit(tap["clutch_torque"], unit))])


def _strength(sheet: Sheet, strength: Reply | None, units: Reply) -> None:
    if not strength:
        return
    sheet.heading("Strength")
    sheet.rows(_strength_rows(strength, units["force"], units["length"]))


def _strength_rows(strength: Reply, force: str, length: str) -> Iterator[Row]:
    grade = strength.get("screw_grade")
    yield f"screw {grade or ''}".strip() + " breaks at", with_unit(strength["screw_tensile_force"], force)
    yield "thread in the part strips at", with_unit(strength["internal_strip_force"], force)
    yield "thread of the screw strips at", with_unit(strength["external_strip_force"], force)
    yield "fails first", plain(strength["fails_first"])
    yield "engagement", with_unit(strength["length_of_engagement"], length)
    yield "engagement needed", with_unit(strength["required_length"], length)
    yield "safety factor", number(strength["safety_factor"])


def _chances(sheet: Sheet, acceptance: Reply | None) -> None:
    if acceptance:
        sheet.heading("Acceptance to expect")
        sheet.rows((text, percent(acceptance.get(name))) for name, text in _CHANCES)
        if acceptance.get("model"):
            sheet.rows([("", acceptance["model"])], sheet.paint.faint)


def _gauges(sheet: Sheet, gauging: Reply | None) -> None:
    if not gauging:
        return
    rows = [*_gauge_limits("", gauging), *_gauge_limits("before finish, ", gauging.get("before_finish") or {})]
    limits_table(sheet, "Gauges", rows)
    reasons(sheet, "Gauging", gauging["acceptance"])


def _gauge_limits(condition: str, gauges: Reply) -> Iterator[LimitRow]:
    plug, plain_plug = gauges.get("thread_plug") or {}, gauges.get("plain_plug") or {}
    for side, name in (("go", "GO"), ("not_go", "NOT GO")):
        for part in ("pitch_diameter", "major_diameter"):
            if (plug.get(side) or {}).get(part):
                yield LimitRow(f"{condition}{name} thread plug, {plain(part)}", plug[side][part])
    for side, name in (("go", "GO"), ("not_go", "NOT GO")):
        if plain_plug.get(side):
            yield LimitRow(f"{condition}{name} plain plug", plain_plug[side])
