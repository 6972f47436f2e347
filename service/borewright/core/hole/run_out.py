"""Run-out rules: how far a blind hole is drilled beyond the full thread, as a standard says it.

The default is built up from the tap's chamfer and the clearance of its holder; DIN 76-1 and BS 1936 give a figure that
knows no tap. The two disagree strongly for short threads, so the rule is the caller's choice.
"""

from __future__ import annotations

from decimal import Decimal

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.errors import HoleError
from borewright.core.model import MM_PER_INCH, Hole, Source, Status, Thread
from borewright.core.practice import figure
from borewright.core.rounding import plain

#: BS 1936: share of the depth of full thread of threads below and up to a nominal diameter in mm, and of larger ones.
_BELOW_MM, _UP_TO_MM = figure("bs_1936_small_to_mm"), figure("bs_1936_middle_to_mm")
_SMALL, _MIDDLE = figure("bs_1936_small_share"), figure("bs_1936_middle_share")
_LARGE = figure("bs_1936_large_share")


def extra_depth(thread: Thread, hole: Hole, full_thread_depth: Decimal) -> Decimal | None:
    """Depth beyond the full thread by the rule that ``hole`` asks for, None for the build-up from the tap's chamfer.

    Args: ``full_thread_depth`` in the thread's unit, as the result is.
    Raises: HoleError ``thread_data_missing`` for a pitch that DIN 76-1 does not list.
    Source: DIN 76-1 e1 (from memory); BS 1936 (seen second-hand).
    """
    if hole.run_out == "din_76_1":
        return _din_76_1(thread)
    if hole.run_out == "bs_1936":
        nominal_mm = _in_mm(thread.nominal_diameter, thread)
        larger = _MIDDLE if nominal_mm <= _UP_TO_MM else _LARGE
        return (_SMALL if nominal_mm < _BELOW_MM else larger) * full_thread_depth
    return None


def source(hole: Hole) -> Source:
    """Where the run-out of ``hole`` comes from, for the rules of a standard."""
    named: dict[str, tuple[str, str, Status]] = {
        "din_76_1": ("DIN 76-1", "internal run-out e1", "from_memory"),
        "bs_1936": ("BS 1936", "clearance depth beyond the full thread, on a reference page", "second_hand"),
    }
    document, locator, status = named[hole.run_out]
    return Source("drill_depth", document, "", locator, status)


def _din_76_1(thread: Thread) -> Decimal:
    found = _normal_mm().get(thread.pitch.normalize()) if thread.unit == "mm" else None
    if found is None:
        raise HoleError(
            "thread_data_missing",
            f"DIN 76-1 lists no run-out for a pitch of {plain(_in_mm(thread.pitch, thread))} mm",
            pointer="/hole/run_out",
            allowed=("chamfer", "bs_1936"),
        )
    return found


@read_once
def _normal_mm() -> dict[Decimal, Decimal]:
    rows = tables.load("run_out_din_76_1").rows
    return {Decimal(row["pitch_mm"]).normalize(): Decimal(row["normal_mm"]) for row in rows}


def _in_mm(length: Decimal, thread: Thread) -> Decimal:
    return (length if thread.unit == "mm" else length * MM_PER_INCH).normalize()
