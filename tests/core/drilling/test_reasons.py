"""Why a drill is taken, stands behind another or is refused: each branch with the arithmetic of its figures.

Round figures put together by hand; percents are of 1.299038 P = 1.948557 mm on diameter (M10x1.5).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from borewright.core.drilling import reasons
from borewright.core.drilling.candidates import Reamed
from borewright.core.model import Length, PercentTarget
from borewright.core.shop_figures.figures import MeasuredOversize
from every import every

from .weighed import case_of, half_inch, item, plain_blanks, ranked, row

MEASURED = MeasuredOversize(
    30, spread=0.02, drill_diameter=Length(Decimal("8.5"), "mm"), mean=Length(Decimal("0.05"), "mm"), unit="mm"
)
DRILL = item("8.5 mm", "8.6")


@dataclass(frozen=True)
class Never:
    def __call__(self, hole_diameter):
        return False

    def why_not(self, hole_diameter):
        return f"{hole_diameter} is too weak"


@every(
    ("label", "hole", "changed", "said"),
    [
        ("8.3 mm", "8.45", {}, "0.1 mm below the smallest minor diameter 8.4 mm: the GO plain plug would not enter"),
        # 100 (10 - 8.4)/1.948557
        ("8.4 mm", "8.45", {}, "leaves 82.11 % of thread, more than asked for"),
        ("8.45 mm", "8.55", {}, "not needed: another drill is nearer"),
        ("8.9 mm", "8.95", {}, "0.1 mm above the largest minor diameter 8.8 mm: the NOT GO plain plug would enter"),
        # 100 (10 - 8.8)/1.948557
        ("8.8 mm", "8.9", {}, "leaves 61.58 % of thread, less than asked for"),
        ("8.7 mm", "8.75", {}, "not needed: another drill is nearer"),
        ("8.7 mm", "8.76", {}, "drills 8.76 mm on average, 0.01 mm above 8.75 mm"),
        ("8.7 mm", None, {}, "not needed: another drill is nearer"),
        ("8.7 mm", "8.75", {"asked": {"may_take": Never()}}, "8.75 is too weak"),
        # open ends bound nothing
        ("8.3 mm", "8.45", {"limits": (None, "8.8")}, "leaves 87.24 % of thread, more than asked for"),
        ("8.3 mm", "8.45", {"limits": (None, "8.8"), "ends": (None, "8.7")}, "not needed: another drill is nearer"),
        ("8.9 mm", "8.95", {"limits": ("8.4", None), "top": None}, "leaves 56.45 % of thread, less than asked for"),
        ("8.9 mm", "8.95", {"limits": ("8.4", None), "top": None, "ends": ("8.45", None)}, "not needed"),
        ("8.9 mm", "8.95", {"limits": (None, None), "ends": (None, None)}, "drills 8.95 mm on average, 0.2 mm above"),
    ],
)
def test_why_a_drill_is_refused(label, hole, changed, said):
    case = case_of(**{"ends": ("8.45", "8.7"), "top": "8.75", **changed})
    assert plain_blanks(reasons.why_refused(case, item(label, hole))).startswith(said)


def test_an_inch_drill_is_refused_by_its_thousandth():
    """0.4344 reads 0.434 and is inside; 0.4346 reads 0.435."""
    case = half_inch(top="0.4341")
    inside, outside = (item(f"{size} in", size, unit="in") for size in ("0.4344", "0.4346"))
    assert plain_blanks(reasons.why_refused(case, inside)) == "drills 0.4344 in on average, 0.0003 in above 0.4341 in"
    said = plain_blanks(reasons.why_refused(case, outside))
    assert said == "0.0006 in above the largest minor diameter 0.434 in: the NOT GO plain plug would enter"
    asked = half_inch(ends=("0.417", "0.434"), limits=("0.417", "0.440"), top=None)
    assert reasons.why_refused(asked, inside) == "not needed: another drill is nearer"


def test_a_taper_thread_has_the_drills_of_its_chart():
    case = case_of("1/4-18 NPT", limits=(None, None), ends=(None, None), top=None)
    said = reasons.why_refused(case, item("7/16", unit="in"))
    assert said == "not a drill that the chart lists for this taper thread"


@every(
    ("label", "hole", "changed", "rows", "said"),
    [
        ("8.5 mm", "8.6", {}, (), ()),
        ("8.6 mm", "8.7", {}, (), ("larger hole than aimed at: less tapping torque, less thread",)),
        ("8.4 mm", "8.5", {}, (), ("smaller hole than aimed at: more thread, more tapping torque",)),
        ("8.5 mm", "8.8", {}, (), ()),
        ("8.5 mm", "8.81", {}, (), ("cuts 8.81 mm on average, above the largest minor diameter 8.8 mm",)),
        ("8.5 mm", "8.81", {"limits": ("8.4", None)}, (), ()),
        ("8.57 mm", "8.6", {"aimed": "8.57"}, (), ("not a standard size",)),
        ("8.5 mm", "8.6", {}, (row("8.5 mm"),), ("listed by ISO 2306 Table 1",)),
        ("8.5 mm", "8.6", {}, (row("8.6 mm"),), ()),
    ],
)
def test_why_a_drill_stands_behind_another(label, hole, changed, rows, said):
    told = reasons.reasons_for_alternative(case_of(**changed), ranked(rows=rows), item(label, hole))
    assert tuple(map(plain_blanks, told)) == said


@every(
    ("found", "crib", "said"),
    [
        (
            Reamed(DRILL, Decimal("8.7"), "8.7 mm"),
            None,
            ["reamed with a 8.7 mm reamer (8.7 mm) (major diameter less pitch)", "0.1 mm is left on diameter"],
        ),
        (
            Reamed(DRILL, Decimal("8.7"), None),
            (DRILL,),
            ["bored to 8.7 mm (major diameter less pitch)", "0.1 mm is left on diameter", "in stock"],
        ),
    ],
)
def test_why_a_hole_is_reamed(found, crib, said):
    told = [plain_blanks(one) for one in reasons.reasons_for_reaming(case_of(crib=crib), found)]
    assert len(told) == len(said)
    assert all(words in one for words, one in zip(said, told, strict=True))


LISTED = row("27/64", unit="in", source="FED-STD-H28/2B Table II.A.1")
SHOP = row("7/16", unit="in", source="FED-STD-H28/2B Table II.A.2")
OTHER = row("Z", unit="in", source="a chart")
INCH = item("27/64", "0.4266", unit="in")


def why(case, weighed, one, chart_drill=None):
    return [plain_blanks(text) for text in reasons.reasons_for_drill(case, weighed, one, chart_drill)]


@every(
    ("case", "weighed", "one", "chart_drill", "said"),
    [
        (
            half_inch(),
            ranked(INCH, rows=(LISTED, SHOP, OTHER)),
            INCH,
            INCH,
            [
                "the shop's wall chart: of the drills that are sold the one nearest to major diameter less pitch"
                " (0.4251 in) that lies inside the minor diameter limits read to a thousandth",
                "published charts list 27/64, 7/16, Z (FED-STD-H28/2B, a chart)",
                "drills 0.4266 in on average (0.0047 in mean oversize)",
            ],
        ),
        (
            half_inch(),
            ranked(item("10.8 mm", unit="in")),
            item("10.8 mm", unit="in"),
            item("10.8 mm", unit="in"),
            ["a thousandth, a metric one as no inch drill does", "no published tap drill chart is held for it"],
        ),
        # a drill of the crib in the place of the chart's; the crib that holds the chart's own
        (
            half_inch(crib=(INCH,)),
            ranked(rows=()),
            INCH,
            item("7/16", unit="in"),
            [
                "the drill in stock nearest to major diameter less pitch (0.4251 in) that holds the limits",
                "the chart's nearest is 7/16 (the shop's wall chart)",
                "drills 0.4266 in on average",
                "in stock",
            ],
        ),
        (half_inch(crib=(INCH,)), ranked(rows=()), INCH, INCH, ["wall chart", "no published", "drills", "in stock"]),
        (half_inch(crib=(INCH,)), ranked(rows=()), INCH, None, ["wall chart", "no published", "drills", "in stock"]),
        # metric threads have no wall chart
        (
            case_of(),
            ranked(rows=(row("8.5 mm"),)),
            DRILL,
            DRILL,
            ["the drill for this thread by ISO 2306 Table 1", "drills 8.6 mm on average (0.1 mm mean oversize)"],
        ),
        (
            case_of(),
            ranked(rows=(row("8.5 mm", variant="choice"),)),
            DRILL,
            DRILL,
            [
                "the drill nearest to major diameter less pitch (8.5 mm) that ISO 2306 Table 1 lists and that holds",
                "drills",
            ],
        ),
        (
            case_of(),
            ranked(rows=(row("8.5 mm", status="computed"),)),
            DRILL,
            DRILL,
            ["ISO 2306 Table 1; no published chart is held for this thread", "drills"],
        ),
        (
            case_of(crib=(DRILL,)),
            ranked(rows=(row("8.6 mm"),)),
            DRILL,
            item("8.6 mm", "8.7"),
            ["the drill in stock nearest to", "the chart's nearest is 8.6 mm (ISO 2306 Table 1)", "drills", "in stock"],
        ),
        # whose oversize it is
        (case_of(), ranked(), item("8.5 mm", "8.6", own=True), None, ["", "", "(0.1 mm the oversize stated for the"]),
        (
            case_of(),
            ranked(),
            item("8.5 mm", "8.6", measured=MEASURED),
            None,
            ["", "", "0.1 mm measured mean oversize"],
        ),
        (case_of(), ranked(), item("8.5 mm"), None, ["the standard drill", "no published tap drill chart is held for"]),
    ],
)
def test_why_a_drill_is_taken(case, weighed, one, chart_drill, said):
    told = why(case, weighed, one, chart_drill)
    assert len(told) == len(said), told
    assert all(words in text for words, text in zip(said, told, strict=True)), told


@every(
    ("asked", "rows", "said"),
    [
        # why no chart decided: the first two of its drills, each with its own reason
        (
            {},
            (row("8.9 mm"), row("8.3 mm"), row("8.2 mm")),
            [
                "chart drill 8.9 mm does not do: 0.1 mm above the largest minor diameter 8.8 mm",
                "chart drill 8.3 mm does not do: 0.1 mm below the smallest minor diameter 8.4 mm",
            ],
        ),
        (
            {"series": ("number",)},
            (row("8.9 mm"),),
            ["chart drill 8.9 mm does not do: series metric was not asked for"],
        ),
        ({"series": ("metric",)}, (row("8.9 mm"),), ["chart drill 8.9 mm does not do: 0.1 mm above"]),
        (
            {"percent": PercentTarget(target=Decimal(70))},
            (row("8.9 mm"),),
            ["a percent of thread was asked for, so no chart decides"],
        ),
        ({"percent": PercentTarget(min=Decimal(70))}, (row("8.9 mm"),), ["chart drill 8.9 mm does not do"]),
        ({}, (), ["no published tap drill chart is held for this thread"]),
        ({"objective": "least_torque"}, (row("8.9 mm"),), []),
        ({"objective": "acceptance"}, (row("8.9 mm"),), []),
        ({"method": "form"}, (row("8.9 mm"),), []),
    ],
)
def test_why_the_chart_did_not_decide(asked, rows, said):
    told = why(case_of(asked=asked, chart=rows), ranked(rows=rows), item("8.5 mm"))[1:]
    assert len(told) == len(said), told
    assert all(text.startswith(words) for words, text in zip(said, told, strict=True)), told


@every(
    ("crib", "asked", "by_chance", "said"),
    [
        (None, {}, False, "the standard drill nearest to major diameter less pitch (8.5 mm) that holds the limits"),
        ((DRILL,), {}, False, "the drill in stock nearest to major diameter less pitch (8.5 mm) that holds the limits"),
        ((), {}, False, "the standard drill nearest to"),
        (None, {"objective": "least_torque"}, False, "the largest standard drill that stays inside the hole limits"),
        ((DRILL,), {"objective": "least_torque"}, False, "the largest drill in stock that stays inside the hole limit"),
        (None, {"method": "form"}, False, "the standard drill whose mean hole is nearest to the major diameter less"),
        (
            (DRILL,),
            {"method": "form"},
            False,
            "the drill in stock whose mean hole is nearest to the major diameter les",
        ),
        # five points: practice.csv, chart_rule_tolerance 0.05
        (
            None,
            {},
            True,
            "the standard drill whose holes most often end inside the minor diameter limits, mean hole and spread"
            " reckoned: by more than 5 points over the one nearest to major diameter less pitch (8.5 mm)",
        ),
        ((DRILL,), {"objective": "acceptance"}, True, "the drill in stock whose holes most often end inside"),
    ],
)
def test_the_rule_that_took_it(crib, asked, by_chance, said):
    first = why(case_of(crib=crib, asked=asked), ranked(by_chance=by_chance), DRILL)[0]
    assert first.startswith(said)
    assert ("by more than" in first) is (by_chance and not asked)


@every(
    ("own", "best", "said"),
    [
        (None, 0.99, ""),
        (0.85, 0.95, "about 85.0 % of its holes end inside the minor diameter limits, of those of 8.6 mm 95.0 %"),
        (0.95, 0.9504, ""),  # both are shown as 95.0 %
        (0.899, 0.8994, "about 89.9 % of its holes end inside the minor diameter limits"),
        (0.9, None, ""),  # not below 0.90
        (0.899, None, "about 89.9 % of its holes end inside the minor diameter limits"),
        (0.0, 0.0, "about 0.0 % of its holes end inside the minor diameter limits"),
    ],
)
def test_how_often_it_does(own, best, said):
    likeliest = None if best is None else item("8.6 mm", "8.7", chance=best)
    weighed = ranked(most_accepted=likeliest)
    told = why(case_of(asked={"objective": "acceptance"}), weighed, item("8.5 mm", chance=own))[1:]
    assert told == ([said] if said else [])


def test_what_the_crib_holds_instead():
    """The two nearest to 8.5 mm: 8.3 mm (0.2 off) and 8.8 mm (0.3 off), not 8 mm."""
    case = case_of(crib=(item("8 mm"), item("8.8 mm", "8.9"), item("8.3 mm")), asked={"objective": "acceptance"})
    assert why(case, ranked(), DRILL)[2:] == [
        "no drill in stock will do, buy 8.5 mm",
        "in stock 8.3 mm: 0.1 mm below the smallest minor diameter 8.4 mm: the GO plain plug would not enter",
        "in stock 8.8 mm: drills 8.9 mm on average, 0.1 mm above 8.8 mm",
    ]
    assert why(replace(case, crib=None), ranked(), DRILL)[2:] == []


def test_chances_are_told_to_a_tenth_of_a_percent():
    assert [reasons.in_percent(one) for one in (1.0, 0.87654, 0.0006)] == ["100.0 %", "87.7 %", "0.1 %"]
