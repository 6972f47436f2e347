"""What differs between the last run and now: at the holes, by the service's own comparison, and in the tools."""

from __future__ import annotations

import logging
from collections.abc import Mapping, Sequence
from typing import Any

from borewright_client import Client

Reply = Mapping[str, Any]

#: Of what differs at a hole so much is told; the record has the rest.
MOST_TOLD = 3
#: Of a record that cannot be compared: it counts as changed.
_UNKNOWN: Reply = {"verdict": "review", "changes": [], "why": []}
_log = logging.getLogger("borewright.tryton")


def of_holes(client: Client, held: Reply, holes: Sequence[Reply], specs: Mapping[str, Reply]) -> list[str]:
    """What differs at the holes since the last run and matters, a line each; what does not matter is logged."""
    before = {hole["id"]: hole for hole in held["asked"]["holes"]}
    now = {hole["id"]: hole for hole in holes}
    compared = _compared(client, held["specifications"], before, now, specs)
    told = [f"{name}: added" for name in now if name not in before]
    told += [f"{name}: removed, it is no longer in the list" for name in before if name not in now]
    for name, found in compared.items():
        if found["verdict"] == "keep":
            _log.info("%s: kept, nothing that matters differs%s", name, _because(found))
        else:
            told.append(f"{name}: updated{_tables(held['specifications'][name], specs[name])}{_told(found)}")
    both = (name for name in now if name in before)
    counts = ((name, before[name].get("count", 1), now[name].get("count", 1)) for name in both)
    return told + [f"{name}: {after} of it instead of {was}" for name, was, after in counts if was != after]


def _compared(
    client: Client, kept: Mapping[str, Reply], before: Mapping[str, Reply], now: Mapping[str, Reply],
    specs: Mapping[str, Reply],
) -> dict[str, Reply]:  # fmt: skip
    """What differs between kept specifications and those of now, by the id of the hole, in one call."""
    items = [
        {"id": name, "before": {"request": alone(before[name]), "reply": spec}, "after": alone(now[name])}
        for name, spec in kept.items()
        if name in now and spec["spec_id"] != specs[name]["spec_id"]
    ]
    results = zip(items, client.compare_batch(items), strict=True)
    return {item["id"]: result.get("comparison", _UNKNOWN) for item, result in results}


def alone(hole: Reply) -> dict[str, Any]:
    """A hole of a part as a request of its own."""
    return {name: value for name, value in hole.items() if name != "count"}


def _tables(was: Reply, now: Reply) -> str:
    before, after = was["tables_version"], now["tables_version"]
    return f", tables {after if before == after else f'{before} -> {after}'}"


def _told(comparison: Reply) -> str:
    """What differs and matters, and why."""
    matter = [one for one in comparison["changes"] if one["matters"]]
    told = [f"{one['pointer']} {_short(one['before'])} -> {_short(one['after'])}" for one in matter[:MOST_TOLD]]
    more = [f"{len(matter) - MOST_TOLD} more"] if len(matter) > MOST_TOLD else []
    return "".join(f", {text}" for text in told + more) + _because(comparison)


def _short(value: object) -> str:
    return "none" if value is None else "..." if isinstance(value, (dict, list)) else str(value)


def _because(comparison: Reply) -> str:
    causes = " or ".join(one["cause"] for one in comparison["why"])
    return f" (another {causes})" if causes else ""


def of_tools(held: Reply, plan: Reply) -> list[str]:
    """Whether a tool, its place or its holes differ from the plan of before, and what the plan saves."""
    if [_place(step) for step in held.get("sequence", ())] == [_place(step) for step in plan["sequence"]]:
        return []
    saved = plan["saved"]
    return [f"plan: {saved['to']} tools; each hole by itself takes {saved['from']} in all"]


def _place(step: Reply) -> tuple[Any, ...]:
    return step["stage"], step["operation"], step["tool"], step["holes"]
