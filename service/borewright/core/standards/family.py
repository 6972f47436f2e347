"""What the family modules share: standard sizes, what a settled callout holds, starts and lead, pitch.

Conventions of a :class:`ThreadCallout` that hold for every family, once its reader has settled it: ``size`` is the
label of the family's own table, ``threads_per_inch`` (inch forms, G and ISO 7) or ``pitch`` (millimetre forms) is
filled, and so is the class where the standard has one for the hole; ``starts`` counts the starts of the lead written.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from types import MappingProxyType
from typing import TypeVar

from borewright.core.caches import read_once
from borewright.core.errors import nearest
from borewright.core.model import Length, Range, ThreadCallout, Unit
from borewright.core.rounding import half_up
from borewright.tables import load

from .evidence import Evidence

Row = TypeVar("Row")

POINTER = "/thread"


@dataclass(frozen=True, slots=True)
class Size:
    """A standard size, for readers: nominal diameter in the system's unit and the pitches it comes with.

    ``threads_per_inch`` is filled for inch forms, G and ISO 7; ``pitches_mm`` for the other millimetre forms.
    """

    diameter: Decimal
    threads_per_inch: tuple[Decimal, ...] = ()
    pitches_mm: tuple[Decimal, ...] = ()

    @property
    def only_threads_per_inch(self) -> Decimal:
        """Threads per inch of a size that comes with one count of them."""
        (count,) = self.threads_per_inch
        return count


def value_of(label: str) -> Decimal | None:
    """Number, in the unit of the size, that ``label`` stands for (``1 3/4`` -> 1.75, ``14 OD`` -> 14), None when it
    stands for none.
    """
    try:
        value = diameter_of(label)
    except (InvalidOperation, ZeroDivisionError):
        return None
    return value if value.is_finite() else None


def diameter_of(label: str) -> Decimal:
    """Number that ``label`` of a listed size stands for, in the unit of the size (``1 3/4`` -> 1.75).

    Raises: InvalidOperation, ZeroDivisionError when it stands for none.
    """
    total = Decimal(0)
    for part in label.removesuffix(" OD").split():
        over, _, under = part.partition("/")
        total += Decimal(over) / Decimal(under or "1")
    return total


def near_sizes(label: str, known: Iterable[str]) -> tuple[str, ...]:
    """The three ``known`` labels nearest in value to ``label``, which does not exist, or nearest in spelling."""
    names = tuple(known)
    wanted = value_of(label)
    if wanted is None:
        return nearest(label, names)
    valued = [(abs(value - wanted), name) for name in names if (value := value_of(name)) is not None]
    return tuple(name for _, name in sorted(valued, key=lambda pair: pair[0])[:3])


def threads_per_inch(callout: ThreadCallout) -> Decimal:
    """Threads per inch of ``callout``, an inch thread, a G or an ISO 7 one: their readers settle them."""
    assert callout.threads_per_inch is not None
    return callout.threads_per_inch


def pitch_mm(callout: ThreadCallout) -> Decimal:
    """Pitch in mm of ``callout``, a metric thread: its reader settles it."""
    assert callout.pitch is not None
    return callout.pitch


def thread_class(callout: ThreadCallout) -> str:
    """Class of the thread of ``callout`` whose standard has classes: its reader settles it."""
    assert callout.thread_class is not None
    return callout.thread_class


def series(callout: ThreadCallout) -> str:
    """Series of ``callout``, a pipe thread: its reader settles it."""
    assert callout.series is not None
    return callout.series


def stated_dimension(callout: ThreadCallout, name: str) -> Decimal | None:
    """The dimension ``name`` that the callout states, in its unit, beside the thread, as its reader settles it; None =
    not stated.
    """
    value = dict(callout.extra).get(name)
    return value if isinstance(value, Decimal) else None


def multi_start(
    *, starts: int, lead: Decimal, pitch_diameter: Decimal, unit: Unit, proof: Evidence
) -> dict[str, Mapping[str, object]]:
    """The ``multi_start`` object of a thread with more than one of ``starts``, nothing for one.

    The lead angle at the pitch diameter is ``atan(lead / (pi d2))``, in degrees to 2 decimals.

    Args: ``lead`` and ``pitch_diameter`` in ``unit``; ``proof`` records the angle.
    """
    if starts == 1:
        return {}
    angle = half_up(Decimal(repr(math.degrees(math.atan(float(lead) / (math.pi * float(pitch_diameter)))))), 2)
    proof.caution(
        "multi_start_tolerance",
        text="Limits are those of the single-start thread. Standards may widen the pitch diameter tolerance with the"
        " number of starts; that rule is not held, and the narrower limits are the safe side for the hole.",
    )
    return {
        "multi_start": {"starts": starts, "lead": half_up(lead, 5 if unit == "in" else 3), "lead_angle": float(angle)}
    }


def engagement_unused(engagement: Length | None, *, proof: Evidence) -> None:
    """Say in ``proof`` that a length of ``engagement`` was given but changes nothing."""
    if engagement is not None:
        proof.assume("the length of engagement does not change the limits of this thread")


def inch_pitch(tpi: Decimal) -> Decimal:
    """Pitch in inches of ``tpi`` threads per inch, to 7 decimals."""
    return half_up(1 / tpi, 7)


def left(callout: ThreadCallout, suffix: str) -> str:
    """``suffix`` where ``callout`` is a left-hand thread, nothing for a right-hand one."""
    return suffix if callout.hand == "left" else ""


def open_range() -> Range:
    """A diameter for which the standard sets, or the tables hold, no limit."""
    return Range(None, None)


@read_once
def by_key(name: str, *columns: str) -> Mapping[str, Mapping[str, str]]:
    """Rows of the table ``name`` by the text of ``columns``, joined by a blank."""
    return MappingProxyType({" ".join(row[column] for column in columns): row for row in load(name).rows})


@read_once
def chart(system: str) -> Mapping[tuple[str, str, str], Mapping[str, str]]:
    """Rows of the drill chart of a ``system`` that has one of its own, by (series, size, variant)."""
    rows = load(f"tap_drill_{system}").rows
    return MappingProxyType({(row["series"], row["size"], row["variant"]): row for row in rows})
