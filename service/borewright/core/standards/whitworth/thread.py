"""British Standard Whitworth BSW and Fine BSF (BS 84): close, medium, normal. Inches, 55 degrees.

Callout: ``size`` is the nominal diameter (``1/2``), ``series`` is ``BSW`` or ``BSF``; class ``medium``, ``normal``,
``close``. The length of engagement enters the tolerance; where none is given it is the diameter. Designations:
``1/2 in - 12 BSW (medium)``, ``1/4 in - 26 BSF (close) LH``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.errors import ThreadError
from borewright.core.model import (
    BasicDiameters,
    CatalogueEntry,
    Diameters,
    Length,
    Range,
    Thread,
    ThreadCallout,
)
from borewright.core.practice import count
from borewright.core.rounding import half_up, plain
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.evidence import Evidence
from borewright.core.standards.family import Size
from borewright.core.standards.unified import sizes as unified_series
from borewright.tables import load

SERIES: tuple[str, ...] = ("BSW", "BSF")
CLASSES: tuple[str, ...] = ("close", "medium", "normal")

_STANDARD = cite("whitworth").standard
_FORM = cite("whitworth").at(
    "form h = 0.640327 p; nut minima D, D - h, D - 2h (Machinery's Handbook 31st ed. p. 2087)", "computed"
)
_TOLERANCE = cite("whitworth").at("T = .002 D^1/3 + .003 L^1/2 + .005 p^1/2; close 2/3, normal 3/2", "from_memory")
_MINOR = cite("whitworth").at("minor diameter tolerance 0.2 p plus .004, .005 or .007 in", "from_memory")
_HEIGHT = Decimal("0.640327")
_SHARE = {"close": ("2 / 3", Decimal(2) / 3), "medium": ("1", Decimal(1)), "normal": ("1.5", Decimal("1.5"))}
#: Engagements past this many diameters are refused.
_LONGEST_D = count("whitworth_longest_diameters")


@dataclass(frozen=True, slots=True)
class _Case:
    """One thread as the formulas see it (inches)."""

    series: str
    size: str
    diameter: Decimal
    threads_per_inch: Decimal
    thread_class: str
    engagement: Decimal


@read_once
def sizes(series: str) -> Mapping[str, Size]:
    """Sizes of ``series``, ``BSW`` or ``BSF``, by label, smallest first, diameter in inches."""
    return MappingProxyType(
        {
            row["size"]: Size(family.diameter_of(row["size"]), (Decimal(row["threads_per_inch"]),))
            for row in load("whitworth").rows
            if row["series"] == series
        }
    )


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The BSW or BSF nut thread of ``callout`` with its limits in inches, by ``engagement``.

    Raises: ThreadError ``engagement_out_of_range``.
    Source: BS 84:1956 and BS 84:2007; tolerances by formula, from memory.
    """
    proof = Evidence(callout.assumptions)
    series = "BSF" if callout.series == "BSF" else "BSW"
    diameter, tpi, thread_class = (
        callout.nominal_diameter,
        family.threads_per_inch(callout),
        family.thread_class(callout),
    )
    case = _Case(series, callout.size, diameter, tpi, thread_class, _engagement(engagement, diameter, proof))
    _cautions(case, proof)
    return Thread(
        callout=callout,
        designation=f"{case.size} in - {plain(tpi)} {series} ({thread_class}){family.left(callout, ' LH')}",
        system="whitworth",
        series=series,
        size=case.size,
        thread_class=thread_class,
        hand=callout.hand,
        starts=1,
        unit="in",
        nominal_diameter=case.diameter,
        pitch=family.inch_pitch(tpi),
        threads_per_inch=tpi,
        lead=family.inch_pitch(tpi),
        thread_angle=Decimal(55),
        taper=None,
        standard=_STANDARD,
        basic=_basic(case, proof),
        internal=_internal(case, proof),
        external=None,
        mating_class=None,
        tensile_stress_area=None,
        notes=proof.notes(),
    )


def _engagement(engagement: Length | None, diameter: Decimal, proof: Evidence) -> Decimal:
    if engagement is None:
        proof.assume("length of engagement taken as the diameter, as the tables are made")
        return diameter
    length = engagement.to("in")
    if length > _LONGEST_D * diameter:
        raise ThreadError(
            "engagement_out_of_range",
            f"no range is held for the tolerance formula; engagements up to {_LONGEST_D} diameters are computed",
            pointer="/length_of_engagement",
            allowed=(f"above 0 to {plain(_LONGEST_D * diameter)} in",),
        )
    return length


def _basic(case: _Case, proof: Evidence) -> BasicDiameters:
    d, depth = case.diameter, _HEIGHT / case.threads_per_inch
    sheet = proof.sheet(unit="in", place=_FORM, D=d, n=case.threads_per_inch)
    return BasicDiameters(
        sheet.put("basic.major_diameter", half_up(d, 4), formula="half_up(D, 4)"),
        sheet.put("basic.pitch_diameter", half_up(d - depth, 4), formula=f"half_up(D - {_HEIGHT} / n, 4)"),
        sheet.put("basic.minor_diameter", half_up(d - 2 * depth, 4), formula=f"half_up(D - 2 * {_HEIGHT} / n, 4)"),
    )


def _internal(case: _Case, proof: Evidence) -> Diameters:
    """Basic size is the least on every diameter; each limit is rounded once."""
    d, n, depth = case.diameter, case.threads_per_inch, _HEIGHT / case.threads_per_inch
    share, factor = _SHARE[case.thread_class]
    extra = _minor_addition(n)
    sheet = proof.sheet(unit="in", place=_FORM, D=d, n=n, L=case.engagement)
    return Diameters(
        Range(sheet.put("internal.major_diameter.min", half_up(d, 4), formula="half_up(D, 4)"), None),
        Range(
            sheet.put("internal.pitch_diameter.min", half_up(d - depth, 4), formula=f"half_up(D - {_HEIGHT} / n, 4)"),
            sheet.put(
                "internal.pitch_diameter.max",
                half_up(d - depth + factor * _unit_tolerance(case), 4),
                formula=f"half_up(D - {_HEIGHT} / n + {share}"
                " * (0.002 * cbrt(D) + 0.003 * sqrt(L) + 0.005 * sqrt(1 / n)), 4)",
                place=_TOLERANCE,
            ),
        ),
        Range(
            sheet.put(
                "internal.minor_diameter.min", half_up(d - 2 * depth, 4), formula=f"half_up(D - 2 * {_HEIGHT} / n, 4)"
            ),
            sheet.put(
                "internal.minor_diameter.max",
                half_up(d - 2 * depth + Decimal("0.2") / n + extra, 4),
                formula=f"half_up(D - 2 * {_HEIGHT} / n + 0.2 / n + {extra}, 4)",
                place=_MINOR,
            ),
        ),
    )


def _unit_tolerance(case: _Case) -> Decimal:
    """Effective (pitch) diameter tolerance of the medium class in inches, not rounded."""
    return (
        Decimal("0.002") * case.diameter ** (Decimal(1) / 3)
        + Decimal("0.003") * case.engagement.sqrt()
        + Decimal("0.005") * (1 / case.threads_per_inch).sqrt()
    )


def _minor_addition(tpi: Decimal) -> Decimal:
    """What is added to 0.2 p: .004 from 26 threads an inch, .005 for 24 and 22, .007 for 20 and coarser."""
    if tpi >= 26:
        return Decimal("0.004")
    return Decimal("0.005") if tpi >= 22 else Decimal("0.007")


def _cautions(case: _Case, proof: Evidence) -> None:
    if case.thread_class == "close":
        proof.caution(
            "close_class_special_use",
            text="BS 84:2007 keeps the close class of internal threads in an annex for special uses; its example"
            " pairs a close bolt with a medium nut.",
        )
    same = unified_series.series_for(case.size, case.threads_per_inch)
    if same is not None:
        proof.caution(
            "whitworth_unified_same_pitch",
            text=f"{case.size}-{plain(case.threads_per_inch)} {same} has the same diameter and pitch with a 60 degree"
            " form: the two start together but never interchange.",
        )


def catalogue() -> tuple[CatalogueEntry, ...]:
    """BSW and BSF, every standard size."""
    return tuple(
        CatalogueEntry(
            designation=f"{label} in - {plain(size.only_threads_per_inch)} {series} (medium)",
            system="whitworth",
            series=series,
            size=label,
            unit="in",
            nominal_diameter=size.diameter,
            pitch=family.inch_pitch(size.only_threads_per_inch),
            threads_per_inch=size.only_threads_per_inch,
            classes=CLASSES,
        )
        for series in SERIES
        for label, size in sizes(series).items()
    )


def coverage() -> Coverage:
    """What is held of BS 84."""
    return Coverage(
        "whitworth",
        _STANDARD.document,
        _STANDARD.edition,
        covers="BSW 1/8 to 6, BSF 3/16 to 4 1/4, internal close, medium, normal by formula",
        does_not_cover="bolts (close, medium, free); Whit. and Whit.S; tolerances as printed",
        tables=tables_of("whitworth", "tap_drill_whitworth"),
    )
