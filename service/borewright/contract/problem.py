"""The body of a problem (RFC 9457), and what each code of the contract and of the domain means."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from borewright.core import errors
from borewright.core.errors import Fault

from . import faults
from .problem_help import HELP
from .texts import Unit, all_in_units, in_units


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of problem: its HTTP status, and the title that says what it means."""

    status: int
    title: str


INTERNAL_ERROR = "internal_error"
#: What the contract and the domain refuse was readable: 422.
KINDS: Mapping[str, Kind] = {
    INTERNAL_ERROR: Kind(500, "The service failed; the fault is in the log under the request id"),
    **{code: Kind(422, title) for code, title in {**faults.CODES, **errors.CODES}.items()},
}


def document(
    code: str,
    kind: Kind,
    detail: str,
    found: Iterable[Fault],
    *,
    instance: str = "",
    request_id: str = "",
    unit: Unit | None = None,
) -> dict[str, object]:
    """The problem as a dict in its final order, its quantities in ``unit``; None = as the domain holds them."""
    return {
        "type": f"/problems/{code}",
        "title": kind.title,
        "status": kind.status,
        "detail": in_units(detail, unit),
        **({"remedy": HELP[code].remedy} if code in HELP else {}),
        "instance": instance,
        "code": code,
        "request_id": request_id,
        "errors": [_fault(fault, unit) for fault in found],
    }


def _fault(fault: Fault, unit: Unit | None) -> dict[str, object]:
    shown: dict[str, object] = {"pointer": fault.pointer, "code": fault.code, "detail": in_units(fault.detail, unit)}
    if fault.allowed:
        shown["allowed"] = all_in_units(fault.allowed, unit)
    if fault.did_you_mean:
        shown["did_you_mean"] = fault.did_you_mean
    return shown
