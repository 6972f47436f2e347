"""What holds for every size of every other system: order of limits, sources, derivations, designations."""

from __future__ import annotations

import ast
import contextlib
import math
from collections.abc import Mapping
from dataclasses import replace
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from functools import cache

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.model import STATUSES, Length, Range, Thread
from borewright.core.requests import ThreadFields
from hypothesis import given, settings
from hypothesis import strategies as st

D = Decimal
SYSTEMS = {
    "npt": 24,
    "nptf": 12,
    "npsm": 15,
    "npsc": 13,
    "npsf": 7,
    "npsi": 7,
    "iso_7": 30,
    "iso_228": 24,
    "whitworth": 60,
    "british_association": 17,
    "acme": 23,
    "stub_acme": 23,
    "trapezoidal": 95,
    "insert_unified": 44,
    "insert_metric": 43,
}


@cache
def every_thread() -> tuple[Thread, ...]:
    """Every catalogued size in every class it has, right and left hand, and a few that no catalogue lists."""
    found = []
    for entry in standards.catalogue():
        if entry.system in SYSTEMS:
            read = callout.read(entry.designation)
            for thread_class in entry.classes or (None,):
                one = replace(read, thread_class=thread_class) if thread_class else read
                found += [standards.resolve(one), standards.resolve(replace(one, hand="left"))]
    others = (
        "1/8-27 PTF-SAE SHORT",
        "1/4-18 ANPT",
        "2.875-0.4P-0.8L-ACME-3G",
        "Tr 40x14(P7)-7H",
        "SQUARE 40x7 depth 3.5",
        "SQUARE 1.5-4 depth 0.125",
        "1/2-0.125P-0.25L SQUARE depth .05",
        "SQUARE 40x14(P7) depth 3.5",
        "M8 STI 1.5D",
        "1/4-20 STI 1.5D",
    )
    found += [standards.resolve(callout.read(text)) for text in others]
    return tuple(found)


def test_catalogue_holds_every_size():
    counts: dict[str, int] = {}
    for entry in standards.catalogue():
        counts[entry.system] = counts.get(entry.system, 0) + 1
    assert {system: counts[system] for system in SYSTEMS} == SYSTEMS


def test_catalogue_entries_agree_with_their_threads():
    for entry in standards.catalogue():
        if entry.system in SYSTEMS:
            thread = standards.resolve(callout.read(entry.designation))
            assert (thread.system, thread.series, thread.size) == (entry.system, entry.series, entry.size)
            assert (thread.pitch, thread.threads_per_inch) == (entry.pitch, entry.threads_per_inch)
            assert (thread.nominal_diameter, thread.unit) == (entry.nominal_diameter, entry.unit)
            assert not entry.classes or thread.thread_class in (*entry.classes, None)


def test_designation_reads_back_to_the_same_thread():
    for thread in every_thread():
        again = standards.resolve(callout.read(thread.designation))
        for name in ("designation", "unit", "pitch", "lead", "internal"):
            assert getattr(again, name) == getattr(thread, name), thread.designation
        assert (again.internal, again.lead, again.hand) == (thread.internal, thread.lead, thread.hand)


def test_limits_are_in_order():
    for thread in every_thread():
        members = [thread.internal] + ([thread.external] if thread.external else [])
        for member in members:
            ranges = (member.minor_diameter, member.pitch_diameter, member.major_diameter)
            for limits in ranges:
                assert limits.min is None or limits.max is None or limits.min < limits.max, thread.designation
            for end in ("min", "max"):
                known = [value for limits in ranges if (value := getattr(limits, end)) is not None]
                assert known == sorted(known), thread.designation
                assert len(set(known)) == len(known), thread.designation
        basic = thread.basic
        assert basic.minor_diameter < basic.pitch_diameter < basic.major_diameter


def test_internal_limits_never_pass_the_basic_size_unless_the_form_says_so():
    """Taper threads and straight threads gauged by a taper plug lie about their basic size; all others above it."""
    about = {"npt", "nptf", "npsc", "npsf", "npsi", "iso_7"}
    for thread in every_thread():
        if thread.system not in about and thread.internal.pitch_diameter.min is not None:
            assert thread.internal.pitch_diameter.min >= thread.basic.pitch_diameter, thread.designation


def limits_of(thread: Thread) -> dict[str, Decimal]:
    """Every stated figure of the reply by its dotted name."""
    found: dict[str, Decimal] = {
        f"basic.{name}": getattr(thread.basic, name) for name in ("major_diameter", "pitch_diameter", "minor_diameter")
    }
    for member in ("internal", "external"):
        limits = getattr(thread, member)
        for name in ("major_diameter", "pitch_diameter", "minor_diameter") if limits else ():
            found |= _ends(f"{member}.{name}", getattr(limits, name))
    for item, fields in thread.extra.items():
        for name, value in fields.items():
            if isinstance(value, Range):
                found |= _ends(f"{item}.{name}", value)
            elif isinstance(value, Decimal):
                found[f"{item}.{name}"] = value
    return found


def _ends(path: str, limits: Range) -> dict[str, Decimal]:
    return {f"{path}.{end}": value for end in ("min", "max") if (value := getattr(limits, end)) is not None}


#: Figures that only repeat another one, or an item of the callout.
REPEATED = {
    "insert.nominal_diameter",
    "insert.drill_depth",
    "multi_start.lead",
    "square.depth_of_thread",
    "pipe.straight_hole_drill_diameter",
    "pipe.reamed_hole_diameter_at_face",
    "pipe.gauge_plane_pitch_diameter",
}


def test_every_figure_has_a_source_and_a_step():
    for thread in every_thread():
        sources = {source.field for source in thread.notes.sources}
        steps = {step.quantity: step.value for step in thread.notes.steps}
        for path, value in limits_of(thread).items():
            if path in REPEATED or path.startswith(("pipe.straight_hole_diameter", "pipe.reamed_hole_drill_diameter")):
                continue
            assert path in sources, (thread.designation, path)
            if path.endswith("angle"):  # read as it stands, nothing is worked out
                continue
            assert steps[path] == value, (thread.designation, path)


def test_sources_name_document_and_status():
    for thread in every_thread():
        for source in thread.notes.sources:
            assert source.document
            assert source.locator
            assert source.status in STATUSES


@pytest.mark.parametrize(
    ("text", "field", "status"),
    [
        ("1/4 NPT", "pipe.handtight_engagement", "published"),
        ("1/4 NPT", "pipe.wrench_makeup", "published"),
        ("4 NPT", "pipe.handtight_engagement", "published"),
        ("4 NPT", "pipe.wrench_makeup", "computed"),
        ("1/4 NPT", "internal.pitch_diameter.max", "computed"),
        ("1/4 NPTF", "internal.minor_diameter.max", "from_memory"),
        ("1/4 NPTF", "pipe.wrench_makeup", "computed"),
        ("1/4 NPSF", "internal.pitch_diameter.max", "from_memory"),
        ("1/4 NPSC", "internal.pitch_diameter.max", "published"),
        ("G 1/2", "internal.pitch_diameter.max", "second_hand"),
        ("Rc 1/2", "pipe.wrench_makeup", "second_hand"),
        ("Rc 3", "pipe.wrench_makeup", "from_memory"),
        ("Rc 3", "pipe.handtight_engagement", "second_hand"),
        ("1/4-20 UNC STI", "internal.pitch_diameter.min", "computed"),
        ("1/4-20 UNC STI", "internal.minor_diameter.min", "from_memory"),
        ("M8 STI", "internal.pitch_diameter.max", "from_memory"),
        ("1-5 ACME", "internal.pitch_diameter.max", "computed"),
        ("1-5 ACME", "internal.major_diameter.max", "from_memory"),
        ("1-5 STUB ACME", "internal.minor_diameter.max", "from_memory"),
        ("Tr 40x7", "internal.pitch_diameter.min", "computed"),
        ("Tr 40x7", "internal.pitch_diameter.max", "from_memory"),
        ("1/2 BSW", "internal.pitch_diameter.min", "computed"),
        ("1/2 BSW", "internal.minor_diameter.max", "from_memory"),
        ("2 BA", "internal.major_diameter.min", "published"),
        ("2 BA", "internal.pitch_diameter.max", "computed"),
    ],
)
def test_no_status_is_promoted(resolved, text, field, status):
    found = {source.status for source in resolved(text).notes.sources if source.field == field}
    assert found == {status}


# --- derivations, redone -----------------------------------------------------------------------------


def _quantized(rounding):
    return lambda value, places: value.quantize(D(1).scaleb(-int(places)), rounding=rounding)


NAMES = {
    "half_even": _quantized(ROUND_HALF_EVEN),
    "half_up": _quantized(ROUND_HALF_UP),
    "up": _quantized(ROUND_CEILING),
    "down": _quantized(ROUND_FLOOR),
    "sqrt": lambda value: value.sqrt(),
    "cbrt": lambda value: value ** (D(1) / D(3)),
    "min": min,
    "max": max,
}


class _Exact(ast.NodeTransformer):
    """Numbers of a formula as decimals."""

    def visit_Constant(self, node: ast.Constant) -> ast.AST:
        return ast.Call(ast.Name("exact_number", ast.Load()), [ast.Constant(str(node.value))], [])


@cache
def compiled(formula: str):
    tree = ast.fix_missing_locations(_Exact().visit(ast.parse(formula, mode="eval")))
    return compile(tree, "formula", "eval")


def test_every_step_can_be_redone():
    redone = 0
    for thread in every_thread():
        for step in thread.notes.steps:
            assert step.source
            assert step.unit in ("in", "mm")
            if step.formula != "table":
                value = eval(compiled(step.formula), {"__builtins__": {}, "exact_number": D, **NAMES, **step.inputs})
                assert value == step.value, (thread.designation, step)
                redone += 1
    assert redone > 10_000


def test_extra_objects_can_be_written_as_json():
    for thread in every_thread():
        for fields in thread.extra.values():
            assert isinstance(fields, Mapping)
            for name, value in fields.items():
                assert isinstance(value, (Decimal, Range, str, int, float, bool, tuple)), (thread.designation, name)
                assert not isinstance(value, tuple) or all(isinstance(word, str) for word in value)


def test_same_callout_same_object():
    read = callout.read("1/4-18 NPT")
    assert standards.resolve(read) is standards.resolve(callout.read("1/4-18 NPT"))


def test_lead_is_starts_times_pitch():
    for thread in every_thread():
        assert math.isclose(float(thread.lead), thread.starts * float(thread.pitch), abs_tol=1e-6)


def test_every_system_says_what_it_covers():
    rows = {row.system: row for row in standards.coverages()}
    for system in (*SYSTEMS, "square"):
        row = rows[system]
        assert row.document
        assert row.edition
        assert row.covers
        assert row.does_not_cover
        assert system == "square" or row.tables


# --- anything at all ---------------------------------------------------------------------------------

_numbers = st.decimals(min_value=D("-2"), max_value=D("200"), places=3, allow_nan=False, allow_infinity=False)
_words = st.one_of(
    st.none(),
    st.sampled_from(["NPT", "Rc", "BSW", "BSF", "UNC", "2B", "5H", "7H", "2G", "medium", "A", "1"]),
    st.text(max_size=12),
)


@settings(max_examples=400)
@given(
    system=st.sampled_from([*SYSTEMS, "square"]),
    size=st.one_of(st.sampled_from(["1/4", "1/2", "1", "2", "8", "40", "#10", "14 OD"]), st.text(max_size=12)),
    pitch=st.one_of(st.none(), _numbers),
    tpi=st.one_of(st.none(), _numbers),
    series=_words,
    thread_class=_words,
    starts=st.integers(-1, 4),
)
def test_nothing_but_coded_refusals(system, size, pitch, tpi, series, thread_class, starts):
    """Whatever stands in the fields of a thread: it is read and resolved, or refused with a code."""
    fields = ThreadFields(
        system,
        size,
        threads_per_inch=tpi,
        pitch=None if pitch is None else Length(pitch, None),
        series=series,
        thread_class=thread_class,
        starts=starts,
    )
    with contextlib.suppress(BorewrightError):
        thread = standards.resolve(callout.from_fields(fields))
        assert thread.system == system
        assert thread.internal.major_diameter.min is not None
