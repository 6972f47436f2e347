"""The gauges of a thread, before and after its finish, and the rule of acceptance in words."""

from __future__ import annotations

from borewright.core.caches import cached
from borewright.core.citation import Cite
from borewright.core.derivation import steps_made_again
from borewright.core.hole.taper_pipe import gauge_words, taper_gauged
from borewright.core.model import Allowance, Diameters, Range, Thread
from borewright.core.standards.systems import traits

from . import asme, iso
from .gauge_notes import GaugeNotes
from .gauge_sets import GaugeSet, Gauging, ThreadMember, ThreadPlug
from .plain import plain_plug


@cached(256)
@steps_made_again
def gauges(thread: Thread, allowance: Allowance | None = None) -> Gauging:
    """Gauges for a tapped hole of ``thread``, sizes in its unit.

    Args: ``allowance`` of the finish: where its limits before finish differ, a separate set of gauges is given.

    Source: ASME B1.2 for Unified threads, ISO 1502 for metric ones, ASME B89.1.5 for plain plugs.
    """
    sheet = GaugeNotes(thread.unit)
    if taper_gauged(thread):
        sheet.cite("acceptance", _computed(thread, "gauge plane"))
        return Gauging(GaugeSet(None, None), None, _taper_words(thread, allowance), sheet.notes())
    finished = _set(thread, _final_limits(thread, allowance), sheet)
    before = None
    if allowance is not None and allowance.feasible and _differs(thread, allowance):
        sheet.prefix = "before_finish."
        before = _set(thread, allowance.before_finish, sheet)
        sheet.caution(
            "separate_gauges",
            "Tapped parts are checked with the before-finish gauges, finished parts with the finished ones: mark both.",
        )
    sheet.prefix = ""
    words = _words(thread, finished, before is not None)
    return Gauging(finished, before, words, sheet.notes())


def _final_limits(thread: Thread, allowance: Allowance | None) -> Diameters:
    """Limits of the finished thread: oversize for hot-dip zinc, else the thread's own."""
    if allowance is not None and allowance.overtap is not None:
        return allowance.overtap.limits
    return thread.internal


def _differs(thread: Thread, allowance: Allowance) -> bool:
    if allowance.overtap is not None or allowance.finish.applied != "before_finish":
        return False
    before = allowance.before_finish
    return (before.pitch_diameter, before.minor_diameter) != (
        thread.internal.pitch_diameter,
        thread.internal.minor_diameter,
    )


def _set(thread: Thread, limits: Diameters, sheet: GaugeNotes) -> GaugeSet:
    return GaugeSet(_thread_plug(thread, limits, sheet), plain_plug(thread, limits.minor_diameter, sheet))


def _thread_plug(thread: Thread, limits: Diameters, sheet: GaugeNotes) -> ThreadPlug | None:
    practice = traits(thread).gauges
    if practice == "asme":
        return asme.thread_plug(thread, limits, sheet)
    if practice == "iso":
        return iso.thread_plug(thread, limits, sheet)
    pitch, major = limits.pitch_diameter, limits.major_diameter.min
    if pitch.min is None or pitch.max is None:
        return None
    sheet.cite("thread_plug", _computed(thread, "product limits"))
    sheet.caution(
        "gauge_tolerance_not_held",
        f"No gauge standard is held for {thread.designation}: sizes are the product limits, without makers' tolerance.",
    )
    go = ThreadMember(Range(pitch.min, None), None if major is None else Range(major, None))
    return ThreadPlug(None, None, go, ThreadMember(Range(None, pitch.max), None))


def _words(thread: Thread, found: GaugeSet, separate: bool) -> tuple[str, ...]:
    """The acceptance rule of the gauge system, for the traveller."""
    system = found.thread_plug.system if found.thread_plug is not None else None
    hand = " Left-hand gauges." if thread.hand == "left" else ""
    words = [f"GO thread plug: must enter by hand through the whole depth of full thread.{hand}"]
    if system == "iso":
        words += (
            "NOT GO thread plug: may enter, but not more than two turns; parts of three pitches or fewer must not let"
            " it pass right through (ISO 1502, GB/T 3934).",
            "ISO system: the NOT GO zone lies above the largest product size, so a slightly larger hole may pass.",
        )
    else:
        words += (
            "NOT GO (HI) thread plug: may enter, but not more than three complete turns; thin parts must not let it"
            " pass right through (ASME B1.2, from memory).",
            "ASME system: gauge tolerance lies inside the product limits, so a good part near a limit may be rejected.",
        )
    if found.plain_plug is not None:
        words.append("GO plain plug: must enter the minor diameter; NOT GO plain plug: must not.")
    if separate:
        words.append("Before finish use the before-finish gauges; after finish the finished ones decide.")
    return (*words, "State the gauge system in the record; never mix gauges of the two systems.")


def _taper_words(thread: Thread, allowance: Allowance | None) -> tuple[str, ...]:
    """Acceptance of a pipe thread that is gauged by how far a taper plug enters."""
    hand = " Left-hand gauge." if thread.hand == "left" else ""
    return (
        f"{thread.designation}, screwed in by hand: {gauge_words(thread, thread.internal.pitch_diameter)}.{hand}",
        *_before_finish_words(thread, allowance),
        "A chamfered hole is gauged from the end of its chamfer. Crest and root need their own gauges where the"
        " standard asks for them (dryseal threads).",
        "Gauging does not prove tightness: pressure parts are tested as the code that governs them asks.",
    )


def _before_finish_words(thread: Thread, allowance: Allowance | None) -> tuple[str, ...]:
    if allowance is None or not allowance.feasible or thread.taper is None or not _differs(thread, allowance):
        return ()
    return (f"Before the finish: {gauge_words(thread, allowance.before_finish.pitch_diameter)}.",)


def _computed(thread: Thread, locator: str) -> Cite:
    """What follows from the thread's own standard."""
    return Cite(thread.standard.document, thread.standard.edition, locator, "computed")
