"""Which pitch-diameter limits a thread's taps are made to, whatever its system: the front of the limit tables."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Literal

from borewright.core.caches import cached, read_once
from borewright.core.citation import Cite, cite
from borewright.core.model import Range, Status, TapLimit, Thread, Unit
from borewright.core.requests import TapLimits
from borewright.core.standards.systems import traits

from . import etched, ground_inch, insert, metric
from .tap_candidates import Candidate

Family = Literal["inch", "metric", "insert"]

_LABEL = re.compile(r"(H|L|D|DU|ISO) ?-?([0-9]{1,2})")
_LETTERS: dict[Family, tuple[str, ...]] = {
    "inch": ("H", "L"),
    "metric": ("D", "DU", "ISO"),
    "insert": ("H",),
}
_SYSTEM_WORDS: dict[TapLimits, str] = {"inch_h": "H limits", "metric_d": "D limits", "iso_class": "ISO classes"}
_PLUS_LOW = "basic + amount"
_PLUS_INCH = "Machinery's Handbook 31st ed. p. 972, limits off the even numbers"
_PLUS_METRIC = "band of 0.2 t, position given as an amount over basic"


def family(thread: Thread) -> Family | None:
    """The kind of tap limits a thread's system uses, None where no tap-limit table is held for it."""
    return traits(thread).tap_limits


def normal_label(text: str) -> str | None:
    """The standard spelling of ``text``, a limit label (``h3`` -> ``H3``, ``iso2`` -> ``ISO 2``), None when it is no
    label.
    """
    found = _LABEL.fullmatch(text.strip().upper())
    if found is None:
        return None
    letters, number = found[1], int(found[2])
    if number == 0 or (letters == "ISO" and number not in (1, 2, 3)):
        return None
    return f"ISO {number}" if letters == "ISO" else f"{letters}{number}"


def letters_for(thread: Thread) -> tuple[str, ...]:
    """The letters that open a limit label of the thread's taps; empty where no table is held."""
    kind = family(thread)
    return () if kind is None else _LETTERS[kind]


def labelled(thread: Thread, label: str) -> Candidate | None:
    """The limit of that label for a thread.

    Args: ``label`` in the spelling of :func:`normal_label`.
    Returns: None where the label is of another kind of tap, or the tables do not cover the thread's size and pitch.
    Source: ASME B94.9 (H, L, D, DU), ISO 2857 (ISO 1 to 3).
    """
    kind = family(thread)
    letters = label.rstrip("0123456789 ")
    if kind is None or letters not in _LETTERS[kind]:
        return None
    if kind == "inch":
        return ground_inch.labelled(thread, label)
    if kind == "insert":
        return insert.labelled(thread, label)
    return metric.classed(thread, int(label[-1])) if letters == "ISO" else metric.numbered(thread, label)


def system_for(thread: Thread, asked: TapLimits | None) -> TapLimits | None:
    """The one system that the taps of a thread are told in; None where no table is held for it.

    Metric taps are made to D limits or ISO classes, all others to H limits, whatever is asked for.
    Source: ASME B94.9, ISO 2857; ISO classes as the default of metric taps: our own.
    """
    kind = family(thread)
    if kind == "metric":
        return "metric_d" if asked == "metric_d" else "iso_class"
    return None if kind is None else "inch_h"


def other_system(thread: Thread, asked: TapLimits | None) -> tuple[str, ...]:
    """What is said where another system was asked for than the taps of a thread are made to."""
    used = system_for(thread, asked)
    if asked is None or asked == used:
        return ()
    if used is None:
        return (f"taps of {thread.designation} have no tabulated limits: {_SYSTEM_WORDS[asked]} were asked for",)
    return (f"taps of {thread.designation} are not made to {_SYSTEM_WORDS[asked]}: told in {_SYSTEM_WORDS[used]}",)


def systems_for(thread: Thread) -> tuple[TapLimits, ...]:
    """Every system of limits that taps of a thread are made to."""
    system = system_for(thread, None)
    if system is None:
        return ()
    return ("iso_class", "metric_d") if system == "iso_class" else (system,)


@cached(64)
def limits_of_tables(thread: Thread, system: TapLimits) -> tuple[Candidate, ...]:
    """Every limit of a system that taps of the thread are made to, in order of size.

    Source: ASME B94.9 (H, D), ISO 2857 (classes); an insert thread has the printed limits of its size only.
    """
    kind = family(thread)
    if kind == "metric":
        return metric.listed_d(thread) if system == "metric_d" else metric.listed_classes(thread)
    if kind is None or system != "inch_h":
        return ()
    if kind == "inch":
        return ground_inch.h_limits(thread)
    return tuple({candidate.limit.label: candidate for _, candidate in insert.printed_limits(thread)}.values())


def plus_tolerance(thread: Thread) -> Decimal | None:
    """Tolerance of a tap ordered as basic plus an amount, in the thread's unit; None where none is known.

    Source: ASME B94.9 tolerance of H limits; 0.2 t of ISO 2857.
    """
    kind = family(thread)
    if kind == "inch":
        return ground_inch.plus_tolerance(thread)
    return metric.plus_tolerance(thread) if kind == "metric" else None


def basic_plus(thread: Thread, *, amount: Decimal, tolerance: Decimal) -> Candidate:
    """A limit ordered by amount: minimum pitch diameter = basic + ``amount``, with the ``tolerance`` of a tap, in the
    thread's unit.

    Source: ASME B94.9 tap marking, limits off the steps (Machinery's Handbook 31st ed. p. 972: 7/16-14 plus .0017 is
    0.3928 in at least); band of ISO 2857 for metric threads.
    """
    basic = thread.basic.pitch_diameter
    low = basic + amount
    high = low + tolerance
    status: Status = "computed" if thread.unit == "in" else "from_memory"
    return Candidate(
        TapLimit(f"{etched.PLUS}{amount}", Range(low, high), status),
        low,
        high,
        _plus_place(thread.unit),
        ground_inch.HIGH_OF_LOW,
        _PLUS_LOW,
        {"basic": basic, "amount": amount, "tolerance": tolerance},
    )


def raised(candidate: Candidate, amount: Decimal) -> Candidate:
    """The limit ``candidate`` with both its ends raised by ``amount``, in the thread's unit: a tap etched as oversize
    over its limit.

    Source: arithmetic; the reading of such a marking is common practice.
    """
    low, high = candidate.low + amount, candidate.high + amount
    return candidate._replace(
        limit=TapLimit(f"{candidate.limit.label} plus {amount}", Range(low, high), "computed"),
        low=low,
        high=high,
        low_formula="limit_min + amount",
        high_formula="limit_max + amount",
        inputs={"limit_min": candidate.low, "limit_max": candidate.high, "amount": amount},
    )


@read_once
def _plus_place(unit: Unit) -> Cite:
    """Where the rule of taps ordered as basic plus an amount stands."""
    if unit == "in":
        return cite("tap_limits_cut_inch").at(_PLUS_INCH, "computed")
    return cite("tap_classes_iso2857").at(_PLUS_METRIC)
