"""Square threads: no current standard defines them, so they are taken by the dimensions the drawing states.

Callout: ``nominal_diameter`` (major), ``pitch`` or ``threads_per_inch``, and the item ``("depth", Decimal)`` of
``extra`` (radial depth of thread, in the callout's unit); no class. Either unit. Designations: ``SQUARE 1.5-4 depth
0.125`` (inches), ``SQUARE 40x7 depth 3.5`` (mm), several starts ``SQUARE 0.5-0.125P-0.25L depth 0.05`` and
``SQUARE 40x14(P7) depth 3.5``, left hand with ``LH`` at the end.
"""

from __future__ import annotations

from decimal import Decimal
from types import MappingProxyType

from borewright.core.citation import Cite
from borewright.core.errors import ThreadError
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
from borewright.core.standards.coverage import Coverage
from borewright.core.standards.evidence import Evidence

_STANDARD = Standard("none", "no current standard; dimensions as stated")
_STATED = Cite("the callout", "as stated", "no current standard defines square threads", "computed")


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """A square thread from its stated dimensions, in their unit, whatever ``engagement``; nothing but those dimensions
    is known of it.

    Raises: ThreadError ``value_out_of_range``.
    Source: none; the callout's own dimensions.
    """
    proof = Evidence(callout.assumptions)
    pitch, depth = _dimensions(callout)
    starts = callout.starts
    lead = starts * pitch
    family.engagement_unused(engagement, proof=proof)
    proof.caution(
        "square_no_standard",
        text="No current standard defines square threads: only the stated dimensions are given, with no tolerances."
        " Take the limits of the mating screw and the fit from the drawing.",
    )
    basic = _basic(callout, depth, proof)
    several = family.multi_start(
        starts=starts, lead=lead, pitch_diameter=basic.pitch_diameter, unit=callout.unit, proof=proof
    )
    return Thread(
        callout=callout,
        designation=_designation(callout, pitch=pitch, lead=lead, depth=depth, starts=starts),
        system="square",
        series=None,
        size=plain(callout.nominal_diameter),
        thread_class=None,
        hand=callout.hand,
        starts=starts,
        unit=callout.unit,
        nominal_diameter=callout.nominal_diameter,
        pitch=half_up(pitch, 7),
        threads_per_inch=callout.threads_per_inch,
        lead=half_up(lead, 7),
        thread_angle=Decimal(0),
        taper=None,
        standard=_STANDARD,
        basic=basic,
        internal=Diameters(Range(basic.major_diameter, None), family.open_range(), Range(basic.minor_diameter, None)),
        external=None,
        mating_class=None,
        tensile_stress_area=None,
        extra=MappingProxyType({"square": MappingProxyType({"depth_of_thread": depth}), **several}),
        notes=proof.notes(),
    )


def _dimensions(callout: ThreadCallout) -> tuple[Decimal, Decimal]:
    """Pitch and depth in the callout's unit."""
    pitch = 1 / callout.threads_per_inch if callout.threads_per_inch else family.pitch_mm(callout)
    depth = family.stated_dimension(callout, "depth")
    assert depth is not None
    if not (pitch < callout.nominal_diameter and 2 * depth < callout.nominal_diameter and 0 < depth <= pitch):
        raise ThreadError(
            "value_out_of_range",
            "a square thread needs a pitch below its diameter, and a depth above zero, of at most its pitch and below"
            " half its diameter",
            pointer=family.POINTER,
        )
    return pitch, depth


def _designation(callout: ThreadCallout, *, pitch: Decimal, lead: Decimal, depth: Decimal, starts: int) -> str:
    left = family.left(callout, " LH")
    size, each, advance = plain(callout.nominal_diameter), plain(half_up(pitch, 5)), plain(half_up(lead, 5))
    if callout.unit == "mm":
        body = f"{size}x{advance}(P{each})" if starts > 1 else f"{size}x{each}"
    elif starts > 1 or callout.threads_per_inch is None:
        body = f"{size}-{each}P-{advance}L"
    else:
        body = f"{size}-{plain(callout.threads_per_inch)}"
    return f"SQUARE {body} depth {plain(depth)}{left}"


def _basic(callout: ThreadCallout, depth: Decimal, proof: Evidence) -> BasicDiameters:
    unit, d = callout.unit, callout.nominal_diameter
    sheet = proof.sheet(unit=unit, place=_STATED, D=d, h=depth)
    for field, value, formula in (
        ("internal.major_diameter.min", d, "D"),
        ("internal.minor_diameter.min", d - 2 * depth, "D - 2 * h"),
    ):
        sheet.put(field, value, formula=formula)
    return BasicDiameters(
        sheet.put("basic.major_diameter", d, formula="D"),
        sheet.put("basic.pitch_diameter", d - depth, formula="D - h"),
        sheet.put("basic.minor_diameter", d - 2 * depth, formula="D - 2 * h"),
    )


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Nothing: there are no standard sizes."""
    return ()


def coverage() -> Coverage:
    """What can be said of square threads."""
    return Coverage(
        "square",
        _STANDARD.document,
        _STANDARD.edition,
        covers="any diameter, pitch and depth that the callout states; basic dimensions only",
        does_not_cover="limits and classes: there is no current standard",
    )
