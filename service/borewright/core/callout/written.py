"""What was written, whatever the form: the one thing between reading words and judging a thread."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from ..model import Hand, Length


@dataclass(slots=True)
class Written:
    """The fields of a callout as written, text or object, before anything is looked up.

    ``pitch`` and ``lead`` are in the system's own unit.
    """

    size: str = ""
    series: str | None = None
    threads_per_inch: Decimal | None = None
    pitch: Decimal | None = None
    thread_class: str | None = None
    hand: Hand | None = None
    starts: int | None = None
    lead: Decimal | None = None
    engagement_group: str | None = None
    engagement: Length | None = None
    cited: tuple[str, frozenset[str]] | None = None
    extra: list[tuple[str, object]] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
