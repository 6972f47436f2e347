"""The build of the planned tap: words of its marking that nobody read, and what it is made of."""

from __future__ import annotations

from collections.abc import Iterator

from borewright.core.practice import count
from borewright.core.tapping.limits import family

from .case import AuditCase, ReadTap
from .findings import Finding, Severity

#: What taps are made of, from the softest to the hardest (common practice).
_GRADES = ("carbon_steel", "HSS", "HSS-E", "HSS-E-PM", "carbide")
_WORDS = {"carbon_steel": "carbon steel"}
_SOFTER_GRADES = count("audit_softer_grades")


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on marking and substrate of the taps that ``case`` plans.

    Source: marks of ASME B94.9 (no HS or HSS on a cut-thread tap: carbon steel, from memory); common practice.
    """
    for tap in (case.tap, case.second_tap):
        if tap is not None and tap.marking is not None:
            yield from _unread(case, tap, tap.marking.unread)
            yield from _grade(case, tap)


def _unread(case: AuditCase, tap: ReadTap, unread: tuple[str, ...]) -> Iterator[Finding]:
    if unread:
        words = ", ".join(unread)
        text = f"Not understood on the tap's shank, so that the tap may be another one than it seems: {words}."
        yield Finding("tap_words_unread", "warning", tap.field, text, words, case.best_tap.recommended.marking)


def _grade(case: AuditCase, tap: ReadTap) -> Iterator[Finding]:
    planned, wanted = _substrate(case, tap), case.best_tap.recommended.substrate
    if planned not in _GRADES or wanted not in _GRADES or case.spec.material is None:
        return
    softer = _GRADES.index(wanted) - _GRADES.index(planned)
    if softer <= 0:
        return
    severity: Severity = (
        "warning" if softer > _SOFTER_GRADES or _cuts_soft_only(case, planned) or wanted == "carbide" else "info"
    )
    named = _WORDS.get(planned, planned)
    text = f"The tap is {named}; in {case.spec.material.name} the specification takes {_WORDS.get(wanted, wanted)}."
    yield Finding("tap_grade_low", severity, tap.field, text, named, _WORDS.get(wanted, wanted))


def _substrate(case: AuditCase, tap: ReadTap) -> str | None:
    marking = tap.marking
    if marking is None or marking.substrate is not None:
        return None if marking is None else marking.substrate
    unmarked = not marking.ground and family(case.thread) == "inch"
    return "carbon_steel" if unmarked else None


def _cuts_soft_only(case: AuditCase, planned: str) -> bool:
    """Carbon steel loses its edge at the heat of a machine tap; by hand it does in metals that are easily cut."""
    material = case.spec.material
    easy = material is not None and material.iso_group in ("N", "K")
    return planned == "carbon_steel" and not (case.spec.request.machine.tapping == "hand" and easy)
