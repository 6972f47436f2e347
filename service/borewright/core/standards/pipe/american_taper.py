"""American taper pipe threads: NPT (and ANPT by its name), dryseal NPTF and PTF-SAE SHORT. Inches, 60 degrees, 1:16.

Callout: ``size`` is the pipe size (``1/4``, ``1 1/2``, ``14 OD``), ``threads_per_inch`` may be left out, ``series`` is
``NPT`` or ``ANPT`` (system ``npt``), ``NPTF`` or ``PTF-SAE SHORT`` (system ``nptf``), by default the plain one; no
class, except ``1`` or ``2`` for NPTF. ``nominal_diameter`` of the thread is the outside diameter of the pipe.
Designations: ``1/4-18 NPT``, ``1/4-18 NPT LH``, ``1/8-27 NPTF-1``, ``1/8-27 PTF-SAE SHORT``.

Limits are those at the face of the hole, where the gauge's notch lies; :mod:`.pipe_object` documents ``pipe``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.model import (
    BasicDiameters,
    CatalogueEntry,
    Diameters,
    Length,
    Range,
    Thread,
    ThreadCallout,
    by_formula,
)
from borewright.core.rounding import half_up, plain
from borewright.core.standards import family
from borewright.core.standards.evidence import Evidence

from . import cautions as pipe_cautions
from . import pipe_object
from .american_taper_tables import PipeForm, TaperSize, dryseal_form, dryseal_rows, npt_form, npt_rows
from .pipe_object import Face

#: Series of each system, the first by default.
SERIES: Mapping[str, tuple[str, ...]] = MappingProxyType({"npt": ("NPT", "ANPT"), "nptf": ("NPTF", "PTF-SAE SHORT")})

_SHORT = "PTF-SAE SHORT"
_SIGNS = {1: "+", -1: "-"}
STANDARDS = {
    "npt": cite("npt").standard,
    "nptf": cite("nptf").standard,
}
_TURN = cite("npt").computed("E1 one turn large or small on the L1 gauge, taper 1:16")
_FLUSH = "L1 taper thread plug, notch flush with the face within 1 turn either way"
_GAUGES = {
    "NPT": _FLUSH,
    "ANPT": f"{_FLUSH}; SAE AS71051 adds an L3 plug and plain taper plugs",
    "NPTF": f"{_FLUSH}, and an L3 plug that agrees with it",
    _SHORT: f"short {_FLUSH}, and an L3 plug that agrees with it",
}
_MATES: Mapping[str, Mapping[str, object]] = {
    "NPT": {
        "allowed": ("NPT external with sealant", "NPTF external with sealant"),
        "not_allowed": ("R external (ISO 7-1)", "G external (ISO 228-1)"),
    },
    "NPTF": {
        "allowed": ("NPTF external", "PTF-SAE SHORT external", "NPT external with sealant only"),
        "not_allowed": ("R external (ISO 7-1)", "G external (ISO 228-1)"),
    },
    _SHORT: {
        "allowed": ("NPTF external",),
        "not_allowed": ("PTF-SAE SHORT external", "R external (ISO 7-1)", "G external (ISO 228-1)"),
    },
}


@read_once
def sizes(system: str) -> Mapping[str, family.Size]:
    """Sizes of ``system``, ``npt`` or ``nptf``, by label, smallest first; the diameter is the pipe's outside diameter
    in inches.
    """
    labels = npt_rows() if system == "npt" else dryseal_rows()
    rows = npt_rows()
    return MappingProxyType({one: family.Size(rows[one].pipe_od_in, (rows[one].threads_per_inch,)) for one in labels})


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The taper pipe thread of ``callout``: limits at the face, lengths and hole in inches; ``engagement`` changes
    nothing.

    Source: ANSI/ASME B1.20.1-1983 Tables 1 and 2; ANSI B1.20.3-1976 (from memory) for the dryseal form.
    """
    series = family.series(callout)
    proof = Evidence(callout.assumptions)
    row = npt_rows()[callout.size]
    thread_class = _class(callout, series, proof)
    family.engagement_unused(engagement, proof=proof)
    form = (npt_form if callout.system == "npt" else dryseal_form)()[row.threads_per_inch]
    face = _face(series, row, form, proof)
    pipe = _pipe(series, row, face, proof)
    for name, value in form.printed.items():
        proof.read(f"truncation.{name}", value, unit="in", place=form.place)
    _cautions(series, row, proof)
    return _thread(callout, series, thread_class, row, face, pipe, proof)


def _thread(
    callout: ThreadCallout,
    series: str,
    thread_class: str | None,
    row: TaperSize,
    face: Face,
    pipe: Mapping[str, object],
    proof: Evidence,
) -> Thread:
    n = row.threads_per_inch
    name = series if thread_class is None else f"{series}-{thread_class}"
    basic, internal = _basic(face, proof), _limits("internal", face, proof)
    # the mate is a full external thread, also where the hole is a short one
    external = _limits("external", replace(face, pitch_diameter=row.e1_in), proof)
    return Thread(
        callout=callout,
        designation=f"{row.size}-{plain(n)} {name}{family.left(callout, ' LH')}",
        system=callout.system,
        series=series,
        size=row.size,
        thread_class=thread_class,
        hand=callout.hand,
        starts=1,
        unit="in",
        nominal_diameter=row.pipe_od_in,
        pitch=family.inch_pitch(n),
        threads_per_inch=n,
        lead=family.inch_pitch(n),
        thread_angle=Decimal(60),
        taper=Decimal("0.0625"),
        standard=STANDARDS[callout.system],
        basic=basic,
        internal=internal,
        external=external,
        mating_class=None,
        tensile_stress_area=None,
        extra=MappingProxyType(
            {
                "pipe": MappingProxyType(pipe),
                "truncation": face.form.printed,
                "mates": _MATES.get(series, _MATES["NPT"]),
            }
        ),
        notes=proof.notes(),
    )


def _class(callout: ThreadCallout, series: str, proof: Evidence) -> str | None:
    if series == "NPTF" and callout.thread_class is None:
        proof.assume(
            "no dryseal class on the callout: classes 1 and 2 have the same limits, class 2 also asks for crest and"
            " root truncation to be inspected"
        )
    return callout.thread_class


# --- figures -----------------------------------------------------------------------------------------


def _face(series: str, row: TaperSize, form: PipeForm, proof: Evidence) -> Face:
    """E1, L1 and L3 at the face of the hole; a short thread lacks the first turn at the large end."""
    n, makeup, place = row.threads_per_inch, row.l3_in, row.makeup
    if series in SERIES["nptf"]:
        makeup, place = dryseal_rows()[row.size].l3_in, dryseal_rows()[row.size].makeup
    proof.read("pipe.wrench_makeup", makeup, unit="in", place=place)
    if series != _SHORT:
        e1 = proof.read("pipe.gauge_plane_pitch_diameter", row.e1_in, unit="in", place=row.place)
        l1 = proof.read("pipe.handtight_engagement", row.l1_in, unit="in", place=row.place)
        return Face(e1, l1, makeup, n, form)
    short = dryseal_rows()[row.size].place.computed("1.4.1.2: internal thread one turn shorter at the entry end")
    e1 = proof.work(
        "pipe.gauge_plane_pitch_diameter",
        half_up(row.e1_in - Decimal("0.0625") / n, 5),
        formula="half_up(E1 - 0.0625 / n, 5)",
        inputs={"E1": row.e1_in, "n": n},
        unit="in",
        place=short,
    )
    l1 = proof.work(
        "pipe.handtight_engagement",
        half_up(row.l1_in - 1 / n, 4),
        formula="half_up(L1 - 1 / n, 4)",
        inputs={"L1": row.l1_in, "n": n},
        unit="in",
        place=short,
    )
    return Face(e1, l1, makeup, n, form)


def _basic(face: Face, proof: Evidence) -> BasicDiameters:
    """Pitch diameter at the face; crest and root at the middle of their truncation."""
    form, e1 = face.form, face.pitch_diameter
    height, crest, root = (
        form.sharp_height_in,
        form.crest_min_in + form.crest_max_in,
        form.root_min_in + form.root_max_in,
    )
    place = form.place.computed("design form at the face")
    sheet = proof.sheet(unit="in", place=place, E1=e1, H=height, f_crest=crest / 2, f_root=root / 2)
    return BasicDiameters(
        sheet.put("basic.major_diameter", e1 + height - root, formula="E1 + H - 2 * f_root"),
        sheet.put("basic.pitch_diameter", e1, formula="E1"),
        sheet.put("basic.minor_diameter", e1 - height + crest, formula="E1 - H + 2 * f_crest"),
    )


def _limits(member: str, face: Face, proof: Evidence) -> Diameters:
    """Pitch diameter at the gauge plane one turn either way; crest and root by the truncation allowed there."""
    form = face.form
    crest, root = (form.crest_min_in, form.crest_max_in), (form.root_min_in, form.root_max_in)
    outer, inner = (root, crest) if member == "internal" else (crest, root)
    major = [(f"{member}.major_diameter.{end}", 1, f) for end, f in (("min", outer[1]), ("max", outer[0]))]
    minor = [(f"{member}.minor_diameter.{end}", -1, f) for end, f in (("min", inner[0]), ("max", inner[1]))]
    return Diameters(
        major_diameter=Range(*(_truncated(name, sign, f, face, proof) for name, sign, f in major)),
        pitch_diameter=Range(
            _turned(f"{member}.pitch_diameter.min", -1, face, proof),
            _turned(f"{member}.pitch_diameter.max", 1, face, proof),
        ),
        minor_diameter=Range(*(_truncated(name, sign, f, face, proof) for name, sign, f in minor)),
    )


def _turned(field: str, sign: int, face: Face, proof: Evidence) -> Decimal:
    n = face.threads_per_inch
    return proof.work(
        field,
        half_up(face.pitch_diameter + sign * Decimal("0.0625") / n, 5),
        formula=f"half_up(E1 {_SIGNS[sign]} 0.0625 / n, 5)",
        inputs={"E1": face.pitch_diameter, "n": n},
        unit="in",
        place=replace(_TURN, status=by_formula(face.form.place.status)),
    )


def _truncated(field: str, sign: int, truncation: Decimal, face: Face, proof: Evidence) -> Decimal:
    height = face.form.sharp_height_in
    return proof.work(
        field,
        face.pitch_diameter + sign * (height - 2 * truncation),
        formula=f"E1 {_SIGNS[sign]} (H - 2 * f)",
        inputs={"E1": face.pitch_diameter, "H": height, "f": truncation},
        unit="in",
        place=face.form.place.computed("truncation of crest and root at the face, E1 at its basic size"),
    )


# --- what goes with it -------------------------------------------------------------------------------


def _pipe(series: str, row: TaperSize, face: Face, proof: Evidence) -> dict[str, object]:
    dryseal = series in SERIES["nptf"]
    e3 = dryseal_rows()[row.size].e3_in if dryseal else row.e3_in
    pipe: dict[str, object] = {
        "gauge_plane_pitch_diameter": face.pitch_diameter,
        "handtight_engagement": face.handtight,
        "wrench_makeup": face.makeup,
        "pitch_diameter_at_wrench_makeup": proof.read(
            "pipe.pitch_diameter_at_wrench_makeup",
            e3,
            unit="in",
            place=dryseal_rows()[row.size].makeup if dryseal else row.makeup,
        ),
        **pipe_object.lengths(row, proof),
        **pipe_object.engagement(face, proof, dryseal_rows()[row.size].makeup if dryseal else row.makeup),
        **pipe_object.tap(face, proof, size=row.size),
        **pipe_object.hole(face, proof, system="nptf" if dryseal else "npt", size=row.size),
    }
    if dryseal:
        pipe.update(pipe_object.dryseal_minor(dryseal_rows()[row.size], proof))
    pipe.update(
        sealing="dryseal: metal to metal at crest, root and flank" if dryseal else "sealant_required",
        tap_style="taper_pipe",
        taper_reamer="1:16",
        gauge_form="taper_plug",
        gauge=_GAUGES[series],
    )
    return pipe


def _cautions(series: str, row: TaperSize, proof: Evidence) -> None:
    pipe_cautions.pressure(proof)
    pipe_cautions.american_against_iso(proof, size=row.size, tpi=row.threads_per_inch, other="iso_7")
    if series in SERIES["npt"]:
        pipe_cautions.npt(proof, series=series, size=row.size, l1_in=row.l1_in)
    else:
        pipe_cautions.dryseal(proof, short=series == _SHORT, unsettled=dryseal_rows()[row.size].unsettled)


def catalogue(system: str) -> tuple[CatalogueEntry, ...]:
    """Every standard size of ``system``, ``npt`` or ``nptf``."""
    return tuple(
        CatalogueEntry(
            designation=f"{label}-{plain(size.only_threads_per_inch)} {SERIES[system][0]}",
            system=system,
            series=SERIES[system][0],
            size=label,
            unit="in",
            nominal_diameter=size.diameter,
            pitch=family.inch_pitch(size.only_threads_per_inch),
            threads_per_inch=size.only_threads_per_inch,
            classes=("1", "2") if system == "nptf" else (),
        )
        for label, size in sizes(system).items()
    )
