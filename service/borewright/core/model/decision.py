"""What a person must decide before a hole goes to the shop, and the verdict that follows from it.

A step of the specification that meets such a question adds a :class:`Decision` to its notes; nothing is decided by
leaving it in a caution. A caution is what the shop must know although nothing is left to decide.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Verdict = Literal["ready", "review", "infeasible"]

#: Every code of a decision with its title, most important first: what hurts people, what scraps the part, what breaks
#: the tool, what the drawing leaves open. A test holds that each is raised.
CODES: dict[str, str] = {
    "too_hard_to_tap": "The part is too hard to be drilled and tapped in this state",
    "finish_prohibited": "The finish is prohibited on this part",
    "finish_substrate_impossible": "The finish cannot be put on this material",
    "pipe_thread_short": "The hole or wall holds too little of the taper thread",
    "unit_doubtful": "A length looks as if it were meant in the other unit",
    "percent_doubtful": "The percent of thread looks like a share of one",
    "no_insert_fits": "The hole is too shallow for the shortest insert",
    "thread_too_short": "The wall holds too little thread",
    "hard_to_tap": "The part is hard: how the thread is made is to be chosen",
    "material_not_held": "Nothing is held for the material that was named",
    "thread_short": "The thread is too short to carry its screw",
    "thin_wall": "Little wall is left under the drill's tip",
    "bottoming_only": "The hole leaves room for a short bottoming tap only",
    "drill_of_drawing": "The drill that the drawing states often misses the thread's limits",
    "countersink_deep": "The countersink of the drawing takes much of the thread",
    "tool_too_short": "The standard tool does not reach the bottom",
    "finish_not_feasible": "The finish leaves no room in the thread",
    "pipe_thread_deep": "A taper thread at size is not full as deep as the drawing asks",
    "tap_often_refused": "Threads of the tap often miss their limits",
    "drill_often_outside": "Holes of the drill often miss the minor diameter limits",
    "forming_trial": "Whether the material forms a thread must be tried",
    "tap_limit_open": "No tap limit is held for the limits that the finish needs",
    "tap_made_to_order": "The tap is made to order",
    "large_thread": "The thread is larger than taps that are stocked",
}
_ORDER = {code: place for place, code in enumerate(CODES)}


@dataclass(frozen=True, slots=True)
class Decision:
    """One question to a person: stable ``code``, ``text`` that names the choices, ``pointer`` of the field it hangs on.

    ``blocks``: no plan can be made that holds the drawing as it stands.
    """

    code: str
    text: str
    pointer: str = ""
    blocks: bool = False

    def __post_init__(self) -> None:
        """Refuse a code that is not documented."""
        if self.code not in _ORDER:
            raise LookupError(f"undocumented code of a decision {self.code!r}")


def ordered(decisions: Iterable[Decision]) -> tuple[Decision, ...]:
    """The ``decisions`` each once, those that block first, then by importance.

    Source: order of ``CODES`` (our own).
    """
    once = dict.fromkeys(decisions)
    return tuple(sorted(once, key=lambda decision: (not decision.blocks, _ORDER[decision.code])))


def verdict(decisions: Iterable[Decision]) -> Verdict:
    """``infeasible`` where one of ``decisions`` blocks, ``review`` where there is one at all, else ``ready``.

    Source: definition (our own).
    """
    found = tuple(decisions)
    if any(decision.blocks for decision in found):
        return "infeasible"
    return "review" if found else "ready"
