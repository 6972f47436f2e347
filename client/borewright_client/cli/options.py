"""Options that set a field of a request as a column of CSV does."""

from __future__ import annotations

from .columns import COLUMNS

#: Fields whose options have code of their own.
OWN = {
    "id", "thread", "hole.type", "hole.full_thread_depth", "hole.thickness", "hole.drill_depth_limit", "material",
    "material.hardness", "finish", "method", "percent_thread", "objective", "mating_screw.class", "mating_screw.grade",
    "machine.drill_oversize", "edition", "tap_limits", "unit_system", "explain", "detail",
}  # fmt: skip
#: Options that are not called by the last part of their field's name.
_CALLED = {
    "material.group": "--material-group",
    "finish.class": "--finish-class",
    "finish.thickness": "--finish-thickness",
    "finish.reading": "--finish-reading",
    "length_of_engagement": "--engagement",
    "stock.drills": "--stock-drills",
    "stock.taps": "--stock-taps",
}


def further(request: str) -> dict[str, str]:
    """Options of a request that have no code of their own, each with the field that it sets."""
    return {
        _CALLED.get(name, "--" + name.rpartition(".")[2].replace("_", "-")): name
        for name, column in COLUMNS.items()
        if name not in OWN and request in column.requests
    }
