"""The twenty typical holes specified with the tables and with the shop's figures: what differs is told, and all of it.

Thirty holes of 5/16 are 0.0015 in over, not 0.0044, and thirty threads 0.35 of the tolerance over their tap, not 0.15.
"""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal

from borewright.core import callout
from borewright.core.model import FinishInput, Hole, Length, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest
from borewright.core.shop_figures import typical_decisions
from borewright.core.shop_figures.fitted import fit_measurements
from borewright.core.shop_figures.measurements import FitRequest, Measurement
from borewright.quantiles.special import QUANTILES

STEEL = MaterialInput(name="4140")
#: Depth of full thread and finish of each hole; a metric one in mm.
HOLES = {
    "#8-32 UNC-2B": 0.33, "#10-24 UNC-2B": 0.38, "#10-32 UNF-2B": 0.38, "1/4-20 UNC-2B": 0.5, "1/4-28 UNF-3B": 0.5,
    "5/16-18 UNC-2B": 0.63, "5/16-24 UNF-3B": 0.63, "3/8-16 UNC-2B": 0.75, "3/8-24 UNF-3B": 0.75,
    "3/8-16 UNC-2B, ASTM B633 Fe/Zn 8": 0.75, "1/2-13 UNC-2B": 1, "1/2-13 UNC-3B, ASTM B633 Fe/Zn 8": 1, "M4": 8,
    "M5": 10, "M6": 12, "M8": 16, "M8x1": 16, "M10": 20, "M12": 24, "M8, ASTM B633 Fe/Zn 8": 16,
}  # fmt: skip


def fitted(material=STEEL, sigma=0.00025):
    chance = random.Random(2)

    def scattered(middle, sigma):
        return tuple(Length(Decimal(str(round(chance.gauss(middle, sigma), 5)))) for _ in range(30))

    holes = Measurement("drilled_hole", drill="5/16", measured=scattered(0.3140, 0.0005), selection="all")
    size = Length(Decimal("0.21875"))
    threads = Measurement("tapped_thread", thread=callout.read("1/4-20 UNC-2B"), tap_pitch_diameter=size,
                          measured=scattered(0.21875 + 0.35 * 0.0049, sigma), selection="all")  # fmt: skip
    pieces = replace(threads, material=None), replace(holes, material=material)
    return fit_measurements(FitRequest(pieces), QUANTILES)


def specified(name, material, figures):
    thread, _, finish = name.partition(", ")
    read = callout.read(thread)
    deep = Length(Decimal(str(HOLES[name])), read.unit)
    plan = specify(
        HoleSpecRequest(read, Hole("blind", deep), material=material, shop_figures=figures,
                        finish=FinishInput(text=finish) if finish else None)
    )  # fmt: skip
    limit = plan.tap.recommended.limit if plan.tap else None
    return {
        "drill": plan.drill.recommended.drill.label if plan.drill else "none",
        "tap limit": limit.label if limit else "none",
        "verdict": plan.verdict,
        "chance that the minor diameter is accepted": plan.process.acceptance.minor_diameter,
        "chance that the pitch diameter is accepted": plan.process.acceptance.pitch_diameter,
    }


def differ(one, other):
    """A choice differs where it is another one, a chance by two hundredths and more."""
    return one != other if isinstance(one, str) else None not in (one, other) and abs(one - other) >= 0.02


def told(value):
    return value if isinstance(value, str) else f"{100 * value:.0f} %"


def test_what_differs_is_told_hole_by_hole():
    for material, sigma in ((STEEL, 0.00025), (None, 0.001)):
        result = fitted(material, sigma)
        wanted = []
        for name in HOLES:
            tables, own = (specified(name, material, figures) for figures in (None, result.figures))
            wanted += [
                (name, what, told(tables[what]), told(own[what])) for what in tables if differ(tables[what], own[what])
            ]
        assert typical_decisions.changed(result) == tuple(wanted)
        assert {what for _, what, _, _ in wanted} >= {"tap limit", "chance that the minor diameter is accepted"}
    # threads that scatter by a fifth of their tolerance are often refused
    assert min(int(own.split()[0]) for _, what, _, own in wanted if "pitch" in what) < 90
    assert typical_decisions.COMPARED == len(HOLES) == 20


def test_figures_that_a_shop_does_not_have_change_nothing():
    counted = Measurement("taps_used", thread=callout.read("M64"), holes=9)
    assert typical_decisions.changed(fit_measurements(FitRequest((counted,)), QUANTILES)) == ()
