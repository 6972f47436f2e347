"""From a thread and a finish to the limits before the finish: read, measure, judge, warn."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from borewright.core.caches import OF_THREADS, cached
from borewright.core.derivation import one_after_the_other, steps_made_again
from borewright.core.model import (
    MM_PER_INCH,
    Allowance,
    Diameters,
    FinishInput,
    Material,
    Notes,
    Range,
    Source,
    Status,
    Thread,
)
from borewright.core.model.decision import Decision
from borewright.core.standards.systems import traits

from . import cautions, feasibility, flank_geometry, hydrogen, overtap, substrate
from .coat import Coat, coat
from .feasibility import width
from .flank_geometry import FinishLimits, Reading
from .products import Product, products

_ZERO = Range(Decimal(0), Decimal(0))
_NO_CHANGE = Diameters(_ZERO, _ZERO, _ZERO)
_SIXTY = 60
_UNSAID = "the standard's own rule for coated threads is not held"


def allow(thread: Thread, finish: FinishInput, *, material: Material | None = None) -> Allowance:
    """What a finish does to the limits of an internal thread, and the limits to make before it.

    Args:
        thread: with the limits it must have when finished.
        finish: as the caller gave it; ``reading`` chooses which limits a coat moves.
        material: of the part, for the cautions of its hardness.

    Returns:
        Lengths in the thread's unit. Not feasible is an answer, not an error, with what would make it feasible.

    Raises:
        FinishError: the finish cannot be read or has no figures, or no overtap covers the thread.

    Source: ASME B1.1-2003 7.5; ISO 965-3:2021 clause 4; ASTM A563; ISO 965-5:1998.
    """
    given, shared = _on_any_material(thread, finish, on_steel=_on_steel(material))
    row = given.product
    said = () if given.masked or row is None else cautions.of_material(row, material)
    relief, bake = hydrogen.stress_relief(row, material), hydrogen.bake(row, material)
    allowance = shared
    if said or relief is not None or bake is not None:
        notes = shared.notes._replace(cautions=(*shared.notes.cautions, *said))
        allowance = replace(shared, notes=notes, stress_relief=relief, bake=bake)
    return _questioned(
        allowance, (hydrogen.prohibited(row, material), substrate.impossible(row, material), given.doubt)
    )


class _Coated(NamedTuple):
    """A coat and what it does to a thread, whatever the part is made of."""

    coat: Coat
    allowance: Allowance


@cached(OF_THREADS)
def _on_any_material(thread: Thread, finish: FinishInput, *, on_steel: bool) -> _Coated:
    """Kept without the material, so that parts of many materials share one allowance."""
    reading: Reading = finish.reading or ("asme" if thread.unit == "in" else "iso")
    given = _sized(coat(finish, unit=thread.unit, on_steel=on_steel), thread)
    return _Coated(given, _allowed(thread, finish, given, reading))


@steps_made_again
def _allowed(thread: Thread, finish: FinishInput, given: Coat, reading: Reading) -> Allowance:
    if given.masked:
        return _masked(thread, given, reading)
    if given.product is not None and given.product.after_finish:
        return _after_finish(thread, given, reading)
    if finish.dimensions_apply == "before_finish":
        return _coated_afterwards(thread, given, reading)
    return _coated(thread, finish, given, reading)


def _questioned(allowance: Allowance, asked: tuple[Decision | None, ...]) -> Allowance:
    """An allowance with what speaks against the finish itself; one that cannot be put on is not feasible."""
    found = tuple(one for one in asked if one is not None)
    if not found:
        return allowance
    notes = allowance.notes._replace(decisions=(*allowance.notes.decisions, *found))
    blocking = tuple(one.text for one in found if one.blocks)
    if not blocking:
        return replace(allowance, notes=notes)
    return replace(allowance, notes=notes._replace(cautions=()), feasible=False, remedies=blocking, overtap=None)


def _coated(thread: Thread, finish: FinishInput, given: Coat, reading: Reading) -> Allowance:
    limits = flank_geometry.limits(thread, build_up=given.build_up, heat=given.heat, reading=reading)
    feasible = feasibility.is_feasible(thread, limits.before)
    return Allowance(
        thread=thread.designation,
        finish=given.finish(),
        change=limits.change,
        finished=limits.finished,
        before_finish=limits.before,
        reading=reading,
        feasible=feasible,
        remedies=() if feasible else feasibility.remedies(thread, given, reading),
        remaining_tolerance_pitch=width(limits.before.pitch_diameter),
        remaining_tolerance_minor=width(limits.before.minor_diameter),
        overtap=None,
        axial_movement=limits.axial,
        notes=Notes(
            assumptions=(*given.notes.assumptions, *_assumptions(thread, finish, given, limits, reading)),
            cautions=cautions.of_coat(thread, given),
            sources=(*given.notes.sources, *_sources(thread, reading)),
            steps=one_after_the_other(given.notes.steps, limits.steps),
        ),
    )


def _coated_afterwards(thread: Thread, given: Coat, reading: Reading) -> Allowance:
    """A thread whose class limits hold before the finish, as the drawing says: what comes out is the coat's matter."""
    limits = flank_geometry.limits(thread, build_up=given.build_up, heat=given.heat, reading=reading)
    finished, steps = flank_geometry.moved(thread.internal, limits.change, thread.unit)
    kept = tuple(step for step in limits.steps if not step.quantity.startswith("before_finish."))
    notes = Notes(
        assumptions=(
            *given.notes.assumptions,
            "the drawing's limits hold before the finish: the thread is made to its class",
        ),
        cautions=(*cautions.of_coat(thread, given), *cautions.limits_before_finish(thread, limits.change)),
        sources=(*given.notes.sources, *_sources(thread, reading)[:1]),
        steps=one_after_the_other(given.notes.steps, kept, steps),
    )
    unchanged = _unchanged(thread, given, thread.internal, reading, notes)
    return replace(
        unchanged,
        change=limits.change,
        finished=finished,
        axial_movement=limits.axial,
        dimensions_apply="before_finish",
    )


def _masked(thread: Thread, given: Coat, reading: Reading) -> Allowance:
    """A masked thread keeps its limits."""
    return _unchanged(
        thread,
        given,
        thread.internal,
        reading,
        Notes(
            assumptions=(*given.notes.assumptions, "the thread is masked: the finish does not reach it"),
            cautions=cautions.masked(),
            sources=given.notes.sources,
            steps=given.notes.steps,
        ),
    )


def _after_finish(thread: Thread, given: Coat, reading: Reading) -> Allowance:
    """A hot-dip coat: the thread is tapped afterwards, oversize, and carries no zinc."""
    row = given.product
    assert row is not None  # a coat that goes on before tapping is always a row of the table
    found = overtap.overtap(thread, row)
    notes = Notes(
        assumptions=(
            *given.notes.assumptions,
            "the hole is tapped after galvanizing: limits are those of the oversize thread, which carries no zinc",
            *found.assumptions,
        ),
        cautions=(*found.cautions, *cautions.of_coat(thread, given)),
        sources=(*given.notes.sources, *found.sources),
        steps=one_after_the_other(given.notes.steps, found.steps),
    )
    unchanged = _unchanged(thread, given, found.overtap.limits, reading, notes)
    return replace(unchanged, overtap=found.overtap)


def _unchanged(thread: Thread, given: Coat, limits: Diameters, reading: Reading, notes: Notes) -> Allowance:
    """An allowance whose limits before and after the finish are the same."""
    return Allowance(
        thread=thread.designation,
        finish=given.finish(),
        change=_NO_CHANGE,
        finished=limits,
        before_finish=limits,
        reading=reading,
        feasible=True,
        remedies=(),
        remaining_tolerance_pitch=width(limits.pitch_diameter),
        remaining_tolerance_minor=width(limits.minor_diameter),
        overtap=None,
        axial_movement=_ZERO if thread.taper else None,
        notes=notes,
    )


def _sized(given: Coat, thread: Thread) -> Coat:
    """The row for the thread's size where a specification has one for small and one for large fasteners."""
    row = given.product
    if row is None or (row.over_in is None and row.up_to_in is None):
        return given
    nominal_in = thread.nominal_diameter if thread.unit == "in" else thread.nominal_diameter / MM_PER_INCH
    sized = next(one for one in products()[row.specification.name] if _covers(one, nominal_in))
    return replace(given, product=sized, thickness=given.thickness if given.direct else sized.thickness(thread.unit))


def _covers(row: Product, nominal_in: Decimal) -> bool:
    over = row.over_in is None or nominal_in > row.over_in
    return over and (row.up_to_in is None or nominal_in <= row.up_to_in)


def _on_steel(material: Material | None) -> bool:
    return material is not None and "steel" in (material.family or material.name or "")


def _assumptions(
    thread: Thread, finish: FinishInput, given: Coat, limits: FinishLimits, reading: Reading
) -> tuple[str, ...]:
    """Which reading moved the limits and why, in words."""
    lines = []
    if finish.reading is not None:
        lines.append(f"the {reading} reading was asked for")
    elif traits(thread).coated is None:
        lines.append(f"{_UNSAID}: the {reading} reading is used for this system")
    if reading == "asme":
        lines.append("reading of ASME B1.1: finished limits hold after the finish, so both limits are moved before it")
    else:
        lines.append(
            "reading of ISO 965: the tolerance holds before the finish, so only the lower limit is raised; afterwards"
            " no point passes the maximum-material limit of position H"
        )
    if limits.finished is not thread.internal:
        lines.append("finished lower limits are those of position H: a position away from H is room for the coat")
    if given.heat != _ZERO:
        lines.append("growth by heat treatment is the caller's figure, on diameter, positive where the thread opens")
    lines.append("limits before the finish are rounded inwards to the thread's own digits")
    return tuple(lines)


def _sources(thread: Thread, reading: Reading) -> tuple[Source, ...]:
    factor: Status = "published" if thread.thread_angle == _SIXTY else "computed"
    rule: Status = flank_geometry.RULE_STATUS[reading] if traits(thread).coated else "common_practice"
    document, edition, clause = flank_geometry.RULES[reading]
    return (
        Source("change", "Machinery's Handbook", "27th ed.", "p. 1793; k = 2 / sin(half angle)", factor),
        Source("before_finish", document, edition, clause, rule),
    )
