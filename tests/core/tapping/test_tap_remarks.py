"""What is said beside a tap: of which limit, of doubtful figures, of what is ordered, and what a person decides."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from statistics import NormalDist

from borewright.core import callout, finishing, standards, tapping
from borewright.core.model import Diameters, FinishInput, Overtap, Range, Thread
from borewright.core.shop_figures.figures import MeasuredCut
from borewright.core.tapping import TapRequest
from every import every

NORMAL = NormalDist()
POINTS = 2000


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def window(found: Thread, low: str, high: str) -> Diameters:
    inside = found.internal
    return Diameters(inside.major_diameter, Range(Decimal(low), Decimal(high)), inside.minor_diameter)


def choose(text: str, low: str | None = None, high: str | None = None, **known):
    found = thread(text)
    limits = None if low is None or high is None else window(found, low, high)
    return tapping.recommend(found, TapRequest(limits=limits, **known))


def of_code(noted, code: str) -> list[str]:
    return [one.text.replace("\N{NO-BREAK SPACE}", " ") for one in noted if one.code == code]


def places(choice, field: str) -> list[tuple[str, str, str, str]]:
    return [(one.document, one.edition, one.locator, one.status) for one in choice.notes.sources if one.field == field]


def accepted(band: tuple[str, str], made: tuple[str, str], *, cut: str, tolerance: str) -> float:
    """Mean over the tap's ``band`` of the chance to end in ``made``; sigma is 0.10 of the class tolerance."""
    sigma = 0.10 * float(tolerance)
    low, high = map(float, band)
    total = 0.0
    for point in range(POINTS):
        mean = low + (high - low) * (point + 0.5) / POINTS + float(cut)
        total += NORMAL.cdf((float(made[1]) - mean) / sigma) - NORMAL.cdf((float(made[0]) - mean) / sigma)
    return 100 * total / POINTS


# --- the limit that is spoken of ----------------------------------------------------------------------


def test_the_steps_are_those_of_the_tap_that_is_taken():
    """1/2-13, basic 0.4500 in: H3 ends at 0.4515, H5 at 0.4525, H11 at 0.4555; the crib's own come first."""
    for stock, top in ((None, "0.4525"), ((), "0.4525"), (("H3", "H11"), "0.4515"), (("H5", "H3"), "0.4525")):
        choice = choose("1/2-13 UNC-2B", stock=stock)
        steps = {step.quantity: step.value for step in choice.notes.steps}
        assert str(steps["recommended.limit.pitch_diameter.max"]) == top, stock
        assert choice.recommended.limit.pitch_diameter.max == Decimal(top)


@every(
    "text,known,code,words",
    [
        # sizes over 1 in that the 2008 edition does not list
        ("1 1/4-16 UN-2B", {}, "tap_limit_edition", "an older rule is used, with the same maximum"),
        # a misprint of Table 26a
        ("M5 STI 5H", {}, "tap_limit_doubtful", "printed 0.2184 to 0.2187 in: a misprint"),
        # two recollections of the D table
        ("M3.5-4H", {"tap_limits": "metric_d"}, "recommendation_unconfirmed", "gives D1 for 4H at this size"),
        # H6 of the appendix is not in the list that was seen; a forming tap is made two numbers above it
        ("7/8-14 UNF-2B", {"method": "form"}, "recommendation_unconfirmed", "does not hold this 2B limit"),
        ("1/2-13 UNC-2B", {}, None, ""),
        ("M4-4H", {"tap_limits": "metric_d"}, None, ""),
        ("M5 STI 4H5H", {}, None, ""),
        ("7/8-9 UNC-2B", {"method": "form"}, None, ""),
    ],
)
def test_doubtful_limits_are_cautioned(text, known, code, words):
    cautions = choose(text, **known).notes.cautions
    doubts = ("tap_limit_edition", "tap_limit_doubtful", "recommendation_unconfirmed")
    assert [one.code for one in cautions if one.code in doubts] == ([] if code is None else [code])
    if code is not None:
        assert words in of_code(cautions, code)[0]


def test_a_table_that_is_not_followed_is_no_source():
    """1/2-13 2B: H5 of the appendix; under a finish the limits are others, and no table speaks for them."""
    assert places(choose("1/2-13 UNC-2B"), "recommended.limit") == [
        ("ASME B94.9", "1979/1987, appendix", "taps recommended for classes of Unified threads", "from_memory")
    ]
    assert places(choose("1/2-13 UNC-2B", "0.4510", "0.4565"), "recommended.limit") == []


# --- where a tap is stocked ---------------------------------------------------------------------------

LIST = ("shop practice", "", "list of standard ground taps", "from_memory")
PLATED = ("shop practice", "", "listed for plated threads", "common_practice")
PRINTED = ("ASME B94.9", "2008 (R2018)", "Machinery's Handbook 31st ed. Table 21", "published")
GALVANIZED = (
    "shop practice",
    "",
    "taps for galvanized threads, sold by the overtap of ASTM A563 or ISO 965-5",
    "common_practice",
)


def zinc(found: Thread, amount: str, limits: Diameters) -> Overtap:
    return Overtap("ASTM A563", "overtap", Decimal(amount), limits)


@every(
    "text,low,high,label,listed",
    [
        ("1/2-13 UNC-2B", None, None, "H5", [LIST]),
        ("1/2-13 UNC-2B", "0.4530", "0.4565", "H7", [PLATED]),
        ("1 1/4-7 UNC-2B", None, None, "H4", [PRINTED]),
        # 1/4-28, basic 0.2268 in, is not listed in H8: 0.2303 to 0.2308
        ("1/4-28 UNF-2B", "0.2303", "0.2314", "H8", []),
        ("5/16-27 UNS-2B", None, None, "H4", []),
    ],
)
def test_the_list_that_holds_a_stocked_limit_is_named(text, low, high, label, listed):
    choice = choose(text, low, high)
    assert choice.recommended.limit.label == label
    assert places(choice, "recommended.availability") == listed
    assert choice.recommended.availability == ("standard" if listed else "special")


def test_a_tap_for_galvanized_threads_is_sold_by_its_overtap():
    """ASTM A563: 1/2-13 is tapped at least 0.018 in over, 0.4680 to 0.4745."""
    found = thread("1/2-13 UNC-2B")
    limits = window(found, "0.4680", "0.4745")
    for amount in ("0.020", "0.0205"):
        choice = tapping.recommend(found, TapRequest(limits=limits, overtap=zinc(found, amount, limits)))
        assert choice.recommended.limit.label == f"basic plus {amount}"
        assert choice.recommended.availability == "standard"
        assert places(choice, "recommended.availability") == [GALVANIZED]
        assert choice.notes.decisions == ()
    bare = tapping.recommend(found, TapRequest(limits=limits))
    assert (bare.recommended.availability, places(bare, "recommended.availability")) == ("special", [])


# --- what is ordered ----------------------------------------------------------------------------------


def ordered(choice) -> tuple[str, str]:
    (asked,) = [one for one in choice.notes.decisions if one.code == "tap_made_to_order"]
    return asked.text.replace("\N{NO-BREAK SPACE}", " "), asked.pointer


def test_a_thread_of_which_no_tap_is_stocked_is_ordered_or_milled():
    """5/16-27 UNS is in no list."""
    choice = choose("5/16-27 UNS-2B", hole_kind="through")
    order = choice.recommended.order_text.replace("\N{NO-BREAK SPACE}", " ")
    assert ordered(choice) == (
        f"No stocked tap makes this thread. Decide: order one ({order}), or single-point or thread-mill the thread to"
        " its pitch diameter.",
        "/thread",
    )


def test_limits_of_which_no_tap_is_stocked_are_of_the_finish():
    """#4-40 under a hard anodic coat needs H11, which no list holds."""
    found = thread("#4-40 UNC-2B")
    allowance = finishing.allow(found, FinishInput(text="MIL-A-8625 Type III"))
    coat = finishing.coat_to_come(allowance)
    text, pointer = ordered(tapping.recommend(found, TapRequest(limits=allowance.before_finish, coat=coat)))
    assert text.startswith("No stocked tap makes these limits. Decide: order one (ground tap 4-40 UNC (marked 4-40 NC)")
    assert text.endswith("thread-mill the thread to its pitch diameter, or mask it or thin the finish.")
    assert pointer == "/finish"


def test_limits_over_a_galvanized_thread_are_of_the_finish_but_no_coat_is_thinned():
    """1/4-28: 0.2268 in basic; only H11, 0.2318 to 0.2323, lies inside, and is not listed."""
    found = thread("1/4-28 UNF-2B")
    limits = window(found, "0.2318", "0.2330")
    choice = tapping.recommend(found, TapRequest(limits=limits, overtap=zinc(found, "0.0050", limits)))
    assert choice.recommended.limit.label == "H11"
    text, pointer = ordered(choice)
    assert text.endswith("to its pitch diameter.")
    assert pointer == "/finish"
    assert places(choice, "recommended.availability") == []
    in_crib = TapRequest(limits=limits, overtap=zinc(found, "0.0050", limits), stock=("H11",))
    assert "tap_made_to_order" not in {one.code for one in tapping.recommend(found, in_crib).notes.decisions}


def test_moved_limits_of_a_thread_without_tap_limits_are_a_question():
    """M1x0.2 has no grade 5, so no class and no amount: whoever coats it names the tap."""
    found = thread("M1x0.2-4H")
    own = found.internal.pitch_diameter
    moved = window(found, str(own.min + Decimal("0.004")), str(own.max))
    choice = tapping.recommend(found, TapRequest(limits=moved))
    assert [(one.code, one.pointer) for one in choice.notes.decisions] == [("tap_limit_open", "/finish")]
    (text,) = of_code(choice.notes.decisions, "tap_limit_open")
    assert f"order a tap for {own.min + Decimal('0.004')} to {own.max} mm, or mask the thread." in text
    for same in (None, found.internal):
        assert tapping.recommend(found, TapRequest(limits=same)).notes.decisions == ()
    pipe = thread("1/2-14 NPT")
    gauged = replace(pipe.internal, pitch_diameter=Range(Decimal("0.7750"), Decimal("0.7790")))
    assert tapping.recommend(pipe, TapRequest(limits=gauged)).notes.decisions == ()


# --- threads that often miss --------------------------------------------------------------------------

#: 1/2-13 2B: 0.15 of 0.0065 in is cut oversize, 0.0010.
HALF = {"cut": "0.0010", "tolerance": "0.0065"}


def test_the_only_limit_that_fits_is_doubted_alone():
    """0.4510 to 0.4525: H3, 0.4510 to 0.4515, cuts up to 0.4525; every other limit is outside."""
    choice = choose("1/2-13 UNC-2B", "0.4510", "0.4525")
    assert (choice.recommended.limit.label, choice.alternatives) == ("H3", ())
    share = accepted(("0.4510", "0.4515"), ("0.4510", "0.4525"), **HALF)
    assert share < 90
    (text,) = of_code(choice.notes.decisions, "tap_often_refused")
    assert text == (
        f"Only about {share:.1f} % of the threads of H3 end inside the pitch diameter limits, cut oversize reckoned."
        " Decide: prove it on the job with the GO and NOT GO plugs."
    )


def test_the_likeliest_limit_is_named_beside_a_tap_of_the_crib_that_often_misses():
    """H11 of 1/2-13, 0.4550 to 0.4555, cuts up to 0.4565, the maximum; H5 or H7 stay clear of both ends."""
    choice = choose("1/2-13 UNC-2B", stock=("H11",))
    shares = {
        f"H{number}": accepted(
            (str(Decimal("0.4495") + number * Decimal("0.0005")), str(Decimal("0.4500") + number * Decimal("0.0005"))),
            ("0.4500", "0.4565"),
            **HALF,
        )
        for number in range(1, 12)
    }
    (text,) = of_code(choice.notes.decisions, "tap_often_refused")
    assert f"Only about {shares['H11']:.1f} % of the threads of H11 end inside" in text
    likeliest = max(shares, key=shares.__getitem__)
    assert f" plugs or take {likeliest}, which holds them in {shares[likeliest]:.1f} %." in text


def test_a_tap_that_seldom_misses_is_not_doubted():
    assert choose("1/2-13 UNC-2B", stock=("H3",)).notes.decisions == ()
    assert choose("M8").notes.decisions == ()


# --- crib and systems ---------------------------------------------------------------------------------


@every(
    "text,known,wanted",
    [
        ("3/8-16 UNC-2B", {"stock": ("D5",)}, "no tap of the crib makes 3/8-16 UNC-2B: buy 3/8-16 NC HSS G H5"),
        ("M8", {"stock": ()}, "no tap of the crib makes M8x1.25-6H: buy M8x1.25 HSS ISO2/6H"),
        ("1/2-14 NPT", {"stock": ("H3",)}, "no tap of the crib makes 1/2-14 NPT: buy 1/2-14 NPT HSS G"),
        ("M8", {"stock": ("ISO 2",)}, None),
        ("M8", {}, None),
    ],
)
def test_a_crib_that_has_no_tap_is_told_what_to_buy(text, known, wanted):
    assert of_code(choose(text, **known).notes.cautions, "stock_has_no_tap") == ([] if wanted is None else [wanted])


def test_what_a_shop_measured_replaces_the_assumption():
    """A cut of 0.25 of the tolerance: 0.25 * 0.0065 = 0.001625 in, 0.0016 to four decimals."""
    measured = MeasuredCut(count=40, spread=0.08, mean=0.25, date="2026-03-02")
    choice = choose("1/2-13 UNC-2B", measured=measured)
    assert choice.recommended.fit.cut_oversize == Decimal("0.0016")
    told = "40 pieces, measured 2026-03-02"
    assert choice.notes.assumptions[-1] == (
        f"the oversize of cut that the shop measured replaces the assumption: {told}"
    )
    assert places(choice, "recommended.fit.cut_oversize") == [("shop figures", "2026-03-02", told, "measured")]
    assert places(choice, "recommended.acceptance") == []
    (step,) = [one for one in choice.notes.steps if one.quantity == "recommended.fit.cut_oversize"]
    assert (step.formula, step.inputs) == (
        "half_even(share * tolerance, 4)",
        {"share": 0.25, "tolerance": Decimal("0.0065")},
    )
    metric = choose("M8", measured=measured)  # 0.25 * 0.160 = 0.040 mm
    (step,) = [one for one in metric.notes.steps if one.quantity == "recommended.fit.cut_oversize"]
    assert (step.formula, step.value) == ("half_even(share * tolerance, 3)", Decimal("0.040"))


@every(
    "text,method,formula,inputs,value",
    [
        ("1/2-13 UNC-2B", "cut", "half_even(0.15 * tolerance, 4)", {"tolerance": Decimal("0.0065")}, "0.0010"),
        ("M8", "cut", "half_even(0.15 * tolerance, 3)", {"tolerance": Decimal("0.160")}, "0.024"),
        ("1/2-13 UNC-2B", "form", "0 - offset * step", {"offset": 2, "step": Decimal("0.0005")}, "-0.0010"),
        ("M3", "form", "0 - offset * step", {"offset": 1, "step": Decimal("0.013")}, "-0.013"),
    ],
)
def test_how_the_oversize_comes_about(text, method, formula, inputs, value):
    choice = choose(text, method=method)
    (step,) = [one for one in choice.notes.steps if one.quantity == "recommended.fit.cut_oversize"]
    assert (step.formula, step.inputs, str(step.value)) == (formula, inputs, value)
    assert step.unit == thread(text).unit
    said = [one for one in choice.notes.assumptions if "15 percent" in one]
    assert len(said) == 1
    assert f"({'2B' if step.unit == 'in' else '6H'})" in said[0]
