"""Refusals of the edge: codes for requests that cannot be read as the schema says, and their collection.

They are :class:`~borewright.core.errors.BorewrightError` like those of the domain: the web layer knows one kind.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import islice

from borewright.core.errors import BorewrightError, Fault, nearest

#: Every code of the edge, with the title that documents it. A test holds that each is raised.
CODES: dict[str, str] = {
    "body_not_object": "The request body is not a JSON object",
    "field_unknown": "The request has a field that the contract does not know",
    "field_missing": "A required field is missing",
    "field_type_wrong": "A field has the wrong JSON type",
    "field_value_unknown": "A field holds a word that is not in its list",
    "text_length_wrong": "A text is empty or longer than its limit",
    "list_length_wrong": "A list is empty or longer than its limit",
    "list_not_unique": "A list holds the same item twice",
    "id_not_unique": "Two holes of a part have the same id",
    "quantity_unreadable": "A quantity is not a number followed by a unit",
    "quantity_unit_missing": "A quantity written as text has no unit",
    "quantity_unit_unknown": "The unit of a quantity is not in the closed list",
    "quantity_dimension_wrong": "The unit of a quantity belongs to another dimension",
    "kept_problem": "What was kept is a problem, not a specification",
    "kept_reply_unreadable": "What was kept is no reply of POST /v1/hole-specs",
    "kept_request_missing": "Nothing says which request a kept reply answered",
    "cell_is_a_date": "A spreadsheet made a date of a callout, a drill or a figure",
    "parameter_repeated": "A query parameter is given more than once",
}

_MOST_FAULTS = 50
_MOST_SHOWN = 60
#: Unknown fields of one object that are named, each with what it was probably meant to be; the others are counted.
_MOST_UNKNOWN = 5


class RequestInvalid(BorewrightError):
    """A body or query that is readable but does not follow its schema."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        Exception.__init__(self, self.faults[0].detail)


def invalid(
    code: str, detail: str, *, pointer: str = "", allowed: Iterable[str] = (), did_you_mean: Iterable[str] = ()
) -> RequestInvalid:
    """A refusal with one fault."""
    return RequestInvalid((Fault(code, detail, pointer, tuple(allowed), tuple(did_you_mean)),))


def shown(value: object) -> str:
    """What a caller wrote, short and with control characters escaped, for use inside a sentence."""
    text = repr(value[:_MOST_SHOWN] if isinstance(value, str) else value)
    return text if len(text) <= _MOST_SHOWN else f"{text[:57]}..."


def step(name: object) -> str:
    """A name as one step of a JSON pointer (RFC 6901)."""
    return "/" + str(name).replace("~", "~0").replace("/", "~1")


def unknown_field(name: str, known: Sequence[str]) -> Fault:
    """The fault of a field that a schema does not have."""
    return Fault("field_unknown", f"Unknown field {shown(name)}.", step(name[:80]), tuple(known), nearest(name, known))


def unknown_fields(body: Mapping[str, object], known: Sequence[str]) -> list[Fault]:
    """The faults of the fields that a schema does not have: the first ones by name, then how many more there are."""
    more = len(body) - sum(name in body for name in known)
    first = sorted(islice((name for name in body if name not in known), _MOST_UNKNOWN)) if more else []
    found = [unknown_field(name, known) for name in first]
    more -= len(found)
    if more:
        found.append(Fault("field_unknown", f"{more} more unknown field{'' if more == 1 else 's'}.", "", tuple(known)))
    return found


def below(name: object, faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """Faults whose pointers are relative to the field ``name``, relative to the object that holds it."""
    return tuple(replace(fault, pointer=step(name) + fault.pointer) for fault in faults)


def _named(fault: Fault, name: str) -> Fault:
    """The fault of a field that is missing, told by its name."""
    missing = fault.code == "field_missing" and fault.pointer == step(name)
    return replace(fault, detail=f"`{name}` is needed and is not there.") if missing else fault


def collect(
    messages: Mapping[str, Sequence[object]], body: Mapping[str, object], known: Sequence[str]
) -> tuple[Fault, ...]:
    """Faults out of marshmallow's messages of one object, in the order of the schema; unknown fields come last, a few.

    ``messages`` maps a field to faults whose pointers are relative to the field; of the fields of ``body`` that the
    schema does not have marshmallow was not shown any.
    """
    found = [
        _named(fault, name)
        for name in known
        for fault in below(name, (fault for fault in messages.get(name, ()) if isinstance(fault, Fault)))
    ]
    return (*found[:_MOST_FAULTS], *unknown_fields(body, known))
