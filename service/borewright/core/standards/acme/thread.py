"""Acme general purpose threads 2G, 3G, 4G (ASME B1.5) and stub Acme (ASME B1.8). Inches, 29 degrees.

Callout: system ``acme`` or ``stub_acme``; ``size`` is the nominal diameter (``1 3/4``), ``threads_per_inch`` counts
pitches, not turns, and may be left out for a standard size; class ``2G`` (default), ``3G``,
``4G`` (stub: 2G only). Several starts: ``starts`` and the item ``("lead", Decimal inches)`` of ``extra``. A diameter
and pitch that the standard does not pair is taken only where the callout says that it means it: by its lead, or by the
item ``("special", True)``.

Designations: ``1 3/4-4 ACME-2G``, ``1 3/4-4 ACME-2G-LH``, ``1/2-10 STUB ACME``; special and multi-start in decimals,
``2.875-0.4P-0.8L-ACME-3G``.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.errors import ThreadError, nearest
from borewright.core.model import CatalogueEntry, Diameters, Length, Thread, ThreadCallout
from borewright.core.rounding import half_up, plain
from borewright.core.standards import family, mates
from borewright.core.standards.evidence import Evidence
from borewright.core.standards.family import Size
from borewright.tables import load

from . import limits as acme_limits
from .limits import KINDS, AcmeCase, AcmeKind, basic_diameters, internal_limits

CLASSES: Mapping[str, tuple[str, ...]] = MappingProxyType({"acme": ("2G", "3G", "4G"), "stub_acme": ("2G",)})

_SMALLEST, _LARGEST = Decimal("0.25"), Decimal(5)
_FINEST, _COARSEST = Decimal(16), Decimal(1)


@read_once
def _pitches(system: str) -> tuple[Decimal, ...]:
    return tuple(dict.fromkeys(size.threads_per_inch[0] for size in sizes(system).values()))


@read_once
def sizes(system: str) -> Mapping[str, Size]:
    """Standard sizes by label, smallest first, with the one pitch each has; stub Acme uses the same pairs."""
    return MappingProxyType(
        {
            row["size"]: Size(family.value_of(row["size"]) or Decimal(0), (Decimal(row["threads_per_inch"]),))
            for row in load("acme").rows
        }
    )


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """Limits of an Acme or stub Acme nut thread.

    Raises: ThreadError ``thread_size_unknown``, ``thread_pitch_unknown``, ``thread_class_unknown``,
    ``thread_lead_invalid``, ``thread_field_unexpected``, ``value_out_of_range``.
    Source: ASME B1.5-1997 (formulas and Table 3); ASME B1.8-1988 for stub Acme.
    """
    kind = KINDS[callout.system]
    proof = Evidence(callout.assumptions)
    family.only_extras(callout, "lead", "special", title=kind.title)
    family.no_series(callout, title=kind.title)
    diameter, tpi, special = _pair(callout, kind, proof)
    thread_class = family.class_of(
        callout, CLASSES[callout.system], default="2G", title=kind.title, proof=proof, hint=_centralizing(callout)
    )
    starts, lead = family.starts_and_lead(callout, pitch=1 / tpi, unit="in")
    family.engagement_unused(engagement, proof=proof)
    case = AcmeCase(kind, diameter, tpi, thread_class)
    _cautions(callout.system, special=special, proof=proof)
    return _thread(callout, case, starts=starts, lead=lead, special=special, proof=proof)


def _thread(
    callout: ThreadCallout, case: AcmeCase, *, starts: int, lead: Decimal, special: bool, proof: Evidence
) -> Thread:
    basic = basic_diameters(case, proof)
    several = family.multi_start(starts=starts, lead=lead, pitch_diameter=basic.pitch_diameter, unit="in", proof=proof)
    return Thread(
        callout=callout,
        designation=_designation(callout, case, lead=lead, decimal=special or starts > 1),
        system=callout.system,
        series=None,
        size=callout.size,
        thread_class=case.thread_class,
        hand=callout.hand,
        starts=starts,
        unit="in",
        nominal_diameter=case.diameter,
        pitch=family.inch_pitch(case.threads_per_inch),
        threads_per_inch=case.threads_per_inch,
        lead=half_up(lead, 7),
        thread_angle=Decimal(29),
        taper=None,
        standard=case.kind.standard,
        basic=basic,
        internal=internal_limits(case, proof),
        external=acme_limits.external_limits(case, proof) if callout.system == "acme" else None,
        mating_class=case.thread_class,
        tensile_stress_area=None,
        extra=MappingProxyType(several),
        notes=proof.notes(),
    )


def external_limits(thread: Thread, thread_class: str) -> Diameters:
    """Limits of an Acme screw of another class, as far as they are held.

    Raises: ThreadError ``thread_class_unknown``. Source: ASME B1.5-1997 formulas.
    """
    folded = thread_class.upper()
    if folded not in CLASSES["acme"]:
        raise ThreadError(
            "thread_class_unknown",
            f"an Acme screw has no class {thread_class[:20]!r}",
            pointer=mates.POINTER,
            allowed=CLASSES["acme"],
            did_you_mean=nearest(folded, CLASSES["acme"]),
        )
    case = AcmeCase(KINDS["acme"], thread.nominal_diameter, thread.threads_per_inch or 1 / thread.pitch, folded)
    return acme_limits.external_limits(case, Evidence())


# --- what the callout means --------------------------------------------------------------------------


def _pair(callout: ThreadCallout, kind: AcmeKind, proof: Evidence) -> tuple[Decimal, Decimal, bool]:
    """Diameter, threads per inch, and whether the standard does not pair them."""
    known = sizes(callout.system)
    items = dict(callout.extra)
    given = family.given_threads_per_inch(callout, _pitches(callout.system))
    standard = known.get(callout.size)
    declared = "lead" in items or bool(items.get("special"))
    if not declared or (standard is not None and given in (None, standard.threads_per_inch[0])):
        size = family.find(callout, known, title=kind.title)
        tpi = family.threads_per_inch(callout, size.threads_per_inch, title=kind.title, proof=proof)
        return size.diameter, tpi, False
    if given is None:
        raise ThreadError("thread_field_missing", "a special Acme thread needs its pitch", pointer=family.POINTER)
    diameter = callout.nominal_diameter
    if not (_SMALLEST <= diameter <= _LARGEST and _COARSEST <= given <= _FINEST):
        raise ThreadError(
            "value_out_of_range",
            f"special {kind.title} threads are computed from {_SMALLEST} to {_LARGEST} in and {_COARSEST} to {_FINEST}"
            " threads per inch",
            pointer=family.POINTER,
        )
    return diameter, given, True


def _centralizing(callout: ThreadCallout) -> str:
    if callout.thread_class in ("2C", "3C", "4C"):
        return "; centralizing classes have other limits, which are not held"
    return ""


def _designation(callout: ThreadCallout, case: AcmeCase, *, lead: Decimal, decimal: bool) -> str:
    word = case.kind.word if callout.system == "stub_acme" else f"ACME-{case.thread_class}"
    left = family.left(callout, "-LH")
    if not decimal:
        return f"{callout.size}-{plain(case.threads_per_inch)} {word}{left}"
    pitch = plain(half_up(1 / case.threads_per_inch, 4))
    return f"{half_up(case.diameter, 3)}-{pitch}P-{plain(half_up(lead, 4))}L-{word}{left}"


def _cautions(system: str, *, special: bool, proof: Evidence) -> None:
    if special:
        proof.caution(
            "acme_special_pair",
            text="The standard does not pair this diameter and pitch. The pitch diameter tolerance is worked out of the"
            " thread's own diameter; a published list gives special pairs the tolerance of a standard diameter of that"
            " pitch instead (1-4 that of 1 1/2-4). Ask for the drawing's rule.",
        )
    if system == "stub_acme":
        proof.caution(
            "stub_acme_sizes",
            text="The list of stub Acme sizes was not seen: the diameters and pitches of general purpose Acme threads"
            " are used.",
        )


def catalogue(system: str) -> tuple[CatalogueEntry, ...]:
    """Every standard size of ``acme`` or ``stub_acme``."""
    return tuple(
        CatalogueEntry(
            designation=f"{label}-{plain(size.threads_per_inch[0])} "
            + ("ACME-2G" if system == "acme" else KINDS[system].word),
            system=system,
            series=None,
            size=label,
            unit="in",
            nominal_diameter=size.diameter,
            pitch=family.inch_pitch(size.threads_per_inch[0]),
            threads_per_inch=size.threads_per_inch[0],
            classes=CLASSES[system],
        )
        for label, size in sizes(system).items()
    )
