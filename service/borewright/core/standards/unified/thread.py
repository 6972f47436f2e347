"""Unified inch screw threads UN and UNR of ASME B1.1: limits of the internal thread and of its mate, in inches."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import cast

from borewright.core.model import CatalogueEntry, Caution, Diameters, Length, Notes, Step, Thread, ThreadCallout
from borewright.core.requests import Edition
from borewright.core.rounding import half_even, plain
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of

from . import case as unified_case
from . import editions as unified_editions
from . import limits as unified_limits
from . import sizes as unified_series
from .case import Named
from .classes import INTERNAL, external_class, mating_class_of
from .editions import DOCUMENT, ChosenEdition
from .limits import Case
from .sources import TABLES_EDITION, sources
from .tolerance import form, major_tolerance, printed_unr_depth

_ANGLE = Decimal(60)
_UNFINISHED_SERIES = frozenset({"UNC", "4UN", "6UN", "8UN"})


def resolve(callout: ThreadCallout, engagement: Length | None, edition: Edition | None = None) -> Thread:
    """The Unified thread of a callout.

    Args: ``engagement`` length of engagement, None = the standard one; ``edition`` None = the newest that the data
    allow.
    Raises: ThreadError for a size, pitch, series, class, lead or engagement that the standard does not define.
    Source: ASME B1.1 (1982/1989 tables and formulas), FED-STD-H28/2B (1991), ASME B1.30-2002.
    """
    named = unified_case.name(callout)
    thread_class = family.thread_class(callout)
    mating_class = mating_class_of(callout, thread_class)
    chosen = unified_editions.choose(named, engagement, edition, thread_class=thread_class, mating_class=mating_class)
    case = chosen.case
    starts = callout.starts
    steps: list[Step] = []
    basic = unified_limits.basic(case, steps)
    internal = unified_limits.internal(case, thread_class, basic, steps)
    external = unified_limits.external(case, mating_class, steps)
    area = tensile_stress_area(diameter_in=named.diameter_in, tpi=named.tpi, steps=steps)
    text = unified_case.designation(
        named, series=named.series, thread_class=thread_class, starts=starts, left_hand=callout.hand == "left"
    )
    return Thread(
        callout=callout,
        designation=text,
        system="unified",
        series=named.series,
        size=named.label,
        thread_class=thread_class,
        hand=callout.hand,
        starts=starts,
        unit="in",
        nominal_diameter=named.diameter_in,
        pitch=case.profile.pitch_in,
        threads_per_inch=named.tpi,
        lead=starts * case.profile.pitch_in,
        thread_angle=_ANGLE,
        taper=None,
        standard=unified_editions.standard(chosen),
        basic=basic,
        internal=internal,
        external=external,
        mating_class=mating_class,
        tensile_stress_area=area,
        extra=_extra(named, chosen, mating_class, text, internal, external),
        notes=Notes(
            (*callout.assumptions, *_assumptions(case), *chosen.assumptions),
            (*_cautions(named, case, thread_class, starts), *chosen.cautions),
            sources(named, chosen),
            tuple(steps),
        ),
    )


def external_limits(thread: Thread, thread_class: str) -> Diameters:
    """Limits in inches of the external thread of ``thread_class`` that goes into a Unified thread, at its standard
    engagement.

    Raises: ThreadError ``thread_class_unknown``. Source: ASME B1.1 section 5: classes may be mixed (from memory).
    """
    chosen = external_class(thread_class)
    edition = edition_of(thread) or "1989"
    return unified_limits.external(unified_case.case(unified_case.name(thread.callout), None, edition), chosen, [])


def edition_of(thread: Thread) -> Edition | None:
    """The edition that a Unified thread's limits follow, None for other systems. Source: the thread."""
    found = thread.extra.get("tolerance", {}).get("edition")
    return cast("Edition | None", found)


def tensile_stress_area(*, diameter_in: Decimal, tpi: Decimal, steps: list[Step]) -> Decimal:
    """Tensile stress area of the external thread in square inches: 0.7854 (``diameter_in`` - 0.9743 / ``tpi``)^2, noted
    in ``steps``.

    Rounded as handbooks print it: 5 decimals below 0.01, 4 below 0.16, 3 from there.
    Source: FED-STD-H28/2B (1991) Table II.B.1 formula (1).
    """
    exact = Decimal("0.7854") * (diameter_in - Decimal("0.9743") / tpi) ** 2
    places = 5 if exact < Decimal("0.01") else 4 if exact < Decimal("0.16") else 3
    value = half_even(exact, places)
    steps.append(
        Step(
            "tensile_stress_area",
            f"half_even(0.7854 * (D - 0.9743 / n) ** 2, {places})",
            {"D": diameter_in, "n": tpi},
            value,
            "in2",
            "FED-STD-H28/2B (1991) Table II.B.1 formula (1)",
        )
    )
    return value


# --- what goes with the limits -----------------------------------------------------------------------


def _extra(
    named: Named, chosen: ChosenEdition, mating_class: str, text: str, internal: Diameters, external: Diameters
) -> dict[str, dict[str, object]]:
    case = chosen.case
    found: dict[str, dict[str, object]] = {
        "tolerance": {
            "edition": chosen.edition,
            "minor_diameter_rule": "asme_b1_1_table" if case.rule == "table" else "asme_b1_30",
            "engagement_basis": case.engagement.basis,
            "tolerance_diameter": case.tolerance_diameter_in,
        },
        "external_reference": _external_reference(named, case, mating_class, external),
    }
    if chosen.other is not None:
        found["other_edition"] = {
            "edition": unified_editions.OTHER[chosen.edition],
            "internal": chosen.other.internal,
            "external": chosen.other.external,
        }
    if case.engagement.length_in is not None:
        found["engagement"] = {
            "length": half_even(case.engagement.length_in, 4),
            "range": case.engagement.limits,
            "pitch_tolerance_factor": float(case.engagement.pitch_factor),
            "minor_tolerance_ratio": float(case.minor_ratio),
        }
    if not named.tabulated or case.engagement.pitch_factor != 1:
        found["special"] = {"drawing_note": _drawing_note(case, text, internal)}
    return found


def _external_reference(named: Named, case: Case, mating_class: str, external: Diameters) -> dict[str, object]:
    """Reference minor of the rounded root (by formula, and as the table prints it) and the unfinished 2A major."""
    largest = external.major_diameter.max or named.diameter_in
    found: dict[str, object] = {"unr_minor_diameter_max": half_even(largest - case.profile.unr_depth_in, 4)}
    printed = printed_unr_depth(named.tpi, named.series)
    if named.tabulated and printed is not None:
        found["unr_minor_diameter_max_tabulated"] = largest - printed
    if mating_class == "2A" and named.series in _UNFINISHED_SERIES:
        hot_rolled = major_tolerance(case.profile, factor=Decimal("0.090"))
        found["unfinished_major_diameter_min"] = half_even(largest - hot_rolled, 4)
    return found


def _drawing_note(case: Case, text: str, internal: Diameters) -> str:
    """The limits that a drawing must state beside the designation of a special thread (ASME B1.1 section 6)."""
    minor, pitch = internal.minor_diameter, internal.pitch_diameter
    length = case.engagement.length_in
    engaged = "" if length is None else f" LE {plain(half_even(length, 4))}"
    return f"{text} MINOR DIA {minor.min}-{minor.max} PD {pitch.min}-{pitch.max}{engaged}"


def _assumptions(case: Case) -> tuple[str, ...]:
    if case.engagement.length_in is None:
        standard = "1 diameter" if case.engagement.basis == "D" else "9 pitches"
        upper = "1.5 diameters" if case.engagement.basis == "D" else "15 pitches"
        return (f"length of engagement up to {upper} (tolerances for {standard})",)
    return ()


def _cautions(named: Named, case: Case, thread_class: str, starts: int) -> Iterator[Caution]:
    if not named.tabulated:
        yield Caution(
            "special_thread",
            f"{named.label}-{plain(named.tpi)} is not tabulated by ASME B1.1: limits are computed, and the drawing"
            " has to state them",
        )
    if thread_class == "1B" and "1B" not in classes_of(named.series, named.diameter_in):
        yield Caution(
            "class_not_tabulated", "class 1B is tabulated for UNC and UNF from 1/4 in only: limits are computed"
        )
    if named.tpi < 4:
        yield Caution("tolerance_from_memory", "the minor tolerance coarser than 4 threads per inch is from memory")
    length = case.engagement.length_in
    if length is not None and length > Decimal("1.5") * named.diameter_in:
        yield Caution(
            "long_engagement",
            "beyond 1.5 diameters a larger hole (up to 1.25 times the minor-diameter tolerance) is recommended, but it"
            " is outside the standard limits and needs a modified designation (MOD), FED-STD-H28/2B 30.1",
        )
    if starts > 1:
        yield Caution(
            "multi_start_tolerance", "limits of a multi-start thread follow its pitch, not its lead (from memory)"
        )


# --- catalogue ---------------------------------------------------------------------------------------


def classes_of(series: str, diameter_in: Decimal) -> tuple[str, ...]:
    """Internal classes the standard tabulates for ``series`` at ``diameter_in``. Source: ASME B1.1 limits tables
    (1A/1B: UNC and UNF from 1/4 in).
    """
    return INTERNAL if series in ("UNC", "UNF") and diameter_in >= Decimal("0.25") else INTERNAL[1:]


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every thread of the standard series and every tabulated special thread."""
    standard = (
        (label, size, tpi, series)
        for label, size in unified_series.SIZES.items()
        for series, tpi in unified_series.pitches_for(label).items()
    )
    selected = ((label, size, tpi, "UNS") for label, size, tpi in unified_series.selected_uns())
    return tuple(_entry(*thread) for thread in (*standard, *selected))


def _entry(label: str, size: Decimal, tpi: Decimal, series: str) -> CatalogueEntry:
    return CatalogueEntry(
        designation=f"{label}-{plain(tpi)} {series.lstrip('0123456789')}",
        system="unified",
        series=series,
        size=label,
        unit="in",
        nominal_diameter=size,
        pitch=form(tpi).pitch_in,
        threads_per_inch=tpi,
        classes=classes_of(series, size),
    )


def coverage() -> Coverage:
    """What is covered of ASME B1.1."""
    return Coverage(
        "unified",
        DOCUMENT,
        f"2019 by its formulas; {TABLES_EDITION} (as adopted by FED-STD-H28/2B, 1991)",
        "UNC, UNF, UNEF, 4UN to 32UN, selected and other UNS from 0.06 to 24 in; classes 1B 2B 3B, mates 1A 2A 3A"
        " (UN and UNR); lengths of engagement; left hand; multi-start",
        "the printed tables of the 2003 and 2019 editions; class 1AR; gauging systems of ASME B1.3",
        tables_of("unified_series", "unified_selected_uns", "unified_exceptions", "unified_unr_depth"),
    )
