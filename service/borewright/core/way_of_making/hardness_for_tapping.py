"""What hardness decides: tap, thread-mill, or thread before the part is hardened."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from borewright.core.caches import OF_MATERIALS, cached
from borewright.core.errors import MaterialError
from borewright.core.materials import alloys, hardness, part_material
from borewright.core.model import Material, MaterialInput, Thread
from borewright.core.model.decision import Decision
from borewright.core.practice import figure, sizes
from borewright.core.rounding import half_even, plain

from .ways import Way

_POINTER = "/material"
#: Hardness from which a tap is questioned, a thread-mill is planned, and neither does.
_REVIEW_HRC, _MILL_HRC, _BLOCKS_HRC = figure("review_from_hrc"), figure("mill_from_hrc"), figure("blocks_from_hrc")
_SMALLEST_MILL = sizes("smallest_mill")


@cached(OF_MATERIALS)
def rockwell_c(material: Material | None) -> Decimal | None:
    """Hardness of ``material`` on the Rockwell C scale as far as it is known, by conversion from Brinell where it is
    not told.

    Source: ASTM E140 relations for non-austenitic steels.
    """
    if material is None:
        return None
    value = material.hardness_hrc
    if value is None and material.hardness_hb is not None:
        try:
            value = hardness.convert(hardness.HardnessReading("HB", material.hardness_hb)).hrc
        except MaterialError:
            return None
    return None if value is None else half_even(Decimal(repr(value)), 1)


def by_hardness(thread: Thread, material: Material | None) -> tuple[Way, tuple[Decision, ...]]:
    """The way of making ``thread`` that the hardness of ``material`` leaves, and what a person must decide about it.

    Source: thresholds of way_of_making (common practice).
    """
    value = rockwell_c(material)
    if material is None or value is None or value < _REVIEW_HRC:
        return Way("tap", material), ()
    hard = f"{plain(value)} HRC"
    mills = thread.nominal_diameter >= _SMALLEST_MILL[thread.unit]
    if value >= _BLOCKS_HRC or (value >= _MILL_HRC and not mills):
        return _before_hardening(thread, material, hard, mills=mills)
    if value >= _MILL_HRC:
        text = (
            f"{hard} is too hard for a tap that must not break in the part; planned is a carbide drill and a solid"
            " carbide thread-mill. Decide: thread-mill it as planned, or thread it before hardening and allow for what"
            " hardening moves."
        )
        return Way("thread_mill", material), (Decision("hard_to_tap", text, _POINTER),)
    text = (
        f"{hard} wears out high-speed steel: planned is a carbide drill and a carbide tap, which bears no shock and no"
        f" hand. Decide: tap it as planned on a rigid machine, {'thread-mill it with carbide, ' if mills else ''}or"
        " thread it before hardening."
    )
    return Way("tap", material), (Decision("hard_to_tap", text, _POINTER),)


def _before_hardening(
    thread: Thread, material: Material, hard: str, *, mills: bool
) -> tuple[Way, tuple[Decision, ...]]:
    soft = annealed(material)
    plan = (
        f"the tools given are those for {soft.name}, before hardening"
        if soft is not None
        else "no annealed state of this material is held, so no drill and no tap are given"
    )
    milled = "mill it with carbide in a hole that was drilled soft, " if mills else ""
    text = (
        f"At {hard} this hole can be neither drilled nor tapped: a tap breaks in it, and no speed makes it safe."
        f" Decide: drill and tap before hardening ({plan}; agree what hardening may move), {milled}or have the thread"
        " made by electrical discharge."
    )
    way = Way(None if soft is None else "tap", soft, None if soft is None else hard)
    return way, (Decision("too_hard_to_tap", text, _POINTER, blocks=True),)


def annealed(material: Material) -> Material | None:
    """The alloy of ``material`` in its annealed state, None where the tables hold none.

    Source: materials table.
    """
    rows = alloys.alloys()
    own = next((row.alloy for row in rows if row.material_id == material.material_id), None)
    found = next((row for row in _conditions(own) if "annealed" in row.condition_words), None)
    return None if found is None else part_material.find(MaterialInput(name=f"{found.alloy} annealed"))


def _conditions(alloy: str | None) -> Iterator[alloys.Alloy]:
    return (row for row in alloys.alloys() if alloy is not None and row.alloy == alloy)
