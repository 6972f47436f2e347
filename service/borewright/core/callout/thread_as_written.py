"""What was written, whatever the form: the one thing between reading words and judging a thread."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from borewright.core.errors import CalloutError
from borewright.core.model import Hand, HoleText, Length, ThreadCallout, Unit


@dataclass(slots=True)
class Written:
    """The fields of a callout as written, text or object, before anything is looked up.

    ``pitch`` and ``lead`` are in the system's own unit; ``unit`` is set where the system has none of its own.
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
    unit: Unit | None = None
    hole_text: HoleText | None = None
    unit_words: list[str] = field(default_factory=list)
    cited: list[tuple[str, frozenset[str]]] = field(default_factory=list)
    extra: list[tuple[str, object]] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)


def finish(
    system: str,
    written: Written,
    *,
    size: str,
    diameter: Decimal,
    unit: Unit,
    threads_per_inch: Decimal | None = None,
    pitch: Decimal | None = None,
    series: str | None = None,
    thread_class: str | None = None,
    starts: int = 1,
) -> ThreadCallout:
    """The callout of a verdict: what was decided, and what needs no verdict as it was ``written``.

    Args: ``system`` of threads; ``size`` label with its ``diameter`` in ``unit``; ``threads_per_inch`` or ``pitch`` in
        ``unit``; ``series``; ``thread_class``; number of ``starts``.
    """
    return ThreadCallout(
        system=system,
        size=size,
        nominal_diameter=diameter,
        unit=unit,
        pitch=pitch,
        threads_per_inch=threads_per_inch,
        series=series,
        thread_class=thread_class,
        hand=written.hand or "right",
        starts=starts,
        engagement_group=written.engagement_group,
        engagement=written.engagement,
        extra=tuple(written.extra),
        assumptions=tuple(written.assumptions),
        hole_text=written.hole_text,
    )


def refuse_unused(written: Written, *names: str, title: str) -> None:
    """Refuse fields that a system has no use for.

    Args:
        written: the callout's fields.
        names: attributes that do not apply to the system.
        title: the system as the reply names it.

    Raises:
        CalloutError: ``thread_field_unexpected`` or, for a class, ``thread_class_unknown``.
    """
    for name in names:
        if getattr(written, name) is None:
            continue
        if name == "thread_class":
            raise CalloutError(
                "thread_class_unknown",
                f"{title} has no classes; {written.thread_class} belongs to another system.",
                pointer="/class",
            )
        raise CalloutError("thread_field_unexpected", f"{title} takes no {name.replace('_', ' ')}.", pointer=f"/{name}")
