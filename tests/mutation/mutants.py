"""The small mistakes that are tried: a cell moved by its last digit, an operator or number of the code exchanged.

Cells are ours, because no tool knows tables; the code is changed by the operators of cosmic-ray.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import takewhile

from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator

#: Operators that make what a slip of the hand makes; those that only make nonsense are left out.
OPERATORS = (
    "NumberReplacer", "AddNot", "ReplaceAndWithOr", "ReplaceOrWithAnd", "ReplaceTrueWithFalse", "ReplaceFalseWithTrue",
    "ReplaceUnaryOperator_Delete_Not", "ReplaceUnaryOperator_Delete_USub",
    *(f"ReplaceBinaryOperator_{pair}" for pair in ("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "Pow_Mul")),
    *(f"ReplaceComparisonOperator_{pair}" for pair in ("Lt_LtE", "LtE_Lt", "Gt_GtE", "GtE_Gt", "Eq_NotEq", "NotEq_Eq")),
)  # fmt: skip
_FIGURE = re.compile(r"-?\d+(?:\.\d+)?")
#: Columns whose digits are names of things, not figures that an answer is made of.
NAMES = {
    "name", "size", "uns", "material_id", "alloy", "label", "drill_label", "edition", "document", "locator",
    "representative",
}  # fmt: skip
#: How much a cache keeps, how a record is stored and what only a type checker reads makes no answer.
HELD = re.compile(
    r"@|_?[A-Z_]*(?:CACHED|KEPT|ENTRIES|WRITERS|CHOICES|SHORTLISTS|THREADS|MATES|STEPS) = \d|if TYPE_CHECK"
)
#: Before a star that hands arguments on, or makes those behind it named ones.
_STARS = re.compile(r"(?:^|[(\[{,])\s*$")
#: Two lists that are as long as each other by their making: what holds that makes no answer.
_AS_LONG = re.compile(r"\bstrict=$")


@dataclass(frozen=True)
class Mutant:
    """One change of one file below ``service/borewright``: ``place`` is the line that is changed, ``change`` how.

    ``key`` is made of the text of the line and not of its number, so that it stays when other lines come and go.
    """

    file: str
    place: str
    change: str
    key: str

    def __str__(self) -> str:
        return f"{self.file}: {self.place} => {self.change}"


@dataclass(frozen=True)
class Cell(Mutant):
    """A cell of a table whose last digit is one more, or less where it is a nine."""

    line: int
    column: int

    def text(self, source: str) -> str:
        """The table with the cell moved."""
        lines = source.splitlines(keepends=True)
        cells = next(csv.reader([lines[self.line]]))
        cells[self.column] = moved(cells[self.column])
        written = io.StringIO()
        csv.writer(written, lineterminator="\n").writerow(cells)
        return "".join((*lines[: self.line], written.getvalue(), *lines[self.line + 1 :]))


@dataclass(frozen=True)
class Code(Mutant):
    """The nth place of a module at which an operator of cosmic-ray changes something."""

    operator: str
    occurrence: int
    line: int

    def text(self, source: str) -> str:
        """The module with the change."""
        changed = mutate_code(source, get_operator(f"core/{self.operator}")(), self.occurrence)
        assert isinstance(changed, str)
        return changed

    def shown(self, source: str) -> Code:
        """Itself with the changed line as the ``change``."""
        return replace(self, change=self.text(source).splitlines()[self.line - 1].strip())


def moved(figure: str) -> str:
    """A printed figure moved by one in its last digit: 0.4375 -> 0.4376, 19 -> 18."""
    return figure[:-1] + str(8 if figure[-1] == "9" else int(figure[-1]) + 1)


def cells(source: str, file: str) -> Iterator[Cell]:
    """Every figure of a table."""
    lines = source.splitlines()
    first = len(list(takewhile(lambda line: line.startswith("# "), lines)))
    columns = next(csv.reader([lines[first]]))
    for number in range(first + 1, len(lines)):
        for column, cell in enumerate(next(csv.reader([lines[number]]))):
            if _FIGURE.fullmatch(cell) and columns[column] not in NAMES:
                key = f"{file}|{columns[column]}|{lines[number]}"
                change = f"{columns[column]} {cell} -> {moved(cell)}"
                yield Cell(file, lines[number][:100], change, key, number, column)


def changes(source: str, file: str) -> Iterator[Code]:
    """Every change of a module that an operator makes."""
    nodes = list(ast_nodes(get_ast(source)))
    lines = source.splitlines()
    for name in OPERATORS:
        operator = get_operator(f"core/{name}")()
        places = [position for node in nodes for position in operator.mutation_positions(node)]
        alike: Counter[str] = Counter()
        for occurrence, ((line, column), _) in enumerate(places):
            text = lines[line - 1].strip()
            alike[text] += 1
            before = lines[line - 1][:column]
            if not (
                HELD.match(text)
                or _AS_LONG.search(before)
                or (name.startswith("ReplaceBinary") and _STARS.search(before))
            ):
                key = f"{file}|{name}|{text}|{alike[text]}"
                yield Code(file, text, name, key, name, occurrence, line)
