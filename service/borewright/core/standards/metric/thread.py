"""ISO general purpose metric screw threads M: limits of the internal thread and of its mate, in millimetres.

Sizes are those of ISO 261; a diameter and pitch outside it still has limits where ISO 965-1 tabulates the tolerances.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal

from borewright.core.citation import cite
from borewright.core.errors import ThreadError
from borewright.core.model import (
    CatalogueEntry,
    Caution,
    Diameters,
    Length,
    Notes,
    Source,
    Standard,
    Status,
    Step,
    Thread,
    ThreadCallout,
    by_formula,
)
from borewright.core.rounding import half_even, plain
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of

from . import limits as metric_limits
from . import sizes as metric_series
from . import tolerance as tolerance
from .classes import SUPPLIED, Chosen, Engaged, choose, engaged, mate
from .limits import M_PROFILE, Found
from .tolerance import GALVANIZED_ANNEX_MM, GALVANIZED_MM, POINTER, ToleranceClass

_ANGLE = Decimal(60)
_STANDARD = Standard("ISO 965-1", "1998/2013 line (the 2026 edition was not seen)")
_ZINC_STANDARD = Standard("ISO 965-5", "1998 (tolerances of ISO 965-1)")


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The ISO metric thread of a callout.

    Args: ``engagement`` length of engagement, None = the callout's group or N.
    Raises: ThreadError for a size, pitch, class, lead or engagement that the standards do not define.
    Source: ISO 261, ISO 724, ISO 965-1 (1998/2013 line), ISO 965-5:1998.
    """
    size = Decimal(plain(callout.nominal_diameter))
    pitch = pitch_of(callout)
    engagement_ = engaged(callout, engagement, d_mm=size, pitch_mm=pitch)
    chosen = choose(callout, engagement_, d_mm=size, pitch_mm=pitch)
    internal_class = chosen.tolerance_class
    _galvanized_scope(internal_class, d_mm=size, pitch_mm=pitch)
    starts, lead = callout.starts, callout.starts * pitch
    steps: list[Step] = []
    basic = metric_limits.basic(M_PROFILE, steps, d_mm=size, pitch_mm=pitch)
    internal = metric_limits.internal(internal_class, basic, steps, d_mm=size, pitch_mm=pitch)
    mating_class = _mating_class(callout, internal_class, engagement_, d_mm=size, pitch_mm=pitch)
    mating = tolerance.external_class(mating_class)
    external = metric_limits.external(mating, basic, steps, d_mm=size, pitch_mm=pitch)
    root = metric_limits.root_diameter(mating.pitch_position, steps, d_mm=size, pitch_mm=pitch)
    series = metric_series.series_for(size, pitch_mm=pitch)
    return Thread(
        callout=callout,
        designation=designation("M", callout, internal_class.text, lead=lead, pitch=pitch, listed=series is not None),
        system="iso_metric",
        series=series,
        size=plain(size),
        thread_class=internal_class.text,
        hand=callout.hand,
        starts=starts,
        unit="mm",
        nominal_diameter=size,
        pitch=pitch,
        threads_per_inch=None,
        lead=lead,
        thread_angle=_ANGLE,
        taper=None,
        standard=_ZINC_STANDARD if internal_class.galvanized else _STANDARD,
        basic=basic,
        internal=internal.limits,
        external=external.limits,
        mating_class=mating_class,
        tensile_stress_area=metric_limits.tensile_stress_area(steps, d_mm=size, pitch_mm=pitch),
        extra=objects(engagement_, {"minor_diameter_d3": root}),
        notes=Notes(
            assumptions(callout, chosen, engagement_),
            tuple(_cautions(callout, chosen, starts, d_mm=size, listed=series is not None)),
            _sources(internal_class, internal, external, d_mm=size, pitch_mm=pitch),
            tuple(steps),
        ),
    )


def external_limits(thread: Thread, thread_class: str) -> Diameters:
    """Limits in mm of the external thread of ``thread_class`` that goes into an M thread.

    Raises: ThreadError ``thread_class_unknown``, ``thread_cell_undefined``, ``thread_mate_excluded``.
    Source: ISO 965-1, ISO 965-4.
    """
    chosen = tolerance.internal_class(thread.thread_class or "6H")
    mating = tolerance.external_class(thread_class, "/mating_screw/class")
    _may_mate(chosen, mating, "/mating_screw/class", d_mm=thread.nominal_diameter, pitch_mm=thread.pitch)
    found = metric_limits.external(mating, thread.basic, [], d_mm=thread.nominal_diameter, pitch_mm=thread.pitch)
    return found.limits


def pitch_of(callout: ThreadCallout) -> Decimal:
    """Pitch of the callout in mm, without superfluous zeros."""
    return Decimal(plain(family.pitch_mm(callout)))


# --- classes -----------------------------------------------------------------------------------------


def _galvanized_scope(chosen: ToleranceClass, *, d_mm: Decimal, pitch_mm: Decimal) -> None:
    if not chosen.galvanized:
        return
    known = GALVANIZED_MM | GALVANIZED_ANNEX_MM
    if d_mm not in known or metric_series.coarse_pitch(d_mm) != pitch_mm:
        raise ThreadError(
            "thread_cell_undefined",
            f"{chosen.text} is defined for coarse threads M10 to M64 (ISO 965-5) and M8 (ISO 10684),"
            f" not for M{plain(d_mm)}x{plain(pitch_mm)}",
            pointer=POINTER,
            allowed=tuple(f"M{plain(size)}" for size in sorted(known)),
        )


def _mating_class(
    callout: ThreadCallout, chosen: ToleranceClass, engagement: Engaged, *, d_mm: Decimal, pitch_mm: Decimal
) -> str:
    written = dict(callout.extra).get("mating_class")
    if not isinstance(written, str):
        return mate(chosen, engagement.group, d_mm=d_mm, pitch_mm=pitch_mm)
    mating = tolerance.external_class(written)
    _may_mate(chosen, mating, POINTER, d_mm=d_mm, pitch_mm=pitch_mm)
    return mating.text


def _may_mate(
    chosen: ToleranceClass, mating: ToleranceClass, pointer: str, *, d_mm: Decimal, pitch_mm: Decimal
) -> None:
    if not mating.galvanized:
        return
    if chosen.galvanized:
        raise ThreadError(
            "thread_mate_excluded",
            f"{chosen.text} and {mating.text} must not be mated: only one of the two carries the zinc allowance",
            pointer=pointer,
            allowed=("6g", "6h"),
        )
    _galvanized_scope(mating, d_mm=d_mm, pitch_mm=pitch_mm)


# --- what goes with the limits (shared with MJ) ------------------------------------------------------


def designation(
    letters: str, callout: ThreadCallout, thread_class: str, *, lead: Decimal, pitch: Decimal, listed: bool
) -> str:
    """How the thread of ``callout`` is written: ``M8x1.25-6H``, ``M16xPh3P1.5-6H LH``, ``M20x2-7H-L``,
    ``M6.5x1-6H-SPL``.

    Args: ``letters`` of the system; ``thread_class``; ``lead`` and ``pitch`` in mm; ``listed`` whether a list combines
        size and pitch.
    Source: ISO 965-1 "Designation"; SPL for a combination that no list holds: ASME B1.13M.
    """
    advance = plain(pitch) if lead == pitch else f"Ph{plain(lead)}P{plain(pitch)}"
    group = f"-{callout.engagement_group}" if callout.engagement_group else ""
    special = "" if listed else "-SPL"
    hand = " LH" if callout.hand == "left" else ""
    return f"{letters}{plain(callout.nominal_diameter)}x{advance}-{thread_class}{group}{special}{hand}"


def objects(engagement: Engaged, reference: Mapping[str, object]) -> dict[str, Mapping[str, object]]:
    """The engagement object, and the reference dimensions of the mate where it has some."""
    found: dict[str, object] = {"group": engagement.group}
    if engagement.length_mm is not None:
        found["length"] = half_even(engagement.length_mm, 3)
    named: dict[str, Mapping[str, object]] = {"engagement": found | {"normal_range": engagement.normal_mm}}
    if reference:
        named["external_reference"] = reference
    return named


def assumptions(callout: ThreadCallout, chosen: Chosen, engagement: Engaged) -> tuple[str, ...]:
    """What was assumed of ``callout`` and the class ``chosen``; the reader's word on the class gives way where the
    engagement changed the class.
    """
    kept = callout.assumptions
    if chosen.assumption is not None:
        kept = (*(text for text in kept if not text.startswith(SUPPLIED)), chosen.assumption)
    return kept if engagement.assumption is None else (*kept, engagement.assumption)


def _cautions(callout: ThreadCallout, chosen: Chosen, starts: int, *, d_mm: Decimal, listed: bool) -> Iterator[Caution]:
    if chosen.caution is not None:
        yield Caution("engagement_class", chosen.caution)
    if not listed:
        yield Caution(
            "nonstandard_combination",
            "the combination of diameter and pitch is not in ISO 261: the drawing has to state the limits of size",
        )
    if starts > 1:
        yield Caution(
            "multi_start_tolerance", "limits of a multi-start thread follow its pitch, not its lead (from memory)"
        )
    if chosen.tolerance_class.galvanized:
        yield Caution(
            "galvanized_pair",
            f"{chosen.tolerance_class.text} is tapped after galvanizing and takes a hot-dip galvanized bolt made to 6g"
            " or 6h; never mate it with 6az",
        )
        if d_mm in GALVANIZED_ANNEX_MM:
            yield Caution(
                "limits_computed", "the figures of ISO 10684 Annex B for M8 were not seen: limits are computed"
            )
        if d_mm < 12:
            yield Caution("reduced_proof_load", "proof loads of galvanized M8 and M10 are reduced, ISO 10684 Annex A")


def _sources(
    chosen: ToleranceClass, internal: Found, external: Found, *, d_mm: Decimal, pitch_mm: Decimal
) -> tuple[Source, ...]:
    tolerances = cite("iso965_tolerances")
    listed = metric_series.series_for(d_mm, pitch_mm=pitch_mm) is not None
    pitch_status, minor_status = internal.pitch_status, internal.crest_status
    if chosen.galvanized and d_mm in GALVANIZED_ANNEX_MM:
        pitch_status, minor_status = by_formula(pitch_status), by_formula(minor_status)
    found = [
        Source("basic", "ISO 724", "", "basic profile of ISO 68-1", "computed"),
        tolerances.at(f"TD2 grade {chosen.pitch_grade}", pitch_status).source("internal.pitch_diameter"),
        tolerances.at(f"TD1 grade {chosen.crest_grade}", minor_status).source("internal.minor_diameter"),
        Source("tensile_stress_area", "ISO 898-1", "", "nominal stress area", "computed"),
    ]
    if listed:
        status: Status = metric_series.series_status(d_mm, pitch_mm=pitch_mm)
        found.insert(0, cite("metric_series").at("general plan", status).source("series"))
    if chosen.galvanized:
        found.append(cite("iso965_5_overtap").at("scope and table of limits", pitch_status).source("internal"))
    found.append(tolerances.at("es, Td2", external.pitch_status).source("external.pitch_diameter"))
    found.append(tolerances.at("es, Td", external.crest_status).source("external.major_diameter"))
    found.append(tolerances.at("recommended classes", "from_memory").source("mating_class"))
    return tuple(found)


# --- catalogue ---------------------------------------------------------------------------------------


def classes_of(*, d_mm: Decimal, pitch_mm: Decimal) -> tuple[str, ...]:
    """Internal classes whose tolerances ISO 965-1 tabulates at ``d_mm`` and ``pitch_mm``, H then G, and 6AZ 6AX where
    ISO 965-5 has them.
    """
    grades = tolerance.grades_of("TD2", "TD1", d_mm=d_mm, pitch_mm=pitch_mm)
    zinc = d_mm in GALVANIZED_MM | GALVANIZED_ANNEX_MM and metric_series.coarse_pitch(d_mm) == pitch_mm
    return (*(f"{grade}H" for grade in grades), *(f"{grade}G" for grade in grades), *(("6AZ", "6AX") if zinc else ()))


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every combination of ISO 261."""
    return tuple(
        CatalogueEntry(
            designation=f"M{plain(size)}x{plain(pitch)}",
            system="iso_metric",
            series=metric_series.series_for(size, pitch_mm=pitch),
            size=plain(size),
            unit="mm",
            nominal_diameter=size,
            pitch=pitch,
            threads_per_inch=None,
            classes=classes_of(d_mm=size, pitch_mm=pitch),
        )
        for size in metric_series.DIAMETERS
        for pitch in metric_series.pitches_for(size)
    )


def coverage() -> Coverage:
    """What is covered of ISO 261, ISO 965-1 and ISO 965-5."""
    return Coverage(
        "iso_metric",
        "ISO 965-1, ISO 261, ISO 965-4, ISO 965-5",
        "ISO 965-1 1998/2013 line, ISO 261:1998, ISO 965-4:1998, ISO 965-5:1998",
        "M1 to M300 coarse and fine, other diameters to 355 mm where tolerances are tabulated; internal grades 4 to"
        " 8 in G and H, 6AZ, 6AX; mates in e, f, g, h and 6az; engagement groups S, N, L; left hand; multi-start",
        "positions a to d of ISO 965-1:2013; the editions of 2024 to 2026; threads below 1 mm",
        tables_of("metric_series", "iso965_tolerances"),
    )
