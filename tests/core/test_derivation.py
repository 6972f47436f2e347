"""Steps that are worked out when someone asks for them: the same each time, and not held by what is kept."""

from __future__ import annotations

from dataclasses import dataclass

from borewright.contract.requests import HOLE_SPEC
from borewright.core.derivation import WhenAsked, one_after_the_other, steps_made_again
from borewright.core.model import Notes, Step
from borewright.core.plan.specify import specify
from borewright.core.record import Record

CUT = Step("drill.feed", "25.4 * f", {"f": 0.01}, 0.254, "mm/rev", "definition of the inch")
TURNED = Step("drill.speed", "table", {}, 1000, "rev/min", "a table")


@dataclass(frozen=True)
class Found:
    figure: float
    notes: Notes


def test_steps_are_made_each_time_that_someone_goes_through_them() -> None:
    asked: list[str] = []

    def make(quantity: str) -> list[Step]:
        asked.append(quantity)
        return [CUT._replace(quantity=quantity)]

    steps = WhenAsked(make, "tap.feed")
    assert not asked
    assert [[step.quantity for step in steps] for _ in range(2)] == [["tap.feed"], ["tap.feed"]]
    assert asked == ["tap.feed", "tap.feed"]


def test_steps_of_several_parts_keep_their_order() -> None:
    made = WhenAsked(lambda: (TURNED,))
    assert list(one_after_the_other((CUT,), (), made, (CUT,))) == [CUT, TURNED, CUT]
    assert one_after_the_other((), made) is made
    assert tuple(one_after_the_other()) == tuple(one_after_the_other((), ())) == ()


def test_an_answer_does_not_hold_its_steps_and_has_them_worked_out_again() -> None:
    runs: list[tuple[float, bool]] = []

    @steps_made_again
    def feed(inch: float, *, noted: bool = True) -> Found | None:
        runs.append((inch, noted))
        log = Record(("the feed of the table",))
        if noted:
            log.steps.append(CUT._replace(inputs={"f": inch}, value=25.4 * inch))
        return None if inch < 0 else Found(25.4 * inch, log.notes())

    found = feed(0.02)
    assert found is not None
    assert (found.figure, found.notes.assumptions) == (25.4 * 0.02, ("the feed of the table",))
    assert isinstance(found.notes.steps, WhenAsked)
    assert [(step.inputs, step.value) for step in found.notes.steps] == [({"f": 0.02}, 25.4 * 0.02)]
    assert runs == [(0.02, True), (0.02, True)]
    bare = feed(0.02, noted=False)
    assert bare is not None
    assert bare.notes.steps == ()
    assert feed(-1) is None


def test_no_part_of_a_hole_that_is_kept_holds_its_steps() -> None:
    asked = HOLE_SPEC.asked(
        {
            "thread": "3/8-16 UNC-2B",
            "hole": {"type": "blind", "full_thread_depth": "0.75 in"},
            "material": "4140",
            "finish": "ASTM B633 Fe/Zn 8",
            "mating_screw": {"grade": "SAE J429 grade 5"},
        }
    )
    hole = specify(asked.request)
    noted = [part.notes.steps for part in hole.noted() if part is not None]
    assert len(noted) > 6
    assert all(isinstance(steps, WhenAsked) for steps in noted)
    assert all(list(steps) == list(steps) for steps in noted)
    assert sum(len(list(steps)) for steps in noted) > 2 * len(noted)
