"""Figures that look as if they were meant in the other unit or as a share, and materials of which nothing is held."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import MM_PER_INCH, Material, Thread, Unit
from borewright.core.model.decision import Decision
from borewright.core.practice import figure
from borewright.core.rounding import half_even, plain

from .ways import MakingQuestion

_BELOW_PITCHES, _ABOVE_DIAMETERS = figure("doubt_below_pitches"), figure("doubt_above_diameters")
_PERCENT_BELOW = figure("doubt_percent_below")


def doubts(thread: Thread, asked: MakingQuestion) -> tuple[Decision, ...]:
    """Questions about ``asked`` figures of ``thread`` that are hardly meant as they stand, and about its material.

    Source: thresholds of way_of_making (our own).
    """
    return (*_depth(thread, asked), *_percent(asked), *_unknown(asked.material))


def _depth(thread: Thread, asked: MakingQuestion) -> tuple[Decision, ...]:
    """A depth under a pitch or over ten diameters that would be an ordinary one in the other unit.

    The figure stands as it was given, whatever the unit of the reply: it is the unit that is asked about.
    """
    depth, unit = asked.depth, thread.unit
    if _ordinary(thread, depth):
        return ()
    other: Unit = "mm" if unit == "in" else "in"
    meant = depth / MM_PER_INCH if unit == "in" else depth * MM_PER_INCH
    pointer = "/hole/thickness" if asked.wall == depth else "/hole/full_thread_depth"
    shallow = depth < thread.pitch
    far = f"{plain(half_even(depth / thread.nominal_diameter, 1))} diameters"
    near = f"{plain(half_even(depth / thread.pitch, 2))} of a pitch"
    said = f"{plain(depth)} {unit} of {thread.designation} is {near if shallow else far}"
    if _ordinary(thread, meant):
        swapped = f"{plain(depth)} {other} ({plain(half_even(meant / thread.nominal_diameter, 1))} diameters)"
        held = ": no screw holds in it, so no drill and no tap are given" if shallow else ""
        text = f"{said}{held}. Decide: is {swapped} meant, or the depth as it stands?"
        return (Decision("unit_doubtful", text, pointer, blocks=shallow),)
    if shallow:
        return ()
    text = f"{said}, deeper than is tapped. Decide: shorten the thread, or confirm the depth."
    return (Decision("unit_doubtful", text, pointer),)


def _ordinary(thread: Thread, depth: Decimal) -> bool:
    return _BELOW_PITCHES * thread.pitch <= depth <= _ABOVE_DIAMETERS * thread.nominal_diameter


def _percent(asked: MakingQuestion) -> tuple[Decision, ...]:
    percent = asked.percent
    if percent is None or percent >= _PERCENT_BELOW:
        return ()
    text = (
        f"{plain(percent)} percent of thread is next to none. Decide: is {plain(100 * percent)} percent meant?"
        " percent_thread is in percent."
    )
    return (Decision("percent_doubtful", text, "/percent_thread"),)


def _unknown(material: Material | None) -> tuple[Decision, ...]:
    """A material that was named and of which nothing is held: the plan is one for a material that taps easily."""
    if material is None or material.family is not None or material.iso_group is not None:
        return ()
    planned = "a metal that is easy to tap" if material.hardness_hb is None else "its hardness alone"
    text = (
        f"{material.name!r} is not in the tables: drill and tap are those for {planned}, and no speeds are given."
        " Decide: name its alloy, family or ISO 513 group with its hardness, or take tools and speeds from the shop's"
        " record."
    )
    return (Decision("material_not_held", text, "/material"),)
