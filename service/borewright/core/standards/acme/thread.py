"""Acme general purpose threads 2G, 3G, 4G (ASME B1.5) and stub Acme (ASME B1.8). Inches, 29 degrees.

Callout: system ``acme`` or ``stub_acme``; ``size`` is the nominal diameter (``1 3/4``), ``threads_per_inch`` counts
pitches, not turns; class ``2G``, ``3G``, ``4G`` (stub: 2G only). A diameter and pitch that the standard does not pair
comes from its reader only where the callout says that it means it.

Designations: ``1 3/4-4 ACME-2G``, ``1 3/4-4 ACME-2G-LH``, ``1/2-10 STUB ACME``; special and multi-start in decimals,
``2.875-0.4P-0.8L-ACME-3G``.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.errors import ThreadError, nearest, shortened
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
def sizes(system: str) -> Mapping[str, Size]:
    """Standard sizes of ``system`` by label, smallest first, with the one pitch each has; stub Acme uses the same
    pairs.
    """
    return MappingProxyType(
        {
            row["size"]: Size(family.diameter_of(row["size"]), (Decimal(row["threads_per_inch"]),))
            for row in load("acme").rows
        }
    )


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The Acme or stub Acme nut thread of ``callout`` with its limits in inches; ``engagement`` changes nothing.

    Raises: ThreadError ``value_out_of_range`` for a special pair outside the range that is computed.
    Source: ASME B1.5-1997 (formulas and Table 3); ASME B1.8-1988 for stub Acme.
    """
    kind = KINDS[callout.system]
    proof = Evidence(callout.assumptions)
    tpi, special = family.threads_per_inch(callout), _is_special(callout)
    if special:
        _check_special(callout, kind, tpi)
    lead = callout.starts / tpi
    family.engagement_unused(engagement, proof=proof)
    case = AcmeCase(kind, callout.nominal_diameter, tpi, family.thread_class(callout))
    _cautions(callout.system, special=special, proof=proof)
    return _thread(callout, case, lead=lead, special=special, proof=proof)


def _thread(callout: ThreadCallout, case: AcmeCase, *, lead: Decimal, special: bool, proof: Evidence) -> Thread:
    basic, starts = basic_diameters(case, proof), callout.starts
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
    """Limits in inches of an Acme screw of ``thread_class`` in ``thread``, as far as they are held.

    Raises: ThreadError ``thread_class_unknown``. Source: ASME B1.5-1997 formulas.
    """
    folded = thread_class.upper()
    if folded not in CLASSES["acme"]:
        raise ThreadError(
            "thread_class_unknown",
            f"an Acme screw has no class {shortened(thread_class)!r}",
            pointer=mates.POINTER,
            allowed=CLASSES["acme"],
            did_you_mean=nearest(folded, CLASSES["acme"]),
        )
    case = AcmeCase(KINDS["acme"], thread.nominal_diameter, family.threads_per_inch(thread.callout), folded)
    return acme_limits.external_limits(case, Evidence())


# --- what the callout means --------------------------------------------------------------------------


def _is_special(callout: ThreadCallout) -> bool:
    """Whether the standard does not pair the diameter and the threads per inch."""
    standard = sizes(callout.system).get(callout.size)
    return standard is None or callout.threads_per_inch not in standard.threads_per_inch


def _check_special(callout: ThreadCallout, kind: AcmeKind, tpi: Decimal) -> None:
    if not (_SMALLEST <= callout.nominal_diameter <= _LARGEST and _COARSEST <= tpi <= _FINEST):
        raise ThreadError(
            "value_out_of_range",
            f"special {kind.title} threads are computed from {_SMALLEST} to {_LARGEST} in and {_COARSEST} to {_FINEST}"
            " threads per inch",
            pointer=family.POINTER,
        )


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
    """Every standard size of ``system``, ``acme`` or ``stub_acme``."""
    return tuple(
        CatalogueEntry(
            designation=f"{label}-{plain(size.only_threads_per_inch)} "
            + ("ACME-2G" if system == "acme" else KINDS[system].word),
            system=system,
            series=None,
            size=label,
            unit="in",
            nominal_diameter=size.diameter,
            pitch=family.inch_pitch(size.only_threads_per_inch),
            threads_per_inch=size.only_threads_per_inch,
            classes=CLASSES[system],
        )
        for label, size in sizes(system).items()
    )
