"""Cutting data, strength, gauges, chance of acceptance and drill comparison as sections of a reply."""

from __future__ import annotations

from borewright.contract.unit_view import Json, UnitView, number_or_none, significant
from borewright.core.caches import cached
from borewright.core.chance.acceptance import Acceptance
from borewright.core.cutting.records import CuttingData, DrillCut, TapCut, ToolsData
from borewright.core.cutting.torque import Band
from borewright.core.gauging import GaugeSet, Gauging, PlainPlug, ThreadMember, ThreadPlug
from borewright.core.joint.least_torque import Comparison, Option
from borewright.core.joint.strength import Strength

from .fixed import Fixed
from .parts import Part, part

_CACHED = 256
_MM_PER_INCH = 25.4


def cutting_part(data: CuttingData, figures: UnitView) -> Part:
    """Cutting data of drill and tap: those of the tools with pecks and times."""
    known = _tools_part(data.tools, figures)
    body = {**known.body, "drill": _drill(data, known, figures), "tap": _tap(data, known)}
    return Part(Fixed(body), data.notes, "cutting_data.", known.sources)


@cached(_CACHED)
def _tools_part(data: ToolsData, figures: UnitView) -> Part:
    """Cutting data of the tools, whatever the depth."""
    body: Json = {
        "drill": None if data.drill is None else _drill_cut(data.drill, figures),
        "tap": None if data.tap is None else _tap_cut(data.tap, figures),
        "fluid": None if data.fluid is None else {"drilling": data.fluid.drilling, "tapping": data.fluid.tapping},
    }
    return part(body, data.notes, "cutting_data.")


def _drill(data: CuttingData, known: Part, figures: UnitView) -> Json | None:
    cut, peck = known.body["drill"], data.peck
    if not isinstance(cut, dict) or peck is None:
        return None
    pecks = {
        "depth_over_diameter": significant(peck.depth_over_diameter),
        "first": _millimetres(peck.first_mm, figures),
        "next": _millimetres(peck.next_mm, figures),
        "count": peck.count,
    }
    return {**cut, "time": significant(data.drill_time_s), "peck": pecks}


def _tap(data: CuttingData, known: Part) -> Json | None:
    cut = known.body["tap"]
    return {**cut, "time": significant(data.tap_time_s)} if isinstance(cut, dict) else None


def strength_part(strength: Strength, figures: UnitView) -> Part:
    """Strength of the joint."""
    body: Json = {
        "length_of_engagement": figures.length(strength.length_of_engagement),
        "complete_length": figures.length(strength.complete_length),
        "required_length": figures.length(strength.required_length),
        "screw_grade": strength.grade.label,
        "screw_tensile_force": figures.physical("force", strength.screw_tensile_force_n),
        "internal_strip_force": figures.physical("force", strength.internal_strip_force_n),
        "external_strip_force": figures.physical("force", strength.external_strip_force_n),
        "fails_first": strength.fails_first,
        "safety_factor": significant(strength.safety_factor),
    }
    return part(body, strength.notes, "strength.")


@cached(_CACHED)
def gauging_part(gauging: Gauging, figures: UnitView) -> Part:
    """Gauges of the finished thread and, where they differ, of the thread before its finish."""
    before = gauging.before_finish
    body: Json = {
        **_set(gauging.finished, figures),
        "before_finish": None if before is None else _set(before, figures),
        "acceptance": figures.texts(gauging.acceptance),
    }
    return part(body, gauging.notes, "gauging.")


@cached(_CACHED)
def acceptance_part(acceptance: Acceptance) -> Part:
    """Chance that the sizes end inside their limits."""
    body: Json = {
        "minor_diameter": significant(acceptance.minor_diameter),
        "pitch_diameter": significant(acceptance.pitch_diameter),
        "both": significant(acceptance.both),
        "model": acceptance.model,
    }
    return part(body, acceptance.notes, "acceptance.")


def comparison_part(comparison: Comparison, figures: UnitView) -> Part:
    """The chart's drill against the least-torque drill."""
    body: Json = {
        "chart": _option(comparison.chart, figures),
        "least_torque": _option(comparison.least_torque, figures),
        "torque_ratio": significant(comparison.torque_ratio),
        "strength_ratio": significant(comparison.strength_ratio),
        "margin_gained": significant(comparison.margin_gained),
        "reasons": figures.texts(comparison.reasons),
    }
    return part(body, comparison.notes, "comparison.")


def _drill_cut(cut: DrillCut, figures: UnitView) -> Json:
    low, high = cut.speed_range_m_min
    return {
        "cutting_speed": figures.physical("cutting_speed", cut.cutting_speed_m_min),
        "cutting_speed_range": _span(figures, low, high),
        "spindle_speed": cut.spindle_speed_rpm,
        "feed": _millimetres(cut.feed_mm_rev, figures),
        "torque": figures.physical("torque", cut.torque_n_m),
        "power": figures.physical("power", cut.power_kw),
        "thrust": figures.physical("force", cut.thrust_n),
    }


def _tap_cut(cut: TapCut, figures: UnitView) -> Json:
    speeds = cut.speed_range_m_min
    return {
        "cutting_speed": figures.physical("cutting_speed", cut.cutting_speed_m_min),
        "cutting_speed_range": None if speeds is None else _span(figures, *speeds),
        "spindle_speed": cut.spindle_speed_rpm,
        "feed": _millimetres(cut.feed_mm_rev, figures),
        "torque": _torque(cut.torque, figures),
        "breaking_torque": _torque(cut.breaking_torque, figures),
        "break_margin": _band(cut.break_margin),
        "clutch_torque": figures.physical("torque", cut.clutch_torque_n_m),
        "power": figures.physical("power", cut.power_kw),
    }


def _span(figures: UnitView, low: float, high: float) -> Json:
    return {"min": figures.physical("cutting_speed", low), "max": figures.physical("cutting_speed", high)}


def _torque(band: Band | None, figures: UnitView) -> Json | None:
    if band is None:
        return None
    named = {"value": band.value, "low": band.low, "high": band.high}
    return {name: figures.physical("torque", value) for name, value in named.items()}


def _band(band: Band | None) -> Json | None:
    if band is None:
        return None
    return {"value": significant(band.value), "low": significant(band.low), "high": significant(band.high)}


def _set(gauges: GaugeSet, figures: UnitView) -> Json:
    thread, plain = gauges.thread_plug, gauges.plain_plug
    return {
        "thread_plug": None if thread is None else _thread_plug(thread, figures),
        "plain_plug": None if plain is None else _plain_plug(plain, figures),
    }


def _thread_plug(plug: ThreadPlug, figures: UnitView) -> Json:
    return {
        "system": plug.system,
        "tolerance": plug.tolerance,
        "go": _member(plug.go, figures),
        "not_go": _member(plug.not_go, figures),
    }


def _member(member: ThreadMember, figures: UnitView) -> Json:
    return {
        "pitch_diameter": figures.range(member.pitch_diameter),
        "major_diameter": None if member.major_diameter is None else figures.range(member.major_diameter),
        "wear_limit": figures.length_or_none(member.wear_limit),
    }


def _plain_plug(plug: PlainPlug, figures: UnitView) -> Json:
    return {"class": plug.gauge_class, "go": figures.range(plug.go), "not_go": figures.range(plug.not_go)}


def _option(option: Option, figures: UnitView) -> Json:
    strength = option.strength
    return {
        "label": option.drill.drill.label,
        "diameter": figures.length(option.drill.diameter),
        "hole_diameter": figures.length(option.hole_diameter),
        "expected_percent_thread": number_or_none(option.expected_percent_thread),
        "torque": _torque(option.torque, figures),
        "break_margin": _band(option.break_margin),
        "safety_factor": None if strength is None else significant(strength.safety_factor),
        "fails_first": None if strength is None else strength.fails_first,
        "acceptance": significant(option.minor_diameter_chance),
    }


def _millimetres(value_mm: float | None, figures: UnitView) -> float | None:
    """A length of the cutting data in the asked unit, to four significant digits."""
    if value_mm is None:
        return None
    return significant(value_mm / _MM_PER_INCH if figures.asked == "in" else value_mm)
