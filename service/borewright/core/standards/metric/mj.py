"""Metric MJ threads (ISO 5855-1, ASME B1.21M): the M pitch diameter, a larger minor diameter in the hole, millimetres.

The tables of these documents were not readable: limits are the tolerances of ISO 965-1 on the MJ profile.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.model import (
    BasicDiameters,
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
    by_formula,
    weakest,
)
from borewright.core.rounding import plain, whole_um
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.tables import load

from . import limits as metric_limits
from . import thread as metric
from . import tolerance as tolerance
from .classes import Chosen, engaged
from .limits import MJ_PROFILE, Found
from .tolerance import ToleranceClass

CLASSES = ("4H5H", "4H6H", "6H")
_MATE = "4h6h"
_STANDARD = Standard("ISO 5855-1", "1999 (limits by formula; tolerances of ISO 965-1)")
#: Root radius of the external thread in pitches (ISO 5855-1, from memory).
_ROOT_MIN, _ROOT_MAX = Decimal("0.15011"), Decimal("0.18042")
_MATES = Caution(
    "j_form_mates", "an MJ hole takes MJ and M screws; an MJ screw (larger root radius) must not go into an M hole"
)


@read_once
def _listed() -> frozenset[tuple[Decimal, Decimal]]:
    rows = load("metric_j_series").rows
    return frozenset((Decimal(row["diameter_mm"]), Decimal(row["pitch_mm"])) for row in rows)


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The MJ thread of a callout.

    Args: ``engagement`` is told by its group; it changes no limit.
    Raises: ThreadError for a size, pitch, class or lead that is not defined.
    Source: ISO 5855-1:1999 (minor diameter), ISO 965-1 (tolerances), ASME B1.21M (classes).
    """
    size = Decimal(plain(callout.nominal_diameter))
    pitch = metric.pitch_of(callout)
    engagement_ = engaged(callout, engagement, d_mm=size, pitch_mm=pitch)
    chosen = Chosen(tolerance.internal_class(family.thread_class(callout)))
    starts, lead = callout.starts, callout.starts * pitch
    listed = (size, pitch) in _listed()
    steps: list[Step] = []
    basic = metric_limits.basic(MJ_PROFILE, steps, d_mm=size, pitch_mm=pitch)
    internal = metric_limits.internal(chosen.tolerance_class, basic, steps, d_mm=size, pitch_mm=pitch)
    mating_class = _mating_class(callout)
    external = _external(tolerance.external_class(mating_class), basic, steps, d_mm=size, pitch_mm=pitch)
    thread_class = chosen.tolerance_class.text
    return Thread(
        callout=callout,
        designation=metric.designation("MJ", callout, thread_class, lead=lead, pitch=pitch, listed=listed),
        system="metric_j",
        series="MJ" if listed else None,
        size=plain(size),
        thread_class=thread_class,
        hand=callout.hand,
        starts=starts,
        unit="mm",
        nominal_diameter=size,
        pitch=pitch,
        threads_per_inch=None,
        lead=lead,
        thread_angle=Decimal(60),
        taper=None,
        standard=_STANDARD,
        basic=basic,
        internal=internal.limits,
        external=external.limits,
        mating_class=mating_class,
        tensile_stress_area=metric_limits.tensile_stress_area(steps, d_mm=size, pitch_mm=pitch),
        extra={**metric.objects(engagement_, {}), "external_root": _root(pitch)},
        notes=Notes(
            metric.assumptions(callout, chosen, engagement_),
            tuple(_cautions(listed, starts)),
            _sources(internal, external, listed),
            tuple(steps),
        ),
    )


def external_limits(thread: Thread, thread_class: str) -> Diameters:
    """Limits in mm of the MJ screw of ``thread_class`` that goes into an MJ thread.

    Raises: ThreadError ``thread_class_unknown``, ``thread_cell_undefined``. Source: ISO 965-1 tolerances.
    """
    mating = tolerance.external_class(thread_class, "/mating_screw/class")
    return _external(mating, thread.basic, [], d_mm=thread.nominal_diameter, pitch_mm=thread.pitch).limits


def _mating_class(callout: ThreadCallout) -> str:
    written = dict(callout.extra).get("mating_class")
    return tolerance.external_class(written).text if isinstance(written, str) else _MATE


def _external(
    chosen: ToleranceClass, basic: BasicDiameters, steps: list[Step], *, d_mm: Decimal, pitch_mm: Decimal
) -> Found:
    """Major and pitch diameter as the M thread; the minor diameter of the controlled root is not held."""
    return metric_limits.external(chosen, basic, steps, d_mm=d_mm, pitch_mm=pitch_mm, root=False)


def _root(pitch_mm: Decimal) -> dict[str, object]:
    return {"radius": Range(whole_um(_ROOT_MIN * pitch_mm), whole_um(_ROOT_MAX * pitch_mm))}


def _cautions(listed: bool, starts: int) -> Iterator[Caution]:
    yield _MATES
    if not listed:
        yield Caution(
            "nonstandard_combination",
            "the combination of diameter and pitch is not in ISO 5855-1: the drawing has to state the limits of size",
        )
    if starts > 1:
        yield Caution(
            "multi_start_tolerance", "limits of a multi-start thread follow its pitch, not its lead (from memory)"
        )


def _sources(internal: Found, external: Found, listed: bool) -> tuple[Source, ...]:
    series, tolerances = cite("metric_j_series"), cite("iso965_tolerances")
    known = (series.at("Table 2, an open code file").source("series"),) if listed else ()
    return (
        *known,
        tolerances.at("TD2", internal.pitch_status).source("internal.pitch_diameter"),
        series.at("D - 0.97428 P; TD1 of ISO 965-1", by_formula(internal.crest_status)).source(
            "internal.minor_diameter"
        ),
        tolerances.at("es, Td, Td2", weakest((external.pitch_status, external.crest_status))).source("external"),
        series.at("root radius 0.15011 P to 0.18042 P", "from_memory").source("external_root"),
        Source("tensile_stress_area", "ISO 898-1", "", "nominal stress area of the M thread", "computed"),
    )


# --- catalogue ---------------------------------------------------------------------------------------


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every combination of ISO 5855-1: ISO 965-1 has tolerances for its usual classes at all of them."""
    return tuple(_entry(Decimal(row["diameter_mm"]), Decimal(row["pitch_mm"])) for row in load("metric_j_series").rows)


def _entry(size: Decimal, pitch: Decimal) -> CatalogueEntry:
    return CatalogueEntry(
        designation=f"MJ{plain(size)}x{plain(pitch)}",
        system="metric_j",
        series="MJ",
        size=plain(size),
        unit="mm",
        nominal_diameter=size,
        pitch=pitch,
        threads_per_inch=None,
        classes=CLASSES,
    )


def coverage() -> Coverage:
    """What is covered of ISO 5855-1."""
    return Coverage(
        "metric_j",
        "ISO 5855-1",
        "1999; classes of ASME B1.21M",
        "MJ1.6 to MJ300: limits of the internal thread by formula, major and pitch diameter and root radius of the"
        " screw; 4H5H where no class is written",
        "printed limits of ISO 5855-2, ISO 5855-3 and ASME B1.21M; minor diameter of the screw",
        tables_of("metric_j_series", "iso965_tolerances"),
    )
