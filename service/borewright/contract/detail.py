"""A hole specification in less detail: parts of the full reply, each where it stands there and with the same value."""

from __future__ import annotations

from typing import cast

from .reading import Detail
from .unit_view import Json

#: Fields of the card and the routing, `operations` in short.
ROUTING = (
    "id",
    "spec_id",
    "verdict",
    "review",
    "headline",
    "operations",
    "units",
    "cautions",
    "tables_version",
    "rules_version",
)
#: What names a tool, the first one that it has.
_NAME = ("label", "marking", "kind")
_PARAMETERS = ("spindle_speed", "feed")
_UNITS = ("length", "feed")


def shown(reply: Json, detail: Detail) -> Json:
    """What ``detail`` shows of a full ``reply``, which is left as it is."""
    if detail == "full":
        return reply
    return _figures(reply) if detail == "figures" else _routing(reply)


def _figures(reply: Json) -> Json:
    return _without(reply, "sources", "assumptions") | {
        "drill": _choice(reply["drill"]),
        "tap": _choice(reply["tap"]),
        "gauging": _without(reply["gauging"], "acceptance"),
        "cautions": [{"code": caution["code"]} for caution in _rows(reply["cautions"])],
    }


def _choice(section: object) -> Json | None:
    """The choice of a drill or tap without those that were not taken."""
    if section is None:
        return None
    body = _without(section, "alternatives", "rejected")
    body["recommended"] = tool = _without(body["recommended"], "reasons")
    if tool.get("second_tap") is not None:
        tool["second_tap"] = _without(tool["second_tap"], "reasons")
    return body


def _routing(reply: Json) -> Json:
    body = {name: reply[name] for name in ROUTING}
    body["operations"] = [_operation(operation) for operation in _rows(reply["operations"])]
    body["units"] = _with(reply["units"], _UNITS)
    return body


def _operation(operation: Json) -> Json:
    tool = cast("Json", operation["tool"])
    named = next(name for name in _NAME if tool.get(name))
    return operation | {"tool": {named: tool[named]}, "parameters": _with(operation["parameters"], _PARAMETERS)}


def _rows(value: object) -> list[Json]:
    return cast("list[Json]", value)


def _with(value: object, names: tuple[str, ...]) -> Json:
    body = cast("Json", value)
    return {name: body[name] for name in names if name in body}


def _without(value: object, *names: str) -> Json:
    return {name: inner for name, inner in cast("Json", value).items() if name not in names}
