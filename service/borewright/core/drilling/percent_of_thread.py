"""Percent of thread: how much of a stated full height a hole leaves.

Two full heights are in use. The inch trade's (and its tap drill charts') 100 percent is 0.75 H of a 60 degree form,
1.299038 P on diameter, on which the basic Unified and ISO metric height (5/8 H) is 83.33 percent. Forms without that
convention are measured on their own basic height. Every reply names the one it uses.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.caches import OF_THREADS, cached
from borewright.core.hole.taper_pipe import pipe_length
from borewright.core.model import Thread
from borewright.core.practice import figure
from borewright.core.requests import Method
from borewright.core.rounding import half_even

from .drill_sizes import PLACES

#: 2 x 0.75 H over P for a 60 degree form.
FULL_HEIGHT_60 = Decimal("1.299038")
#: Forming taps: hole = D - 0.0068 x percent x P (handbook constant, percent on 0.75 H).
FORMING_CONSTANT = Decimal("0.0068")
PERCENT_PLACES = 2
#: Height on diameter, in pitches, of the forms whose percent is told on 0.75 H.
_LOWEST, _HIGHEST = figure("common_form_height_least"), figure("common_form_height_most")


@dataclass(frozen=True, slots=True)
class Basis:
    """What 100 percent means for a thread: ``full_height`` on diameter, and the formula of a derivation."""

    text: str
    major_diameter: Decimal
    full_height: Decimal
    formula: str
    inputs: tuple[tuple[str, Decimal], ...]
    source: str

    def percent(self, hole: Decimal) -> Decimal:
        """Percent of thread that a ``hole``, in the thread's unit, leaves, to two decimals."""
        return half_even(100 * (self.major_diameter - hole) / self.full_height, PERCENT_PLACES)

    def hole(self, percent: Decimal) -> Decimal:
        """Hole that leaves a percent of thread, unrounded."""
        return self.major_diameter - percent * self.full_height / 100


def exact_pitch(thread: Thread) -> Decimal:
    """Pitch of ``thread`` in its unit without the rounding of its printed form where threads per inch define it."""
    if thread.threads_per_inch is None or thread.unit != "in":
        return thread.pitch
    return 1 / thread.threads_per_inch


def is_common_form(thread: Thread) -> bool:
    """Whether a thread is parallel, 60 degrees and about 5/8 H high: the forms that shops measure on 0.75 H.

    Source: ASME B1.1 10.1, ISO 68-1 (1.0825 P on diameter); J forms and UNM lie near it, pipe threads (1.6 P) do not.
    """
    height = (thread.basic.major_diameter - thread.basic.minor_diameter) / thread.pitch
    return thread.thread_angle == 60 and thread.taper is None and _LOWEST <= height <= _HIGHEST


@cached(OF_THREADS)
def cutting_basis(thread: Thread) -> Basis:
    """Basis of percent for a cut thread: 0.75 H for the common 60 degree forms, else the form's own basic height.

    Source: FED-STD-H28/2B (1991) 20.2.3 (0.75 H); geometry of the form otherwise.
    """
    major = thread.basic.major_diameter
    if is_common_form(thread):
        pitch = exact_pitch(thread)
        return Basis(
            "0.75 H (100 % = 1.299038 P on diameter)",
            major,
            FULL_HEIGHT_60 * pitch,
            "half_even(100 * (D - hole) / (1.299038 * P), 2)",
            (("D", major), ("P", pitch)),
            "FED-STD-H28/2B (1991) 20.2.3",
        )
    minor = thread.basic.minor_diameter
    if thread.taper is not None:
        return _taper_basis(thread, thread.taper)
    return Basis(
        "basic thread height (100 % = basic major less basic minor diameter)",
        major,
        major - minor,
        "half_even(100 * (D - hole) / (D - D1), 2)",
        (("D", major), ("D1", minor)),
        "geometry of the basic form",
    )


def _taper_basis(thread: Thread, taper: Decimal) -> Basis:
    """A straight hole cuts a taper thread ever deeper towards the face: percent where hand-tight engagement ends."""
    basic, handtight = thread.basic, pipe_length(thread, "handtight_engagement")
    return Basis(
        "basic thread height where hand-tight engagement ends (100 % = basic major less basic minor diameter)",
        basic.major_diameter - taper * handtight,
        basic.major_diameter - basic.minor_diameter,
        "half_even(100 * (D - taper * L1 - hole) / (D - D1), 2)",
        (("D", basic.major_diameter), ("D1", basic.minor_diameter), ("taper", taper), ("L1", handtight)),
        "geometry of the basic form and the taper",
    )


@cached(OF_THREADS)
def forming_basis(thread: Thread) -> Basis:
    """Basis of percent for a formed thread: the handbook's relation of hole and formed height.

    Source: Machinery's Handbook, cold form tapping, theoretical hole size (seen second-hand).
    """
    pitch, major = exact_pitch(thread), thread.basic.major_diameter
    return Basis(
        "0.75 H after forming (hole = D - 0.0068 x percent x P)",
        major,
        100 * FORMING_CONSTANT * pitch,
        "half_even((D - hole) / (0.0068 * P), 2)",
        (("D", major), ("P", pitch)),
        "Machinery's Handbook, cold form tapping",
    )


def percent_of_thread(thread: Thread, hole: Decimal, *, method: Method = "cut") -> Decimal:
    """Percent of thread that a hole leaves, to two decimals, on the basis that ``recommend`` names for ``method``.

    Args: ``hole`` diameter in the thread's unit.
    Source: FED-STD-H28/2B (1991) 20.2.3 (0.75 H); Machinery's Handbook, cold form tapping (formed threads).
    """
    return (forming_basis(thread) if method == "form" else cutting_basis(thread)).percent(hole)


def printed_hole(thread: Thread, hole: Decimal) -> Decimal:
    """A hole diameter to the digits drill tables print in the thread's unit."""
    return half_even(hole, PLACES[thread.unit])
