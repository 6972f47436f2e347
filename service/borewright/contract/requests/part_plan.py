"""Body of POST /v1/part-plans: all tapped holes of a part, each as POST /v1/hole-specs takes it, with its count."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from borewright.contract.faults import RequestInvalid, below, invalid
from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array, Object, ObjectSchema
from borewright.contract.fields.request_units import UNIT_OF_SYSTEM
from borewright.contract.fields.strict import Choice, FloatNumber, JsonSchema, StrictField, Text, Whole
from borewright.core.errors import BorewrightError, Fault
from borewright.core.model import Unit
from borewright.core.part.model import Objective, PartHole, PartRequest, RefusedHole, Times
from borewright.core.practice import number
from borewright.core.time_left import UNBOUNDED, TimeLeft

from . import parts
from .batch import Defaults
from .bodies import HOLE_SPEC, HoleSpecFields
from .queries import DetailQuery
from .request import Detail
from .shop_figures import shop_figures

#: More kinds of holes than these are no part but a catalogue; equal ones are one with its count.
MOST_HOLES = 5000
_TIMES = ("tool_change_time", "positioning_time")
_LEAST_ACCEPTANCE = number("part_least_acceptance")
_TIMES_OF_A_SHOP = Times(number("part_tool_change"), number("part_positioning"))


class PartHoleBody(HoleSpecFields[Any]):
    """A hole of a part."""

    count = Whole("How many of this hole the part has, a count. Default: 1.", ranges.PIECES)


class _Hole(StrictField):
    """A hole of the part: judged by itself, so that a bad one does not keep the others from being planned."""

    takes = ("object",)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A reference to the schema of a hole."""
        return dict(converter.resolve_nested_schema(PartHoleBody))


class PartMachineObject(parts.MachineObject):
    """The machine, and the times that it takes between cuts; at least one field."""

    tool_change_time = FloatNumber(
        f"Tool change from chip to chip, in seconds. Default: {_TIMES_OF_A_SHOP.tool_change_s:g}.", ranges.SECONDS
    )
    positioning_time = FloatNumber(
        f"Going to the next hole and settling there, in seconds. Default: {_TIMES_OF_A_SHOP.positioning_s:g}.",
        ranges.SECONDS,
    )


class PartPlanBody(ObjectSchema):
    """Body of POST /v1/part-plans."""

    part = Text("The caller's own name of the part; it comes back unchanged.", longest=200, examples=("KRP-4105",))
    holes = Array(
        "The holes: requests as POST /v1/hole-specs takes them, each with its `count`.",
        _Hole("A hole."),
        least=1,
        most=MOST_HOLES,
        required=True,
    )
    defaults = Defaults("Fields for every hole that does not have them itself, as in a hole.")
    least_acceptance = FloatNumber(
        "Least chance of acceptance, from 0 to 1, that a hole keeps for a tool's sake. A hole that no tool brings there"
        f" keeps its own tools and is named in `review`. Default: {_LEAST_ACCEPTANCE:g}.",
        ranges.FRACTION,
    )
    objective = Choice(
        "`fewest_tools`: the fewest distinct tools, then the least loss of acceptance. `least_time`: the least time of"
        " a part, tool changes with cutting, in tenths of a second; then the least loss of acceptance. `as_specified`:"
        " each hole with the tools that it has by itself. Default: fewest_tools.",
        ("fewest_tools", "least_time", "as_specified"),
    )
    stock = parts.stock()
    machine = Object("The machine of all holes, and its times between cuts.", PartMachineObject)
    shop_figures = shop_figures()
    lot_size = Whole("Parts of the lot, a count. Default: 1.", ranges.PIECES)
    unit_system = parts.unit_system()
    detail = parts.detail()


@dataclass(frozen=True, slots=True)
class PartAsked:
    """A request for a plan as the domain takes it, and how the reply shall look."""

    request: PartRequest
    part: str | None
    unit: Unit | None
    detail: Detail


class PartPlanQuery(DetailQuery):
    """Query of POST /v1/part-plans: what is said of the part beside its holes; the body wins."""

    part = Text("The caller's own name of the part.", longest=200)
    material = Text("Material of every hole that does not name its own.", longest=200)
    least_acceptance = FloatNumber("As in the body.", ranges.FRACTION)
    objective = Choice("As in the body.", ("fewest_tools", "least_time", "as_specified"))
    lot_size = Whole("As in the body.", ranges.PIECES)
    tool_change_time = FloatNumber("As `machine.tool_change_time` of the body.", ranges.SECONDS)
    positioning_time = FloatNumber("As `machine.positioning_time` of the body.", ranges.SECONDS)
    drills = Text("Drills at hand, with commas between them; `stock` of the body wins.", longest=4000)
    taps = Text("Taps at hand, limits or shank markings, with semicolons between them.", longest=4000)
    unit_system = parts.unit_system()
    table = Choice(
        "The table that is written as CSV. Default: operations.", ("operations", "tools", "holes", "changes", "review")
    )


def body_of_query(given: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a body that a query says."""
    machine = {name: given[name] for name in _TIMES if name in given}
    defaults = {"material": given["material"]} if "material" in given else {}
    cribs = {
        name: [text.strip() for text in given[name].split(between) if text.strip()]
        for name, between in (("drills", ","), ("taps", ";"))
        if name in given
    }
    plain = ("part", "least_acceptance", "objective", "lot_size", "unit_system", "detail")
    found = {name: given[name] for name in plain if name in given}
    objects = {"machine": machine, "defaults": defaults, "stock": cribs}
    return found | {name: value for name, value in objects.items() if value}


_BODY = PartPlanBody()
_NONE_UNREAD: Mapping[int, tuple[Fault, ...]] = {}


def part_plan_asked(
    body: Mapping[str, Any], unread: Mapping[int, tuple[Fault, ...]] = _NONE_UNREAD, work: TimeLeft = UNBOUNDED
) -> PartAsked:
    """The plan that a body asks for. A hole that cannot be read is refused by itself.

    Args:
        unread: the faults of holes, by place, whose row of a sheet was refused before it became one.
        work: what bounds the reading; each hole that can be read is an item of it.

    Raises: RequestInvalid with every fault of the body around the holes; what ``work`` does.
    """
    given = {name: value for name, value in _BODY.read(body).items() if value is not None}
    machine = dict(body.get("machine") or {})
    times = {name: machine.pop(name) for name in _TIMES if machine.get(name) is not None}
    shared = {name: body.get(name) for name in ("stock", "shop_figures", "unit_system")} | {"machine": machine}
    defaults = {name: value for name, value in shared.items() if value} | (body.get("defaults") or {})
    holes, refused = _holes(body["holes"], defaults, unread, work)
    objective: Objective = given.get("objective", "fewest_tools")
    system = given.get("unit_system")
    request = PartRequest(
        holes=holes,
        least_acceptance=float(given.get("least_acceptance", _LEAST_ACCEPTANCE)),
        objective=objective,
        times=_times(times),
        lot_size=given.get("lot_size", 1),
        refused=refused,
    )
    return PartAsked(
        request,
        given.get("part"),
        None if system is None else UNIT_OF_SYSTEM[system],
        given.get("detail", "full"),
    )


def _times(stated: Mapping[str, Any]) -> Times:
    """The times of a shop with those that the request states in their place."""
    change, positioning = (stated.get(name) for name in _TIMES)
    usual: set[Literal["tool_changes", "positioning"]] = set()
    if change is None:
        usual.add("tool_changes")
    if positioning is None:
        usual.add("positioning")
    return Times(
        _TIMES_OF_A_SHOP.tool_change_s if change is None else float(change),
        _TIMES_OF_A_SHOP.positioning_s if positioning is None else float(positioning),
        frozenset(usual),
    )


def _holes(
    items: Iterable[Any], defaults: Mapping[str, Any], unread: Mapping[int, tuple[Fault, ...]], work: TimeLeft
) -> tuple[tuple[PartHole, ...], tuple[RefusedHole, ...]]:
    """The holes that can be read and the others; each has a name of its own, by its place where it gives none."""
    holes: dict[str, PartHole] = {}
    refused: list[RefusedHole] = []
    for place, item in enumerate(items):
        name = _name(item, place)
        try:
            if place in unread:
                raise RequestInvalid(unread[place])
            if name in holes:
                raise invalid("id_not_unique", f"A hole before this one has the id {name!r} too.", pointer="/id")
            holes[name] = _hole(name, {**defaults, **item}, f"/holes/{place}")
            work.allow(1)
        except BorewrightError as error:
            refused.append(RefusedHole(name, below("holes", below(place, error.faults))))
        work.check()
    return tuple(holes.values()), tuple(refused)


def _name(item: Mapping[str, Any], place: int) -> str:
    given = item.get("id")
    return given if isinstance(given, str) and given else f"hole {place + 1}"


def _hole(name: str, body: dict[str, Any], pointer: str) -> PartHole:
    count = body.pop("count", None)
    number_of = 1 if count is None else _COUNT.read({"count": count})["count"]
    return PartHole(name, HOLE_SPEC.asked(body).request, number_of, pointer)


class _Count(ObjectSchema):
    """The count of a hole alone."""

    count = Whole("How many of this hole the part has, a count.", ranges.PIECES)


_COUNT = _Count()
