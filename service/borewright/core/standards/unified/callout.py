"""Unified inch threads: UNC UNF UNEF UN UNS, UNR as the mate, UNJ (ASME B1.1, B1.15; designation: B1.1 section 6)."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout.classes import members, take_class
from borewright.core.callout.inch_size import InchSize, read_inch_size, screw_diameter_in
from borewright.core.callout.inch_thread import SHAPE, fill, threads_per_inch
from borewright.core.callout.series_meant import series_meant
from borewright.core.callout.starts import starts_of
from borewright.core.callout.text import unreadable
from borewright.core.callout.thread_as_written import Written, finish
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout
from borewright.core.rounding import plain

from . import refusals as refusals
from . import sizes as series_table
from .series_names import j_form, un_form, without_number

_INTERNAL = {"unified": ("1B", "2B", "3B"), "unified_j": ("2B", "3B")}
_EXTERNAL = {"unified": ("1A", "2A", "3A"), "unified_j": ("2A", "3A")}
_DEFAULT_CLASS = {"unified": "2B", "unified_j": "3B"}
_LARGEST_IN = Decimal(24)

_SHAPE = re.compile(rf"{SHAPE}(?:[-| ](?P<again>[0-9]{{1,2}}))?")
_BARE_CLASS = re.compile(r"(?P<thread>.*[0-9])[-|]{1,2} ?(?P<digit>[1-5])")


# --- text --------------------------------------------------------------------------------------------


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose series ``word`` is already cut out.

    Raises:
        CalloutError: the rest is not ``size-threads per inch``.
    """
    text, written.thread_class = take_class(text)
    found = _SHAPE.fullmatch(text.upper())
    if found is None:
        raise _not_this_shape(text, word)
    fill(found, written)
    written.series = word.series
    if found["again"] and Decimal(found["again"]) != written.threads_per_inch:
        raise (_not_this_shape(text, word) if word.series else unreadable("Threads per inch are given twice."))


def _not_this_shape(text: str, word: Word) -> CalloutError:
    bare = _BARE_CLASS.fullmatch(text)
    if bare and word.series:
        return CalloutError(
            "thread_class_unknown",
            f"Class {bare['digit']} without a letter is of the old American National standard; a Unified internal "
            "class is 1B, 2B or 3B.",
            allowed=_INTERNAL["unified"],
            did_you_mean=(f"{bare['thread']} {word.series}-{bare['digit']}B",) if bare["digit"] in "123" else (),
        )
    return unreadable(f"{text.replace('|', ' ')!r} is not size and threads per inch, such as 3/8-16 or #10-32.")


# --- verdict -----------------------------------------------------------------------------------------


def settle(system: str, written: Written) -> ThreadCallout:
    """The one Unified thread that was ``written``, settled or refused.

    Args:
        system: ``unified`` or ``unified_j``.
        written: fields as read from text or given one by one.

    Raises:
        CalloutError: unknown size, pitch, series or class, or more than one meaning.

    Source: ASME B1.1 sections 6 (designation) and 13 (special threads); ASME B1.15 for UNJ.
    """
    asked = _plain_series(system, written)
    tpi = threads_per_inch(written)
    size = _size(tpi, written)
    if tpi is None:
        label, diameter, tpi = _complete(size, asked, written)
    else:
        label, diameter = _locate(size, tpi, asked, written)
    series = _series(system, label, diameter, tpi, asked, written)
    thread_class = _class(system, f"{label}-{plain(tpi)} {without_number(series)}", written)
    return finish(
        system,
        written,
        size=label,
        diameter=diameter,
        unit="in",
        threads_per_inch=tpi,
        series=series,
        thread_class=thread_class,
        starts=starts_of(written, threads_per_inch=tpi),
    )


def known_series(system: str) -> tuple[str, ...]:
    """Names of the series of ``system``, ``unified`` or ``unified_j``, in the order of the standard's table."""
    return tuple(_joined(system, name) for name in (*series_table.SERIES, "UNS"))


def _plain_series(system: str, written: Written) -> str | None:
    """The UN name of the series asked for: ``UNJF`` -> ``UNF``, ``16UNJ`` -> ``16UN``; None when none was written."""
    if written.series is None:
        return None
    asked = un_form(written.series.upper().replace(" ", ""))
    if asked not in (*series_table.SERIES, "UNS", "UN"):
        raise CalloutError(
            "thread_series_mismatch",
            f"{shortened(written.series)!r} is no series of the Unified standard.",
            pointer="/series",
            allowed=known_series(system),
            did_you_mean=series_meant(written.series, known_series(system)),
        )
    return asked


def _size(tpi: Decimal | None, written: Written) -> InchSize:
    try:
        return read_inch_size(written.size.upper())
    except CalloutError as error:
        raise refusals.with_callouts(error, tpi, written) from None


def _complete(size: InchSize, asked: str | None, written: Written) -> tuple[str, Decimal, Decimal]:
    """The thread of a callout without threads per inch: only a graded series name settles it."""
    sizes = _labels(size)
    fits = [
        (label, diameter, tpi)
        for label, diameter in sizes
        if asked is not None and (tpi := series_table.pitches_for(label).get(asked)) is not None
    ]
    if len(fits) == 1:
        ((label, diameter, tpi),) = fits
        written.assumptions.append(f"No threads per inch written: {label} {asked} has {plain(tpi)}.")
        return label, diameter, tpi
    raise refusals.no_pitch(size, sizes, asked, written)


def _locate(size: InchSize, tpi: Decimal, asked: str | None, written: Written) -> tuple[str, Decimal]:
    """Label and basic major diameter of the size, the threads per inch telling screw numbers from inches."""
    sizes = _labels(size)
    members_ = [found for found in sizes if series_table.series_for(found[0], tpi)]
    if len(members_) == 1:
        return members_.pop()
    if asked == "UNS" and sizes:
        return _special_size(sizes, tpi)
    if not sizes:
        raise refusals.size_unknown(size, tpi, written)
    likely = [found for found in sizes if refusals.plausible(found[0], diameter=found[1], tpi=tpi)]
    raise refusals.no_such_pitch(likely or sizes, tpi, asked, written)


def _labels(size: InchSize) -> list[tuple[str, Decimal]]:
    """Every (label, diameter) that the written size can be: screw number, inch size, rounded decimal."""
    found: list[tuple[str, Decimal]] = []
    if size.screw is not None and f"#{size.screw}" in series_table.SIZES:
        found.append((f"#{size.screw}", screw_diameter_in(size.screw)))
    if size.diameter_in is None:
        return found
    label = series_table.label_for(size.diameter_in)
    if label is not None:
        found.append((label, series_table.SIZES[label]))
    elif size.written_as == "decimal" and len(size.label.partition(".")[2]) == 3:
        found += _shortened(size.diameter_in)
    if not found and size.diameter_in <= _LARGEST_IN:
        screw_like = size.written_as == "decimal" and size.label.isdigit()
        found.append((f"{size.label}.000" if screw_like else size.label, size.diameter_in))
    return found


def _shortened(diameter_in: Decimal) -> list[tuple[str, Decimal]]:
    """Standard sizes that a three-place decimal is the short form of (.312 and .313 -> 5/16)."""
    near = [
        (label, exact) for label, exact in series_table.SIZES.items() if abs(exact - diameter_in) < Decimal("0.001")
    ]
    return [*near, (plain(diameter_in), diameter_in)] if near else []


def _special_size(sizes: list[tuple[str, Decimal]], tpi: Decimal) -> tuple[str, Decimal]:
    """The size of a special thread: an integer is a screw number where only that one is a likely thread."""
    if len(sizes) == 1:
        return sizes.pop()
    likely = [found for found in sizes if refusals.plausible(found[0], diameter=found[1], tpi=tpi)]
    if len(likely) == 1:
        return likely.pop()
    raise CalloutError(
        "callout_ambiguous",
        "The number can be a screw size or inches."
        if any(label.startswith("#") for label, _ in sizes)
        else "Three decimals can be those of a standard size, cut short, or a diameter of their own.",
        pointer="/size",
        did_you_mean=tuple(f"{_explicit(label, diameter)}-{plain(tpi)} UNS" for label, diameter in sizes),
    )


def _explicit(label: str, diameter: Decimal) -> str:
    return label if label.startswith("#") or "/" in label else f"{diameter:.3f}"


def _series(system: str, label: str, diameter: Decimal, tpi: Decimal, asked: str | None, written: Written) -> str:
    """The name the thread goes by, and the assumption where it is not the name that was written."""
    actual = series_table.series_for(label, tpi)
    if actual is None:
        return _joined(system, "UNS")
    name = _joined(system, without_number(actual))
    if asked is None:
        written.assumptions.append(f"No series written: {label}-{plain(tpi)} is the {name} member.")
    elif asked not in (actual, without_number(actual)):
        if asked != "UN" and asked.removesuffix("UN") != plain(tpi):
            raise refusals.mismatch(asked, [(label, diameter)], tpi, written)
        written.assumptions.append(f"{label}-{plain(tpi)} goes by the name of its graded series, {name}.")
    return _joined(system, actual)


def _joined(system: str, series: str) -> str:
    return j_form(series) if system == "unified_j" else series


def _class(system: str, thread: str, written: Written) -> str:
    """The internal class, the default with an assumption, or a refusal."""
    internal, external, default = _INTERNAL[system], _EXTERNAL[system], _DEFAULT_CLASS[system]
    if written.thread_class is None:
        document = "ASME B1.1" if system == "unified" else "aerospace practice (ASME B1.15)"
        written.assumptions.append(f"No class written: {default}, the usual internal class of {document}.")
        return default
    found = tuple(part.upper() for part in members(written.thread_class))
    inside = [part for part in found if part in internal]
    outside = [part for part in found if part in external]
    if len(inside) + len(outside) != len(found) or not found or len(inside) > 1:
        raise CalloutError(
            "thread_class_unknown",
            f"Class {written.thread_class} does not exist for an internal {written.series or 'Unified'} thread.",
            pointer="/class",
            allowed=internal,
            did_you_mean=(f"{thread}-{default}",),
        )
    if not inside:
        mates = f"{outside[0][0]}B"
        raise CalloutError(
            "thread_class_external",
            f"{outside[0]} is the class of the screw; the hole that takes it has an internal class, usually {mates}.",
            pointer="/class",
            allowed=internal,
            did_you_mean=(f"{thread}-{mates}",),
        )
    written.extra += [("mating_class", part) for part in outside]
    (internal_class,) = inside
    return internal_class
