"""What must hold of every tap chosen and of every marking written."""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from functools import cache
from statistics import NormalDist

import pytest
from borewright.core import callout, standards, tapping
from borewright.core.errors import BorewrightError, TapError
from borewright.core.model import Diameters, Range, Thread
from borewright.core.tapping import TapRequest
from borewright.core.tapping.marking import decode
from hypothesis import given
from hypothesis import strategies as st

SYSTEMS = ("unified", "unified_j", "iso_metric", "metric_j")


@cache
def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


@cache
def every_designation() -> tuple[str, ...]:
    return tuple(entry.designation for entry in standards.catalogue())


@cache
def every_thread() -> tuple[str, ...]:
    """A text of every size in every class."""
    entries = (entry for entry in standards.catalogue() if entry.system in SYSTEMS)
    return tuple(f"{entry.designation} {name}" for entry in entries for name in entry.classes)


def designation(text: str) -> str | None:
    try:
        return thread(text).designation
    except BorewrightError:
        return None  # the standard defines no such cell


DESIGNATIONS = st.deferred(lambda: st.sampled_from(every_designation()))
THREADS = st.deferred(lambda: st.sampled_from(every_thread()).map(designation).filter(bool))
KINDS = st.sampled_from(["blind", "through", None])
METHODS = st.sampled_from(["cut", "form"])


def plated(found: Thread, *, least: Decimal, most: Decimal) -> Diameters:
    """Limits before a coat of ``least`` to ``most`` a side on a 60 degree thread: four times each on pitch diameter."""
    pitch = found.internal.pitch_diameter
    moved = Range(pitch.min + 4 * most, pitch.max + 4 * least)
    return Diameters(found.internal.major_diameter, moved, found.internal.minor_diameter)


def thickness(found: Thread, microns: int) -> Decimal:
    um = Decimal(microns) / 1000
    return um if found.unit == "mm" else (um / Decimal("25.4")).quantize(Decimal("0.000001"))


def test_the_catalogue_gives_threads():
    assert len(every_thread()) > 500
    assert all(designation(text) for text in every_thread()[::20])


@given(THREADS, KINDS, METHODS, st.integers(0, 15), st.integers(0, 10))
def test_the_tap_and_its_oversize_stay_inside_the_limits(text, kind, method, least, more):
    found = thread(text)
    limits = plated(found, least=thickness(found, least), most=thickness(found, least + more))
    window = limits.pitch_diameter
    try:
        choice = tapping.recommend(found, TapRequest(hole_kind=kind, method=method, limits=limits))
    except TapError as error:
        refused = error
    else:
        refused = None
    if refused is not None:
        assert refused.code == "tap_not_found"
        return
    for tap in (choice.recommended, *choice.alternatives):
        if tap.limit is None:
            assert tap.fit is None
            continue
        band, arithmetic = tap.limit.pitch_diameter, tap.fit
        assert window.min <= band.min < band.max <= window.max
        assert band.max + max(arithmetic.cut_oversize, Decimal(0)) == arithmetic.largest_cut <= window.max
        assert min(arithmetic.margin_above_min, arithmetic.margin_below_max) >= 0
        assert arithmetic.margin_below_max == window.max - arithmetic.largest_cut
        assert arithmetic.limits == window
    labels = [tap.limit.label for tap in (choice.recommended, *choice.alternatives) if tap.limit is not None]
    rejected = [tap.label for tap in choice.rejected]
    assert len(labels + rejected) == len(set(labels + rejected))


@given(st.sampled_from(["1/4-28 UNF-2B", "3/8-16 UNC-2B", "1/2-13 UNC-2B", "1-8 UNC-2B", "M10x1.5-6H"]))
def test_a_thicker_coat_takes_no_smaller_tap(text):
    found = thread(text)
    tops = []
    for microns in range(0, 15):
        try:
            coat = thickness(found, microns)
            choice = tapping.recommend(found, TapRequest(limits=plated(found, least=coat, most=coat)))
        except TapError:
            break
        tops.append(choice.recommended.limit.pitch_diameter.max)
    assert len(tops) > 5
    assert tops == sorted(tops)


@given(st.one_of(THREADS, DESIGNATIONS), KINDS)
def test_a_marking_reads_back_as_the_tap_it_names(text, kind):
    found = thread(text)
    tap = tapping.recommend(found, TapRequest(hole_kind=kind)).recommended
    read = decode(tap.marking)
    standard = found.system.endswith("_j") and "J" not in tap.marking
    system = {"unified_j": "unified", "metric_j": "iso_metric"}[found.system] if standard else found.system
    wanted = (system, found.nominal_diameter, found.pitch, found.hand)
    assert (read.thread.system, read.thread.nominal_diameter, read.thread.pitch, read.thread.hand) == wanted
    assert read.limit == tap.limit
    assert read.substrate == tap.substrate
    assert read.ground
    assert read.unread == ()


@given(THREADS, METHODS, st.integers(0, 12), st.sampled_from([None, "metric_d"]))
def test_the_marking_of_every_limit_reads_back_as_that_limit(text, method, microns, system):
    """Numbers, classes and amounts over basic: what is written is what is decoded, to the last digit."""
    found = thread(text)
    coat = thickness(found, microns)
    try:
        request = TapRequest(method=method, limits=plated(found, least=coat, most=coat), tap_limits=system)
        choice = tapping.recommend(found, request)
    except TapError:
        return
    for tap in (choice.recommended, *choice.alternatives):
        read = decode(tap.marking)
        assert (read.limit, read.unread) == (tap.limit, ())


@pytest.mark.long
def test_every_marking_of_every_thread_reads_back():
    """All threads of the catalogue in all classes, cut and formed, in both systems of metric limits."""
    count = 0
    for text in filter(None, map(designation, every_thread())):
        for system in (None, "metric_d"):
            for method in ("cut", "form"):
                choice = tapping.recommend(thread(text), TapRequest(method=method, tap_limits=system))
                for tap in (choice.recommended, *choice.alternatives):
                    read = decode(tap.marking)
                    assert (read.limit, read.unread) == (tap.limit, ()), tap.marking
                    count += 1
    assert count > 20_000


@given(st.one_of(THREADS, DESIGNATIONS))
def test_limit_for_agrees_with_the_recommendation(text):
    found = thread(text)
    alone = tapping.limit_for(found, found.internal)
    tap = tapping.recommend(found, TapRequest()).recommended
    assert (alone.limit, alone.fit) == (tap.limit, tap.fit)
    assert (alone.availability, alone.equivalents) == (tap.availability, tap.equivalents)
    assert alone.reasons


def test_limits_without_room_give_reasons_and_no_limit():
    found = thread("1/4-28 UNF-3B")
    window = Range(Decimal("0.2300"), Decimal("0.2305"))
    limits = Diameters(found.internal.major_diameter, window, found.internal.minor_diameter)
    alone = tapping.limit_for(found, limits)
    assert (alone.limit, alone.fit) == (None, None)
    assert any("masking" in text for text in alone.reasons)
    with pytest.raises(TapError) as refused:
        tapping.recommend(found, TapRequest(limits=limits))
    assert refused.value.code == "tap_not_found"
    assert refused.value.faults[0].pointer == "/finish"


# --- derivations --------------------------------------------------------------------------------------


def rounded(rounding: str):
    return lambda value, places: Decimal(value).quantize(Decimal(1).scaleb(-places), rounding=rounding)


FUNCTIONS = {
    "half_even": rounded(ROUND_HALF_EVEN),
    "half_up": rounded(ROUND_HALF_UP),
    "up": rounded(ROUND_CEILING),
    "down": rounded(ROUND_FLOOR),
    "min": min,
    "max": max,
    "sqrt": math.sqrt,
}


def worked_out(formula: str, inputs) -> Decimal:
    """The value of a formula in decimal arithmetic (numbers of the formula read as written)."""
    names = {name: value if isinstance(value, Decimal) else Decimal(str(value)) for name, value in inputs.items()}
    words = []
    for word in formula.replace("(", " ( ").replace(")", " ) ").replace(",", " , ").split():
        number = word.replace(".", "", 1).isdigit()
        words.append(f"Decimal('{word}')" if number and "." in word else word)
    return eval(" ".join(words), {"__builtins__": {}}, {**FUNCTIONS, **names, "Decimal": Decimal})


def chance_of(formula: str, inputs) -> float:
    normal = NormalDist()
    return eval(formula, {"__builtins__": {}}, {**inputs, "cdf": normal.cdf, "pdf": normal.pdf, "max": max})


@given(THREADS, METHODS, st.integers(0, 8))
def test_derivations_give_the_figures(text, method, microns):
    found = thread(text)
    coat = thickness(found, microns)
    try:
        request = TapRequest(method=method, limits=plated(found, least=coat, most=coat))
        choice = tapping.recommend(found, request)
    except TapError:
        return
    for step in choice.notes.steps:
        if "cdf" in step.formula:
            assert chance_of(step.formula, step.inputs) == pytest.approx(step.value, abs=1e-9), step.quantity
        elif step.formula != "table":
            assert worked_out(step.formula, step.inputs) == step.value, step.quantity
    told = {step.quantity: step.value for step in choice.notes.steps}
    if choice.recommended.limit is not None:
        assert told["recommended.limit.pitch_diameter.max"] == choice.recommended.limit.pitch_diameter.max
        assert told["recommended.limit.pitch_diameter.min"] == choice.recommended.limit.pitch_diameter.min
        assert told["recommended.fit.largest_cut"] == choice.recommended.fit.largest_cut
