"""The caller's own id of a hole, as a result shows it."""

from __future__ import annotations

#: Most characters of an id.
LONGEST = 200


def is_usable(name: object) -> bool:
    """Whether a value can be the id of a hole: a text that is not blank and not too long."""
    return isinstance(name, str) and len(name) <= LONGEST and bool(name.strip())


def of_item(item: object) -> str | None:
    """The id under which the result of an item is shown, also where the item is refused; None where it has none."""
    name = item.get("id") if isinstance(item, dict) else None
    return name if isinstance(name, str) and len(name) <= LONGEST else None
