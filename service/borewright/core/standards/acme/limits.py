"""Limits of size of Acme and stub Acme threads (inches): every figure of the standards is a formula of D and P."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core.citation import Cite, cite
from borewright.core.model import BasicDiameters, Diameters, Range, Standard
from borewright.core.rounding import half_up
from borewright.core.standards import family
from borewright.core.standards.evidence import Evidence, Sheet

B1_5, B1_8 = cite("acme").standard, Standard("ASME B1.8", "1988")

#: Pitch diameter tolerance = first x sqrt(D) + second x sqrt(P), the same for internal and external threads.
_TOLERANCE = {
    "2G": (Decimal("0.006"), Decimal("0.030")),
    "3G": (Decimal("0.0028"), Decimal("0.014")),
    "4G": (Decimal("0.002"), Decimal("0.010")),
}
#: Allowance of the external thread = factor x sqrt(D); those of 3G and 4G are not held.
_ALLOWANCE = {"2G": Decimal("0.008")}


@dataclass(frozen=True, slots=True)
class AcmeKind:
    """What Acme and stub Acme differ in: height of thread in pitches, and how well the tolerances are known."""

    title: str
    word: str
    standard: Standard
    height: Decimal
    tolerance: Cite
    minor_max: Cite

    def cite(self, locator: str) -> Cite:
        """The cite of a formula at ``locator`` of the kind's standard that was seen."""
        return Cite(self.standard.document, self.standard.edition, locator, "computed")


def _memory(standard: Standard, locator: str) -> Cite:
    return Cite(standard.document, standard.edition, locator, "from_memory")


_MINOR = "minor diameter tolerance 0.05 P, at least 0.005 in"
_DATA_SHEET = "constants confirmed by an Acme thread data sheet (2009)"
KINDS: Mapping[str, AcmeKind] = MappingProxyType(
    {
        "acme": AcmeKind(
            "Acme",
            "ACME",
            B1_5,
            Decimal("0.5"),
            Cite(B1_5.document, B1_5.edition, f"pitch diameter tolerance of the class; {_DATA_SHEET}", "computed"),
            Cite(B1_5.document, B1_5.edition, f"{_MINOR}; {_DATA_SHEET}", "computed"),
        ),
        "stub_acme": AcmeKind(
            "Stub Acme",
            "STUB ACME",
            B1_8,
            Decimal("0.3"),
            _memory(B1_8, "pitch diameter tolerance of class 2G"),
            _memory(B1_8, _MINOR),
        ),
    }
)


@dataclass(frozen=True, slots=True)
class AcmeCase:
    """One thread as the formulas see it (inches)."""

    kind: AcmeKind
    diameter: Decimal
    threads_per_inch: Decimal
    thread_class: str

    @property
    def clearance(self) -> Decimal:
        """Clearance at the major diameter: .020 for 10 threads an inch and coarser, .010 for finer."""
        return Decimal("0.020") if self.threads_per_inch <= 10 else Decimal("0.010")

    @property
    def pitch_tolerance(self) -> Decimal:
        """Tolerance of the pitch diameter, not rounded."""
        of_d, of_p = _TOLERANCE[self.thread_class]
        return of_d * self.diameter.sqrt() + of_p * (1 / self.threads_per_inch).sqrt()

    @property
    def pitch_tolerance_text(self) -> str:
        """The formula of ``pitch_tolerance`` over D and n."""
        of_d, of_p = _TOLERANCE[self.thread_class]
        return f"({of_d} * sqrt(D) + {of_p} * sqrt(1 / n))"

    def sheet(self, proof: Evidence) -> Sheet:
        """Sheet of ``proof`` for figures of the form."""
        place = self.kind.cite(f"basic form, height {self.kind.height} P")
        return proof.sheet(unit="in", place=place, D=self.diameter, n=self.threads_per_inch, c=self.clearance)


def basic_diameters(case: AcmeCase, proof: Evidence) -> BasicDiameters:
    """Basic diameters of ``case`` in inches to 4 decimals, recorded in ``proof``. Source: ASME B1.5-1997, ASME
    B1.8-1988, basic form.
    """
    sheet, d, h = case.sheet(proof), case.diameter, case.kind.height
    depth = h / case.threads_per_inch
    return BasicDiameters(
        sheet.put("basic.major_diameter", half_up(d, 4), formula="half_up(D, 4)"),
        sheet.put("basic.pitch_diameter", half_up(d - depth, 4), formula=f"half_up(D - {h} / n, 4)"),
        sheet.put("basic.minor_diameter", half_up(d - 2 * depth, 4), formula=f"half_up(D - {2 * h} / n, 4)"),
    )


def internal_limits(case: AcmeCase, proof: Evidence) -> Diameters:
    """Limits of the nut thread of ``case`` in inches, each rounded once to 4 decimals, recorded in ``proof``.

    Source: ASME B1.5-1997 and ASME B1.8-1988 formulas; the greatest major diameter is from memory.
    """
    sheet, d, h, c = case.sheet(proof), case.diameter, case.kind.height, case.clearance
    depth = h / case.threads_per_inch
    width = max(Decimal("0.05") / case.threads_per_inch, Decimal("0.005"))
    at_clearance = case.kind.cite("clearance at the internal major diameter")
    return Diameters(
        Range(
            sheet.put(
                "internal.major_diameter.min", half_up(d + c, 4), formula="half_up(D + c, 4)", place=at_clearance
            ),
            sheet.put(
                "internal.major_diameter.max",
                half_up(d + 2 * c, 4),
                formula="half_up(D + 2 * c, 4)",
                place=_memory(case.kind.standard, "tolerance of the internal major diameter"),
            ),
        ),
        Range(
            sheet.put("internal.pitch_diameter.min", half_up(d - depth, 4), formula=f"half_up(D - {h} / n, 4)"),
            sheet.put(
                "internal.pitch_diameter.max",
                half_up(d - depth + case.pitch_tolerance, 4),
                formula=f"half_up(D - {h} / n + {case.pitch_tolerance_text}, 4)",
                place=case.kind.tolerance,
            ),
        ),
        Range(
            sheet.put("internal.minor_diameter.min", half_up(d - 2 * depth, 4), formula=f"half_up(D - {2 * h} / n, 4)"),
            sheet.put(
                "internal.minor_diameter.max",
                half_up(d - 2 * depth + width, 4),
                formula=f"half_up(D - {2 * h} / n + max(0.05 / n, 0.005), 4)",
                place=case.kind.minor_max,
            ),
        ),
    )


def external_limits(case: AcmeCase, proof: Evidence) -> Diameters:
    """Limits in inches of the screw of the class of ``case`` as far as they are held (general purpose Acme).

    Args: ``proof`` that records them.
    Source: ASME B1.5-1997 formulas; minor diameters confirmed by an Acme thread data sheet (2009).
    """
    sheet = case.sheet(proof)
    place = case.kind.cite(f"external limits; {_DATA_SHEET}")
    minor = case.diameter - 1 / case.threads_per_inch - case.clearance
    return Diameters(
        Range(
            None,
            sheet.put("external.major_diameter.max", half_up(case.diameter, 4), formula="half_up(D, 4)", place=place),
        ),
        _external_pitch(case, sheet, place),
        Range(
            sheet.put(
                "external.minor_diameter.min",
                half_up(minor - Decimal("1.5") * case.pitch_tolerance, 4),
                formula=f"half_up(D - 1 / n - c - 1.5 * {case.pitch_tolerance_text}, 4)",
                place=place,
            ),
            sheet.put(
                "external.minor_diameter.max", half_up(minor, 4), formula="half_up(D - 1 / n - c, 4)", place=place
            ),
        ),
    )


def _external_pitch(case: AcmeCase, sheet: Sheet, place: Cite) -> Range:
    factor = _ALLOWANCE.get(case.thread_class)
    if factor is None:
        sheet.proof.caution(
            "thread_data_missing",
            text=f"The allowance of external class {case.thread_class} is not held: no pitch diameter limits of the"
            " mate are given.",
        )
        return family.open_range()
    top = case.diameter - case.kind.height / case.threads_per_inch - factor * case.diameter.sqrt()
    formula = f"D - {case.kind.height} / n - {factor} * sqrt(D)"
    return Range(
        sheet.put(
            "external.pitch_diameter.min",
            half_up(top - case.pitch_tolerance, 4),
            formula=f"half_up({formula} - {case.pitch_tolerance_text}, 4)",
            place=place,
        ),
        sheet.put("external.pitch_diameter.max", half_up(top, 4), formula=f"half_up({formula}, 4)", place=place),
    )
