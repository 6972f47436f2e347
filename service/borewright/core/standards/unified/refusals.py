"""What a Unified callout that cannot be is told: what exists, and what was probably meant."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.callout import other_systems
from borewright.core.callout.inch_size import InchSize, screw_diameter_in
from borewright.core.callout.inch_thread import pitch_pointer
from borewright.core.callout.thread_as_written import Written
from borewright.core.errors import CalloutError
from borewright.core.rounding import plain

from . import sizes as series_table
from .series_names import without_number

Sizes = list[tuple[str, Decimal]]
#: Threads per inch of the finest thread that a special one can be (ASME B1.1: the finest series has as many).
FINEST_TPI = 80


def plausible(label: str, *, diameter: Decimal, tpi: Decimal) -> bool:
    """Whether the size ``label`` of ``diameter`` in inches and ``tpi`` threads per inch are in proportion: between the
    coarse and the fine end of what the series hold.
    """
    if label.startswith("#"):
        return 4 <= diameter * tpi <= 12
    return diameter * tpi >= 4 and tpi <= (32 if diameter >= 1 else FINEST_TPI)


def suffix(written: Written) -> str:
    """What else was written and belongs to the thread that was probably meant: an internal class, left hand."""
    grade = (written.thread_class or "").upper()
    return (f"-{grade}" if grade in ("1B", "2B", "3B") else "") + ("-LH" if written.hand == "left" else "")


def members_of(label: str, written: Written) -> tuple[str, ...]:
    """Callouts of every standard thread of the size ``label``, with what else is ``written``."""
    return tuple(
        f"{label}-{plain(tpi)} {without_number(name)}{suffix(written)}"
        for name, tpi in series_table.pitches_for(label).items()
    )


def no_pitch(size: InchSize, sizes: Sizes, asked: str | None, written: Written) -> CalloutError:
    """The error of a size alone, ``asked`` for as ``written``: every thread that it can be among ``sizes``."""
    known = [name for label, _ in sizes for name in members_of(label, written)]
    if not sizes:
        return size_unknown(size, None, written)
    others = () if asked else (*other_systems.as_metric(size.label), *other_systems.with_size(size.label))
    return CalloutError(
        "callout_ambiguous",
        f"{size.label} without threads per inch can be more than one thread.",
        pointer=pitch_pointer(written),
        did_you_mean=(*known[:4], *others[:5]),
    )


def size_unknown(size: InchSize, tpi: Decimal | None, written: Written) -> CalloutError:
    """The error of a size with ``tpi``, as ``written``, that the standard does not have, with threads of the sizes near
    it.
    """
    wanted = _diameter_of(size)
    near = sorted(series_table.SIZES, key=lambda label: abs(series_table.SIZES[label] - wanted))[:2]
    return CalloutError(
        "thread_size_unknown",
        f"{size.label} is not a size of the Unified standard.",
        pointer="/size",
        allowed=tuple(series_table.SIZES),
        did_you_mean=tuple(name for label in near for name in _with_pitch(label, tpi, written)),
    )


def with_callouts(error: CalloutError, tpi: Decimal | None, written: Written) -> CalloutError:
    """The error of an odd fraction with ``tpi``, as ``written``, its suggested sizes made callouts."""
    (fault,) = error.faults
    sizes = [size.rpartition("-") for size in fault.did_you_mean]
    meant = tuple(
        name
        for screw, dash, size in sizes
        for name in _with_pitch(screw or size, Decimal(size) if dash else tpi, written)
    )
    error.faults = (replace(fault, did_you_mean=meant),)
    return error


def _with_pitch(label: str, tpi: Decimal | None, written: Written) -> tuple[str, ...]:
    """The thread of a size with a pitch, or the first two that the size has."""
    name = None if tpi is None else series_table.series_for(label, tpi)
    if tpi is None or name is None:
        return members_of(label, written)[:2]
    return (f"{label}-{plain(tpi)} {without_number(name)}{suffix(written)}",)


def _diameter_of(size: InchSize) -> Decimal:
    if size.diameter_in is not None:
        return size.diameter_in
    assert size.screw is not None
    return screw_diameter_in(size.screw)


def no_such_pitch(sizes: Sizes, tpi: Decimal, asked: str | None, written: Written) -> CalloutError:
    """The error of ``tpi`` threads per inch, ``asked`` for as ``written``, that no series has for the ``sizes``."""
    if asked is not None:
        return mismatch(asked, sizes, tpi, written)
    label = sizes[0][0]
    others = _others(sizes, tpi)
    special = _special(sizes, tpi, written)
    return CalloutError(
        "callout_ambiguous" if others else "thread_pitch_unknown",
        f"No Unified series holds {label} with {plain(tpi)} threads per inch, and no series is written.",
        pointer=pitch_pointer(written),
        did_you_mean=(*others, *_nearest(sizes, tpi, written), *special),
    )


def mismatch(asked: str, sizes: Sizes, tpi: Decimal, written: Written) -> CalloutError:
    """The error of a series word, ``asked`` as ``written``, that contradicts ``tpi``: what exists
    under the ``sizes``.
    """
    label = sizes[0][0]
    others = _others(sizes, tpi)
    actual = next((name for found, _ in sizes if (name := series_table.series_for(found, tpi))), None)
    exact = (f"{label}-{plain(tpi)} {without_number(actual)}{suffix(written)}",) if actual else ()
    special = () if actual else _special(sizes, tpi, written)
    own = tuple(
        f"{found}-{plain(table[asked])} {without_number(asked)}{suffix(written)}"
        for found, _ in sizes
        if asked in (table := series_table.pitches_for(found))
    )
    exists = ", ".join(f"{name} {plain(count)}" for name, count in series_table.pitches_for(label).items())
    there = f"{label} exists as {exists}" if exists else f"{label} is in no standard series"
    besides = f"; {' and '.join(others)} {'has' if len(others) == 1 else 'have'} that size and pitch" if others else ""
    return CalloutError(
        "thread_series_mismatch",
        f"{label} with {plain(tpi)} threads per inch is not {asked}: {there}{besides}.",
        pointer="/series",
        did_you_mean=tuple(dict.fromkeys((*exact, *own, *others, *_nearest(sizes, tpi, written), *special))),
    )


def _nearest(sizes: Sizes, tpi: Decimal, written: Written) -> tuple[str, ...]:
    threads = [(label, name, count) for label, _ in sizes for name, count in series_table.pitches_for(label).items()]
    threads.sort(key=lambda thread: abs(thread[2] - tpi))
    return tuple(
        f"{label}-{plain(count)} {without_number(name)}{suffix(written)}" for label, name, count in threads[:2]
    )


def _special(sizes: Sizes, tpi: Decimal, written: Written) -> tuple[str, ...]:
    return tuple(
        f"{label}-{plain(tpi)} UNS{suffix(written)}"
        for label, diameter in sizes
        if tpi <= FINEST_TPI and plausible(label, diameter=diameter, tpi=tpi)
    )


def _others(sizes: Sizes, tpi: Decimal) -> tuple[str, ...]:
    """Threads of other systems that have one of the sizes with that pitch."""
    metric = other_systems.as_metric(sizes[0][0].lstrip("#"), tpi)
    return (*metric, *(name for label, _ in sizes for name in other_systems.with_size(label, tpi)))
