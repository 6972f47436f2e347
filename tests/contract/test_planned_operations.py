"""Every operation that the service plans may stand in a plan to be checked: words gathered from real plans."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from borewright.contract.requests import HOLE_SPEC
from borewright.contract.requests.audit import OPERATIONS
from borewright.core import plan, standards
from borewright.core.errors import BorewrightError
from borewright.core.plan.specify import specify
from syntax_trees import nodes

BLIND = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}


def asked(thread, hole, material, **more):
    return {"thread": thread, "hole": hole, "material": material, **more}


#: A hole of each kind, and what of its routing is particular to the kind.
KINDS = {
    "blind": (asked("3/8-16 UNC-2B", BLIND, "1018"), {"spot_drill", "drill", "countersink"}),
    "through": (asked("M8", THROUGH, "6061-T6"), {"tap", "inspect"}),
    "formed": (asked("M6", BLIND, "6061-T6", method="form"), {"drill", "tap"}),
    "pipe": (asked("1/2-14 NPT", THROUGH, "1018"), {"drill", "tap"}),
    "dryseal": (asked("1/4-18 NPTF", BLIND, "1018"), {"drill", "tap"}),
    "pipe of ISO 7": (asked("Rc 1/2", THROUGH, "304"), {"drill", "tap"}),
    "large pipe": (asked("Rc 5", {"type": "through", "thickness": "3 in"}, "1018"), {"ream", "thread_mill"}),
    "insert": (asked("1/4-20 UNC STI 3B", BLIND, "6061-T6"), {"install_insert", "break_off_tang"}),
    "reamed": (asked("1 1/8-16 UNJ", BLIND, "1018"), {"ream", "tap"}),
    "bored": (asked("1 1/4-5 ACME-2G", THROUGH, "C93200"), {"bore"}),
    "large": (asked("1 1/4-7 UNC-2B", BLIND, "1018"), {"pilot_drill", "tap"}),
    "thread-milled": (asked("2-4.5 UNC-2B", BLIND, "1018"), {"thread_mill"}),
    "single-pointed": (asked("1 1/2-4 ACME-2G", THROUGH, "C93200"), {"single_point_thread"}),
    "hardened": (asked("3/8-16", BLIND, "4140 at 60 HRC"), {"harden"}),
    "plated": (asked("1/2-13", BLIND, "4140 at 34 HRC", finish="ASTM B633 Fe/Zn 8"), {"wash", "finish", "bake"}),
    "plated hard": (asked("1/2-13", BLIND, "4340 at 44 HRC", finish="ASTM B633 Fe/Zn 5"), {"stress_relief", "bake"}),
    "masked": (asked("M8", BLIND, "1018", finish={"specification": "AMS 2404", "masked": True}), {"mask", "strip"}),
    "too thick a coat": (asked("M6", BLIND, "6061-T6", finish="MIL-A-8625 Type III"), {"mask", "strip"}),
    "counterbored": (asked("3/8-16", BLIND | {"counterbore": {"diameter": "0.6 in"}}, "1018"), {"counterbore"}),
    "both sides": (
        asked("M8", THROUGH | {"countersink": {"diameter": "9 mm", "angle": 90, "sides": "both"}}, "1018"),
        {"turn_over"},
    ),
    "galvanized": (asked("3/4-10", THROUGH, "1018", finish="hot-dip galvanized"), {"finish", "redrill"}),
}
CROSSED = [
    (material, finish, hole)
    for material in ("1018", "6061-T6", "D2 55 HRC")
    for finish in (None, "ASTM B633 Fe/Zn 12", "hot-dip galvanized")
    for hole in (BLIND, THROUGH)
]


def planned(request: dict[str, object]) -> set[str]:
    """The words of a plan."""
    return {one.line.operation for one in specify(HOLE_SPEC.asked(request).request).operations}


def written() -> Iterator[str]:
    """The words that the modules of the plan give their lines: texts in the first argument of `Line`."""
    for module in Path(plan.__file__).parent.glob("*.py"):
        for call in nodes(module):
            if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "Line":
                word = call.args[0]
                ends = (word.body, word.orelse) if isinstance(word, ast.IfExp) else (word,)
                yield from (ast.literal_eval(one) for one in ends)


@pytest.mark.parametrize("kind", KINDS)
def test_a_plan_of_each_kind_may_be_checked(kind):
    request, particular = KINDS[kind]
    words = planned(request)
    assert particular <= words
    assert [word for word in words if OPERATIONS.get(word) != word] == []


def test_the_kinds_show_every_word_that_is_written():
    assert set().union(*(planned(request) for request, _ in KINDS.values())) == set(written())


def test_plans_across_the_catalogue_may_be_checked():
    """Every fourth thread with the next material, finish and hole; what cannot be specified plans nothing."""
    designations = sorted({entry.designation for entry in standards.catalogue()})[::4]
    specified, words = 0, set()
    for number, designation in enumerate(designations):
        material, finish, hole = CROSSED[number % len(CROSSED)]
        request = asked(designation, hole, material, **({} if finish is None else {"finish": finish}))
        try:
            words |= planned(request)
        except BorewrightError:
            continue
        specified += 1
    assert specified > len(designations) / 2
    assert words <= OPERATIONS.keys()
