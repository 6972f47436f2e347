"""Unified UNJ threads (ASME B1.15, AS8879): the UN pitch diameter, a larger minor diameter in the hole, inches.

The tables of these documents were not readable: the minor diameter comes from the thread height of 9/16 H and the class
3B tolerance formula of ASME B1.1, and says so.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.citation import cite
from borewright.core.model import (
    CatalogueEntry,
    Caution,
    Diameters,
    Length,
    Notes,
    Range,
    Source,
    Standard,
    Step,
    Thread,
    ThreadCallout,
)
from borewright.core.rounding import half_even, plain
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of

from . import case as unified_case
from . import limits as unified_limits
from . import sizes as unified_series
from . import thread as unified
from .case import Named
from .classes import mating_class_of
from .limits import Case
from .series_names import j_form, without_number
from .tolerance import form, minor_tolerance

CLASSES = ("2B", "3B")
_STANDARD = Standard("ASME B1.15", "1995 (tables not seen; pitch diameter of ASME B1.1)")
_MINOR = "ASME B1.15 / AS8879: height 9/16 H, tolerance as class 3B of ASME B1.1 (from memory), 4 decimals"
#: Root radius of the external thread in pitches (ASME B1.15, from memory).
_ROOT_MIN, _ROOT_MAX = Decimal("0.15011"), Decimal("0.18042")
_MATES = Caution(
    "j_form_mates",
    "a UNJ hole takes UNJ and UN screws; a UNJ screw (larger root radius) must not go into a UN hole",
)


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The UNJ thread of a callout.

    Args: ``engagement`` length of engagement, None = the standard one.
    Raises: ThreadError for a size, pitch, series, class, lead or engagement that is not defined.
    Source: ASME B1.15 and AS8879 (from memory), ASME B1.1 for the pitch diameter.
    """
    named = unified_case.name(callout)
    case = unified_case.case(named, engagement)
    thread_class = family.thread_class(callout)
    mating_class = mating_class_of(callout, thread_class)
    starts = callout.starts
    steps: list[Step] = []
    basic = unified_limits.basic(case, steps, j_form=True)
    minor = _minor(case, basic.minor_diameter, steps)
    pitch = unified_limits.internal_pitch(case, thread_class, basic, steps)
    series = j_form(named.series)
    return Thread(
        callout=callout,
        designation=unified_case.designation(
            named, series=series, thread_class=thread_class, starts=starts, left_hand=callout.hand == "left"
        ),
        system="unified_j",
        series=series,
        size=named.label,
        thread_class=thread_class,
        hand=callout.hand,
        starts=starts,
        unit="in",
        nominal_diameter=named.diameter_in,
        pitch=case.profile.pitch_in,
        threads_per_inch=named.tpi,
        lead=starts * case.profile.pitch_in,
        thread_angle=Decimal(60),
        taper=None,
        standard=_STANDARD,
        basic=basic,
        internal=Diameters(Range(basic.major_diameter, None), pitch, minor),
        external=_external(case, mating_class, steps),
        mating_class=mating_class,
        tensile_stress_area=unified.tensile_stress_area(diameter_in=named.diameter_in, tpi=named.tpi, steps=steps),
        extra={"external_root": _root(case.profile.pitch_in)},
        notes=Notes(callout.assumptions, (_MATES,), _sources(named), tuple(steps)),
    )


def external_limits(thread: Thread, thread_class: str) -> Diameters:
    """Limits in inches of the UNJ screw of ``thread_class`` that goes into a UNJ thread, at its standard engagement.

    Raises: ThreadError ``thread_class_unknown``. Source: ASME B1.15 (from memory): major and pitch diameter as UN.
    """
    found = unified.external_limits(thread, thread_class)
    return Diameters(found.major_diameter, found.pitch_diameter, Range(None, None))


def _minor(case: Case, basic_minor_in: Decimal, steps: list[Step]) -> Range:
    tolerance = minor_tolerance("3B", case.profile, diameter_in=case.diameter_in)
    largest = basic_minor_in + half_even(tolerance.value_in, 4)
    inputs = {"P": case.profile.pitch_in, "D": case.diameter_in, "ratio": Decimal(1)}
    steps += (
        Step("TD1", tolerance.formula, inputs, tolerance.value_in, "in", _MINOR),
        Step(
            "internal.minor_diameter.max",
            "basic_minor_diameter + half_even(TD1, 4)",
            {"basic_minor_diameter": basic_minor_in, "TD1": tolerance.value_in},
            largest,
            "in",
            _MINOR,
        ),
    )
    return Range(basic_minor_in, largest)


def _external(case: Case, mating_class: str, steps: list[Step]) -> Diameters:
    """Major and pitch diameter as the UN thread; the minor diameter of the controlled root is not held."""
    found = unified_limits.external(case, mating_class, steps)
    steps.pop()
    return Diameters(found.major_diameter, found.pitch_diameter, Range(None, None))


def _root(pitch_in: Decimal) -> dict[str, object]:
    return {"radius": Range(half_even(_ROOT_MIN * pitch_in, 4), half_even(_ROOT_MAX * pitch_in, 4))}


def _sources(named: Named) -> tuple[Source, ...]:
    tables = cite("unified_exceptions")
    as_un = tables.at("pitch and major diameter of the UN thread, sections 5 and 8", "computed")
    return (
        tables.at("standard series", named.status).source("series"),
        as_un.source("internal.pitch_diameter"),
        Source("internal.minor_diameter", "ASME B1.15", "1995", "height 9/16 H, class 3B tolerance", "from_memory"),
        as_un.source("external"),
        Source("external_root", "ASME B1.15", "1995", "root radius 0.15011 P to 0.18042 P", "from_memory"),
        Source("tensile_stress_area", "FED-STD-H28/2B", "1991", "Table II.B.1 formula (1)", "second_hand"),
    )


# --- catalogue ---------------------------------------------------------------------------------------


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every thread of the standard series in its J form."""
    return tuple(
        _entry(label, size, series, tpi)
        for label, size in unified_series.SIZES.items()
        for series, tpi in unified_series.pitches_for(label).items()
    )


def _entry(label: str, size: Decimal, series: str, tpi: Decimal) -> CatalogueEntry:
    j_series = j_form(series)
    return CatalogueEntry(
        designation=f"{label}-{plain(tpi)} {without_number(j_series)}",
        system="unified_j",
        series=j_series,
        size=label,
        unit="in",
        nominal_diameter=size,
        pitch=form(tpi).pitch_in,
        threads_per_inch=tpi,
        classes=CLASSES,
    )


def coverage() -> Coverage:
    """What is covered of ASME B1.15."""
    return Coverage(
        "unified_j",
        "ASME B1.15",
        "1995, also AS8879 (tables not seen)",
        "internal UNJC, UNJF, UNJEF, UNJ, UNJS of classes 2B and 3B: pitch diameter as UN, minor diameter by"
        " formula; major and pitch diameter and root radius of the screw",
        "printed limits of ASME B1.15 and AS8879; minor diameter of the screw",
        tables_of("unified_series"),
    )
