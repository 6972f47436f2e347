"""The mating screw of a request, judged whether or not anything else of the request needs it."""

from __future__ import annotations

from borewright.core import standards
from borewright.core.model import Thread
from borewright.core.requests import MatingScrew

from . import screws
from .geometry import in_mm, joint


def judge(thread: Thread, screw: MatingScrew | None) -> None:
    """Refuse a class that no screw of the thread has, and a grade that is not held or not made in its size.

    Raises: ThreadError ``thread_class_unknown``, ``thread_mate_excluded``, ``thread_cell_undefined``,
    ``thread_data_missing``; MaterialError ``screw_grade_unknown``, ``screw_size_out_of_grade``.

    Source: the thread's standard; screw_grades table.
    """
    if screw is None:
        return
    if screw.thread_class is not None:
        standards.external_limits(thread, thread_class=screw.thread_class)
    if screw.grade is None:
        return
    if joint(thread, screw.thread_class) is None:
        screws.check_grade(screw.grade)
    else:
        screws.find_grade(screw.grade, diameter_mm=in_mm(thread.nominal_diameter, thread))
