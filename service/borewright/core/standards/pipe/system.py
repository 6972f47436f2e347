"""The records of pipe threads: American taper, American straight, ISO 7-1 and ISO 228-1."""

from __future__ import annotations

from functools import partial

from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import american_straight, american_taper, callout, iso_7, iso_228

_INCH = Reader(callout.parse, callout.settle, "in", callout.known_series)
_MILLIMETRE = Reader(callout.parse, callout.settle, "mm", callout.known_series)


def _npt_coverage() -> Coverage:
    standard = american_taper.STANDARDS["npt"]
    return Coverage(
        "npt",
        standard.document,
        standard.edition,
        covers="1/16 to 24 OD; limits at the gauge plane, lengths, straight and reamed holes; ANPT read as NPT",
        does_not_cover="NPTR, NPSL, NPSH; taper, lead and angle tolerances; ANPT gauging (SAE AS71051)",
        tables=tables_of("npt", "npt_form", "tap_drill_npt"),
    )


def _nptf_coverage() -> Coverage:
    standard = american_taper.STANDARDS["nptf"]
    return Coverage(
        "nptf",
        standard.document,
        standard.edition,
        covers="NPTF 1/16 to 3, PTF-SAE SHORT by its rule; truncation limits, minor diameters for drilling",
        does_not_cover="class inspection rules in full; make-up at 8 threads per inch is not settled",
        tables=tables_of("nptf", "nptf_form", "tap_drill_nptf"),
    )


def _straight(name: str, *, taps_of: str | None = None) -> System:
    return System(
        name,
        reader=_INCH,
        resolve=one_edition(name, american_straight.resolve),
        mate=None,
        catalogue=partial(american_straight.catalogue, name),
        coverage=partial(american_straight.coverage, name),
        traits=Traits(is_pipe=True, taps_of=taps_of),
    )


SYSTEMS = (
    System(
        "npt",
        reader=_INCH,
        resolve=one_edition("npt", american_taper.resolve),
        mate=None,
        catalogue=partial(american_taper.catalogue, "npt"),
        coverage=_npt_coverage,
        traits=Traits(is_pipe=True, taper_pipe="american"),
    ),
    System(
        "nptf",
        reader=_INCH,
        resolve=one_edition("nptf", american_taper.resolve),
        mate=None,
        catalogue=partial(american_taper.catalogue, "nptf"),
        coverage=_nptf_coverage,
        traits=Traits(is_pipe=True, taper_pipe="american", etched="threads_per_inch", etched_series="NPTF"),
    ),
    _straight("npsm"),
    _straight("npsc"),
    _straight("npsf"),
    _straight("npsi", taps_of="npsf"),
    System(
        "iso_7",
        reader=_MILLIMETRE,
        resolve=one_edition("iso_7", iso_7.resolve),
        mate=None,
        catalogue=iso_7.catalogue,
        coverage=iso_7.coverage,
        traits=Traits(is_pipe=True, taper_pipe="iso"),
    ),
    System(
        "iso_228",
        reader=_MILLIMETRE,
        resolve=one_edition("iso_228", iso_228.resolve),
        mate=iso_228.external_limits,
        catalogue=iso_228.catalogue,
        coverage=iso_228.coverage,
        traits=Traits(is_pipe=True),
    ),
)
