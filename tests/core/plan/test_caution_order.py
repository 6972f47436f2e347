"""Every caution has its place: what hurts people before what scraps the part, breaks the tool, and the rest."""

from __future__ import annotations

import ast
from pathlib import Path

from borewright import core
from borewright.core.model import Caution
from borewright.core.plan.caution_order import CODES, ordered
from borewright.tables import load
from syntax_trees import nodes

FOLDER = Path(core.__file__).parent


def named(node: ast.AST) -> set[str]:
    """Codes that a call of ``Caution`` or ``caution`` names."""
    if not isinstance(node, ast.Call) or not node.args:
        return set()
    called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if called not in ("Caution", "caution"):
        return set()
    return {one.value for one in ast.walk(node.args[0]) if isinstance(one, ast.Constant) and isinstance(one.value, str)}


def test_every_code_named_in_the_domain_has_a_place():
    paths = [path for path in FOLDER.rglob("*.py") if "aution(" in path.read_text("utf-8")]  # a tree takes its time
    found = {code for path in paths for node in nodes(path) for code in named(node)}
    assert len(found) > 80
    assert found <= set(CODES)


def test_every_place_is_of_one_code_that_is_raised():
    assert len(set(CODES)) == len(CODES)
    text = "".join(path.read_text() for path in FOLDER.rglob("*.py") if path.name != "caution_order.py")
    told = {row["code"] for row in load("health").rows}
    assert [code for code in CODES if f'"{code}"' not in text and code not in told] == []
    assert told <= set(CODES)


def test_people_come_first():
    codes = ("tolerance_from_memory", "tap_break_risk", "pipe_sealant_required", "pressure_service", "tap_break_risk")
    cautions = ordered(Caution(code, "") for code in codes)
    assert [one.code for one in cautions] == [
        "pressure_service", "pipe_sealant_required", "tap_break_risk", "tolerance_from_memory",
    ]  # fmt: skip
