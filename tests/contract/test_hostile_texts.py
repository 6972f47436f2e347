"""No text makes the service work for long: no regex can backtrack catastrophically, and work grows with length.

Counted, not timed: the patterns are walked as the compiler parses them, and calls are counted by the profiler.
"""

from __future__ import annotations

import ast
import builtins
import contextlib
import importlib
import sys
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from re import _constants as constants  # type: ignore[attr-defined]
from re import _parser as parser  # type: ignore[attr-defined]
from typing import Any

import borewright
from borewright.contract.requests import ALLOWANCE, DECODE, HOLE_SPEC, THREAD
from borewright.core.errors import BorewrightError
from borewright.core.plan.specify import allow_finish, decode_marking, resolve_thread
from every import every
from syntax_trees import nodes

PACKAGE = Path(borewright.__file__).parent
FUNCTIONS = {"compile", "match", "fullmatch", "search", "sub", "split", "findall", "finditer"}
REPEATS = (constants.MAX_REPEAT, constants.MIN_REPEAT)
#: A repeat of at most so many turns is a bound, not a star: it multiplies the work by no more than that.
FEW_TURNS = 12


class Names(dict[str, Any]):
    """Names of a module; a name it does not have is an argument of a function, and stands for one word."""

    def __missing__(self, name: str) -> Any:
        return getattr(builtins, name, "WORD")


@cache
def patterns() -> tuple[tuple[str, str], ...]:
    """Place and text of every pattern of the package, also of those put together from parts."""
    return tuple(_patterns())


def _patterns() -> Iterator[tuple[str, str]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        module = "borewright." + ".".join(path.relative_to(PACKAGE).with_suffix("").parts)
        for node in nodes(path):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Attribute)
                and isinstance(node.func.value, ast.Name)
                and node.func.value.id == "re"
                and node.func.attr in FUNCTIONS
            ):
                yield f"{path.relative_to(PACKAGE)}:{node.lineno}", value(node.args[0], module)


def value(node: ast.expr, module: str) -> str:
    """What an expression of a module is: a literal, or made of the module's own names."""
    if isinstance(node, ast.Constant):
        return str(node.value)
    names = vars(importlib.import_module(module.removesuffix(".__init__")))
    return str(eval(compile(ast.Expression(node), module, "eval"), dict(names), Names(names)))


def repeats_of(tree: Any, inside: bool = False) -> Iterator[str]:
    """Each unbounded repeat that stands inside another one."""
    for operation, argument in tree:
        within = inside
        if operation in REPEATS:
            _, most, body = argument
            if most > FEW_TURNS:
                if inside:
                    yield str(body)
                within = True
        for part in parts(argument):
            yield from repeats_of(part, within)


def parts(argument: Any) -> Iterator[Any]:
    """The patterns inside an operation's argument."""
    if isinstance(argument, parser.SubPattern):
        yield argument
    elif isinstance(argument, (tuple, list)):
        for part in argument:
            yield from parts(part)


def test_the_walk_finds_nested_repeats():
    assert list(repeats_of(parser.parse(r"(?:[0-9]+)*x")))
    assert list(repeats_of(parser.parse(r"(a|(b*))+")))
    assert not list(repeats_of(parser.parse(r"a+b*(?:c+)?")))


def test_patterns_are_found():
    assert len(patterns()) > 50


@every(("place", "pattern"), patterns)
def test_no_nested_repeats(place, pattern):
    assert list(repeats_of(parser.parse(pattern))) == []


def resolve(text: str) -> object:
    return resolve_thread(THREAD.asked({"thread": text}).request)


def finish(text: str) -> object:
    return allow_finish(ALLOWANCE.asked({"thread": "M8", "finish": text}).request)


def decode(text: str) -> object:
    return decode_marking(DECODE.asked({"marking": text}).request)


def depth(text: str) -> object:
    return HOLE_SPEC.asked({"thread": "M8", "hole": {"type": "blind", "full_thread_depth": text}})


def calls(read: Callable[[str], object], text: str) -> int:
    """Calls of functions, Python's and C's, that reading a text takes."""
    counted = 0

    def count(_frame: object, event: str, _argument: object) -> None:
        nonlocal counted
        counted += event in ("call", "c_call")

    sys.setprofile(count)
    try:
        with contextlib.suppress(BorewrightError):
            read(text)
    finally:
        sys.setprofile(None)
    return counted


HOSTILE = (
    "1",
    "1 ",
    "1/",
    "1-",
    "M",
    "(",
    "1.",
    "x1",
    "- ",
    "½",
    "UNC-",
    "M8x",
    " \t",
    "#",
    "1/2-13 UNC ",
    "é",
    "9e",
    "TYPE ",
)


@every("read", [resolve, finish, decode, depth])
@every("piece", HOSTILE)
def test_work_grows_with_length(read, piece):
    """Twice the text takes at most three times the calls, once the tables are loaded."""
    short, long = (f"1/2-13 {(piece * length)[:length]}!" for length in (90, 180))
    calls(read, short.replace("!", "?")), calls(read, long.replace("!", "?"))
    assert calls(read, long) <= 3 * calls(read, short) + 200
