"""Holes for helical coil inserts (STI): the nominal thread's callout with ``STI`` or ``EG`` beside it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from borewright.core.callout.classes import members
from borewright.core.callout.text import cut, number
from borewright.core.callout.thread_as_written import Written, refuse_unused
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout
from borewright.core.rounding import plain
from borewright.core.standards.family import Size, near_sizes
from borewright.core.standards.metric import callout as metric
from borewright.core.standards.unified import callout as unified
from borewright.core.standards.unified.series_names import without_number

from .thread import sizes

_CLASSES = {"insert_unified": ("2B", "3B"), "insert_metric": ("5H", "4H5H")}
_EXTERNAL = frozenset({"1A", "2A", "3A"})
_LENGTH = re.compile(r"(?<![0-9A-Z./,])(1[.,]5|2[.,]5|[123]) ?D(?![A-Z0-9])")


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose ``word`` is already cut out; ``1.5D`` is the length of the
    insert.

    Raises:
        CalloutError: the rest is not the nominal thread.
    """
    found = _LENGTH.search(text.upper())
    if found is not None:
        written.extra.append(("insert_length_diameters", number(found[1])))
        text = cut(text, *found.span()).rstrip(" xX|")
    (unified if word.system == "insert_unified" else metric).parse(text, word, written)


def settle(system: str, written: Written) -> ThreadCallout:
    """The one insert hole that was ``written``, settled or refused.

    Args:
        system: ``insert_unified`` or ``insert_metric``.
        written: fields of the nominal thread, as read from text or given one by one; the class is the one after the
            insert is installed.

    Raises:
        CalloutError: unknown size, pitch, series or class, or a thread that no insert is listed for.

    Source: ASME B18.29.1, NASM33537, ASME B18.29.2M (designation, sizes).
    """
    refuse_unused(written, "starts", "lead", title="STI")
    extra, thread_class = tuple(written.extra), _class(system, written)
    nominal = _nominal(system, thread_class, written)
    _check_listed(system, nominal, thread_class, sizes(system))
    return replace(
        nominal,
        system=system,
        thread_class=thread_class,
        series=nominal.series if system == "insert_unified" else None,
        extra=extra,
        assumptions=tuple(written.assumptions),
    )


def known_series(system: str) -> tuple[str, ...]:
    """Names of the series of the screw that the inserts of ``system`` take."""
    return unified.known_series(system) if system == "insert_unified" else metric.known_series(system)


def _nominal(system: str, thread_class: str, written: Written) -> ThreadCallout:
    """The thread of the screw; a refusal offers the inserts of that size instead."""
    inch = system == "insert_unified"
    base, grade, reader = ("unified", "2B", unified.settle) if inch else ("iso_metric", "6H", metric.settle)
    try:
        return reader(base, replace(written, thread_class=grade, extra=[]))
    except CalloutError as error:
        known = sizes(system)
        near = near_sizes(written.size.upper().removeprefix("M").strip(), known)[:1]
        meant = tuple(name for one in near for name in _name(one, known[one], inch=inch, thread_class=thread_class))
        (fault,) = error.faults
        error.faults = (replace(fault, did_you_mean=meant),)
        raise


def _check_listed(system: str, nominal: ThreadCallout, thread_class: str, known: Mapping[str, Size]) -> None:
    """Refuse a nominal thread that the insert standard does not list, naming the inserts near it."""
    inch = system == "insert_unified"
    size = known.get(nominal.size)
    held = () if size is None else size.threads_per_inch if inch else size.pitches_mm
    if (nominal.threads_per_inch if inch else nominal.pitch) in held:
        return
    near = near_sizes(nominal.size, known) if size is None else (nominal.size,)
    meant = [_name(label, known[label], inch=inch, thread_class=thread_class) for label in near]
    raise CalloutError(
        "thread_size_unknown" if size is None else "thread_pitch_unknown",
        f"No insert for {_nominal_name(nominal)} is held.",
        pointer="/size" if size is None else "/threads_per_inch" if inch else "/pitch",
        did_you_mean=tuple(name for names in meant for name in names),
    )


def _name(label: str, size: Size, *, inch: bool, thread_class: str) -> tuple[str, ...]:
    if inch:
        return tuple(f"{label}-{plain(count)} STI {thread_class}" for count in size.threads_per_inch)
    return tuple(f"M{label}x{plain(pitch)} STI {thread_class}" for pitch in size.pitches_mm)


def _nominal_name(nominal: ThreadCallout) -> str:
    if nominal.threads_per_inch is not None:
        return f"{nominal.size}-{plain(nominal.threads_per_inch)} {without_number(nominal.series or '')}"
    return f"M{nominal.size}x{plain(nominal.pitch or nominal.nominal_diameter)}"


def _class(system: str, written: Written) -> str:
    """The class after the insert is in; the wider one where none is written."""
    allowed = _CLASSES[system]
    if written.thread_class is None:
        widest, _ = allowed
        written.assumptions.append(f"No class written: {widest}, the class after the insert is installed.")
        return widest
    found = members(written.thread_class)
    if system == "insert_unified":
        found = tuple(part.upper() for part in found)
    for one in allowed:
        if found == (one,):
            return one
    external = bool(found) and all(
        part in _EXTERNAL or (system == "insert_metric" and part.islower()) for part in found
    )
    raise CalloutError(
        "thread_class_external" if external else "thread_class_unknown",
        f"A hole for an insert has class {' or '.join(allowed)}, not {shortened(written.thread_class)}.",
        pointer="/class",
        allowed=allowed,
    )
