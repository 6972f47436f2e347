"""Mistakes of other kinds than an exchanged operator: what was left out, swapped, or taken for its neighbour."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import TypeVar

from mutants import HELD, Mutant

#: As ``core/model/status.py`` has them; what is tried is loaded later.
STATUSES = ("published", "computed", "measured", "second_hand", "common_practice", "from_memory")
#: Taken for each other.
_PAIRS = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}
#: Calls whose order of arguments makes no difference.
_ANY_ORDER = {"min", "max", "zip", "hypot", "gcd"}
#: Calls that only a type checker reads.
_TYPES = {"cast", "TypeVar", "ParamSpec", "NewType"}


@dataclass(frozen=True)
class Slip(Mutant):
    """A piece of a module, by its bytes from ``start`` to ``end``, that is written otherwise."""

    kind: str
    line: int
    start: int
    end: int
    instead: str

    def text(self, source: str) -> str:
        """The module with the piece exchanged; lines below it stay where they are."""
        raw = source.encode()
        missing = raw.count(b"\n", self.start, self.end) - self.instead.count("\n")
        rest = raw[self.end :].split(b"\n", 1)
        rest[0] += b"\n" * missing
        return (raw[: self.start] + self.instead.encode() + b"\n".join(rest)).decode()


def slips(source: str, file: str) -> Iterator[Slip]:
    """Every slip of a module."""
    raw = source.encode()
    starts = [0, *accumulate(len(line) for line in raw.splitlines(keepends=True))]
    alike: Counter[tuple[str, str]] = Counter()
    for node in _answering(ast.parse(source)):
        for kind, piece, instead in _otherwise(node):
            place = raw[starts[piece.lineno - 1] : starts[piece.lineno]].decode().strip()
            assert piece.end_lineno is not None
            assert piece.end_col_offset is not None
            start = starts[piece.lineno - 1] + piece.col_offset
            end = starts[piece.end_lineno - 1] + piece.end_col_offset
            alike[kind, place] += 1
            if not HELD.match(place):
                key = f"{file}|{kind}|{place}|{alike[kind, place]}"
                change = f"{kind}: {' '.join(raw[start:end].decode().split())} -> {instead}"
                yield Slip(file, place, change, key, kind, piece.lineno, start, end, instead)


Piece = ast.expr | ast.stmt
One = TypeVar("One")


def _answering(node: ast.AST, *, inside: bool = False) -> Iterator[Piece]:
    """The statements and expressions of functions that can change an answer, from the outside in."""
    for name, value in ast.iter_fields(node):
        for child in value if isinstance(value, list) else [value]:
            if not isinstance(child, ast.AST) or name in ("annotation", "returns", "decorator_list", "bases"):
                continue
            if isinstance(child, (ast.JoinedStr, ast.Assert)):  # before 3.12 nobody tells where a piece of a text is
                continue
            if isinstance(child, ast.Call) and _called(child) in _TYPES:
                continue
            if inside and isinstance(child, (ast.expr, ast.stmt)):
                yield child
            yield from _answering(child, inside=inside or isinstance(child, (ast.FunctionDef, ast.Lambda)))


def _called(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")


def _otherwise(node: Piece) -> Iterator[tuple[str, Piece, str]]:
    """Kind of each slip at a node, the piece that it is made in, and what it makes of it."""
    if isinstance(node, (ast.AugAssign, ast.Raise)) or (
        isinstance(node, ast.Expr) and not isinstance(node.value, ast.Constant)
    ):
        yield "statement", node, "pass"
    elif isinstance(node, (ast.If, ast.IfExp)):
        yield "condition", node.test, "True"
        yield "condition", node.test, "False"
    elif isinstance(node, ast.Constant) and node.value in STATUSES:
        yield "status", node, repr(STATUSES[STATUSES.index(node.value) - 1])
    elif isinstance(node, ast.expr):
        for kind, other in _rewritten(node):
            yield kind, node, ast.unparse(other)


def _rewritten(node: ast.expr) -> Iterator[tuple[str, ast.expr]]:
    if isinstance(node, (ast.Tuple, ast.List)) and isinstance(node.ctx, ast.Load):
        for rest in _without_one(node.elts):
            yield "element", type(node)(rest, node.ctx)
    elif isinstance(node, ast.Set):
        for rest in _without_one(node.elts):
            yield "element", ast.Set(rest)
    elif isinstance(node, ast.BoolOp):
        for rest in _without_one(node.values):
            yield "operand", ast.BoolOp(node.op, rest) if len(rest) > 1 else rest[0]
    elif isinstance(node, (ast.ListComp, ast.SetComp, ast.GeneratorExp, ast.DictComp)):
        yield from _filters(node)
    elif isinstance(node, ast.Call):
        yield from _calls(node)


def _without_one(several: list[One]) -> Iterator[list[One]]:
    """A list of at least two without each of its members."""
    if len(several) > 1:
        for place in range(len(several)):
            yield [*several[:place], *several[place + 1 :]]


def _filters(node: ast.ListComp | ast.SetComp | ast.GeneratorExp | ast.DictComp) -> Iterator[tuple[str, ast.expr]]:
    for place, one in enumerate(node.generators):
        if one.ifs:
            bare = ast.comprehension(one.target, one.iter, [], one.is_async)
            several = [*node.generators[:place], bare, *node.generators[place + 1 :]]
            yield "filter", type(node)(**{**dict(ast.iter_fields(node)), "generators": several})


def _calls(node: ast.Call) -> Iterator[tuple[str, ast.expr]]:
    args = node.args
    if isinstance(node.func, ast.Name) and node.func.id in _PAIRS:
        yield "neighbour", ast.Call(ast.Name(_PAIRS[node.func.id], ast.Load()), args, node.keywords)
    for place, (one, two) in enumerate(pairwise(args)):
        stars = isinstance(one, ast.Starred) or isinstance(two, ast.Starred)
        if not stars and _called(node) not in _ANY_ORDER and ast.dump(one) != ast.dump(two):
            yield "swap", ast.Call(node.func, [*args[:place], two, one, *args[place + 2 :]], node.keywords)
    for place, named in enumerate(node.keywords):
        if named.arg not in (None, "strict"):
            yield "keyword", ast.Call(node.func, args, [*node.keywords[:place], *node.keywords[place + 1 :]])
