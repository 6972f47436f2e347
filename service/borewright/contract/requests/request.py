"""One request: its schema checks the body, makes what the domain takes, and says how the reply shall look."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Generic, Literal, TypeVar

from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.fields.request_units import UNIT_OF_SYSTEM, RequestUnits
from borewright.core.errors import BorewrightError
from borewright.core.model import Unit

from . import further_faults
from .thread import settled

Body = Mapping[str, Any]
Request = TypeVar("Request")
#: How much of a hole specification the reply shows.
Detail = Literal["full", "figures", "routing"]


@dataclass(frozen=True, slots=True)
class Asked(Generic[Request]):
    """A request as the domain takes it, and how the reply shall look: ``unit`` None = the thread's own."""

    request: Request
    unit: Unit | None
    explain: bool
    detail: Detail = "full"


class RequestSchema(ObjectSchema, Generic[Request]):
    """Schema of the body of a request; ``makes`` is a record of the domain."""

    def asked(self, body: Body) -> Asked[Request]:
        """The request of a body, and how its reply shall look.

        A bare number has the unit of ``unit_system``, or else of the thread's own standard. Lengths are handed on in
        the unit of the standard, so that equal requests are equal however their units were written.

        Raises: BorewrightError, RequestInvalid with every fault of the body where it does not follow the schema.
        """
        try:
            return self._read(body)
        except BorewrightError as error:
            further_faults.join(error, self, body)
            raise

    def _read(self, body: Body) -> Asked[Request]:
        given = self.read(body)
        system, explain, detail = (given.pop(name, None) for name in ("unit_system", "explain", "detail"))
        unit = None if system is None else UNIT_OF_SYSTEM[system]
        return Asked(self._request(given, unit), unit, explain or False, detail or "full")

    def _request(self, given: dict[str, Any], unit: Unit | None) -> Request:
        request: Request = self.convert(given, RequestUnits(unit, None))
        return request


class ThreadRequestSchema(RequestSchema[Request]):
    """Schema of a request about a thread, whose standard has the unit of the other fields."""

    def _request(self, given: dict[str, Any], unit: Unit | None) -> Request:
        thread = settled(given.pop("thread"), unit)
        request: Request = self.convert(given, RequestUnits(unit or thread.unit, thread.unit), thread=thread)
        return request
