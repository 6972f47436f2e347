"""American straight pipe threads: NPSM, NPSC (B1.20.1), dryseal NPSF and NPSI (B1.20.3). Inches, 60 degrees.

Callout: system ``npsm``, ``npsc``, ``npsf`` or ``npsi``; ``size`` is the pipe size, ``threads_per_inch`` may be left
out; no class. ``nominal_diameter`` is the outside diameter of the pipe. Designations: ``1/8-27 NPSM``,
``1/2-14 NPSC LH``.

The tables give pitch and minor diameters only: the major diameter is worked out of the form and marked computed; where
a table gives no greatest minor diameter none is stated.
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
    Thread,
    ThreadCallout,
)
from borewright.core.rounding import half_up, plain
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.evidence import Evidence
from borewright.core.standards.family import Size
from borewright.tables import load

from . import cautions as pipe_cautions
from .american_taper_tables import dryseal_form, npt_form, npt_rows

_AMERICAN, _DRYSEAL = cite("npsm").standard, cite("nptf").standard
#: Height of the form outside and inside the pitch line, in pitches: Unified for NPSM, the taper thread's for the rest.
_HEIGHTS = {
    "npsm": (Decimal("0.649519"), Decimal("0.433013")),
    **dict.fromkeys(("npsc", "npsf", "npsi"), (Decimal("0.8"), Decimal("0.8"))),
}
_NOT_TAPER = ("R external (ISO 7-1)", "G external (ISO 228-1)")


@dataclass(frozen=True, slots=True)
class _Kind:
    """What a straight pipe thread is for, how it is gauged, what it may meet."""

    standard: Standard
    table: str
    sealing: str
    gauge: str
    gauge_form: str
    mates: Mapping[str, object]
    caution: tuple[str, str]


_KINDS: Mapping[str, _Kind] = MappingProxyType(
    {
        "npsm": _Kind(
            _AMERICAN,
            "npsm",
            "no_pressure_on_thread: free-fitting mechanical joint",
            "GO and NOT GO straight thread plugs",
            "parallel_plugs",
            MappingProxyType({"allowed": ("NPSM external",), "not_allowed": ("NPT external", *_NOT_TAPER)}),
            ("npsm_is_mechanical", "NPSM is a free-fitting mechanical joint; it does not seal on the thread."),
        ),
        "npsc": _Kind(
            _AMERICAN,
            "npsc",
            "sealant_required: taper external thread in a coupling, low pressure",
            "NPT L1 taper thread plug, notch flush with the face within 1.5 turns either way",
            "taper_plug",
            MappingProxyType({"allowed": ("NPT external with sealant",), "not_allowed": _NOT_TAPER}),
            ("npsc_low_pressure", "NPSC is for couplings at low pressure with an NPT external thread and sealant."),
        ),
        "npsf": _Kind(
            _DRYSEAL,
            "dryseal_straight",
            "dryseal: with an NPTF external thread",
            "L1 taper thread plug of the dryseal standard",
            "taper_plug",
            MappingProxyType({"allowed": ("NPTF external",), "not_allowed": ("PTF-SAE SHORT external", *_NOT_TAPER)}),
            (
                "dryseal_straight_mates",
                "NPSF is cut for an NPTF external thread; a PTF-SAE SHORT external thread may not assemble with it at"
                " extreme limits.",
            ),
        ),
        "npsi": _Kind(
            _DRYSEAL,
            "dryseal_straight",
            "dryseal: with a PTF-SAE SHORT external thread",
            "L1 taper thread plug of the dryseal standard",
            "taper_plug",
            MappingProxyType({"allowed": ("PTF-SAE SHORT external",), "not_allowed": _NOT_TAPER}),
            (
                "dryseal_straight_mates",
                "NPSI is cut for a PTF-SAE SHORT external thread; it is one turn larger than NPSF.",
            ),
        ),
    }
)


@dataclass(frozen=True, slots=True)
class _Row:
    """A size: limits in inches as printed, ``minor_max`` None where the table has none."""

    size: str
    threads_per_inch: Decimal
    minor_min: Decimal
    minor_max: Decimal | None
    pitch_min: Decimal
    pitch_max: Decimal
    place: Cite


@read_once
def _rows(system: str) -> Mapping[str, _Row]:
    table = load(_KINDS[system].table)
    rows = (row for row in table.rows if row.get("series", system.upper()) == system.upper())
    return MappingProxyType(
        {
            row["size"]: _Row(
                row["size"],
                Decimal(row["threads_per_inch"]),
                Decimal(row["minor_min_in"]),
                Decimal(row["minor_max_in"]) if row.get("minor_max_in") else None,
                Decimal(row["pitch_diameter_min_in"]),
                Decimal(row["pitch_diameter_max_in"]),
                cite(table.name, status=row.get("status")),
            )
            for row in rows
        }
    )


@read_once
def sizes(system: str) -> Mapping[str, Size]:
    """Sizes of a system by label, smallest first; the diameter is the pipe's outside diameter in inches."""
    return MappingProxyType(
        {name: Size(npt_rows()[name].pipe_od_in, (row.threads_per_inch,)) for name, row in _rows(system).items()}
    )


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The American straight pipe thread of ``callout`` with its limits in inches; ``engagement`` changes nothing.

    Source: ANSI/ASME B1.20.1-1983 NPSM and NPSC tables; ANSI B1.20.3-1976 NPSF and NPSI tables (from memory).
    """
    system = callout.system
    proof = Evidence(callout.assumptions)
    row = _rows(system)[callout.size]
    family.engagement_unused(engagement, proof=proof)
    _cautions(system, row, proof)
    return _thread(callout, row, proof)


def _thread(callout: ThreadCallout, row: _Row, proof: Evidence) -> Thread:
    system, n, kind = callout.system, row.threads_per_inch, _KINDS[callout.system]
    pipe = {"sealing": kind.sealing, "tap_style": "straight_flute", "gauge": kind.gauge, "gauge_form": kind.gauge_form}
    return Thread(
        callout=callout,
        designation=f"{row.size}-{plain(n)} {system.upper()}{family.left(callout, ' LH')}",
        system=system,
        series=system.upper(),
        size=row.size,
        thread_class=None,
        hand=callout.hand,
        starts=1,
        unit="in",
        nominal_diameter=npt_rows()[row.size].pipe_od_in,
        pitch=family.inch_pitch(n),
        threads_per_inch=n,
        lead=family.inch_pitch(n),
        thread_angle=Decimal(60),
        taper=None,
        standard=kind.standard,
        basic=_basic(system, row, proof),
        internal=_internal(system, row, proof),
        external=None,
        mating_class=None,
        tensile_stress_area=None,
        extra=MappingProxyType({"pipe": MappingProxyType(pipe), "mates": kind.mates}),
        notes=proof.notes(),
    )


def _basic(system: str, row: _Row, proof: Evidence) -> BasicDiameters:
    """E1 of the taper thread, with the height of the form on both sides of it."""
    e1, n = npt_rows()[row.size].e1_in, row.threads_per_inch
    outward, inward = _HEIGHTS[system]
    place = row.place.computed("design form about E1 of the taper thread")
    inputs: dict[str, object] = {"E1": e1, "n": n}
    return BasicDiameters(
        major_diameter=proof.work(
            "basic.major_diameter",
            half_up(e1 + outward / n, 4),
            formula=f"half_up(E1 + {outward} / n, 4)",
            inputs=inputs,
            unit="in",
            place=place,
        ),
        pitch_diameter=proof.work(
            "basic.pitch_diameter", half_up(e1, 4), formula="half_up(E1, 4)", inputs={"E1": e1}, unit="in", place=place
        ),
        minor_diameter=proof.work(
            "basic.minor_diameter",
            half_up(e1 - inward / n, 4),
            formula=f"half_up(E1 - {inward} / n, 4)",
            inputs=inputs,
            unit="in",
            place=place,
        ),
    )


def _internal(system: str, row: _Row, proof: Evidence) -> Diameters:
    printed = (
        ("pitch_diameter.min", row.pitch_min),
        ("pitch_diameter.max", row.pitch_max),
        ("minor_diameter.min", row.minor_min),
        ("minor_diameter.max", row.minor_max),
    )
    for name, value in printed:
        if value is not None:
            proof.read(f"internal.{name}", value, unit="in", place=row.place)
    if row.minor_max is None:
        proof.caution(
            "minor_max_not_held",
            text="The table gives no greatest minor diameter for this thread, so none is stated; the drill of the"
            " chart or the drawing decides.",
        )
    return Diameters(
        major_diameter=_mechanical_major(row, proof) if system == "npsm" else _form_major(system, row, proof),
        pitch_diameter=Range(row.pitch_min, row.pitch_max),
        minor_diameter=Range(row.minor_min, row.minor_max),
    )


def _mechanical_major(row: _Row, proof: Evidence) -> Range:
    n = row.threads_per_inch
    least = proof.work(
        "internal.major_diameter.min",
        half_up(row.pitch_min + _HEIGHTS["npsm"][0] / n, 4),
        formula=f"half_up(E_min + {_HEIGHTS['npsm'][0]} / n, 4)",
        inputs={"E_min": row.pitch_min, "n": n},
        unit="in",
        place=row.place.computed("Unified form on the least pitch diameter"),
    )
    return Range(least, None)


def _form_major(system: str, row: _Row, proof: Evidence) -> Range:
    """Roots truncated as the taper thread of the same standard allows."""
    form = (npt_form if system == "npsc" else dryseal_form)()[row.threads_per_inch]
    ends = (("min", row.pitch_min, form.root_max_in), ("max", row.pitch_max, form.root_min_in))
    return Range(
        *(
            proof.work(
                f"internal.major_diameter.{end}",
                half_up(pitch + form.sharp_height_in - 2 * f, 4),
                formula="half_up(E + H - 2 * f, 4)",
                inputs={"E": pitch, "H": form.sharp_height_in, "f": f},
                unit="in",
                place=form.place.computed("root truncation of the form on the pitch diameter limit"),
            )
            for end, pitch, f in ends
        )
    )


def _cautions(system: str, row: _Row, proof: Evidence) -> None:
    pipe_cautions.pressure(proof)
    code, text = _KINDS[system].caution
    proof.caution(code, text)
    pipe_cautions.american_against_iso(proof, size=row.size, tpi=row.threads_per_inch, other="iso_7")


def catalogue(system: str) -> tuple[CatalogueEntry, ...]:
    """Every size of the table of ``system``, one of ``npsm``, ``npsc``, ``npsf`` or ``npsi``."""
    return tuple(
        CatalogueEntry(
            designation=f"{label}-{plain(size.only_threads_per_inch)} {system.upper()}",
            system=system,
            series=system.upper(),
            size=label,
            unit="in",
            nominal_diameter=size.diameter,
            pitch=family.inch_pitch(size.only_threads_per_inch),
            threads_per_inch=size.only_threads_per_inch,
            classes=(),
        )
        for label, size in sizes(system).items()
    )


def coverage(system: str) -> Coverage:
    """What is held of the straight pipe threads of ``system``."""
    kind = _KINDS[system]
    return Coverage(
        system,
        kind.standard.document,
        kind.standard.edition,
        covers=f"{system.upper()} {next(iter(sizes(system)))} to {list(sizes(system))[-1]}, internal limits",
        does_not_cover="external threads; greatest minor diameter" if system != "npsm" else "external threads",
        tables=tables_of(kind.table, *(("tap_drill_dryseal_straight",) if system in ("npsf", "npsi") else ())),
    )
