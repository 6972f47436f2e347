"""What else is wrong with a body whose reading was refused: thread, finish and material are looked at all the same."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError

from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.fields.request_units import UNIT_OF_SYSTEM, RequestUnits
from borewright.contract.fields.strict import StrictField
from borewright.core.errors import BorewrightError
from borewright.core.plan import all_faults

from .thread import settled


def join(error: BorewrightError, schema: ObjectSchema, body: Mapping[str, Any]) -> None:
    """Let ``error`` tell the faults of the fields of ``body`` that it does not name."""
    units = RequestUnits(UNIT_OF_SYSTEM.get(str(body.get("unit_system"))), None)
    known: dict[str, Any] = {"thread": None, "finish": None, "material": None}
    for name in known:
        field = schema.fields.get(name)
        if not isinstance(field, StrictField) or body.get(name) is None or error.names(name):
            continue
        try:
            value = field.accept(body[name])
            known[name] = settled(value, units.bare) if name == "thread" else field.convert(value, units)
        except ValidationError:  # one of more faults than are told
            continue
        except BorewrightError as other:
            error.join(other.faults)
    strict = body.get("strict") is True
    error.join(all_faults.faults(**known, strict=strict, unit=units.bare or "in"))
