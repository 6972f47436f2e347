"""How well a figure is known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Literal

Status = Literal["published", "computed", "measured", "second_hand", "common_practice", "from_memory"]

#: Every status with what it says, best known first.
STATUSES: Mapping[Status, str] = MappingProxyType(
    {
        "published": "read in the document, or on the page of the handbook that the source names",
        "computed": "by the document's formula",
        "measured": "by the shop itself, as its request says",
        "second_hand": "read in a copy or a summary of the document, not in the document",
        "common_practice": "of the trade, without a document",
        "from_memory": "not seen, check before relying on it",
    }
)
_PLACE: Mapping[Status, int] = MappingProxyType({status: place for place, status in enumerate(STATUSES)})


def weakest(statuses: Iterable[Status]) -> Status:
    """Status of what hangs on figures of several ``statuses``: that of the least well known."""
    return max(statuses, key=_PLACE.__getitem__)


def by_formula(status: Status) -> Status:
    """Status of what is worked out from a figure of that status: at best computed."""
    return weakest(("computed", status))
