"""What the family modules share: standard sizes, refusals that name what exists, starts and lead, pitch.

Conventions of a :class:`ThreadCallout` that hold for every family: ``size`` is the label of the family's own table,
``nominal_diameter`` is taken from that table and not from the callout, ``threads_per_inch`` (inch forms, G and ISO 7)
or ``pitch`` (millimetre forms) may be left out where the size fixes it, ``lead`` of a multi-start thread is the item
``("lead", Decimal in the thread's unit)`` of ``extra``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from types import MappingProxyType
from typing import TypeVar

from borewright.core.caches import read_once
from borewright.core.errors import ThreadError, nearest
from borewright.core.model import MM_PER_INCH, Length, Range, ThreadCallout, Unit
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.rounding import half_up, plain
from borewright.tables import load

from .evidence import Evidence

Row = TypeVar("Row")

POINTER = "/thread"
_LEAD_SLACK_PITCHES = figure("lead_slack_pitches")
_PITCH_SLACK = figure("pitch_slack_share")


@dataclass(frozen=True, slots=True)
class Size:
    """A standard size, for readers: nominal diameter in the system's unit and the pitches it comes with.

    ``threads_per_inch`` is filled for inch forms, G and ISO 7; ``pitches_mm`` for the other millimetre forms.
    """

    diameter: Decimal
    threads_per_inch: tuple[Decimal, ...] = ()
    pitches_mm: tuple[Decimal, ...] = ()


def value_of(label: str) -> Decimal | None:
    """Number a size label stands for (``1 3/4`` -> 1.75, ``14 OD`` -> 14), None when it stands for none."""
    total = Decimal(0)
    try:
        for part in label.removesuffix(" OD").split():
            over, _, under = part.partition("/")
            total += Decimal(over) / Decimal(under or "1")
    except (InvalidOperation, ZeroDivisionError):
        return None
    return total if total.is_finite() else None


def near_sizes(label: str, known: Iterable[str]) -> tuple[str, ...]:
    """The three labels nearest in value to one that does not exist, or nearest in spelling."""
    names = tuple(known)
    wanted = value_of(label)
    if wanted is None:
        return nearest(label, names)
    valued = [(abs(value - wanted), name) for name in names if (value := value_of(name)) is not None]
    return tuple(name for _, name in sorted(valued, key=lambda pair: pair[0])[:3])


def find(callout: ThreadCallout, rows: Mapping[str, Row], *, title: str, hint: str = "") -> Row:
    """Row of the callout's size. Raises ThreadError ``thread_size_unknown`` naming the sizes that exist."""
    row = rows.get(callout.size)
    if row is None:
        raise ThreadError(
            "thread_size_unknown",
            f"{title} has no size {callout.size[:40]!r}{hint}",
            pointer=POINTER,
            allowed=rows,
            did_you_mean=near_sizes(callout.size[:40], rows),
        )
    return row


def threads_per_inch(
    callout: ThreadCallout, allowed: tuple[Decimal, ...], *, title: str, proof: Evidence, hint: str = ""
) -> Decimal:
    """Threads per inch of the callout, or the only ones the size has.

    Raises: ThreadError ``thread_pitch_unknown``, ``thread_field_missing``.
    """
    given = given_threads_per_inch(callout, allowed)
    return _pick(callout, given, allowed, title=title, proof=proof, what="threads per inch", hint=hint)


def pitch_mm(
    callout: ThreadCallout, allowed: tuple[Decimal, ...], *, title: str, proof: Evidence, hint: str = ""
) -> Decimal:
    """Pitch in mm of the callout, or the only one the size has.

    Raises: ThreadError ``thread_pitch_unknown``, ``thread_field_missing``.
    """
    return _pick(callout, callout.pitch, allowed, title=title, proof=proof, what="mm of pitch", hint=hint)


def given_threads_per_inch(callout: ThreadCallout, known: tuple[Decimal, ...]) -> Decimal | None:
    """Threads per inch as given, or as a given pitch means them (0.0714 in or 1.814 mm -> 14), None for neither."""
    if callout.threads_per_inch is not None or callout.pitch is None:
        return callout.threads_per_inch
    return _inverse(callout.pitch if callout.unit == "in" else callout.pitch / MM_PER_INCH, known)


def _inverse(pitch_in: Decimal, allowed: tuple[Decimal, ...]) -> Decimal:
    """Threads per inch of a pitch written as a rounded decimal (0.0714 -> 14), as they are where none fits."""
    if pitch_in <= 0:
        return Decimal(0)
    count = 1 / pitch_in
    close = [known for known in allowed if abs(known - count) < _PITCH_SLACK * known]
    return close[0] if close else half_up(count, 4).normalize()


def _pick(
    callout: ThreadCallout,
    given: Decimal | None,
    allowed: tuple[Decimal, ...],
    *,
    title: str,
    proof: Evidence,
    what: str,
    hint: str,
) -> Decimal:
    names = tuple(plain(one) for one in allowed)
    if given in allowed:
        return allowed[allowed.index(given)]
    if given is not None:
        raise ThreadError(
            "thread_pitch_unknown",
            f"{title} {callout.size} has no {plain(given)} {what}{hint}",
            pointer=POINTER,
            allowed=names,
            did_you_mean=names if len(names) == 1 else (),
        )
    if len(allowed) > 1:
        raise ThreadError(
            "thread_field_missing",
            f"{title} {callout.size} comes with more than one pitch; say which ({what})",
            pointer=POINTER,
            allowed=names,
        )
    proof.assume(f"{names[0]} {what} follow from the size {title} {callout.size}")
    return allowed[0]


def no_class(callout: ThreadCallout, *, title: str) -> None:
    """Refuse a class where the system has none. Raises ThreadError ``thread_class_unknown``."""
    if callout.thread_class is not None:
        raise ThreadError(
            "thread_class_unknown",
            f"{title} has no classes; {callout.thread_class[:20]!r} belongs to another system",
            pointer=POINTER,
        )


def no_series(callout: ThreadCallout, *, title: str) -> None:
    """Refuse a series where the system has none. Raises ThreadError ``thread_series_mismatch``."""
    if callout.series is not None:
        raise ThreadError("thread_series_mismatch", f"{title} has no series {callout.series[:20]!r}", pointer=POINTER)


def class_of(
    callout: ThreadCallout,
    classes: tuple[str, ...],
    *,
    default: str,
    title: str,
    proof: Evidence,
    external: tuple[str, ...] = (),
    hint: str = "",
) -> str:
    """Class of the callout in the standard's spelling, or the default with an assumption.

    Raises: ThreadError ``thread_class_unknown``, ``thread_class_external``.
    """
    given = callout.thread_class
    if given is None:
        proof.assume(f"no class on the callout: {title} class {default} taken")
        return default
    if given in classes:
        return given
    if given in external:
        raise ThreadError(
            "thread_class_external",
            f"class {given} is for the external {title} thread; the hole needs an internal one",
            pointer=POINTER,
            allowed=classes,
        )
    raise ThreadError(
        "thread_class_unknown",
        f"{title} has no class {given[:20]!r}{hint}",
        pointer=POINTER,
        allowed=classes,
        did_you_mean=nearest(given, classes),
    )


def only_extras(callout: ThreadCallout, *names: str, title: str) -> None:
    """Refuse items that do not apply. Raises ThreadError ``thread_field_unexpected``."""
    for name, _ in callout.extra:
        if name not in names:
            raise ThreadError(
                "thread_field_unexpected",
                f"{name!r} does not apply to {title}",
                pointer=POINTER,
                allowed=names,
            )


def single_start(callout: ThreadCallout, *extras: str, title: str) -> None:
    """Refuse several starts and a lead where the system has one start only, and items that do not apply.

    Raises: ThreadError ``thread_field_unexpected``.
    """
    if callout.starts != 1:
        raise ThreadError("thread_field_unexpected", f"{title} has one start only", pointer=POINTER)
    only_extras(callout, *extras, title=title)


def length_item(callout: ThreadCallout, name: str, unit: Unit) -> Decimal | None:
    """Length of that name in ``callout.extra`` in ``unit``, None where there is none.

    Raises: ThreadError ``value_out_of_range`` when it is not above zero.
    """
    given = dict(callout.extra).get(name)
    if given is None:
        return None
    value = given.to(unit) if isinstance(given, Length) else Decimal(str(given))
    if not value > 0:
        raise ThreadError("value_out_of_range", f"{name} must be above zero", pointer=POINTER)
    return value


def starts_and_lead(callout: ThreadCallout, *, pitch: Decimal, unit: Unit) -> tuple[int, Decimal]:
    """Number of starts and the lead in ``unit``, from what the callout gives.

    Raises: ThreadError ``thread_lead_invalid`` when the lead is not starts x pitch.
    """
    lead = length_item(callout, "lead", unit)
    if lead is None:
        if callout.starts < 1:
            raise ThreadError("thread_lead_invalid", "a thread has at least one start", pointer=POINTER)
        return callout.starts, callout.starts * pitch
    ratio = lead / pitch
    starts = int(half_up(ratio, 0))
    if starts < 1 or abs(ratio - starts) > _LEAD_SLACK_PITCHES:
        whole = max(starts, 1)
        raise ThreadError(
            "thread_lead_invalid",
            f"a lead of {length(lead, unit)} is not a whole multiple of the pitch {length(pitch, unit)}",
            pointer=POINTER,
            allowed=tuple(length(count * pitch, unit) for count in (whole, whole + 1)),
        )
    if callout.starts not in (1, starts):
        raise ThreadError(
            "thread_lead_invalid",
            f"{callout.starts} starts of that pitch make a lead of {length(callout.starts * pitch, unit)},"
            f" not {length(lead, unit)}",
            pointer=POINTER,
        )
    return starts, starts * pitch


def multi_start(
    *, starts: int, lead: Decimal, pitch_diameter: Decimal, unit: Unit, proof: Evidence
) -> dict[str, Mapping[str, object]]:
    """The ``multi_start`` object of a thread with more than one start, nothing for one start.

    The lead angle at the pitch diameter is ``atan(lead / (pi d2))``, in degrees to 2 decimals.
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
    """Say that a length of engagement was given but changes nothing."""
    if engagement is not None:
        proof.assume("the length of engagement does not change the limits of this thread")


def inch_pitch(tpi: Decimal) -> Decimal:
    """Pitch in inches of a number of threads per inch, to 7 decimals."""
    return half_up(1 / tpi, 7)


def left(callout: ThreadCallout, suffix: str) -> str:
    """``suffix`` for a left-hand thread, nothing for a right-hand one."""
    return suffix if callout.hand == "left" else ""


def open_range() -> Range:
    """A diameter for which the standard sets, or the tables hold, no limit."""
    return Range(None, None)


@read_once
def by_key(name: str, *columns: str) -> Mapping[str, Mapping[str, str]]:
    """Rows of a table by the text of the columns named, joined by a blank."""
    return MappingProxyType({" ".join(row[column] for column in columns): row for row in load(name).rows})


@read_once
def chart(system: str, *, table: str) -> Mapping[tuple[str, str, str], Mapping[str, str]]:
    """Rows of a drill chart of one system by (series, size, variant)."""
    rows = (row for row in load(table).rows if row["system"] == system)
    return MappingProxyType({(row["series"], row["size"], row["variant"]): row for row in rows})
