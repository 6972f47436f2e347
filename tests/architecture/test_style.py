"""Small pieces, plain names: what can be checked of the house's style."""

from __future__ import annotations

import ast
import statistics
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from every import every
from syntax_trees import module, nodes

ROOT = Path(__file__).parent.parent.parent
PACKAGE = ROOT / "service" / "borewright"
SOURCES = sorted([*PACKAGE.rglob("*.py"), *(ROOT / "client" / "borewright_client").rglob("*.py")])
CORE_FOLDER = PACKAGE / "core"
CORE = sorted(CORE_FOLDER.rglob("*.py"))

LONGEST_MODULE = 350
#: Modules that nobody writes, nor reads from end to end.
GENERATED = {ROOT / "client" / "borewright_client" / "replies.py"}
LONGEST_FUNCTION, MEDIAN_FUNCTION, NINE_OF_TEN = 50, 10, 30

#: A float of the domain says its unit at the end of its name ...
UNIT_ENDINGS = (
    "_mm", "_in", "_um", "_rpm", "_m_min", "_deg", "_mpa", "_n_m", "_n", "_kw", "_s", "_hb", "_hrc", "_mm2", "_in2",
    "_mm_rev", "_in_rev", "_lbf", "_lbf_in", "_hp", "_percent",
)  # fmt: skip
#: ... or that it has none: a ratio, a count, a constant of a formula, a figure of a distribution.
WITHOUT_UNIT = (
    "_factor", "_ratio", "_angle", "_threads", "_pitches", "over_diameter", "wear", "kd", "z", "low", "high", "mean",
    "median", "sigma", "shift", "value", "chance",
)  # fmt: skip


class Function(NamedTuple):
    """A function of the project and the lines of its code without docstring."""

    place: str
    node: ast.FunctionDef
    lines: int


def functions(paths: list[Path]) -> Iterator[Function]:
    for path in paths:
        for node in nodes(path):
            if isinstance(node, ast.FunctionDef):
                text = node.body[0] if ast.get_docstring(node) is not None else None
                docstring = 0 if text is None else (text.end_lineno or 0) - text.lineno + 1
                lines = (node.end_lineno or 0) - node.lineno + 1 - docstring
                yield Function(f"{path.relative_to(ROOT)}:{node.name}", node, lines)


@every("path", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_modules_are_short(path):
    assert path in GENERATED or len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_MODULE


def test_functions_are_short():
    found = list(functions(SOURCES))
    assert [function.place for function in found if function.lines > LONGEST_FUNCTION] == []
    lengths = sorted(function.lines for function in found)
    assert statistics.median(lengths) <= MEDIAN_FUNCTION
    assert lengths[int(len(lengths) * 0.9)] <= NINE_OF_TEN


def test_the_domain_rounds_in_one_place():
    wrong = [
        str(path.relative_to(ROOT))
        for path in CORE
        for node in nodes(path)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "round"
    ]
    assert wrong == []


def test_decimals_are_quantized_in_one_place():
    users = {path.name for path in CORE if ".quantize(" in path.read_text(encoding="utf-8")}
    assert users == {"rounding.py"}


def public(paths: list[Path]) -> list[Function]:
    return [function for function in functions(paths) if not function.node.name.startswith("_")]


def test_like_arguments_are_keyword_only():
    """Two positional arguments that are both floats, or both decimals, can be swapped unseen."""
    wrong = []
    for function in public(CORE):
        kinds = [ast.unparse(argument.annotation) for argument in function.node.args.args if argument.annotation]
        if any(kinds.count(kind) > 1 for kind in ("float", "Decimal")):
            wrong.append(function.place)
    assert wrong == []


def test_floats_of_the_domain_name_their_unit():
    wrong = [
        f"{function.place} {argument.arg}"
        for function in public(CORE)
        for argument in (*function.node.args.args, *function.node.args.kwonlyargs)
        if argument.annotation is not None
        and ast.unparse(argument.annotation) in ("float", "float | None")
        and not argument.arg.endswith(UNIT_ENDINGS + WITHOUT_UNIT)
    ]
    assert wrong == []


def test_no_module_is_without_a_word():
    assert [str(path) for path in SOURCES if not ast.get_docstring(module(path))] == []


def test_one_name_one_public_class():
    """In the domain: who reads a name need not ask which of two is meant."""
    classes = Counter(
        node.name
        for path in CORE
        for node in module(path).body
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    )
    assert len(classes) > 100
    assert [name for name, count in classes.items() if count > 1] == []


def test_one_name_one_module_in_the_domain():
    """Which of two is meant needs no asking; the families of standards are alike on purpose, hole notes by subject."""
    alike = {CORE_FOLDER / name for name in ("notes", "standards")}
    files = Counter(path.name for path in CORE if not alike.intersection(path.parents) and path.name != "__init__.py")
    assert len(files) > 100
    assert [name for name, count in files.items() if count > 1] == []
