"""HiGHS as the choice of tools needs it: one thread, a fixed seed, silent, and in a time that all its questions share.

Source: HiGHS, branch and bound with a proof of its bound.
"""

from __future__ import annotations

import math
import os
import time
from collections.abc import Sequence
from typing import NamedTuple

import highspy
import numpy as np

#: A whole variable is 1 where the solver's figure is nearer to 1.
_ONE = 0.5
#: How the lines begin in which the solver tells its name.
_NAME = (b"Running HiGHS ", b"Includes third-party ")

_Numbers = np.ndarray[tuple[int], np.dtype[np.float64]]


class Found(NamedTuple):
    """What the solver found: the variables (None = nothing in time), and the bound below which there is no value."""

    values: Sequence[float] | None
    bound: float


class Deadline:
    """The processor time that all questions about a part share: what else the machine does changes no answer."""

    def __init__(self, seconds: float) -> None:
        self._until = time.thread_time() + seconds

    def left_s(self) -> float:
        """Seconds that are left; 0 when the time is over."""
        return max(0.0, self._until - time.thread_time())


class Model:
    """A linear program of variables from 0 to 1, the first ``whole`` of them whole numbers, with a cost to minimise."""

    def __init__(self, count: int, whole: int) -> None:
        self._count = count
        self._everything = np.arange(count, dtype=np.int32)
        self._solver = _silent()
        self._solver.addVars(count, np.zeros(count), np.ones(count))
        self._solver.changeColsIntegrality(
            whole, self._everything[:whole], np.full(whole, highspy.HighsVarType.kInteger)
        )

    def row(
        self, places: Sequence[int], weights: Sequence[float], *, low: float = -math.inf, high: float = math.inf
    ) -> None:
        """The weighted sum of the variables at ``places`` lies from ``low`` to ``high``."""
        self._solver.addRow(low, high, len(places), np.array(places, dtype=np.int32), np.array(weights, dtype=float))

    def least(self, costs: Sequence[float], deadline: Deadline) -> Found:
        """The variables with the least sum of ``costs``, as good as the time until ``deadline`` allows."""
        seconds = deadline.left_s()
        if seconds <= 0:
            return Found(None, -math.inf)
        self._solver.setOptionValue("time_limit", self._solver.getRunTime() + seconds)
        self._solver.changeColsCost(self._count, self._everything, np.array(costs, dtype=float))
        self._solver.run()
        info = self._solver.getInfo()
        feasible = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        return Found(self._solver.getSolution().col_value if feasible else None, info.mip_dual_bound)


def is_one(value: float) -> bool:
    """Whether a variable that is 0 or 1 is 1."""
    return value > _ONE


def _silent() -> highspy.Highs:
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    for name, value in {
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 1e-9,
    }.items():
        solver.setOptionValue(name, value)
    return solver


def _say_name_unheard() -> None:
    """Let the solver print its name, as the first one of a process does before it can be told not to, where nobody
    hears it. What other threads print meanwhile is printed after it.
    """
    heard, said = os.pipe()
    try:
        kept = os.dup(1)
    except OSError:  # nothing is printed anyway
        os.close(heard)
        os.close(said)
        return
    os.dup2(said, 1)
    os.close(said)
    try:
        highspy.Highs()  # type: ignore[no-untyped-call]
    finally:
        os.dup2(kept, 1)
        os.close(kept)
    with open(heard, "rb") as lines:
        for line in lines:
            if not line.startswith(_NAME):
                os.write(1, line)


_say_name_unheard()  # once: a module is loaded by one thread, however many ask for it
