"""From the body of an audit to the plain inputs of the domain."""

from __future__ import annotations

from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap
from borewright.core.rounding import plain

from . import reading
from .reading import Asked, Body
from .request_schemas_audit import OPERATIONS, AuditRequestBody

_AUDIT = AuditRequestBody()


def audit_request(body: Body) -> Asked[AuditRequest]:
    """Body of POST /v1/hole-specs/audit. Raises BorewrightError."""
    planned = _AUDIT.read(body)["as_planned"]
    asked = reading.hole_spec_request({name: value for name, value in body.items() if name != "as_planned"})
    order = planned.get("operations_order")
    plan = AsPlanned(
        drill=planned["drill"],
        tap=_tap(planned["tap"]),
        second_tap=_tap(planned["second_tap"]) if planned.get("second_tap") else None,
        drill_depth=reading.own_length(planned, "drill_depth", asked, under="/as_planned"),
        spindle_speed_rpm=_turns(planned, "spindle_speed"),
        tap_spindle_speed_rpm=_turns(planned, "tap_spindle_speed"),
        operations_order=None if order is None else tuple(OPERATIONS[word] for word in order),
    )
    return Asked(AuditRequest(asked.request, plan), asked.unit, asked.explain, asked.detail)


def _tap(given: str | Body) -> PlannedTap:
    if isinstance(given, str):
        return PlannedTap(given)
    return PlannedTap(given.get("marking"), given.get("limit"), given.get("style"), given.get("chamfer"))


def _turns(planned: Body, name: str) -> float | None:
    turns = planned.get(name)
    return None if turns is None else float(plain(turns))
