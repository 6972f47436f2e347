"""What an old thread leaves in a hole, and whether a new thread cuts it away: all on diameter."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, NamedTuple

from borewright.core.citation import Cite
from borewright.core.model import MM_PER_INCH, Range, Thread, Unit
from borewright.core.practice import figure, number
from borewright.core.rounding import half_even, half_up
from borewright.core.standards.systems import traits

from .proof import Proof
from .rework_case import ReworkCase

Verdict = Literal["full_any_hole", "full_upper_hole", "partial", "no", "unknown"]
#: How far the major diameter that a tap has cut may lie over the basic one, in pitches.
OVER_PITCHES: dict[Unit, Decimal] = {
    "in": figure("inch_tap_major_pitches"),
    "mm": figure("metric_tap_major_pitches"),
}
_RULE = Cite("ASME B94.9", "", "greatest major diameter of ground taps", "from_memory")
_PLACES: dict[Unit, int] = {"in": 4, "mm": 3}
#: Height of a full thread on diameter, in pitches.
_HEIGHT = Decimal("1.299038")
_LEAST_PERCENT = number("partial_thread_percent")


class CleanUp(NamedTuple):
    """Whether a thread cuts away what the old one left.

    ``radial`` is how far the new drill may run off the old axis before a trace stays, in the unit of the thread;
    ``percent_left`` the least percent of thread that stands where a trace stays.
    """

    verdict: Verdict
    radial: Decimal | None
    percent_left: float | None

    @property
    def cleans(self) -> bool:
        """Whether nothing of the old thread stays."""
        return self.verdict in ("full_any_hole", "full_upper_hole")


def covered(thread: Thread) -> bool:
    """Whether the envelope of ``thread`` is known: its taps are standardised, as those of parallel 60 degree forms are.

    Source: the tables of tap limits.
    """
    return traits(thread).tap_limits is not None


def of_tap(thread: Thread) -> Decimal:
    """Largest diameter that a tap of ``thread`` leaves, in the unit of the thread: D + 0.130 P inch, 0.080 P metric.

    Source: ASME B94.9, from memory; eleven inch taps agree.
    """
    return half_up(thread.basic.major_diameter + OVER_PITCHES[thread.unit] * thread.pitch, _PLACES[thread.unit])


def in_unit(length: Decimal, own: Unit, asked: Unit) -> Decimal:
    """``length`` in the unit ``own``, told in the unit ``asked``.

    Source: inch of 25.4 mm.
    """
    if own == asked:
        return length
    return half_even(length / MM_PER_INCH if asked == "in" else length * MM_PER_INCH, _PLACES[asked])


def left_by(case: ReworkCase, proof: Proof, *, old: Thread | None = None) -> Decimal | None:
    """The largest diameter that is in the hole of ``case`` now, in the unit of its thread, noted in ``proof``; None
    where it is not known.

    Args: ``old``: the thread that was cut, None = that of the drawing.
    Source: the measured major diameter, else as :func:`of_tap`.
    """
    measured = case.measured.major_diameter
    if measured is not None:
        proof.state("envelope", measured)
        return measured
    thread = case.thread if old is None else old
    if not covered(thread):
        return None
    over = OVER_PITCHES[thread.unit]
    factor = Decimal(1) if thread.unit == case.unit else 1 / MM_PER_INCH if case.unit == "in" else MM_PER_INCH
    found = in_unit(of_tap(thread), thread.unit, case.unit)
    places = _PLACES[case.unit]
    inputs = {"D": thread.basic.major_diameter, "a": over, "P": thread.pitch, "per_unit": factor}
    told = f"half_even(half_up(D + a * P, {_PLACES[thread.unit]}) * per_unit, {places})"
    proof.work("envelope", found, formula=told, place=_RULE, inputs=inputs)
    return _grown(case, proof, found)


def _grown(case: ReworkCase, proof: Proof, envelope: Decimal) -> Decimal:
    """A tap that cut oversize has cut its major diameter larger by as much."""
    pitch, most = case.measured.pitch_diameter, case.limits.pitch_diameter.max
    if case.found.condition != "tapped_oversize" or pitch is None or most is None or pitch <= most:
        return envelope
    return proof.length(
        "envelope", envelope + pitch - most, formula="e + pd - pd_max", e=envelope, pd=pitch, pd_max=most
    )


def cleans_up(minor: Range, envelope: Decimal, *, thread: Thread, unit: Unit) -> CleanUp:
    """Whether ``thread`` with the limits ``minor`` cuts away an ``envelope``, both in ``unit``.

    Source: geometry; the whole old groove is taken as void, so that what is left is a lower bound.
    """
    low, high = minor.min, minor.max
    if low is None:
        return CleanUp("unknown", None, None)
    if envelope <= low:
        return CleanUp("full_any_hole", (low - envelope) / 2, None)
    if high is None:
        return CleanUp("unknown", None, None)
    if envelope <= high:
        return CleanUp("full_upper_hole", (high - envelope) / 2, None)
    left = percent_left(thread, envelope, unit=unit)
    return CleanUp("partial" if left >= _LEAST_PERCENT else "no", None, left)


def percent_left(thread: Thread, envelope: Decimal, *, unit: Unit) -> float:
    """Least percent of ``thread`` that stands in an ``envelope``, a diameter in ``unit``.

    Source: 100 (D - e)/(1.299038 P).
    """
    major = in_unit(thread.basic.major_diameter, thread.unit, unit)
    pitch = thread.pitch if thread.unit == unit else thread.pitch * (MM_PER_INCH if unit == "mm" else 1 / MM_PER_INCH)
    return max(0.0, float(half_even(100 * (major - envelope) / (_HEIGHT * pitch), 1)))


def limits_in(limits: Range, own: Unit, asked: Unit) -> Range:
    """Two ``limits`` in the unit ``own``, told in the unit ``asked``.

    Source: inch of 25.4 mm.
    """
    ends = (None if end is None else in_unit(end, own, asked) for end in (limits.min, limits.max))
    return Range(*ends)


def note_clean_up(proof: Proof, found: CleanUp, minor: Range, envelope: Decimal) -> None:
    """Note in ``proof`` what was ``found`` of limits ``minor`` and an ``envelope``, all in the unit of the thread."""
    proof.state("new_minor_diameter", minor)
    proof.state("cleans_up", found.verdict)
    if found.radial is not None:
        end = minor.min if found.verdict == "full_any_hole" else minor.max
        proof.length("radial_clean_up", found.radial, formula="(m - e) / 2", m=end, e=envelope)
    proof.state("percent_left", found.percent_left)
