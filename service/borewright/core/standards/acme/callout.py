"""Acme 2G 3G 4G and stub Acme (ASME B1.5, B1.8)."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from borewright.core.callout import listed_sizes
from borewright.core.callout.classes import members, take_class
from borewright.core.callout.inch_size import read_inch_size
from borewright.core.callout.inch_thread import SHAPE, fill, threads_per_inch
from borewright.core.callout.starts import starts_of
from borewright.core.callout.text import unreadable
from borewright.core.callout.thread_as_written import Written, finish
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout
from borewright.core.rounding import plain
from borewright.core.standards.family import Size

from .thread import sizes

_CLASSES = {"acme": ("2G", "3G", "4G"), "stub_acme": ("2G",)}
_WORD = {"acme": "ACME", "stub_acme": "STUB ACME"}
_SHAPE = re.compile(rf"{SHAPE}(?:[-| ]{{1,3}}(?P<special>SPL|SPECIAL))?")


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose system ``word`` is already cut out.

    Raises:
        CalloutError: the rest is not size and threads per inch, or size, pitch and lead.
    """
    rest, written.thread_class = take_class(text)
    found = _SHAPE.fullmatch(rest.upper())
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not size and threads per inch of an Acme thread, such as 1-5.")
    fill(found, written)
    if found["special"]:
        written.extra.append(("special", True))


def settle(system: str, written: Written) -> ThreadCallout:
    """The one Acme thread that was ``written``, settled or refused.

    Args:
        system: ``acme`` or ``stub_acme``.
        written: fields as read from text or given one by one; a pair that no table holds must give its lead, or the
            item ``special`` of ``extra``.

    Raises:
        CalloutError: unknown size, pitch or class, or a centralizing class.

    Source: ASME B1.5 (designation, classes), ASME B1.8.
    """
    title = _WORD[system]
    if written.series is not None:
        raise CalloutError("thread_series_mismatch", f"{title} has no series.", pointer="/series")
    thread_class = _class(system, written)

    def name(label: str, tpi: Decimal) -> str:
        hand = "-LH" if written.hand == "left" else ""
        return f"{label}-{plain(tpi)} {title}{'' if system == 'stub_acme' else '-' + thread_class}{hand}"

    known = sizes(system)
    if _is_special(written, known, name, title):
        return _special(system, written, thread_class)
    label = listed_sizes.inch_label(title, written, known, name)
    tpi = _listed_pitch(title, written, label, known, name)
    return finish(
        system,
        written,
        size=label,
        diameter=known[label].diameter,
        unit="in",
        threads_per_inch=tpi,
        thread_class=thread_class,
        starts=starts_of(written, threads_per_inch=tpi),
    )


def _listed_pitch(
    title: str, written: Written, label: str, known: Mapping[str, Size], name: listed_sizes.Named
) -> Decimal:
    """The pitch of the standard's table; a refusal also offers the pair as a special thread."""
    try:
        return listed_sizes.inch_pitch(title, written, label, known, name)
    except CalloutError as error:
        (fault,), given = error.faults, threads_per_inch(written)
        special = () if given is None else (f"{label}-{plain(given)} {title} SPL",)
        error.faults = (replace(fault, did_you_mean=(*fault.did_you_mean, *special)),)
        raise


def _is_special(written: Written, known: Mapping[str, Size], name: listed_sizes.Named, title: str) -> bool:
    """Whether the callout means a diameter and pitch outside the standard's table: it says so or gives its lead."""
    declared = written.lead is not None or bool(dict(written.extra).get("special"))
    if not declared:
        return False
    try:
        label = listed_sizes.inch_label(title, written, known, name)
    except CalloutError:
        return True
    return threads_per_inch(written) not in (None, *known[label].threads_per_inch)


def _special(system: str, written: Written, thread_class: str) -> ThreadCallout:
    size, tpi = read_inch_size(written.size.upper()), threads_per_inch(written)
    if size.diameter_in is None or tpi is None:
        raise CalloutError(
            "thread_field_missing", "A special Acme thread needs diameter and pitch.", pointer="/threads_per_inch"
        )
    starts = starts_of(written, threads_per_inch=tpi)
    return finish(
        system,
        written,
        size=size.label,
        diameter=size.diameter_in,
        unit="in",
        threads_per_inch=tpi,
        thread_class=thread_class,
        starts=starts,
    )


def _class(system: str, written: Written) -> str:
    allowed = _CLASSES[system]
    if written.thread_class is None:
        written.assumptions.append("No class written: 2G, the general purpose class.")
        return "2G"
    found = tuple(part.upper() for part in members(written.thread_class))
    for one in allowed:
        if set(found) == {one}:
            return one
    centralizing = any(part.endswith("C") for part in found)
    raise CalloutError(
        "thread_data_missing" if centralizing else "thread_class_unknown",
        "Centralizing Acme classes (2C to 6C) are not held: their limits are fitted on the major diameter."
        if centralizing
        else f"{_WORD[system]} has no class {shortened(written.thread_class)!r}.",
        pointer="/class",
        allowed=allowed,
    )
