"""Fields of sections that choose what they show: one number or a range, a figure or null, a name under its section."""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace

from borewright.contract.sections.compare import CompareReply
from borewright.contract.sections.cutting_data import SpeedRange
from borewright.contract.sections.finish import FinishItem
from borewright.contract.sections.note_items import PlacedSource, PlacedStep, SourceItem, StepItem
from borewright.contract.sections.schema import fields_writer, placed, writer
from borewright.contract.sections.strength import DrillOption
from borewright.contract.unit_view import view
from borewright.core.model import Range, Source, Step
from every import every

INCH = view("in", None)
OPEN = Range(None, None)


def ends(low, high):
    return Range(*(None if one is None else Decimal(one) for one in (low, high)))


@every(
    ("growth", "shown"),
    [
        (ends("0.5", "0.5"), 0.5),
        (ends("1", "1"), 1),
        (ends("0", "0"), 0),
        (ends("0.33", "0.67"), {"min": 0.33, "max": 0.67}),
        (ends(None, "0.5"), {"min": None, "max": 0.5}),
        (ends("0.5", None), {"min": 0.5, "max": None}),
        (OPEN, {"min": None, "max": None}),
    ],
)
def test_a_growth_is_one_number_where_it_is_no_range(growth, shown):
    finish = SimpleNamespace(
        specification="S",
        finish_class=None,
        process=None,
        thickness=OPEN,
        growth_fraction=growth,
        build_up=OPEN,
        applied="masked",
    )
    assert writer(FinishItem, INCH)(finish)["growth_fraction"] == shown


@every(
    ("strength", "safety_factor", "fails_first"),
    [(None, None, None), (SimpleNamespace(safety_factor=1.25, fails_first="screw"), 1.25, "screw")],
)
def test_a_drill_has_a_safety_where_the_screw_is_known(strength, safety_factor, fails_first):
    option = SimpleNamespace(
        drill=SimpleNamespace(drill=SimpleNamespace(label="#7"), diameter=Decimal("0.201")),
        hole_diameter=Decimal("0.205"),
        expected_percent_thread=Decimal("69.3"),
        torque=None,
        break_margin=None,
        strength=strength,
        minor_diameter_chance=None,
    )
    found = writer(DrillOption, INCH)(option)
    assert (found["safety_factor"], found["fails_first"]) == (safety_factor, fails_first)
    assert (found["label"], found["diameter"], found["acceptance"]) == ("#7", 0.201, None)


def test_a_range_of_speeds_begins_with_the_lower():
    """In m/min, shown in feet a minute: 30.48 m are 100 ft."""
    assert writer(SpeedRange, INCH)((30.48, 60.96)) == {"min": 100, "max": 200}


def test_sources_and_steps_are_named_under_their_section():
    source = Source("limits", "D", "2019", "table 2", "seen")
    step = Step("pitch", "1 / n", {"n": Decimal(16)}, None, "in", "D table 2")
    assert writer(SourceItem, INCH)(PlacedSource("thread.", source)) == {
        "for": "thread.limits", "document": "D", "edition": "2019", "locator": "table 2", "status": "seen"
    }  # fmt: skip
    assert writer(StepItem, INCH)(PlacedStep("thread.", step)) == {
        "quantity": "thread.pitch", "formula": "1 / n", "inputs": {"n": 16}, "value": None, "unit": "in",
        "source": "D table 2",
    }  # fmt: skip


@every(
    ("many", "shown", "further", "apart"),
    [(0, 0, 0, 0), (1, 1, 0, 1), (100, 100, 0, 100), (101, 101, 0, 100), (300, 300, 0, 100), (301, 300, 1, 100),
     (450, 300, 150, 100)],
)  # fmt: skip
def test_300_changes_are_shown_and_the_others_counted(many, shown, further, apart):
    one = SimpleNamespace(pointer="/x", how="changed", subject="tool", before=1, after=2)
    record = SimpleNamespace(
        changes=[SimpleNamespace(difference=one, matters=True, why=("rule",))] * many, not_compared=[one] * many
    )
    wanted = ("changes", "further_changes", "not_compared")
    found = fields_writer([field for field in placed(CompareReply) if field.name in wanted], INCH)(record)
    assert (len(found["changes"]), found["further_changes"], len(found["not_compared"])) == (shown, further, apart)
