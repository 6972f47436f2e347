"""Which limit is taken, of which table, by which amount, and why the others are not: worked out by hand.

1/2-13 2B: basic pitch diameter 0.4500 in, maximum 0.4565, cut oversize 0.15 * 0.0065 = 0.0010 (half even). H n is
0.4500 + (n - 1) * 0.0005 to 0.4500 + n * 0.0005.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from statistics import NormalDist

import pytest
from borewright.core import callout, standards, tapping
from borewright.core.errors import TapError
from borewright.core.model import BasicDiameters, Diameters, Range, Thread
from borewright.core.tapping import TapRequest, limit_choice
from borewright.core.tapping.limit_choice import pick, recommended
from borewright.core.tapping.tap_candidates import Weighed
from every import every

NORMAL = NormalDist()


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def inch(low: str, high: str) -> Range:
    return Range(Decimal(low), Decimal(high))


def own(found: Thread) -> Range:
    return found.internal.pitch_diameter


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def labels(weighed) -> list[str]:
    return [one.candidate.limit.label for one in weighed]


HALF = thread("1/2-13 UNC-2B")
STOCKED = "of the stocked limits that fit, the one whose pitch diameter is most often accepted"
ACCEPTED = "of the limits that fit, the one whose pitch diameter is most often accepted"
UNKNOWN = "no tap limit table covers this thread, size and pitch: order the tap by thread and class"


# --- which fit ----------------------------------------------------------------------------------------


def test_every_limit_inside_the_window_fits_at_both_ends():
    """H1 begins at the minimum, 0.4500; H11 ends at 0.4555 and cuts up to 0.4565, the maximum."""
    found = pick(HALF, own(HALF), method="cut", finished=False)
    assert sorted(labels(found.fitting()), key=lambda label: int(label[1:])) == [f"H{n}" for n in range(1, 12)]
    assert found.rejected == ()
    fits = {one.candidate.limit.label: one.fit for one in found.fitting()}
    assert (fits["H1"].margin_above_min, fits["H1"].margin_below_max) == (Decimal(0), Decimal("0.0050"))
    assert (fits["H11"].margin_above_min, fits["H11"].margin_below_max) == (Decimal("0.0050"), Decimal(0))
    assert (fits["H11"].largest_cut, fits["H11"].cut_oversize) == (Decimal("0.4565"), Decimal("0.0010"))
    assert {one.margin for one in found.fitting() if one.candidate.limit.label in ("H1", "H11")} == {Decimal(0)}


def test_a_limit_that_does_not_fit_is_told_by_how_much():
    found = pick(HALF, inch("0.4507", "0.4560"), method="cut", finished=True)
    told = {one.label: plain(one.reason) for one in found.rejected}
    assert told == {
        "H1": "its minimum is 0.0007 in below the least pitch diameter to be made",
        "H2": "its minimum is 0.0002 in below the least pitch diameter to be made",
        "H11": "the largest thread it cuts, 0.4565 in, is 0.0005 in above the maximum",
    }


def test_a_limit_that_begins_at_the_minimum_is_too_large_only():
    """H1, 0.4500 to 0.4505, cuts up to 0.4515."""
    found = pick(HALF, inch("0.4500", "0.4510"), method="cut", finished=True)
    told = {one.label: plain(one.reason) for one in found.rejected}
    assert told["H1"] == "the largest thread it cuts, 0.4515 in, is 0.0005 in above the maximum"


def test_a_forming_tap_counts_what_closes_in_at_the_bottom():
    """Two numbers of 0.0005 in close in behind the tap over 0.138 in: H3, 0.4510, forms 0.4500; H2 0.4495."""
    found = pick(HALF, own(HALF), method="form", finished=False)
    assert {one.label: plain(one.reason) for one in found.rejected} == {
        "H1": "its minimum is 0.0010 in below the least pitch diameter to be made",
        "H2": "its minimum is 0.0005 in below the least pitch diameter to be made",
    }
    fits = {one.candidate.limit.label: one.fit for one in found.fitting()}
    assert (fits["H3"].margin_above_min, fits["H3"].margin_below_max) == (Decimal(0), Decimal("0.0050"))
    assert (fits["H3"].largest_cut, fits["H3"].cut_oversize) == (Decimal("0.4515"), Decimal("-0.0010"))


def test_a_limit_of_an_open_window_has_no_arithmetic():
    assert limit_choice.misfit(Weighed(None, None, Decimal(0)), "in") == "the limits to be made are open"


# --- which is taken -----------------------------------------------------------------------------------


def accepted(low: str, high: str, *, cut: str, tolerance: float, made: tuple[str, str]) -> float:
    """Mean over the tap's band of the chance to end between the limits; sigma 0.10 of the class tolerance."""
    sigma, total, points = 0.10 * tolerance, 0.0, 2000
    for point in range(points):
        mean = float(low) + (float(high) - float(low)) * (point + 0.5) / points + float(cut)
        total += NORMAL.cdf((float(made[1]) - mean) / sigma) - NORMAL.cdf((float(made[0]) - mean) / sigma)
    return total / points


def test_the_table_is_followed_where_it_is_as_good():
    found = pick(HALF, own(HALF), method="cut", finished=False)
    assert found.best.candidate.limit.label == "H5"
    assert found.reasons == ("recommended for class 2B at this size (ASME B94.9 appendix, from memory)",)
    assert (found.preferred.label, found.passed_over) == ("H5", None)
    assert "H5" not in labels(found.others)
    assert labels(found.others)[:5] != labels(found.others)[5:]


def test_stocked_limits_go_first_and_then_the_most_accepted():
    """Cut from 1/2-13 limits that a finish moves: H1 to H3, H5, H7 and H11 are listed."""
    found = pick(HALF, own(HALF), method="cut", finished=True)
    assert (found.reasons, found.preferred, found.passed_over) == ((STOCKED,), None, None)
    order = labels(found.fitting())
    assert set(order[:6]) == {"H1", "H2", "H3", "H5", "H7", "H11"}
    for kind in (order[:6], order[6:]):
        chances = [one.chance for label in kind for one in found.fitting() if one.candidate.limit.label == label]
        assert chances == sorted(chances, reverse=True)
    assert len(order) == len(set(order)) == 11


def test_a_limit_of_the_table_that_does_not_fit_is_not_followed():
    """H5 ends at 0.4525 and cuts up to 0.4535; of what fits below 0.4530 only H2 and H3 begin at 0.4505 or over."""
    found = pick(HALF, inch("0.4505", "0.4530"), method="cut", finished=False)
    assert (found.reasons, found.preferred, found.passed_over) == ((STOCKED,), None, None)
    assert labels(found.fitting()) in (["H2", "H3", "H4"], ["H3", "H2", "H4"])


def test_where_none_is_stocked_the_most_accepted_is_taken():
    assert pick(thread("5/16-27 UNS-2B"), own(thread("5/16-27 UNS-2B")), method="cut", finished=False).reasons == (
        ACCEPTED,
    )


def test_a_limit_of_the_table_that_is_not_stocked_is_made_to_order():
    """7/8-14: the recollection gives H6 for 2B, the printed list H2 and H4."""
    found = pick(thread("7/8-14 UNF-2B"), own(thread("7/8-14 UNF-2B")), method="cut", finished=False)
    assert found.best.candidate.limit.label == "H4"
    assert found.reasons == (
        f"{STOCKED}; H6, recommended for class 2B at this size (ASME B94.9 appendix, from memory), is made to order",
    )
    assert (found.preferred, found.passed_over) == (None, None)


def test_a_limit_of_the_table_that_is_clearly_worse_is_passed_over():
    """Formed #0-80 3B, 0.0519 to 0.0536 in: H2 of the table closes in to 0.0519, its minimum; H3 stays clear."""
    found = thread("#0-80 UNF-3B")
    chosen = pick(found, own(found), method="form", finished=False)
    made = (str(own(found).min), str(own(found).max))
    share = {
        label: 100 * accepted(low, high, cut="-0.0005", tolerance=0.0017 / 0.75, made=made)
        for label, low, high in (("H2", "0.0524", "0.0529"), ("H3", "0.0529", "0.0534"))
    }
    assert chosen.best.candidate.limit.label == "H3"
    assert chosen.reasons == (
        f"{STOCKED}: {share['H3']:.1f} % against {share['H2']:.1f} % of the H2 that a table gives",
    )
    assert chosen.passed_over.label == "H2"
    assert chosen.preferred is None
    assert labels(chosen.others)[0] == "H2"
    assert len(labels(chosen.fitting())) == len(set(labels(chosen.fitting())))


def test_a_limit_whose_chance_is_not_known_goes_behind_all_others():
    unknown, seldom = Weighed(None, None, Decimal(9)), Weighed(None, None, Decimal(1), 0.01)
    roomy = Weighed(None, None, Decimal(2), 0.01)
    assert sorted([unknown, seldom, roomy], key=limit_choice.most_accepted) == [roomy, seldom, unknown]


# --- what the tables say ------------------------------------------------------------------------------

APPENDIX = ("ASME B94.9", "1979/1987, appendix", "taps recommended for classes of Unified threads", "from_memory")
CLASSES = ("ISO 2857", "1973", "correspondence of tap and thread classes", "from_memory")
D_TABLE = ("ASME B94.9", "not seen", "metric tap limits and recommended limits for 6H and 4H", "from_memory")
STI_INCH = ("ASME B94.9", "2008 (R2018)", "Table 25, Machinery's Handbook 31st ed. p. 1006", "published")
STI_METRIC = ("ASME B94.9", "2008 (R2018)", "Table 26a, Machinery's Handbook 31st ed. p. 1007", "published")
SHOP = ("shop practice", "", "forming taps, limit numbers above a cutting tap", "common_practice")

SAID = [
    # thread, method, system, label, source, words of the reason, words of a note
    ("1/2-13 UNC-1B", "cut", "inch_h", "H5", APPENDIX, "class 1B at this size (ASME B94.9 appendix", None),
    ("1/2-13 UNC-2B", "cut", "inch_h", "H5", APPENDIX, "class 2B at this size (ASME B94.9 appendix", None),
    ("1/2-13 UNC-3B", "cut", "inch_h", "H3", APPENDIX, "class 3B at this size (ASME B94.9 appendix", None),
    ("1-12 UNF-2B", "cut", "inch_h", "H6", APPENDIX, "class 2B", "does not hold this 2B limit"),
    ("1-12 UNF-3B", "cut", "inch_h", "H4", APPENDIX, "class 3B", None),
    ("1-12 UNF-2B", "form", "inch_h", "H8", SHOP, "2 limit numbers above the cutting tap's H6", "this 2B limit"),
    ("1/2-12 UNS-2B", "cut", "inch_h", None, None, "", None),
    ("1 1/8-7 UNC-2B", "cut", "inch_h", None, None, "", None),
    # a forming tap: one number through 0.138 in, two above
    ("#6-32 UNC-2B", "form", "inch_h", "H4", SHOP, "1 limit numbers above the cutting tap's H3", None),
    ("#8-32 UNC-2B", "form", "inch_h", "H5", SHOP, "2 limit numbers above the cutting tap's H3", None),
    ("3/8-16 UNC-3B", "form", "inch_h", "H5", SHOP, "2 limit numbers above the cutting tap's H3: formed threads", None),
    ("M8-6H", "cut", "iso_class", "ISO 2", CLASSES, "the ISO tap class meant for 6H (ISO 2857, from memory)", None),
    ("M8-4H", "cut", "iso_class", "ISO 1", CLASSES, "meant for 4H", None),
    ("M8-7G", "cut", "iso_class", None, None, "", None),
    ("M8-6H", "form", "iso_class", None, None, "", None),
    ("M8-6H", "cut", "metric_d", "D5", D_TABLE, "class 6H at this size (ASME B94.9, from memory)", None),
    ("M8-4H", "cut", "metric_d", "D3", D_TABLE, "class 4H", None),
    ("M3.5-4H", "cut", "metric_d", "D2", D_TABLE, "class 4H", "a second recollection gives D1"),
    ("M3.5-6H", "cut", "metric_d", "D4", D_TABLE, "class 6H", None),
    ("M8-6G", "cut", "metric_d", None, None, "", None),
    ("M8x2(P1)-6H", "cut", "metric_d", None, None, "", None),
    ("M3.5-6H", "form", "metric_d", "D5", SHOP, "1 limit numbers above the cutting tap's D4", None),
    ("M4-6H", "form", "metric_d", "D6", SHOP, "2 limit numbers above the cutting tap's D4", None),
    ("M3.5-4H", "form", "metric_d", "D3", SHOP, "1 limit numbers", "a second recollection gives D1"),
    ("1/4-20 UNC STI 2B", "cut", "inch_h", "H3", STI_INCH, "class 2B of this insert thread (ASME B94.9 2008", None),
    ("1/4-20 UNC STI 3B", "cut", "inch_h", "H2", STI_INCH, "class 3B of this insert thread", None),
    ("M5 STI 5H", "cut", "inch_h", "H3", (*STI_METRIC[:3], "computed"), "class 5H of this insert thread", None),
    ("M8 STI 5H", "cut", "inch_h", "H3", STI_METRIC, "class 5H of this insert thread", None),
    ("M8 STI 5H", "form", "inch_h", "H5", SHOP, "2 limit numbers above the cutting tap's H3", None),
]  # fmt: skip


@every("text,method,system,label,source,words,note", SAID)
def test_limits_that_tables_give_for_a_class(text, method, system, label, source, words, note):
    found = recommended(thread(text), method, system)
    if label is None:
        assert found is None
        return
    assert found.label == label
    place = found.source
    assert (place.field, (place.document, place.edition, place.locator, place.status)) == ("recommended.limit", source)
    assert words in found.reason
    assert found.note is None if note is None else note in found.note


# --- by amount ----------------------------------------------------------------------------------------

AMOUNTS = [
    # least = low + what closes in - basic, most = high - oversize - tolerance - basic; the amount is their middle.
    # 0.0180 and 0.4745 - 0.0010 - 0.0005 - 0.4500 = 0.0230
    ("1/2-13 UNC-2B", "cut", "0.4680", "0.4745", "0.0205", "0.4705", "0.4710", "0.4720", "0.0025", "0.0025"),
    # 0.0190 and 0.4745 - 0.0005 - 0.4500 = 0.0240
    ("1/2-13 UNC-2B", "form", "0.4680", "0.4745", "0.0215", "0.4715", "0.4720", "0.4720", "0.0025", "0.0025"),
    # exactly as wide as tolerance and oversize: 0.0180 and 0.4695 - 0.0015 - 0.4500 = 0.0180
    ("1/2-13 UNC-2B", "cut", "0.4680", "0.4695", "0.0180", "0.4680", "0.4685", "0.4695", "0", "0"),
    # M12 (basic 10.863, t 0.160, TD2 of grade 6 0.200): 0.335 and 11.398 - 0.030 - 0.032 - 10.863 = 0.473
    ("M12-6AZ", "cut", "11.198", "11.398", "0.404", "11.267", "11.299", "11.329", "0.069", "0.069"),
    # two steps of 0.013 close in: 0.361 and 11.398 - 0.032 - 10.863 = 0.503
    ("M12-6AZ", "form", "11.198", "11.398", "0.432", "11.295", "11.327", "11.327", "0.071", "0.071"),
]  # fmt: skip


@every("text,method,low,high,amount,least,most,largest,above,below", AMOUNTS)
def test_a_limit_that_nobody_makes_is_ordered_midway(
    text, method, low, high, amount, least, most, largest, above, below
):
    window = inch(low, high)
    found = pick(thread(text), window, method=method, finished=True)
    limit, arithmetic = found.best.candidate.limit, found.best.fit
    assert limit.label == f"basic plus {amount}"
    assert (str(limit.pitch_diameter.min), str(limit.pitch_diameter.max)) == (least, most)
    assert (arithmetic.largest_cut, arithmetic.margin_above_min, arithmetic.margin_below_max) == (
        Decimal(largest), Decimal(above), Decimal(below),
    )  # fmt: skip
    assert arithmetic.limits == window
    assert found.best.chance is not None
    assert found.reasons == ("no limit that is commonly made fits, so the tap is ordered by amount over basic",)
    assert (found.others, found.preferred, found.possible) == ((), None, True)
    assert len(found.rejected) == (11 if "UN" in text else 3)
    assert limit.status == ("computed" if "UN" in text else "from_memory")


def test_a_galvanized_thread_is_tapped_by_its_overtap():
    window = inch("0.4680", "0.4745")
    found = pick(HALF, window, method="cut", finished=True, overtap=Decimal("0.018"))
    assert found.best.candidate.limit.label == "basic plus 0.018"
    assert found.best.candidate.limit.pitch_diameter == inch("0.4680", "0.4685")
    assert found.reasons == (
        "the oversize tap for galvanized threads is named by the overtap, its least amount over basic",
    )


@every(
    "method,high,needs",
    [
        ("cut", "0.4694", "0.0010 in for what it cuts oversize"),
        ("form", "0.4694", "0.0010 in for what it cuts oversize"),
    ],
)
def test_a_window_narrower_than_a_tap_says_what_it_needs(method, high, needs):
    found = pick(HALF, inch("0.4680", high), method=method, finished=True)
    assert (found.best, found.others, found.possible) == (None, (), False)
    assert found.fitting() == ()
    assert plain(found.reasons[0]) == (
        f"the pitch diameter to be made leaves 0.0014 in, a tap needs 0.0005 in for its own tolerance and {needs}"
    )
    assert found.reasons[1].startswith("what would help: a thinner coat")
    assert len(found.rejected) == 11


# --- threads without a table --------------------------------------------------------------------------


@every(
    "text,low,high",
    [
        ("1/2-14 NPT", "0.7740", "0.7829"),  # no table of limits
        ("1/2-10 ACME-2G", "0.4500", "0.4600"),
        ("1/2-13 UNC-2B", "0.4500", None),  # an open end
        ("1/2-13 UNC-2B", None, "0.4565"),
        ("M1x0.2-4H", "0.870", "0.908"),  # no grade 5, so no class and no amount
    ],
)
def test_a_thread_without_tap_limits_is_ordered_by_thread_and_class(text, low, high):
    window = Range(None if low is None else Decimal(low), None if high is None else Decimal(high))
    found = pick(thread(text), window, method="cut", finished=True)
    assert (found.best, found.others, found.rejected, found.possible) == (None, (), (), True)
    assert found.reasons == (UNKNOWN,)


def insert(text: str, low: str, high: str | None) -> Thread:
    """A 1/4-20 thread for an insert, basic 0.2825 in."""
    nominal = thread(text)
    basic = BasicDiameters(Decimal("0.3150"), Decimal("0.2825"), Decimal("0.2608"))
    pitch = Range(Decimal(low), None if high is None else Decimal(high))
    inside = Diameters(nominal.internal.major_diameter, pitch, nominal.internal.minor_diameter)
    return replace(nominal, system="insert_unified", basic=basic, internal=inside)


def test_an_insert_thread_with_an_open_maximum_takes_the_printed_limit_without_margins():
    """ASME B94.9-2008 (R2018) Table 25: 1/4-20 2B H3, 0.2835 to 0.2840 in."""
    found_for = insert("1/4-20 UNC-2B", "0.2825", None)
    found = pick(found_for, own(found_for), method="cut", finished=False)
    assert found.best.candidate.limit.label == "H3"
    assert found.best.candidate.limit.pitch_diameter == inch("0.2835", "0.2840")
    assert (found.best.fit, found.best.margin, found.best.chance) == (None, Decimal(0), None)
    assert found.reasons == (
        "printed tap limit for class 2B",
        "the maximum pitch diameter of the hole is not held, so no margin can be told",
    )
    assert (found.others, found.rejected, found.oversize, found.possible) == ((), (), None, True)


def test_an_insert_thread_takes_no_amount():
    """A window beyond every printed limit: no amount over basic is known of taps for inserts."""
    found_for = insert("1/4-20 UNC-2B", "0.2825", "0.2860")
    found = pick(found_for, inch("0.2900", "0.2950"), method="cut", finished=True)
    assert (found.best, found.possible, found.reasons) == (None, True, (UNKNOWN,))
    assert [one.label for one in found.rejected] == ["H3", "H2"]


# --- prescribed ---------------------------------------------------------------------------------------


def test_a_prescribed_limit_is_taken_where_it_fits():
    choice = tapping.recommend(HALF, TapRequest(prescribed="H2"))
    assert choice.recommended.limit.label == "H2"
    assert choice.recommended.reasons[0] == "prescribed, and fits"
    others = [tap.limit.label for tap in choice.alternatives]
    assert sorted(others, key=lambda label: int(label[1:])) == ["H1", *(f"H{n}" for n in range(3, 12))]
    assert "recommended.limit" not in {source.field for source in choice.notes.sources}


@pytest.mark.parametrize("label", ["H12", "ISO 2"])
def test_a_prescribed_limit_that_does_not_fit_is_refused(label):
    with pytest.raises(TapError) as refused:
        tapping.recommend(HALF, TapRequest(prescribed=label))
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("tap_not_found", "/thread")
    assert fault.detail == f"{label} does not hold the limits of the thread"
