"""What a batch does with each of its items, and the forms in which it answers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from borewright.api.response_cache import Answer
from borewright.contract.writers import b2mml

Json = dict[str, Any]
NDJSON, CSV, XML = "application/x-ndjson", "text/csv", b2mml.MEDIA_TYPE


@dataclass(frozen=True, slots=True)
class Job:
    """What is done with each item: ``answer`` turns the item's body into its reply, shown under ``key``.

    ``verdicts`` are those that a reply can have, the first one leaves nothing to look at. ``in_full`` makes the reply
    that other forms than JSON are written from, where it can differ.
    """

    name: str
    key: str
    verdicts: tuple[str, ...]
    answer: Callable[[Json], Answer]
    in_full: Callable[[Json], Answer] | None = None
