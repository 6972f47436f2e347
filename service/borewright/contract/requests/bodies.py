"""The request bodies of API v1, field by field."""

from __future__ import annotations

from typing import Any

from borewright.contract.fields import ranges
from borewright.contract.fields.strict import Boolean, FloatNumber, Text
from borewright.core.model import DimensionsApply, FinishInput
from borewright.core.requests import (
    AllowanceRequest,
    DecodeRequest,
    DrillRecommendation,
    HoleSpecRequest,
    Machine,
    ResolveRequest,
    TapRecommendation,
)
from borewright.core.shop_figures.figures import ShopFigures

from . import limits_meant, parts
from .hole import tapped_hole
from .lengths import length
from .request import Request, RequestSchema, ThreadRequestSchema
from .shop_figures import shop_figures
from .thread import thread

_ANY_MACHINE = Machine()


class ThreadRequest(ThreadRequestSchema[ResolveRequest]):
    """Body of POST /v1/threads/resolve."""

    makes = ResolveRequest

    thread = thread()
    unit_system = parts.unit_system()
    length_of_engagement = length("Length of engagement. Needed where it is not the standard's normal one.")
    edition = parts.edition()
    explain = parts.explain()


def _on_machine(figures: ShopFigures | None, machine: Machine) -> ShopFigures | None:
    return None if figures is None else figures.on(machine.name)


def _drill_request(
    *, machine: Machine = _ANY_MACHINE, shop_figures: ShopFigures | None = None, **given: Any
) -> DrillRecommendation:
    return DrillRecommendation(machine=machine, shop_figures=_on_machine(shop_figures, machine), **given)


class DrillRequestBody(ThreadRequestSchema[DrillRecommendation]):
    """Body of POST /v1/drills/recommend."""

    makes = staticmethod(_drill_request)

    thread = thread()
    method = parts.method()
    percent_thread = parts.percent_thread()
    objective = parts.objective()
    drill_series = parts.drill_series()
    length_of_engagement = length("Length of engagement. Needed where it is not the standard's normal one.")
    material = parts.material()
    finish = parts.finish()
    stock = parts.stock()
    machine = parts.machine()
    edition = parts.edition()
    shop_figures = shop_figures()
    unit_system = parts.unit_system()
    explain = parts.explain()


def _allowance_request(
    *, finish: FinishInput, dimensions_apply: DimensionsApply | None = None, **given: Any
) -> AllowanceRequest:
    return AllowanceRequest(finish=limits_meant.finished(finish, dimensions_apply) or finish, **given)


class AllowanceRequestBody(ThreadRequestSchema[AllowanceRequest]):
    """Body of POST /v1/allowances."""

    makes = staticmethod(_allowance_request)

    thread = thread()
    finish = parts.finish(required=True)
    dimensions_apply = limits_meant.dimensions_apply()
    material = parts.material()
    tap_limits = parts.tap_limits()
    edition = parts.edition()
    shop_figures = shop_figures()
    unit_system = parts.unit_system()
    explain = parts.explain()


class TapRequestBody(ThreadRequestSchema[TapRecommendation]):
    """Body of POST /v1/taps/recommend."""

    makes = TapRecommendation

    thread = thread()
    hole = tapped_hole(required=False)
    material = parts.material()
    method = parts.method()
    finish = parts.finish()
    stock = parts.stock()
    tap_limits = parts.tap_limits()
    edition = parts.edition()
    shop_figures = shop_figures()
    unit_system = parts.unit_system()
    explain = parts.explain()


class TapDecodeRequest(RequestSchema[DecodeRequest]):
    """Body of POST /v1/taps/decode."""

    makes = DecodeRequest

    marking = Text(
        "What is etched on the tap's shank.", longest=200, required=True, examples=("1/2-13 NC HSS G H3", "M8 D5")
    )
    unit_system = parts.unit_system()
    explain = parts.explain()


def hole_spec_request(
    *,
    finish: FinishInput | None = None,
    dimensions_apply: DimensionsApply | None = None,
    machine: Machine = _ANY_MACHINE,
    shop_figures: ShopFigures | None = None,
    **given: Any,
) -> HoleSpecRequest:
    """The request of a hole, whose finish knows which limits the drawing means, whose figures on which machine."""
    return HoleSpecRequest(
        finish=limits_meant.finished(finish, dimensions_apply),
        machine=machine,
        shop_figures=_on_machine(shop_figures, machine),
        **given,
    )


class HoleSpecFields(ThreadRequestSchema[Request]):
    """The fields of a hole."""

    id = Text("The caller's own name of the hole; it comes back unchanged.", longest=200, examples=("KRP-4105-D1",))
    thread = thread()
    hole = tapped_hole(required=True)
    material = parts.material()
    finish = parts.finish()
    dimensions_apply = limits_meant.dimensions_apply()
    method = parts.method()
    percent_thread = parts.percent_thread()
    objective = parts.objective()
    drill_series = parts.drill_series()
    length_of_engagement = length("Length of engagement. Needed where it is not the depth of full thread.")
    mating_screw = parts.mating_screw()
    stock = parts.stock()
    machine = parts.machine()
    safety_factor = FloatNumber(
        "How much stronger than the screw the threads must stay where `objective` is least_torque, a ratio."
        " Default: 1.",
        ranges.SAFETY_FACTOR,
    )
    strict = Boolean(
        "Refuse where data are missing (unknown material) instead of answering with a caution. Default: false."
    )
    tap_limits = parts.tap_limits()
    edition = parts.edition()
    shop_figures = shop_figures()
    unit_system = parts.unit_system()
    explain = parts.explain()
    detail = parts.detail()


class HoleSpecRequestBody(HoleSpecFields[HoleSpecRequest]):
    """Body of POST /v1/hole-specs."""

    makes = staticmethod(hole_spec_request)


THREAD = ThreadRequest()
DRILL = DrillRequestBody()
ALLOWANCE = AllowanceRequestBody()
TAP = TapRequestBody()
DECODE = TapDecodeRequest()
HOLE_SPEC = HoleSpecRequestBody()
