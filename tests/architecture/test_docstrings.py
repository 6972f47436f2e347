"""A public function of the domain says what it takes, in which unit, and what it gives back."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from typing import NamedTuple

import pytest
from syntax_trees import module

CORE = Path(__file__).parents[2] / "service" / "borewright" / "core"

#: A docstring that opens with one of these says what is done: it must also say what is returned.
VERBS = frozenset((
    "Add", "Ask", "Build", "Check", "Choose", "Compute", "Convert", "Count", "Decide", "Derive", "Fill", "Find", "Fold",
    "Get", "Give", "Install", "Judge", "Keep", "List", "Look", "Make", "Move", "Note", "Parse", "Put", "Read", "Record",
    "Refuse", "Return", "Say", "Settle", "Split", "Take", "Turn", "Weigh", "Work", "Write",
))  # fmt: skip
#: A name that ends like this carries the unit of its figure.
UNIT_ENDINGS = (
    "_mm", "_in", "_um", "_rpm", "_m_min", "_ft_min", "_deg", "_mpa", "_n_m", "_n", "_kw", "_s", "_hb", "_hrc", "_mm2",
    "_in2", "_mm_rev", "_in_rev", "_lbf", "_lbf_in", "_hp", "_percent", "_factor", "_factors", "_ratio", "_angle",
    "_threads", "_pitches", "_diameters", "_over_diameter",
)  # fmt: skip
#: Words for the unit of a figure, or for one that has none.
UNIT_WORDS = re.compile(
    r"\b(?:units?|inch|inches|mm2?|um|micrometres|millimetres?|deg|degrees|deviations|percent|pitch|pitches|threads"
    r"|starts|diameters|shares?|ratio|chance|MPa|HB|HRC|Brinell|Rockwell|N|N/mm2|N m|kW|lbf|seconds|rpm|m/min|ft/min"
    r"|0 to 1|factors?|tpi|[0-9] in)\b"
)


class Function(NamedTuple):
    """A public function or method of the domain."""

    place: str
    node: ast.FunctionDef
    text: str

    @property
    def parameters(self) -> list[ast.arg]:
        """What it takes, but the object or class that it belongs to."""
        asked = self.node.args
        rest = [one for one in (asked.vararg, asked.kwarg) if one is not None]
        found = [*asked.posonlyargs, *asked.args, *asked.kwonlyargs, *rest]
        return [one for one in found if one.arg not in ("self", "cls")]

    @property
    def returns(self) -> str:
        """What it gives back; empty for nothing."""
        found = "" if self.node.returns is None else ast.unparse(self.node.returns)
        return "" if found == "None" else found


def _public(path: Path):
    where = path.relative_to(CORE).as_posix()
    for node in module(path).body:
        owner = f"{node.name}." if isinstance(node, ast.ClassDef) else ""
        if owner.startswith("_"):
            continue
        for one in node.body if isinstance(node, ast.ClassDef) else [node]:
            if isinstance(one, ast.FunctionDef) and not one.name.startswith("_"):
                yield Function(f"{where}:{owner}{one.name}", one, ast.get_docstring(one) or "")


@pytest.fixture(scope="module")
def functions():
    found = [function for path in sorted(CORE.rglob("*.py")) for function in _public(path)]
    assert len(found) > 700
    return found


def test_every_parameter_is_named(functions):
    missing = {
        one.place: names
        for one in functions
        if (names := [arg.arg for arg in one.parameters if not re.search(rf"\b{arg.arg}\b", one.text)])
    }
    assert missing == {}


def _says_what_comes_back(function: Function) -> bool:
    opening = function.text.split()[0] if function.text else ""
    return bool(opening) and (opening not in VERBS or "return" in function.text.casefold())


def test_what_is_returned_is_said(functions):
    """A docstring opens with what is returned, or with what is done and says then what is returned."""
    assert [one.place for one in functions if one.returns and not _says_what_comes_back(one)] == []


def _figures(function: Function) -> list[str]:
    """Names of its quantities that do not carry their unit."""
    kinds = {arg.arg: ast.unparse(arg.annotation) for arg in function.parameters if arg.annotation is not None}
    kinds[function.node.name] = function.returns
    return [
        name
        for name, kind in kinds.items()
        if re.search(r"\b(?:Decimal|float)\b", kind) and not name.endswith(UNIT_ENDINGS)
    ]


def test_quantities_carry_their_unit(functions):
    """In the name, or in the words of the docstring."""
    assert {one.place: names for one in functions if (names := _figures(one)) and not UNIT_WORDS.search(one.text)} == {}


@pytest.mark.parametrize(
    ("source", "named", "returned", "unit"),
    [
        ('def f(depth: Decimal) -> Decimal:\n    """Depth in the unit of ``depth``."""', True, True, True),
        ('def f(hole, depth: Decimal) -> Decimal:\n    """How far ``depth`` reaches."""', False, True, False),
        ('def f(text: str) -> str:\n    """Read ``text``."""', True, False, True),
        ('def f(text: str) -> None:\n    """Read ``text``."""', True, False, True),
        ('def f(depth_mm: float) -> float:\n    """Twice ``depth_mm``."""', True, True, False),
    ],
)
def test_the_rules_tell_good_from_bad(source, named, returned, unit):
    node = ast.parse(source).body[0]
    one = Function("f", node, ast.get_docstring(node))
    assert all(re.search(rf"\b{arg.arg}\b", one.text) for arg in one.parameters) == named
    assert _says_what_comes_back(one) == returned
    assert (not _figures(one) or bool(UNIT_WORDS.search(one.text))) == unit
