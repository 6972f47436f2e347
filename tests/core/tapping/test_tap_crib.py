"""What a crib holds for a thread, why the rest of it does not do, and which limits and taps are in any list."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards, tapping
from borewright.core.model import Diameters, Material, Overtap, Range, Thread
from borewright.core.tapping import ChamferRoom, TapRequest, availability, crib, deep, etched, limits
from borewright.core.tapping.catalogue import limits_catalogue
from borewright.core.tapping.equivalents import equivalents
from borewright.core.tapping.limit_choice import pick
from every import every


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def choose(text: str, *stock: str, **known):
    return tapping.recommend(thread(text), TapRequest(stock=stock, **known))


def plain(text: str | None) -> str | None:
    return None if text is None else text.replace("\N{NO-BREAK SPACE}", " ")


def window(text: str, low: str, high: str) -> Diameters:
    inside = thread(text).internal
    return Diameters(inside.major_diameter, Range(Decimal(low), Decimal(high)), inside.minor_diameter)


# --- entries that do not do ---------------------------------------------------------------------------

LONG = "1/2-13 NC HSS G " + "Kestrel Ridge tool crib, drawer of the second shelf, first row"

REJECTED = [
    ("1/2-13 UNC-2B", "D5", "D5", "D5 is no limit of taps for 1/2-13 UNC-2B"),
    ("1/2-14 NPT", " h3 ", "H3", "H3 is no limit of taps for 1/2-14 NPT"),
    ("1/2-13 UNC-2B", "h12", "h12", "the largest thread it cuts, 0.4570 in, is 0.0005 in above the maximum"),
    ("1/2-13 UNC-2B", "L1", "L1", "its minimum is 0.0005 in below the least pitch diameter to be made"),
    ("M8", "M8x1.25 LH D5", "M8x1.25 LH D5", "is for M8x1.25-6H LH"),
    ("1/2-13 UNC-2B", " 1/2-20 NF G H3 ", "1/2-20 NF G H3", "is for 1/2-20 UNF-2B"),
    ("M8", "M8x1.25 STI G H2", "M8x1.25 STI G H2", "is for M8x1.25 STI 5H"),
    ("M8", "M8x1 D5", "M8x1 D5", "is for M8x1-6H"),
    ("1/2-14 NPT", "1/2-14 NPTF G", "1/2-14 NPTF G", "is for 1/2-14 NPTF"),
    ("M8x2(P1)-6H", "M8x1 D5", "M8x1 D5", "is for M8x1-6H"),
    ("1/2-13 UNC-2B", "1/2-13 NC HSS G", "1/2-13 NC HSS G", "no limit is etched on it"),
    ("1/2-13 UNC-2B", LONG, LONG[:60], "no limit is etched on it"),
    ("M8", "M8x1.25 6HX", "M8x1.25 6HX", "6HX is the maker's own position: take its limits from his list"),
    ("M8", "M8x1.25 ISO3 +.1", "M8x1.25 ISO3 +.1",
     "the largest thread it cuts, 7.400 mm, is 0.052 mm above the maximum"),
    ("1/2-13 UNC-2B", "box " * 20, ("box " * 20)[:60], "the marking holds no thread size such as 1/2-13 or M8x1.25"),
]  # fmt: skip


@every("text,entry,label,reason", REJECTED)
def test_why_an_entry_of_the_crib_does_not_do(text, entry, label, reason):
    choice = choose(text, entry)
    system = crib.system_of((entry,)) if thread(text).unit == "mm" else None
    bought = tapping.recommend(thread(text), TapRequest(tap_limits=system))
    assert [(one.label, plain(one.reason)) for one in choice.rejected[len(bought.rejected) :]] == [(label, reason)]
    assert (choice.recommended.in_stock, choice.recommended.marking) == (False, bought.recommended.marking)
    assert {tap.in_stock for tap in choice.alternatives} <= {False}
    assert choice.recommended.reasons == bought.recommended.reasons


@every(
    "etch,room,reason",
    [
        # 3/8-16: 2 threads of 1/16 in are 0.125 in, 2.5 are 0.15625, 5 are 0.3125
        ("BOTT", "0.125", None),
        ("BOTT", "0.1249", "its bottoming chamfer has no room in the hole"),
        ("SEMI-BOTT", "0.15625", None),
        ("SEMI-BOTT", "0.1562", "its semi-bottoming chamfer has no room in the hole"),
        ("PLUG", "0.3125", None),
        ("", "0.01", None),
    ],
)
def test_the_chamfer_of_a_tap_must_have_room(etch, room, reason):
    entry = f"3/8-16 NC G H5 {etch}".strip()
    choice = choose("3/8-16 UNC-2B", entry, hole_kind="blind", chamfer_room=ChamferRoom(Decimal(room)))
    assert [one.reason for one in choice.rejected if one.label == entry] == ([] if reason is None else [reason])
    assert choice.recommended.in_stock is (reason is None)
    through = choose("3/8-16 UNC-2B", entry, hole_kind="through", chamfer_room=ChamferRoom(Decimal(room)))
    assert through.recommended.in_stock is True


def test_a_crib_without_limits_to_weigh_takes_the_printed_limit_alone():
    """An open end of the window: no margin can be told, so that only the limit that was picked would do."""
    found = thread("1/2-13 UNC-2B")
    picks = pick(found, found.internal.pitch_diameter, method="cut", finished=False)  # H5
    closed = found.internal.pitch_diameter
    for limits_to_make, oversize in (
        (Range(closed.min, None), Decimal("0.001")),
        (Range(None, closed.max), Decimal("0.001")),
        (closed, None),
    ):
        held = crib.look(found, (" H5 ", "H3"), window=limits_to_make, oversize=oversize, room=None, picks=picks)
        assert [(one.text, one.weighed, one.shank) for one in held.usable] == [("H5", picks.best, None)]
        assert [(one.label, one.reason) for one in held.rejected] == [
            ("H3", "is not the limit printed for the thread's class")
        ]
        none = picks._replace(best=None)
        held = crib.look(found, ("H5",), window=limits_to_make, oversize=oversize, room=None, picks=none)
        assert (held.usable, len(held.rejected)) == ((), 1)


@every(
    "stock,system",
    [
        (("D5",), "metric_d"),
        (("du2",), "metric_d"),
        (("M8 GD5",), "metric_d"),
        (("M8 D 5", "D3"), "metric_d"),
        (("ISO 2",), "iso_class"),
        (("M8 iso2",), "iso_class"),
        (("M8x1.25 6H",), "iso_class"),
        (("M8x1.25 4h", "H3"), "iso_class"),
        (("D5", "M8 6H"), None),
        (("M8 D5 6H",), None),
        (("M8 6HX",), None),
        (("M8 D100",), None),
        (("CODE5",), None),
        (("H3",), None),
        ((), None),
    ],
)
def test_the_system_that_a_crib_speaks(stock, system):
    assert crib.system_of(stock) == system


@every(
    "text,asked,told",
    [
        ("M8", None, "D5"),
        ("M8", "metric_d", "D5"),
        ("1/2-13 UNC-2B", None, "H5"),
    ],
)
def test_a_crib_of_d_taps_moves_only_metric_threads(text, asked, told):
    choice = choose(text, "M10 D5", tap_limits=asked)
    assert choice.recommended.limit.label == told
    assert not [one for one in choice.notes.assumptions if "are not made to" in one]


def test_a_system_that_is_asked_for_goes_before_that_of_the_crib():
    assert choose("M8", "M10 D5", tap_limits="iso_class").recommended.limit.label == "ISO 2"
    assert choose("M8").recommended.limit.label == "ISO 2"


# --- entries that do ----------------------------------------------------------------------------------


def test_taps_of_the_crib_come_first_then_what_would_be_bought():
    """1/2-13 2B: H3 leaves 0.0010 and 0.0040 in, H7, 0.4530 to 0.4535, 0.0030 and 0.0020."""
    shank = "1/2-13 NC HSS-E TiN G H7 BOTT SP FL Kestrel"
    steel = Material("mild steel", "carbon steel", "P", "long", 150.0, None, None, None, None, None)
    choice = choose("1/2-13 UNC-2B", " H11 ", shank, "1/2-13 NC G H5", hole_kind="through", material=steel)
    first, second, third = choice.recommended, *choice.alternatives[:2]
    assert [tap.limit.label for tap in (first, second, third)] == ["H5", "H7", "H11"]
    assert [tap.in_stock for tap in (first, second, third)] == [True, True, True]
    assert {tap.in_stock for tap in choice.alternatives[2:]} == {False}
    assert not {"H5", "H7", "H11"} & {tap.limit.label for tap in choice.alternatives[2:]}
    assert [plain(one) for one in first.reasons] == [
        "in the crib",
        "fits, 0.0020 in above the minimum and 0.0030 in below the maximum",
        "through hole: the spiral point pushes the chips ahead of the tap",
        "soft steel welds to bright flanks: a steam-oxide surface",
    ]
    assert (first.marking, first.style, first.substrate, first.surface) == (
        "1/2-13 NC G H5", "spiral_point", "HSS", "oxide",
    )  # fmt: skip
    assert [plain(one) for one in second.reasons] == [
        "in the crib",
        "fits, 0.0030 in above the minimum and 0.0020 in below the maximum",
        "not read on its shank: Kestrel",
    ]
    assert (second.marking, second.style, second.substrate, second.surface, second.chamfer.name) == (
        shank, "spiral_flute", "HSS-E", "TiN", "bottoming",
    )  # fmt: skip
    assert (third.marking, third.style) == ("1/2-13 NC HSS G H11", "spiral_point")


def test_a_thread_without_tap_limits_takes_any_tap_of_its_size():
    choice = choose("1/2-14 NPT", "1/2-14 NPT HSS-E G", "1/2-14 NPT CARB")
    assert [tap.marking for tap in (choice.recommended, *choice.alternatives)] == [
        "1/2-14 NPT HSS-E G",
        "1/2-14 NPT CARB",
    ]
    assert choice.recommended.reasons[0] == "in the crib"
    assert choice.recommended.fit is None


def test_a_tap_for_the_j_form_or_the_common_form_does_for_the_other():
    assert choose("1/4-28 UNF-3B", "1/4-28 UNJF-3B GH3").recommended.in_stock is True
    assert choose("MJ8x1.25-4H6H", "M8x1.25 ISO1").recommended.in_stock is True


# --- what is stocked ----------------------------------------------------------------------------------

LIST, PLATED = "list of standard ground taps", "listed for plated threads"
HANDBOOK_21, HANDBOOK = "Machinery's Handbook 31st ed. Table 21", "Machinery's Handbook 31st ed. Tables 20 and 21"
FINE, OVER = "fine and constant-pitch sizes are listed in one limit", "sizes over 1 in are listed in one limit"
FORM = "forming taps are listed in most limits"
ISO, LARGE = "sizes of ISO 261 are listed in all three classes", "the largest sizes are listed in one class"
POSITIONS = "forming taps are listed in a maker's position (6HX or 6GX) near these classes"
D_TABLE = "metric tap limits and recommended limits for 6H and 4H"
TABLE_25, TABLE_26A = (f"Table {name}, Machinery's Handbook 31st ed. p. {page}" for name, page in
                       (("25", 1006), ("26a", 1007)))  # fmt: skip

LISTED = [
    # thread, method, labels with the place that says so
    ("#0-80 UNF-2B", "cut", {"H1": HANDBOOK, "H2": HANDBOOK}),
    ("1/2-13 UNC-2B", "cut", {**dict.fromkeys(("H1", "H2", "H3", "H5"), LIST), "H7": PLATED, "H11": PLATED}),
    ("1-8 UNC-2B", "cut", {"H4": HANDBOOK, "H6": HANDBOOK, "H7": PLATED}),
    ("1 1/4-7 UNC-2B", "cut", {"H4": HANDBOOK_21}),
    ("1/2-28 UNEF-2B", "cut", {"H3": FINE}),
    ("1/2-16 UN-2B", "cut", {"H3": FINE}),
    ("1-20 UNEF-2B", "cut", {"H3": FINE}),
    ("1 1/16-18 UNEF-2B", "cut", {"H4": OVER}),
    ("1 1/8-8 UN-2B", "cut", {"H4": OVER}),
    ("2 1/4-4.5 UNC-2B", "cut", {"H4": OVER}),
    ("4-8 UN-2B", "cut", {"H4": OVER}),
    ("4 1/8-8 UN-2B", "cut", {}),
    ("5/16-27 UNS-2B", "cut", {}),
    ("1/2-13 UNC-2B", "form", {f"H{n}": FORM for n in range(2, 9)}),
    ("1-8 UNC-2B", "form", {f"H{n}": FORM for n in range(2, 9)}),
    ("1 1/8-7 UNC-2B", "form", {}),
    ("1/4-28 UNJF-3B", "cut", {**dict.fromkeys(("H1", "H2", "H3", "H4"), LIST), "H5": PLATED, "H7": PLATED}),
    ("M8", "cut", {**dict.fromkeys(("ISO 1", "ISO 2", "ISO 3"), ISO), "D3": D_TABLE, "D5": D_TABLE}),
    ("M8x1", "cut", {**dict.fromkeys(("ISO 1", "ISO 2", "ISO 3"), ISO), "D5": D_TABLE}),
    ("M39", "cut", dict.fromkeys(("ISO 1", "ISO 2", "ISO 3"), ISO)),
    ("M42", "cut", {"ISO 2": LARGE}),
    ("M68", "cut", {"ISO 2": LARGE}),
    ("M100x6", "cut", {"ISO 2": LARGE}),
    ("M105x6", "cut", {}),
    ("M8", "form", {**dict.fromkeys(("ISO 2", "ISO 3"), POSITIONS), **{f"D{n}": FORM for n in range(3, 10)}}),
    ("M8x1", "form", dict.fromkeys(("ISO 2", "ISO 3"), POSITIONS)),
    ("M36", "form", {**dict.fromkeys(("ISO 2", "ISO 3"), POSITIONS), **{f"D{n}": FORM for n in range(3, 10)}}),
    ("M39", "form", dict.fromkeys(("ISO 2", "ISO 3"), POSITIONS)),
    ("M8x2(P1)-6H", "cut", {}),
    ("1/4-20 UNC STI 2B", "cut", {"H3": TABLE_25, "H2": TABLE_25}),
    ("M8 STI 5H", "cut", {"H2": TABLE_26A, "H3": TABLE_26A}),
    ("1/2-14 NPT", "cut", {}),
]
STATUS = {LIST: "from_memory", D_TABLE: "from_memory", HANDBOOK: "published", HANDBOOK_21: "published",
          TABLE_25: "published", TABLE_26A: "published"}  # fmt: skip


@every("text,method,labels", LISTED)
def test_limits_in_which_taps_are_stocked(text, method, labels):
    found = thread(text)
    held = availability.stocked_limits(found, method)
    assert {label: place.locator for label, place in held.items()} == labels
    for place in held.values():
        assert place.status == STATUS.get(place.locator, "common_practice")
        published = place.locator in (HANDBOOK, HANDBOOK_21, TABLE_25, TABLE_26A)
        document = ("ASME B94.9", "2008 (R2018)") if published else ("shop practice", "")
        assert (place.document, place.edition) == (("ASME B94.9", "not seen") if place.locator == D_TABLE else document)
    for label in ("H1", "H3", "H9", "D5", "ISO 2"):
        kind = availability.availability(found, method, label)
        assert kind == ("standard" if label in labels else "special")


@every(
    "text,label,amount,kind",
    [
        ("1/2-13 UNC-2B", "basic plus 0.018", "0.018", "standard"),
        ("1/2-13 UNC-2B", "basic plus 0.017", "0.018", "special"),
        ("1/2-13 UNC-2B", "basic plus 0.018", None, "special"),
        ("1/2-13 UNC-2B", "H5", "0.018", "standard"),
        ("1/2-13 UNC-2B", None, None, "standard"),
        ("1/2-14 NPT", None, None, "standard"),
        ("M8x2(P1)-6H", None, None, "special"),
    ],
)
def test_what_is_sold_by_its_overtap_or_by_thread_and_class(text, label, amount, kind):
    found = thread(text)
    zinc = None if amount is None else Overtap("ASTM A563", "overtap", Decimal(amount), found.internal)
    assert availability.availability(found, "cut", label, zinc) == kind


# --- the other systems --------------------------------------------------------------------------------


@every(
    "text,asked,labels",
    [
        # M8 6H, middle 7.268: with 0.024 of oversize D5 lies round 7.2615 and D3 round 7.2355;
        # ISO 2 round 7.2625, ISO 3 round 7.2875, ISO 1 round 7.2375
        ("M8", None, ["D5", "D3"]),
        ("M8", "metric_d", ["ISO 2", "ISO 3", "ISO 1"]),
        ("M8x1", None, ["D5"]),
        ("M30x2", None, []),
        ("1/2-13 UNC-2B", None, []),
        ("M8 STI 5H", None, []),
        ("1/2-14 NPT", None, []),
    ],
)
def test_limits_of_other_systems_that_hold_the_same(text, asked, labels):
    found = thread(text)
    own = found.internal.pitch_diameter
    judge = pick(found, own, method="cut", finished=False).judge
    held = equivalents(found, own, method="cut", system=asked, judge=judge)
    assert [one.label for one in held] == labels
    if limits.family(found) is not None:
        tap = tapping.recommend(found, TapRequest(tap_limits=asked)).recommended
        assert [one.label for one in tap.equivalents] == labels


def test_of_a_system_that_is_not_stocked_the_best_limit_stands_alone():
    """M24x2 has no D limit in the table, but one by rule."""
    found = thread("M24x2")
    held = equivalents(found, found.internal.pitch_diameter, method="cut", system=None, judge=None)
    assert len(held) == 1
    assert held[0].label.startswith("D")


# --- words --------------------------------------------------------------------------------------------


@every(
    "text,label,substrate,marking",
    [
        ("1/2-13 UNC-2B", "H3", "HSS", "1/2-13 NC HSS G H3"),
        ("#8-32 UNC-2B LH", "H3", "carbide", "8-32 NC LH CARB G H3"),
        ("1 1/8-8 UN-2B", "H4", "HSS", "1 1/8-8 8N HSS G H4"),
        ("1/2-13 UNC-2B", "basic plus 0.018", "HSS", "1/2-13 NC HSS G PLUS .018"),
        ("M8", "basic plus 0.100", "HSS-E", "M8x1.25 HSS-E G PLUS 0.100"),
        ("M8", "ISO 2", "HSS", "M8x1.25 HSS ISO2/6H"),
        ("M8", "D5", "HSS", "M8x1.25 HSS G D5"),
        ("M2.2x0.25-5H", "ISO 3", "HSS", "M2.2x0.25 HSS ISO3"),
        ("MJ8x1.25-4H6H", "ISO 1", "HSS", "M8x1.25 HSS ISO1/4H"),
        ("1/4-28 UNJF-3B", "H3", "HSS", "1/4-28 NF HSS G H3"),
        ("1/4-20 UNC STI 2B", "H3", "HSS", "1/4-20 NC STI HSS G H3"),
        ("1/2-14 NPT", None, "HSS", "1/2-14 NPT HSS G"),
        ("M8x2(P1)-6H", "D5", "HSS", "M8xPh2P1-6H HSS G D5"),
        ("G 1/2", None, "HSS", "G 1/2 HSS G"),
    ],
)
def test_what_is_etched(text, label, substrate, marking):
    assert etched.marking(thread(text), substrate=substrate, label=label) == marking


@every(
    "text,low,high,amount,kind,order",
    [
        ("1/2-13 UNC-2B", None, None, None, "standard", None),
        ("5/16-27 UNS-2B", None, None, None, "special",
         "ground tap 5/16-27 UNS (marked 5/16-27 NS), limit H4, pitch diameter 0.2899 to 0.2904 in"),
        ("1/2-13 UNC-2B", "0.4680", "0.4745", None, "special",
         "ground tap 1/2-13 UNC (marked 1/2-13 NC), pitch diameter basic plus at least 0.0205 in, that is 0.4705 to"
         " 0.4710 in"),
        ("1/2-13 UNC-2B", "0.4680", "0.4745", "0.018", "standard",
         "ground tap 1/2-13 UNC (marked 1/2-13 NC), 0.018 in oversize for galvanized threads (ASTM A563), pitch"
         " diameter 0.4680 to 0.4685 in"),
        ("1/2-13 UNC-2B", None, None, "0.018", "standard",
         "ground tap 1/2-13 UNC (marked 1/2-13 NC), limit H7, pitch diameter 0.4530 to 0.4535 in"),
        ("M12-6AZ", None, None, None, "special",
         "ground tap M12x1.75, pitch diameter basic plus at least 0.404 mm, that is 11.267 to 11.299 mm"),
    ],
)  # fmt: skip
def test_what_a_tap_is_ordered_by(text, low, high, amount, kind, order):
    """The rest of the tap is not chosen: size, series and limit alone."""
    found = thread(text)
    made = found.internal if low is None else window(text, low, high)
    zinc = None if amount is None else Overtap("ASTM A563", "overtap", Decimal(amount), made)
    told = tapping.limit_for(found, made, overtap=zinc)
    assert told.availability == kind
    if zinc is None or low is not None:
        assert plain(told.order_text) == order
    else:  # whichever stocked limit is taken, it is named because the thread is galvanized
        assert plain(told.order_text).startswith("ground tap 1/2-13 UNC (marked 1/2-13 NC), limit H")


def test_limits_in_another_system_than_asked_are_told():
    told = tapping.limit_for(thread("M8"), thread("M8").internal, tap_limits="inch_h")
    assert told.reasons[-1] == "taps of M8x1.25-6H are not made to H limits: told in ISO classes"
    bare = tapping.limit_for(thread("1/2-14 NPT"), thread("1/2-14 NPT").internal, tap_limits="inch_h")
    assert (bare.limit, bare.availability, bare.order_text) == (None, "standard", None)
    assert bare.reasons[-1] == "taps of 1/2-14 NPT have no tabulated limits: H limits were asked for"


@every(
    "text,known,words",
    [
        ("1/4-28 UNJF-3B", {}, "a standard 1/4-28 NF tap cuts it: an internal UNJ thread is an UN thread"),
        ("MJ8x1.25-4H6H", {}, "a standard M8x1.25 tap cuts it: an internal MJ thread is an M thread"),
        ("M8", {"method": "form"}, "makers list forming taps for 6H as 6HX, a position of their own near this class"),
        ("M8-4H6H", {"method": "form"}, "makers list forming taps for 4H as 4HX"),
        ("1/2-13 UNC-2B", {"overtap": "0.0025"}, "tapped after hot-dip zinc, oversize by 0.0025 in (ASTM A563, ove"),
    ],
)
def test_reasons_of_a_tap(text, known, words):
    found = thread(text)
    if "overtap" in known:
        zinc = Overtap("ASTM A563", "overtap", Decimal(known["overtap"]), found.internal)
        known = {"overtap": zinc, "limits": found.internal}
    said = [plain(one) for one in tapping.recommend(found, TapRequest(**known)).recommended.reasons]
    assert sum(one.startswith(words) for one in said) == 1
    for usual, asked in (("1/2-13 UNC-2B", {}), ("M8", {}), ("1/2-13 UNC-2B", {"method": "form"})):
        common = tapping.recommend(thread(usual), TapRequest(**asked)).recommended.reasons
        assert not [one for one in common if "cuts it" in one or "position of their own" in one or "zinc" in one]


def test_only_the_first_of_the_others_is_that_of_the_table():
    """A formed #10-32 3B: the table's H2 and two numbers are H4, which closes in to the minimum and is passed over."""
    choice = tapping.recommend(thread("#10-32 UNF-3B"), TapRequest(method="form"))
    said = [[one.startswith("a forming tap is made 2") for one in tap.reasons] for tap in choice.alternatives]
    assert choice.alternatives[0].limit.label == "H4"
    assert said == [[True, False], [False]]


@every(
    "depth,style,method,text,said",
    [
        ("0.75", "spiral_flute", "cut", "1/4-20 UNC-2B", None),
        ("0.7501", "spiral_flute", "cut", "1/4-20 UNC-2B", "3.1 diameters of thread are deep for a spiral flute tap"),
        ("0.8", "spiral_point", "cut", "1/4-20 UNC-2B", "3.2 diameters of thread are deep for a spiral point tap"),
        ("0.5", "straight_flute", "cut", "1/4-20 UNC-2B", None),
        ("0.51", "straight_flute", "cut", "1/4-20 UNC-2B", "2.1 diameters of thread are deep for a straight flute tap"),
        ("2", "forming", "form", "1/4-20 UNC-2B", None),
        ("9", "taper_pipe", "cut", "1/2-14 NPT", None),
    ],
)  # fmt: skip
def test_deep_threads_by_style(depth, style, method, text, said):
    """Two diameters are routine for straight flutes, three for others (common practice), rounded up to a tenth."""
    found = deep.depth_cautions(thread(text), Decimal(depth), style=style, method=method)
    assert len(found) == (said is not None)
    if said is not None:
        routine = 2 if style == "straight_flute" else 3
        assert found[0].code == "deep_thread"
        assert found[0].text.startswith(f"{said} (about {routine} are routine): feed coolant")


# --- the catalogue ------------------------------------------------------------------------------------


@every(
    "label,applies,unit,band",
    [
        ("H3", "through 1 in", "in", ("0.0010", "0.0015")),
        ("H4", "over 1 in through 1.5 in, 6 tpi and finer", "in", ("0.0010", "0.0020")),
        ("H4", "over 1.5 in", "in", ("0.0005", "0.0020")),
        ("H4", "1.125-7", "in", ("0.0015", "0.0020")),
        ("cut", "0.060-80", "in", ("0.0002", "0.0012")),
        ("cut", "0.190-24", "in", ("0.0005", "0.0020")),
        ("D5", "M8x1.25, recommended for 6H", "mm", ("0.034", "0.065")),
        ("D3", "M8x1.25, recommended for 4H", "mm", ("0.008", "0.039")),
        ("D9", "M36x4, recommended for 6H", "mm", ("0.065", "0.117")),
        ("H3", "0.25-20, class 2B: pitch diameter 0.2835 to 0.2840 in", "in", None),
        ("H2", "M8x1.25, class 4H: pitch diameter 0.3475 to 0.3480 in", "in", None),
    ],
)
def test_rows_of_the_catalogue(label, applies, unit, band):
    (found,) = [one for one in limits_catalogue() if (one.label, one.applies_to) == (label, applies)]
    told = None if found.over_basic is None else (str(found.over_basic.min), str(found.over_basic.max))
    assert (found.unit, told, found.per_t) == (unit, band, None)


def test_the_iso_classes_of_the_catalogue_are_multiples_of_t():
    found = [one for one in limits_catalogue() if one.per_t is not None]
    assert [(one.label, str(one.per_t.min), str(one.per_t.max), one.applies_to) for one in found] == [
        ("ISO 1", "0.1", "0.3", "threads 4H, 5H; multiples of t"),
        ("ISO 2", "0.3", "0.5", "threads 6H, 4G, 5G; multiples of t"),
        ("ISO 3", "0.5", "0.7", "threads 7H, 8H, 6G; multiples of t"),
    ]
    assert {(one.unit, one.status, one.document) for one in found} == {("mm", "from_memory", "ISO 2857")}
    computed = [one for one in limits_catalogue() if one.applies_to.startswith("M5x0.8, class 5H")]
    assert [one.status for one in computed] == ["computed"]
