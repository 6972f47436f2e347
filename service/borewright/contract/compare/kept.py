"""What a caller has kept of a hole specification: the reply, the request, or both."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from borewright.contract.faults import RequestInvalid, invalid, step, unknown_fields
from borewright.contract.requests.request import Detail
from borewright.core.model import Unit

Json = Mapping[str, Any]

_FIELDS = ("request", "spec_id", "reply")
#: What the result of a batch has instead of a reply.
_RESULT, _PROBLEM = "spec", "problem"
_UNITS: Mapping[object, Unit] = {"in": "in", "mm": "mm"}
_UNIT_IN_TEXT = re.compile(r"[0-9]\s(in|mm)\b")


@dataclass(frozen=True, slots=True)
class Kept:
    """What was kept: a reply, the ``request`` that it answered and its ``spec_id``, as far as they are known."""

    reply: Json | None
    request: Json | None
    spec_id: str | None

    def word(self, name: str) -> str | None:
        """A text of the reply; None where there is none."""
        found = (self.reply or {}).get(name)
        return found if isinstance(found, str) else None

    @property
    def detail(self) -> Detail:
        """The detail of the reply, by what it has."""
        reply = self.reply or {}
        if self.reply is None or reply.keys() & {"sources", "assumptions", "notice"}:
            return "full"
        return "figures" if reply.keys() & {"thread", "drill", "depths", "limits"} else "routing"

    @property
    def unit(self) -> Unit | None:
        """The unit of lengths of the reply, by what it says or by its texts; None where it does not tell."""
        reply = self.reply or {}
        units = reply.get("units")
        if isinstance(units, dict):
            length = units.get("length")
            return _UNITS.get(length) if isinstance(length, str) else None
        card = reply.get("headline")
        found = _UNIT_IN_TEXT.search(str(card.get("depth"))) if isinstance(card, dict) else None
        return _UNITS[found[1]] if found else None


def kept(before: dict[str, Any]) -> Kept:
    """What ``before`` is: a reply, the result of a batch, or an object with `request` and `spec_id` or `reply`.

    Raises: RequestInvalid ``kept_reply_unreadable``, ``kept_problem``; pointers are relative to ``before``.
    """
    if _PROBLEM in before and "operations" not in before:
        text = "What was kept is a problem: there is no specification to compare with."
        raise invalid("kept_problem", text, pointer=step(_PROBLEM))
    if _RESULT in before and "operations" not in before:
        reply = _reply(before[_RESULT], step(_RESULT))
        return Kept(reply, _request(before), reply["spec_id"])
    if "request" not in before or "operations" in before:
        reply = _reply(before, "")
        return Kept(reply, None, reply["spec_id"])
    if unknown := unknown_fields(before, _FIELDS):
        raise RequestInvalid(unknown)
    return _of_request(before)


def _of_request(before: Json) -> Kept:
    given = before.get("reply")
    reply = None if given is None else _reply(given, step("reply"))
    name = before.get("spec_id")
    if name is None and reply is None:
        raise invalid("field_missing", "With a request its `spec_id` or `reply` is needed.", pointer=step("spec_id"))
    if name is not None and not isinstance(name, str):
        raise invalid("field_type_wrong", "Expected a text.", pointer=step("spec_id"))
    return Kept(reply, _request(before), name if name is not None else reply["spec_id"] if reply else None)


def _request(before: Json) -> Json | None:
    found = before.get("request")
    if found is not None and not isinstance(found, dict):
        raise invalid("field_type_wrong", "Expected an object.", pointer=step("request"))
    return found


def _reply(value: object, place: str) -> Json:
    """A reply of POST /v1/hole-specs, of any version and detail: it names itself and has operations."""
    if not isinstance(value, dict):
        raise invalid("field_type_wrong", "Expected an object.", pointer=place)
    for name, kind, called in (("spec_id", str, "text"), ("operations", list, "list")):
        if not isinstance(value.get(name), kind):
            text = f"This is no reply of POST /v1/hole-specs: each has `{name}`, a {called}."
            raise invalid("kept_reply_unreadable", text, pointer=place + step(name))
    return {name: part for name, part in value.items() if name != "derivation"}  # the steps to figures that are there
