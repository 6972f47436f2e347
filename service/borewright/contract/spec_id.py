"""The name of a specification: a hash of the canonical request and of the rules that answered it, with their tables."""

from __future__ import annotations

import hashlib
from dataclasses import fields
from decimal import Decimal
from operator import attrgetter

import orjson

from borewright.core.model import Hole, Unit
from borewright.core.plan import rules_version
from borewright.core.requests import HoleSpecRequest

_OPTIONAL = [field for field in fields(HoleSpecRequest) if field.name not in {"thread", "hole", "id"}]
_NAMES, _USUAL = [field.name for field in _OPTIONAL], [field.default for field in _OPTIONAL]
_REST = attrgetter(*_NAMES)
#: What a drawing may state besides: left out of the canonical hole where it does not.
_STATED = ("drill", "drill_depth", "least_drill_depth", "counterbore", "countersink")
_OF_EVERY_HOLE = [field.name for field in fields(Hole) if field.name not in _STATED]


def spec_id(request: HoleSpecRequest, unit: Unit, rules: str | None = None) -> str:
    """Name of the specification that answers ``request`` in ``unit`` by ``rules``, a `rules_version`; None = today's.

    The canonical request is the callout as it was read and every length in the unit of its standard, without what is
    as usual and without the caller's own ``id``: however a request is spelled, the same hole has the same name, also
    when requests get further fields.
    """
    given = {
        name: value
        for name, value, usual in zip(_NAMES, _REST(request), _USUAL, strict=True)
        if value is not None and value != usual
    }
    canonical = (request.thread, _hole(request.hole), given, unit, rules or rules_version.version())
    return hashlib.sha256(orjson.dumps(canonical, default=_exact)).hexdigest()[:32]


def _hole(hole: Hole) -> dict[str, object]:
    said = {name: getattr(hole, name) for name in _OF_EVERY_HOLE}
    return said | {name: value for name in _STATED if (value := getattr(hole, name)) is not None}


def _exact(value: object) -> str:
    if isinstance(value, Decimal):
        return format(value.normalize(), "f")
    raise TypeError(f"no canonical form of {type(value).__name__}")
