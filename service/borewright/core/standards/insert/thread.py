"""Holes for helical coil inserts (STI): inch (ASME B18.29.1, NASM33537) and metric (ASME B18.29.2M). 60 degrees.

Callout: system ``insert_unified`` or ``insert_metric``; size, pitch and series are those of the nominal thread, the
one the screw has (``1/4``, 20, ``UNC``; ``8``, 1.25); class ``2B`` (default) or ``3B``, ``5H`` (default) or ``4H5H``.
Items of ``extra``: ``("insert_length_diameters", Decimal)`` (1, 1.5, 2, 2.5, 3) or ``("insert_length", Length)``, and
``("tap", "plug" | "bottoming")`` for the drill depth meant. ``nominal_diameter`` is that of the nominal thread; the
tapped hole is larger, see ``basic``. Designations: ``1/4-20 UNC-2B STI``, ``M8x1.25 STI 5H``, left hand with ``LH`` at
the end.

The hole carries the tolerance; what the installed insert gives is in the ``insert`` object (:mod:`.insert_object`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.citation import Cite, cite
from borewright.core.model import (
    BasicDiameters,
    CatalogueEntry,
    Diameters,
    Length,
    Range,
    Standard,
    Status,
    Thread,
    ThreadCallout,
)
from borewright.core.rounding import half_up, plain
from borewright.core.standards import family
from borewright.core.standards.evidence import Evidence
from borewright.core.standards.family import Size
from borewright.core.standards.metric import tolerance as metric_tolerance
from borewright.core.standards.unified import sizes as unified_series
from borewright.tables import load

from . import insert_object
from .insert_object import InsertHole

CLASSES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {"insert_unified": ("2B", "3B"), "insert_metric": ("5H", "4H5H")}
)

INCH = cite("insert_unified").standard
METRIC = cite("insert_metric").standard
#: Each diameter of the hole = nominal diameter + factor x P, and how well the rule is known.
_FORM: tuple[tuple[str, str, Status, str], ...] = (
    ("major_diameter", "1.299038", "computed", "least major diameter, form with P/8 truncation"),
    ("pitch_diameter", "0.649519", "computed", "form; agrees with the tap limits of ANSI/ASME B94.9-2008"),
    ("minor_diameter", "0.216506", "from_memory", "form"),
)


@dataclass(frozen=True, slots=True)
class _InchRow:
    """A size of the inch table; ``size`` as the Unified series label it."""

    size: str
    series: str
    threads_per_inch: Decimal


@read_once
def _inch_rows() -> Mapping[str, tuple[_InchRow, ...]]:
    found: dict[str, list[_InchRow]] = {}
    for row in load("insert_unified").rows:
        found.setdefault(row["size"], []).append(_InchRow(row["size"], row["series"], Decimal(row["threads_per_inch"])))
    return MappingProxyType({size: tuple(rows) for size, rows in found.items()})


@read_once
def sizes(system: str) -> Mapping[str, Size]:
    """Nominal threads of ``system``, ``insert_unified`` (inches) or ``insert_metric`` (mm) by label, smallest first."""
    if system == "insert_unified":
        return MappingProxyType(
            {
                name: Size(unified_series.SIZES[name], tuple(row.threads_per_inch for row in rows))
                for name, rows in _inch_rows().items()
            }
        )
    pitches: dict[str, list[Decimal]] = {}
    for row in load("insert_metric").rows:
        pitches.setdefault(row["diameter_mm"], []).append(Decimal(row["pitch_mm"]))
    return MappingProxyType({name: Size(Decimal(name), pitches_mm=tuple(found)) for name, found in pitches.items()})


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The tapped hole for the insert of ``callout``: its limits in the nominal thread's unit, and the depths by insert
    length.

    Args: ``engagement`` changes nothing.
    Source: NASM33537 and ASME B18.29.1-2010 (inch, greatest sizes not held); ASME B18.29.2M (metric, tolerances of
    ISO 965-1 for the nominal thread, from memory).
    """
    proof = Evidence(callout.assumptions)
    family.engagement_unused(engagement, proof=proof)
    if callout.system == "insert_unified":
        return _inch(callout, proof)
    return _metric(callout, proof)


# --- inch --------------------------------------------------------------------------------------------


def _inch(callout: ThreadCallout, proof: Evidence) -> Thread:
    n = family.threads_per_inch(callout)
    row = next(row for row in _inch_rows()[callout.size] if row.threads_per_inch == n)
    diameter = unified_series.SIZES[row.size]  # with the digits that are printed
    thread_class = family.thread_class(callout)
    basic = _basic(diameter, "half_up(D + {factor} / n, 4)", pitch_or_n=n, proof=proof)
    for name in ("major_diameter", "pitch_diameter", "minor_diameter"):
        _same_as_basic(name, getattr(basic, name), INCH, proof)
    nominal = f"{row.size}-{plain(n)} {row.series}-{thread_class}"
    hole = InsertHole(nominal, thread_class, diameter, 1 / n, "in")
    extra = insert_object.build(callout, hole, proof)
    insert_object.inch_cautions(thread_class, proof)
    return _thread(
        callout,
        designation=f"{nominal} STI{family.left(callout, ' LH')}",
        series=row.series,
        thread_class=thread_class,
        hole=hole,
        threads_per_inch=n,
        basic=basic,
        internal=Diameters(
            Range(basic.major_diameter, None), Range(basic.pitch_diameter, None), Range(basic.minor_diameter, None)
        ),
        extra=extra,
        proof=proof,
    )


# --- metric ------------------------------------------------------------------------------------------


def _metric(callout: ThreadCallout, proof: Evidence) -> Thread:
    diameter, pitch = callout.nominal_diameter, family.pitch_mm(callout)
    thread_class = family.thread_class(callout)
    basic = _basic(diameter, "half_up(D + {factor} * P, 3)", pitch_or_n=pitch, proof=proof)
    nominal = f"M{callout.size}x{plain(pitch)}"
    hole = InsertHole(f"{nominal}-{thread_class}", thread_class, diameter, pitch, "mm")
    extra = insert_object.build(callout, hole, proof)
    return _thread(
        callout,
        designation=f"{nominal} STI {thread_class}{family.left(callout, ' LH')}",
        series=None,
        thread_class=thread_class,
        hole=hole,
        threads_per_inch=None,
        basic=basic,
        internal=_metric_limits(basic, hole, proof),
        extra=extra,
        proof=proof,
    )


def _metric_limits(basic: BasicDiameters, hole: InsertHole, proof: Evidence) -> Diameters:
    """Position H; grade of the class on the pitch diameter and grade 5 on the minor diameter, of the nominal thread."""
    _same_as_basic("major_diameter", basic.major_diameter, METRIC, proof)
    grade = hole.thread_class[0]
    widths = (("pitch_diameter", "TD2", grade), ("minor_diameter", "TD1", "5"))
    ranges = []
    for name, quantity, of_grade in widths:
        low = getattr(basic, name)
        _same_as_basic(name, low, METRIC, proof)
        cell = metric_tolerance.cell(quantity, of_grade, d_mm=hole.diameter, pitch_mm=hole.pitch)
        place = Cite(
            METRIC.document,
            METRIC.edition,
            f"{quantity} grade {of_grade} of ISO 965-1 for the nominal thread {hole.nominal}",
            "from_memory",
        )
        high = proof.work(
            f"internal.{name}.max",
            half_up(low + cell.value / 1000, 3),
            formula=f"half_up(low + {quantity}_um / 1000, 3)",
            inputs={"low": low, f"{quantity}_um": cell.value},
            unit="mm",
            place=place,
        )
        ranges.append(Range(low, high))
    return Diameters(Range(basic.major_diameter, None), *ranges)


# --- both --------------------------------------------------------------------------------------------


def _basic(diameter: Decimal, formula: str, *, pitch_or_n: Decimal, proof: Evidence) -> BasicDiameters:
    inch = "/ n" in formula
    standard, pitch, places = (INCH, 1 / pitch_or_n, 4) if inch else (METRIC, pitch_or_n, 3)
    values = []
    for name, factor, status, what in _FORM:
        place = Cite(standard.document, standard.edition, what, status)
        sheet = proof.sheet(unit="in" if inch else "mm", place=place, D=diameter, **{"n" if inch else "P": pitch_or_n})
        value = half_up(diameter + Decimal(factor) * pitch, places)
        values.append(sheet.put(f"basic.{name}", value, formula=formula.format(factor=factor)))
    return BasicDiameters(*values)


def _same_as_basic(name: str, value: Decimal, standard: Standard, proof: Evidence) -> None:
    """The least diameter of the hole is the basic one of the STI form."""
    status, what = next((status, what) for known, _, status, what in _FORM if known == name)
    place = Cite(standard.document, standard.edition, what, status)
    proof.work(
        f"internal.{name}.min",
        value,
        formula="d",
        inputs={"d": value},
        unit="in" if standard is INCH else "mm",
        place=place,
    )


def _thread(
    callout: ThreadCallout,
    *,
    designation: str,
    series: str | None,
    thread_class: str,
    hole: InsertHole,
    threads_per_inch: Decimal | None,
    basic: BasicDiameters,
    internal: Diameters,
    extra: Mapping[str, object],
    proof: Evidence,
) -> Thread:
    pitch = hole.pitch if threads_per_inch is None else family.inch_pitch(threads_per_inch)
    return Thread(
        callout=callout,
        designation=designation,
        system=callout.system,
        series=series,
        size=callout.size,
        thread_class=thread_class,
        hand=callout.hand,
        starts=1,
        unit=hole.unit,
        nominal_diameter=hole.diameter,
        pitch=pitch,
        threads_per_inch=threads_per_inch,
        lead=pitch,
        thread_angle=Decimal(60),
        taper=None,
        standard=INCH if threads_per_inch is not None else METRIC,
        basic=basic,
        internal=internal,
        external=None,
        mating_class=None,
        tensile_stress_area=None,
        extra=MappingProxyType({"insert": extra}),
        notes=proof.notes(),
    )


def inch_catalogue() -> tuple[CatalogueEntry, ...]:
    """Every nominal thread of the inch table."""
    return tuple(
        CatalogueEntry(
            designation=f"{row.size}-{plain(row.threads_per_inch)} {row.series}-2B STI",
            system="insert_unified",
            series=row.series,
            size=row.size,
            unit="in",
            nominal_diameter=unified_series.SIZES[row.size],
            pitch=family.inch_pitch(row.threads_per_inch),
            threads_per_inch=row.threads_per_inch,
            classes=CLASSES["insert_unified"],
        )
        for rows in _inch_rows().values()
        for row in rows
    )


def metric_catalogue() -> tuple[CatalogueEntry, ...]:
    """Every nominal thread of the metric table."""
    return tuple(
        CatalogueEntry(
            designation=f"M{label}x{plain(pitch)} STI 5H",
            system="insert_metric",
            series=None,
            size=label,
            unit="mm",
            nominal_diameter=size.diameter,
            pitch=pitch,
            threads_per_inch=None,
            classes=CLASSES["insert_metric"],
        )
        for label, size in sizes("insert_metric").items()
        for pitch in size.pitches_mm
    )
