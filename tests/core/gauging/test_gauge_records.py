"""Whole gauges worked out by hand from the rows of their standards, at both ends of every range of size."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core import callout, finishing, standards
from borewright.core.gauging import gauges, iso
from borewright.core.gauging.gauge_notes import GaugeNotes
from borewright.core.gauging.plain import plain_plug
from borewright.core.model import Diameters, FinishInput, Length, LengthRange, Range, Thread
from every import every


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def plated(text: str, finish: str):
    found = thread(text)
    return found, finishing.allow(found, FinishInput(text=finish))


def zone(low: str, width: str) -> Range:
    return Range(Decimal(low), Decimal(low) + Decimal(width))


def texts(found: Range | None) -> tuple[str, str] | None:
    return None if found is None else (str(found.min), str(found.max))


def cautions(notes) -> list[str]:
    return [one.code for one in notes.cautions]


def test_nothing_is_noted_twice():
    sheet = GaugeNotes("mm")
    for code in ("separate_gauges", "gauge_tolerance_not_held", "separate_gauges", "gauge_tolerance_not_held"):
        sheet.caution(code, f"said of {code}")
        sheet.assume("one", "other")
    assert cautions(sheet) == ["separate_gauges", "gauge_tolerance_not_held"]
    assert list(sheet.assumptions) == ["one", "other"]


# --- ASME B1.2 class X --------------------------------------------------------------------------------

CLASS_X = [
    # thread, tolerance on pitch and on major diameter, band of the former class Y over basic, status
    ("1/4-20 UNC-2B", "0.0003", "0.0005", ("0.0002", "0.0005"), "second_hand"),
    ("#0-80 UNF-2B", "0.0002", "0.0003", ("0.0001", "0.0003"), "second_hand"),
    ("1 1/2-20 UN-2B", "0.0003", "0.0005", ("0.0002", "0.0005"), "second_hand"),
    ("1 5/8-20 UN-2B", "0.0004", "0.0005", ("0.0002", "0.0007"), "second_hand"),
    ("4-20 UNS-2B", "0.0004", "0.0005", ("0.0002", "0.0007"), "second_hand"),
    ("4-16 UN-2B", "0.0004", "0.0006", ("0.0002", "0.0008"), "second_hand"),
    ("4 1/8-16 UN-2B", "0.0006", "0.0009", ("0.0002", "0.0010"), "second_hand"),
    ("8.000-16 UNS-2B", "0.0006", "0.0009", ("0.0002", "0.0010"), "second_hand"),
    ("4 1/8-8 UN-2B", "0.0006", "0.0011", None, "second_hand"),
    # no such row, or no such cell, of the former class
    ("1-8 UNC-2B", "0.0004", "0.0007", None, "second_hand"),
    ("1-12 UNF-2B", "0.0003", "0.0006", ("0.0002", "0.0006"), "second_hand"),
    ("1 3/4-12 UN-2B", "0.0004", "0.0006", None, "second_hand"),
    ("1/4-27 UNS-2B", "0.0003", "0.0005", None, "from_memory"),
]  # fmt: skip
X_PLACE = ("ASME B1.2", "1983", "Table 6, class X, as read in a public calibration script")
HALF_H = ("ASME B1.2", "", "D2 + 0.5 H", "from_memory")
#: 0.433013 P, half the height of the sharp V, in inches to four decimals.


@every("text,pitch,major,former,status", CLASS_X)
def test_class_x_plugs_by_size(text, pitch, major, former, status):
    """GO is plus, NOT GO minus; the NOT GO plug is D2 + 0.433013 P over its crest (half even)."""
    found, x, m = thread(text), Decimal(pitch), Decimal(major)
    product = found.internal
    low, high = product.pitch_diameter.min, product.pitch_diameter.max
    crest = (high + Decimal("0.433013") / found.threads_per_inch).quantize(Decimal("0.0001"))
    gauging = gauges(found)
    plug = gauging.finished.thread_plug
    assert (plug.system, plug.tolerance) == ("asme", "ASME B1.2 class X")
    assert plug.go.pitch_diameter == Range(low, low + x)
    assert plug.go.major_diameter == Range(product.major_diameter.min, product.major_diameter.min + m)
    assert plug.not_go.pitch_diameter == Range(high - x, high)
    assert plug.not_go.major_diameter == Range(crest - m, crest)
    assert (plug.go.wear_limit, plug.not_go.wear_limit) == (None, None)
    wanted = None if former is None else Range(low + Decimal(former[0]), low + Decimal(former[1]))
    assert plug.former_go == wanted
    places = {one.field: (one.document, one.edition, one.locator, one.status) for one in gauging.notes.sources}
    assert places["thread_plug"] == (*X_PLACE, status)
    assert places["thread_plug.not_go.major_diameter"] == HALF_H
    assert "gauge_tolerance_not_held" not in cautions(gauging.notes)


@every("text", ["8.001-16 UNS-2B", "4 1/2-27 UNS-2B", "1 3/4-80 UNS-2B", "1 1/4-4 UNS-2B", "4 1/2-36 UNS-2B"])
def test_sizes_of_which_class_x_has_no_cell_keep_the_product_limits(text):
    found = thread(text)
    product = found.internal
    gauging = gauges(found)
    plug = gauging.finished.thread_plug
    crest = (product.pitch_diameter.max + Decimal("0.433013") / found.threads_per_inch).quantize(Decimal("0.0001"))
    assert (plug.system, plug.tolerance, plug.former_go) == ("asme", None, None)
    assert plug.go.pitch_diameter == Range(product.pitch_diameter.min, None)
    assert plug.go.major_diameter == Range(product.major_diameter.min, None)
    assert plug.not_go.pitch_diameter == Range(None, product.pitch_diameter.max)
    assert plug.not_go.major_diameter == Range(None, crest)
    (told,) = [one.text for one in gauging.notes.cautions if one.code == "gauge_tolerance_not_held"]
    assert told == f"No gauge maker's tolerance is held for {found.designation}: sizes are the product limits."
    places = {one.field: (one.document, one.locator, one.status) for one in gauging.notes.sources}
    assert places["thread_plug"] == ("ASME B1.1", "product limits", "computed")


def opened(text: str, *, major=True, low=True, high=True) -> Thread:
    """A thread whose limits are open where it says so."""
    found = thread(text)
    own = found.internal
    pitch = Range(own.pitch_diameter.min if low else None, own.pitch_diameter.max if high else None)
    outer = own.major_diameter if major else Range(None, None)
    return replace(found, internal=Diameters(outer, pitch, own.minor_diameter))


@every("text", ["1/2-13 UNC-2B", "8.001-16 UNS-2B", "M8", "M1x0.2-4H", "Tr20x4-7H"])
def test_open_limits_make_no_gauge_of_them(text):
    for ends in ({"low": False}, {"high": False}, {"low": False, "high": False}):
        assert gauges(opened(text, **ends)).finished.thread_plug is None
    whole, bare = (gauges(one).finished.thread_plug for one in (thread(text), opened(text, major=False)))
    assert whole.go.major_diameter is not None
    assert bare.go.major_diameter is None
    assert bare.go.pitch_diameter == whole.go.pitch_diameter
    assert bare.go.wear_limit == whole.go.wear_limit
    assert bare.not_go == whole.not_go


# --- ISO 1502 -----------------------------------------------------------------------------------------

ISO = [
    # D2 = D - 0.6495 P; GO D2 + EI + ZPL -/+ TPL / 2, worn D2 + EI + ZPL - W, crest D + EI + ZPL -/+ TPL;
    # NOT GO D2 + EI + TD2 to + TPL, worn D2 + EI + TD2 + TPL / 2 - W, all half up to 0.0001 mm.
    # M8 6H: D2 7.188125, EI 0, TD2 0.160: TPL 0.011, ZPL 0.012, W 0.0175 and 0.0115
    ("M8", ("7.1946", "7.2056"), "7.1826", ("8.0010", "8.0230"), ("7.3481", "7.3591"), "7.3421"),
    # M10 6G: D2 9.02575, EI 0.032, TD2 0.180, the same row
    ("M10-6G", ("9.0643", "9.0753"), "9.0523", ("10.0330", "10.0550"), ("9.2378", "9.2488"), "9.2318"),
    # M1.4 6H: D2 1.20515, TD2 0.075: TPL 0.007, ZPL 0.002, W 0.0095 and 0.0075
    ("M1.4-6H", ("1.2037", "1.2107"), "1.1977", ("1.3950", "1.4090"), ("1.2802", "1.2872"), "1.2762"),
]


@every("text,go,worn,crest,not_go,worn_not_go", ISO)
def test_iso_plugs_worked_out(text, go, worn, crest, not_go, worn_not_go):
    gauging = gauges(thread(text))
    plug = gauging.finished.thread_plug
    assert (plug.system, plug.tolerance, plug.former_go) == ("iso", "ISO 1502", None)
    assert (texts(plug.go.pitch_diameter), str(plug.go.wear_limit)) == (go, worn)
    assert texts(plug.go.major_diameter) == crest
    assert (texts(plug.not_go.pitch_diameter), str(plug.not_go.wear_limit)) == (not_go, worn_not_go)
    assert plug.not_go.major_diameter is None
    (place,) = [one for one in gauging.notes.sources if one.field == "thread_plug"]
    assert (place.document, place.status) == ("ISO 1502", "second_hand")
    assert place.locator.startswith("GO and NOT GO plug, by TD2; ")


@every(
    "tolerance,width,middle,worn,worn_not_go",
    [
        # TD2 over and to, TPL, ZPL, W of GO and of NOT GO, in mm
        ("0.024", None, None, None, None),
        ("0.0241", "0.006", "0", "0.008", "0.006"),
        ("0.050", "0.006", "0", "0.008", "0.006"),
        ("0.0501", "0.007", "0.002", "0.0095", "0.0075"),
        ("0.080", "0.007", "0.002", "0.0095", "0.0075"),
        ("0.0801", "0.009", "0.006", "0.0125", "0.0095"),
        ("0.125", "0.009", "0.006", "0.0125", "0.0095"),
        ("0.1251", "0.011", "0.012", "0.0175", "0.0115"),
        ("0.2", "0.011", "0.012", "0.0175", "0.0115"),
        ("0.2001", "0.014", "0.016", "0.021", "0.015"),
        ("0.3151", "0.018", "0.024", "0.027", "0.019"),
        ("0.5001", "0.022", "0.032", "0.033", "0.023"),
        ("0.670", "0.022", "0.032", "0.033", "0.023"),
        ("0.6701", None, None, None, None),
    ],
)
def test_rows_of_iso_1502_by_the_tolerance_of_the_hole(tolerance, width, middle, worn, worn_not_go):
    """A thread of 20 mm with a pitch of 2 mm: D2 is 20 - 1.299 = 18.701 mm."""
    found = replace(thread("M20x2"), nominal_diameter=Decimal(20))
    low = found.basic.pitch_diameter
    limits = Diameters(
        found.internal.major_diameter, Range(low, low + Decimal(tolerance)), found.internal.minor_diameter
    )
    sheet = GaugeNotes("mm")
    plug = iso.thread_plug(found, limits, sheet)
    if width is None:
        assert (plug.tolerance, plug.go.pitch_diameter, plug.go.wear_limit) == (None, Range(low, None), None)
        assert plug.not_go.pitch_diameter == Range(None, low + Decimal(tolerance))
        assert plug.go.major_diameter == Range(found.internal.major_diameter.min, None)
        assert plug.not_go.major_diameter is None
        (told,) = sheet.cautions
        assert told.code == "gauge_tolerance_not_held"
        assert told.text == (
            "ISO 1502 is held for pitch-diameter tolerances over 0.024 to 0.67\N{NO-BREAK SPACE}mm, not for"
            " M20x2-6H: sizes are the product limits."
        )
        return
    d2, t, z = Decimal("18.701"), Decimal(width), Decimal(middle)
    top = d2 + Decimal(tolerance)
    assert plug.go.pitch_diameter == Range(d2 + z - t / 2, d2 + z + t / 2)
    assert plug.go.wear_limit == d2 + z - Decimal(worn)
    assert plug.not_go.pitch_diameter == Range(top, top + t)
    assert plug.not_go.wear_limit == top + t / 2 - Decimal(worn_not_go)


# --- ASME B89.1.5 -------------------------------------------------------------------------------------

PLAIN = [
    # a member takes a twentieth of the tolerance; 0.010 to 0.825 in: Z 0.000100, Y 0.000070, X 0.000040, XX 0.000020,
    # XXX 0.000010 in, times 25.4 in mm
    ("1/2-13 UNC-2B", "0.5", "0.0020", "Z", "0.000100"),
    ("1/2-13 UNC-2B", "0.5", "0.0019", "Y", "0.000070"),
    ("1/2-13 UNC-2B", "0.5", "0.0014", "Y", "0.000070"),
    ("1/2-13 UNC-2B", "0.5", "0.0013", "X", "0.000040"),
    ("1/2-13 UNC-2B", "0.5", "0.0004", "XX", "0.000020"),
    ("1/2-13 UNC-2B", "0.5", "0.0002", "XXX", "0.000010"),
    ("1/2-13 UNC-2B", "9.010", "0.0064", "Z", "0.000320"),
    ("1/2-13 UNC-2B", "9.011", "0.0064", "Y", "0.000300"),
    ("M8", "6.912", "0.0508", "Z", "0.002540"),
    ("M8", "6.912", "0.0507", "Y", "0.001778"),
    ("M8", "6.912", "0.0355", "X", "0.001016"),
    ("M8", "6.912", "0.0203", "XX", "0.000508"),
    ("M8", "6.912", "0.0101", "XXX", "0.000254"),
    ("M8", "20.955", "0.0508", "Z", "0.002540"),
    ("M8", "20.956", "0.0508", "Y", "0.002286"),
    ("M8", "0.254", "0.0508", "Z", "0.002540"),
    ("M8", "305.054", "0.2032", "Z", "0.010160"),
]


@every("text,largest,tolerance,name,width", PLAIN)
def test_plain_plugs_by_size_and_tolerance(text, largest, tolerance, name, width):
    high = Decimal(largest)
    low = high - Decimal(tolerance)
    found, sheet = thread(text), GaugeNotes("in" if "UN" in text else "mm")
    plug = plain_plug(found, Range(low, high), sheet)
    assert plug.gauge_class == name
    assert plug.go == Range(low, low + Decimal(width))
    assert plug.not_go == Range(high - Decimal(width), high)
    assert sheet.cautions == []
    metric = ["plain plugs by ASME B89.1.5 (metric values): ISO plain gauge tolerances are not held"]
    assert sheet.assumptions == (metric if found.unit == "mm" else [])
    (place,) = sheet.sources
    assert (place.document, place.edition, place.locator, place.status) == (
        "ASME B89.1.5", "1998", f"class {name}, 10 percent rule", "second_hand",
    )  # fmt: skip
    assert [(step.quantity, step.value) for step in sheet.steps] == [
        ("plain_plug.go.min", plug.go.min),
        ("plain_plug.go.max", plug.go.max),
        ("plain_plug.not_go.min", plug.not_go.min),
        ("plain_plug.not_go.max", plug.not_go.max),
    ]


@every(
    "text,largest,tolerance,width,said",
    [
        ("1/2-13 UNC-2B", "0.5000", "0.0001", "0.000010", "tolerance of 0.0001 in."),
        ("M8", "6.9120", "0.0050", "0.000254", "tolerance of 0.0050 mm."),
    ],
)
def test_a_tolerance_that_even_the_finest_class_takes_much_of(text, largest, tolerance, width, said):
    high = Decimal(largest)
    low = high - Decimal(tolerance)
    sheet = GaugeNotes("in")
    plug = plain_plug(thread(text), Range(low, high), sheet)
    assert (plug.gauge_class, plug.go, plug.not_go) == (
        "XXX", Range(low, low + Decimal(width)), Range(high - Decimal(width), high),
    )  # fmt: skip
    (told,) = sheet.cautions
    assert told.code == "gauge_takes_much_tolerance"
    assert told.text.replace("\N{NO-BREAK SPACE}", " ") == (
        f"Even class XXX takes more than a tenth of the minor-diameter {said}"
    )


@every(
    "text,largest,said",
    [
        ("M8", "0.2539", "0.2539 mm."),
        ("M8", "305.055", "305.055 mm."),
        ("1/2-13 UNC-2B", "0.0099", "0.0099 in."),
        ("1/2-13 UNC-2B", "12.0101", "12.0101 in."),
    ],
)
def test_plain_plugs_beyond_the_table(text, largest, said):
    high, low = Decimal(largest), Decimal(largest) - Decimal("0.005")
    sheet = GaugeNotes("in")
    plug = plain_plug(thread(text), Range(low, high), sheet)
    assert (plug.gauge_class, plug.go, plug.not_go) == (None, Range(low, None), Range(None, high))
    (told,) = sheet.cautions
    assert told.text.replace("\N{NO-BREAK SPACE}", " ") == f"ASME B89.1.5 holds no plain plug of {said}"
    for minor in (Range(None, high), Range(low, None)):
        assert plain_plug(thread(text), minor, sheet) is None


# --- before and after a finish ------------------------------------------------------------------------

GO = "GO thread plug: must enter by hand through the whole depth of full thread."
ASME_NOT_GO, ISO_NOT_GO = "NOT GO (HI) thread plug: may enter, but not more than three", "NOT GO thread plug: may enter"
ASME_SIDE, ISO_SIDE = "ASME system: gauge tolerance lies inside", "ISO system: the NOT GO zone lies above"
PLAIN_PLUG, BEFORE = "GO plain plug: must enter the minor diameter", "Before finish use the before-finish gauges"
RECORD = "State the gauge system in the record"


@every(
    "text,finish,said",
    [
        ("1/2-13 UNC-2B", None, (GO, ASME_NOT_GO, ASME_SIDE, PLAIN_PLUG, RECORD)),
        ("1/2-13 UNC-2B LH", None, (f"{GO} Left-hand gauges.", ASME_NOT_GO, ASME_SIDE, PLAIN_PLUG, RECORD)),
        ("M8", None, (GO, ISO_NOT_GO, ISO_SIDE, PLAIN_PLUG, RECORD)),
        ("M8 LH", None, (f"{GO} Left-hand gauges.", ISO_NOT_GO, ISO_SIDE, PLAIN_PLUG, RECORD)),
        ("1/2-13 UNC-2B", "ASTM B633 Fe/Zn 8", (GO, ASME_NOT_GO, ASME_SIDE, PLAIN_PLUG, BEFORE, RECORD)),
        ("M8", "ASTM B633 Fe/Zn 8", (GO, ISO_NOT_GO, ISO_SIDE, PLAIN_PLUG, BEFORE, RECORD)),
        ("1/2-13 UNC-2B", "hot-dip zinc ASTM A153", (GO, ASME_NOT_GO, ASME_SIDE, PLAIN_PLUG, RECORD)),
        # no room for the coat: the thread is masked
        ("M8", "MIL-A-8625 Type III", (GO, ISO_NOT_GO, ISO_SIDE, PLAIN_PLUG, RECORD)),
    ],
)
def test_the_rule_of_acceptance_in_words(text, finish, said):
    found = gauges(thread(text)) if finish is None else gauges(*plated(text, finish))
    assert len(found.acceptance) == len(said)
    for told, words in zip(found.acceptance, said, strict=True):
        assert told == words if words.startswith(GO) else told.startswith(words)


@every(
    "text,finish,separate,galvanized",
    [
        ("1/2-13 UNC-2B", "ASTM B633 Fe/Zn 8", True, False),
        ("M8", "electroless nickel 0.0005 in", True, False),
        ("M8", "MIL-A-8625 Type III", False, False),
        ("1/2-13 UNC-2B", "hot-dip zinc ASTM A153", False, True),
        ("M8", "hot-dip zinc ASTM A153", False, True),
    ],
)
def test_gauges_before_and_after_a_finish(text, finish, separate, galvanized):
    """Zinc by overtap is gauged at its own limits; a coat that is put on a tapped thread at both."""
    found, allowance = plated(text, finish)
    gauging = gauges(found, allowance)
    final = allowance.overtap.limits if galvanized else found.internal
    bare = gauges(replace(found, internal=final)).finished
    assert gauging.finished == bare
    assert (gauging.before_finish is not None) is separate
    assert ("separate_gauges" in cautions(gauging.notes)) is separate
    prefixed = [step.quantity for step in gauging.notes.steps if step.quantity.startswith("before_finish.")]
    named = [one.field for one in gauging.notes.sources if one.field.startswith("before_finish.")]
    assert (bool(prefixed), bool(named)) == (separate, separate)
    if separate:
        before = replace(found, internal=allowance.before_finish)
        assert gauging.before_finish.plain_plug == gauges(before).finished.plain_plug
        assert len(prefixed) == len(tuple(gauging.notes.steps)) / 2
    assert len(cautions(gauging.notes)) == len(set(cautions(gauging.notes)))
    assert len(gauging.notes.assumptions) == len(set(gauging.notes.assumptions))


def test_a_coat_that_moves_nothing_and_a_masked_thread_keep_one_set():
    found, allowance = plated("1/2-13 UNC-2B", "ASTM B633 Fe/Zn 8")
    still = replace(allowance, before_finish=found.internal)
    masked = replace(allowance, finish=replace(allowance.finish, applied="masked"))
    minor = replace(
        allowance, before_finish=replace(allowance.before_finish, pitch_diameter=found.internal.pitch_diameter)
    )
    assert [gauges(found, one).before_finish is None for one in (still, masked, minor, allowance)] == [
        True, True, False, False,
    ]  # fmt: skip


@every(
    "text,finish,hand,before",
    [
        ("1/2-14 NPT", None, "", False),
        ("1/2-14 NPT LH", None, " Left-hand gauge.", False),
        ("1/2-14 NPT", "ASTM B633 Fe/Zn 8", "", True),
        ("Rp 1/2", None, "", False),
        ("Rp 1/2", "ASTM B633 Fe/Zn 8", "", False),
    ],
)
def test_taper_plugs_in_words(text, finish, hand, before):
    """One set of words: how far the plug enters, before its finish too where the coat moves it."""
    found = thread(text)
    gauging = gauges(found) if finish is None else gauges(*plated(text, finish))
    assert gauging.finished == (gauges(found).finished)
    assert (gauging.finished.thread_plug, gauging.finished.plain_plug, gauging.before_finish) == (None, None, None)
    first = gauging.acceptance[0]
    gauge = found.extra["pipe"]["gauge"]
    assert first == f"{found.designation}, screwed in by hand: {gauge}.{hand}"
    moved = [one for one in gauging.acceptance if one.startswith("Before the finish: ")]
    assert len(moved) == before
    assert all("turns" in one and one.endswith("turns either way.") for one in moved)
    assert len(gauging.acceptance) == 3 + before
    (place,) = gauging.notes.sources
    assert (place.field, place.locator, place.status) == ("acceptance", "gauge plane", "computed")


def test_how_much_deeper_a_taper_plug_stands_before_the_finish():
    """0.0003 in of coat close the pitch diameter by four times that, 16 times as much along the axis, 18 turns to 1 in:
    0.0192 in, 0.35 turns.
    """
    coat = Length(Decimal("0.0003"), "in")
    found = thread("1/4-18 NPT")
    words = gauges(found, finishing.allow(found, FinishInput(thickness=LengthRange(coat, coat)))).acceptance
    assert [one.replace("\N{NO-BREAK SPACE}", " ") for one in words if one.startswith("Before")] == [
        "Before the finish: L1 taper thread plug, 0.35 turns (0.019 in) deeper than for the finished thread, within 1"
        " turns either way."
    ]


def test_every_size_of_a_metric_gauge_is_derived():
    gauging = gauges(thread("M8"))
    plug, told = gauging.finished.thread_plug, {one.quantity: one for one in gauging.notes.steps}
    worn = {"thread_plug.go.wear_limit": plug.go.wear_limit, "thread_plug.not_go.wear_limit": plug.not_go.wear_limit}
    assert {name: (told[name].value, told[name].unit) for name in worn} == {
        name: (size, "mm") for name, size in worn.items()
    }
    zones = ("thread_plug.go.pitch_diameter", "thread_plug.go.major_diameter", "thread_plug.not_go.pitch_diameter",
             "plain_plug.go", "plain_plug.not_go")  # fmt: skip
    assert set(told) == {*worn, *(f"{zone}.{end}" for zone in zones for end in ("min", "max"))}


def test_an_infeasible_coat_of_a_taper_thread_is_not_gauged_before():
    found, allowance = plated("1/2-14 NPT", "ASTM B633 Fe/Zn 8")
    assert len(gauges(found, replace(allowance, feasible=False)).acceptance) == 3


def test_a_system_without_a_gauge_standard_is_gauged_at_its_limits():
    found = thread("Tr20x4-7H")
    gauging = gauges(found)
    plug = gauging.finished.thread_plug
    assert plug.go.pitch_diameter == Range(found.internal.pitch_diameter.min, None)
    assert plug.not_go.pitch_diameter == Range(None, found.internal.pitch_diameter.max)
    assert plug.go.major_diameter == Range(found.internal.major_diameter.min, None)
    assert plug.not_go.major_diameter is None
    (told,) = [one.text for one in gauging.notes.cautions if one.code == "gauge_tolerance_not_held"]
    assert told.startswith("No gauge standard is held for Tr 20x4-7H: sizes are the product limits")
    (place,) = [one for one in gauging.notes.sources if one.field == "thread_plug"]
    assert (place.document, place.locator, place.status) == (found.standard.document, "product limits", "computed")
