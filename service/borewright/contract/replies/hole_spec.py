"""The complete specification of a tapped hole, section by section, in the order of the contract."""

from __future__ import annotations

from collections.abc import Mapping

import orjson

from borewright.contract.reading import Asked
from borewright.contract.spec_id import spec_id
from borewright.contract.unit_view import Json, UnitView, number, number_or_none, view
from borewright.core.caches import cached
from borewright.core.hole.reach import Reach
from borewright.core.hole.tool_reach import ToolReach
from borewright.core.model import Depths, Material, Notes, Unit
from borewright.core.plan.operation import Line
from borewright.core.plan.process import Process
from borewright.core.plan.specification import Specification
from borewright.core.requests import HoleSpecRequest

from .detail import shown
from .drill import drill_part
from .finish import finish_part
from .fixed import Fixed
from .parts import Part, close, close_in_pieces, part, review
from .pieces import Array, Pieces
from .process import acceptance_part, comparison_part, cutting_part, gauging_part, strength_part
from .tap import tap_part
from .thread import thread_part

_CACHED = 256


def hole_spec_reply(spec: Specification, asked: Asked[HoleSpecRequest]) -> Json:
    """Reply of POST /v1/hole-specs."""
    figures = view(spec.thread.unit, asked.unit)
    sections, body = _sections(spec, figures, asked.unit), _head(spec, figures)
    body.update((name, None if section is None else section.body) for name, section in sections.items())
    body["operations"] = [operation.value for operation in _operations(spec, figures)]
    return shown(close(body, _parts(sections, spec), figures, explain=asked.explain), asked.detail)


def hole_spec_pieces(spec: Specification, asked: Asked[HoleSpecRequest]) -> Pieces:
    """The same reply as JSON, in pieces: what it shares with other replies is written once for all of them."""
    if asked.detail != "full":
        return (orjson.dumps(hole_spec_reply(spec, asked)),)
    figures = view(spec.thread.unit, asked.unit)
    sections, body = _sections(spec, figures, asked.unit), _head(spec, figures)
    body.update((name, None if section is None else section.fixed) for name, section in sections.items())
    body["operations"] = Array([operation.text for operation in _operations(spec, figures)])
    return close_in_pieces(body, _parts(sections, spec), figures, explain=asked.explain)


def _head(spec: Specification, figures: UnitView) -> Json:
    return {
        "id": spec.request.id,
        "spec_id": spec_id(spec.request, figures.asked),
        "verdict": spec.verdict,
        "review": review(spec.review, figures),
        "headline": {
            name: figures.text(getattr(spec.headline, name)) for name in ("drill", "tap", "depth", "speed", "gauge")
        },
        "limits": {
            "to_tap": figures.diameters(spec.limits.to_tap),
            "finished": figures.diameters(spec.limits.finished),
            "gauge_now": spec.limits.gauge_now,
        },
    }


def _sections(spec: Specification, figures: UnitView, unit: Unit | None) -> dict[str, Part | None]:
    thread = spec.thread
    return {
        "thread": thread_part(thread, unit, "thread."),
        "finish": None if spec.allowance is None else finish_part(spec.allowance, thread, unit, "finish."),
        "material": None if spec.material is None else _material(spec.material, figures),
        "drill": None if spec.drill is None else drill_part(spec.drill, thread, unit, "drill."),
        "tap": None if spec.tap is None else tap_part(spec.tap, thread, unit, "tap."),
        "depths": part(_depths(spec.depths, figures), spec.depths.notes, "depths."),
        "reach": None if spec.reach is None else part(_reach(spec.reach, figures), spec.reach.notes, "reach."),
        **_process(spec.process, figures),
    }


def _parts(sections: Mapping[str, Part | None], spec: Specification) -> list[Part]:
    return [*(section for section in sections.values() if section is not None), part({}, spec.notes)]


def _operations(spec: Specification, figures: UnitView) -> list[Fixed[Json]]:
    return [_operation(one.sequence, one.line, figures) for one in spec.operations]


def _process(process: Process, figures: UnitView) -> dict[str, Part | None]:
    data, strength, compared = process.cutting, process.strength, process.comparison
    return {
        "cutting_data": None if data is None else cutting_part(data, figures),
        "strength": None if strength is None else strength_part(strength, figures),
        "gauging": gauging_part(process.gauging, figures),
        "acceptance": acceptance_part(process.acceptance),
        "comparison": None if compared is None else comparison_part(compared, figures),
    }


@cached(_CACHED)
def _material(material: Material, figures: UnitView) -> Part:
    """The part material as far as it is known; its notes are joined by the orchestrator."""
    body: Json = {
        "name": material.name,
        "family": material.family,
        "iso_group": material.iso_group,
        "chip_type": material.chip_type,
        "hardness": {"hb": number_or_none(material.hardness_hb), "hrc": number_or_none(material.hardness_hrc)},
        "tensile_strength": figures.physical("stress", material.tensile_strength_mpa),
        "yield_strength": figures.physical("stress", material.yield_strength_mpa),
        "shear_strength": figures.physical("stress", material.shear_strength_mpa),
        "value_basis": material.value_basis,
    }
    return part(body, Notes())


def _depths(depths: Depths, figures: UnitView) -> Json:
    return {
        "drill_depth": figures.length(depths.drill_depth),
        "drill_tip_depth": figures.length(depths.drill_tip_depth),
        "full_thread_depth": figures.length(depths.full_thread_depth),
        "tap_travel": figures.length(depths.tap_travel),
        "chamfer_length": figures.length(depths.chamfer_length),
        "countersink_diameter": figures.length(depths.countersink_diameter),
        "countersink_angle": number(depths.countersink_angle_deg),
        "breakthrough": figures.length_or_none(depths.breakthrough),
        "wall_left": figures.length_or_none(depths.wall_left),
    }


def _reach(reach: Reach, figures: UnitView) -> Json:
    return {
        "access_depth": figures.length(reach.access_depth),
        "clearance_diameter": figures.length_or_none(reach.clearance_diameter),
        "drill_reach": figures.length(reach.drill_reach),
        "tap_reach": figures.length(reach.tap_reach),
        "length": reach.length,
        "shank": reach.shank,
        "drill": None if reach.drill is None else _tool(reach.drill, figures),
        "tap": None if reach.tap is None else _tool(reach.tap, figures),
        "advice": figures.texts(reach.advice),
    }


def _tool(tool: ToolReach, figures: UnitView) -> Json:
    return {
        "kind": tool.kind,
        "document": tool.document,
        "overall_length": figures.length(tool.overall_length),
        "cutting_length": figures.length_or_none(tool.cutting_length),
        "shank_diameter": figures.length_or_none(tool.shank_diameter),
        "left_for_holder": figures.length(tool.left_for_holder),
    }


@cached(_CACHED)
def _operation(sequence: int, line: Line, figures: UnitView) -> Fixed[Json]:
    body: Json = {
        "sequence": sequence,
        "operation": line.operation,
        "tool": figures.mapping(line.tool),
        "parameters": figures.mapping(line.parameters),
    }
    if line.time_s is not None:
        body["time"] = float(f"{line.time_s:.3g}")
    body["text"] = figures.text(line.text)
    return Fixed(body)
