"""Sizes and pitches of the systems that exist as a list: find the one that is written, or say what there is."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from borewright.core.errors import CalloutError
from borewright.core.rounding import plain
from borewright.core.standards.family import Size, near_sizes, value_of

from . import other_systems
from .inch_size import read_inch_size
from .inch_thread import pitch_pointer, threads_per_inch
from .thread_as_written import Written

Named = Callable[[str, Decimal], str]


def inch_label(title: str, written: Written, known: Mapping[str, Size], name: Named) -> str:
    """Label of the size that is written as a fraction, an integer or a decimal, out of the ``known`` labels.

    Args: ``title`` of the standard in an error; ``written`` fields of the callout; ``known`` diameters in inches by
        label; ``name`` writes a label as a callout.

    Raises:
        CalloutError: ``thread_size_unknown`` with the sizes that exist.
    """
    size = read_inch_size(written.size.upper().removesuffix("OD").strip())
    candidates = (size.label, f"{size.label} OD", f"#{size.screw}")
    label = next((candidate for candidate in candidates if candidate in known), None)
    if label is None and size.diameter_in is not None:
        label = next((one for one in known if _is_value(one, size.diameter_in)), None)
    if label is None:
        near = near_sizes(size.label, known)
        raise CalloutError(
            "thread_size_unknown",
            f"{title} has no size {size.label}.",
            pointer="/size",
            allowed=tuple(known),
            did_you_mean=tuple(name(one, known[one].only_threads_per_inch) for one in near),
        )
    if label.endswith(" OD") and not written.size.upper().endswith("OD"):
        written.assumptions.append(f"{title} sizes from 14 are outside diameters: {label}.")
    return label


def _is_value(label: str, value: Decimal) -> bool:
    known = value_of(label)
    return known is not None and abs(known - value) < Decimal("0.0005")


def inch_pitch(title: str, written: Written, label: str, table: Mapping[str, Size], name: Named) -> Decimal:
    """Threads per inch of a listed size, which has one count: the one written, or it, with an assumption.

    Args: ``title`` of the standard in an error; ``written`` fields of the callout; ``label`` of the size; ``table`` of
        threads per inch by label; ``name`` writes label and threads per inch as a callout.

    Raises:
        CalloutError: the size does not have them.
    """
    known = table[label].threads_per_inch
    given = threads_per_inch(written, known)
    if given in known:
        return known[known.index(given)]
    if given is None:
        (only,) = known
        written.assumptions.append(f"No threads per inch written: {title} {label} has {plain(only)}.")
        return only
    others = (*other_systems.unified(label, given), *other_systems.with_size(label, given))
    own = tuple(name(label, count) for count in known)
    alike = near_sizes(label, [one for one, size in table.items() if given in size.threads_per_inch])[:1]
    besides = f"; {', '.join(others)} {'has' if len(others) == 1 else 'have'}" if others else ""
    raise CalloutError(
        "thread_series_mismatch" if others else "thread_pitch_unknown",
        f"{title} {label} does not have {plain(given)} threads per inch{besides}.",
        pointer=pitch_pointer(written),
        allowed=tuple(plain(count) for count in known),
        did_you_mean=tuple(dict.fromkeys((*own, *others, *(name(one, given) for one in alike)))),
    )


def metric_pitch(
    title: str, written: Written, label: str, known: tuple[Decimal, ...], name: Named, *, hint: str = ""
) -> Decimal:
    """Pitch in mm of a listed size: the one written, or the only one there is, with an assumption.

    Args: ``title`` of the standard in an error; ``written`` fields of the callout; ``label`` of the size; ``known``
        pitches in mm; ``name`` writes label and pitch as a callout; ``hint`` for a pitch that is not known.

    Raises:
        CalloutError: the size does not have it, or has several and none is written.
    """
    if written.threads_per_inch is not None:
        raise CalloutError(
            "thread_field_unexpected", f"{title} is given by its pitch in mm.", pointer="/threads_per_inch"
        )
    given = written.pitch
    if given in known:
        return known[known.index(given)]
    if given is None and len(known) == 1:
        (only,) = known
        written.assumptions.append(f"No pitch written: {title} {label} has {plain(only)} mm.")
        return only
    if given is None:
        code, detail, meant = "callout_ambiguous", f"{title} {label} comes with more than one pitch.", list(known)
    else:
        code, detail = "thread_pitch_unknown", f"{title} {label} has no pitch {plain(given)} mm.{hint}"
        meant = sorted(known, key=lambda one: abs(one - given))
    raise CalloutError(
        code,
        detail,
        pointer="/pitch",
        allowed=tuple(plain(one) for one in known),
        did_you_mean=tuple(name(label, one) for one in meant),
    )
