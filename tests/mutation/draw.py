"""Which mistakes are tried: drawn by the text of their place, so that a draw stays when other lines come and go."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from hashlib import sha256
from itertools import islice
from typing import TypeVar

from loaded import SOURCE
from mutants import Cell, Code, cells, changes
from slips import Slip, slips

#: The domain, and what turns its figures and texts into those of a request or reply.
CODE = (
    "core/**/*.py", "contract/unit_view.py", "contract/texts.py", "contract/fields/units.py",
    "contract/fields/quantity.py", "contract/fields/request_units.py", "contract/sections/reply.py",
    "contract/sections/reply_fields.py", "contract/sections/schema.py", "contract/sections/section_*.py",
    "contract/sections/operations.py", "contract/sections/figures_only.py",
)  # fmt: skip
TABLES = ("tables/**/*.csv",)
One = TypeVar("One", Cell, Code, Slip)


def code(seed: int, count: int, only: str = "") -> list[Code]:
    """Changes of the code, each as likely as every other."""
    found = [one for _, several in _of_files(CODE, changes, only) for one in several]
    drawn = (
        one.shown((SOURCE / one.file).read_text("utf-8"))
        for one in sorted(found, key=lambda one: _chance(seed, one.key))
    )
    return list(islice(filter(_is_python, drawn), count))


def _is_python(change: Code | Slip) -> bool:
    """Whether the changed line can be read at all: ``not found := text`` cannot, and tries nothing."""
    try:
        compile(change.text((SOURCE / change.file).read_text("utf-8")), change.file, "exec")
    except SyntaxError:
        return False
    return True


def figures(seed: int, count: int, only: str = "", unread: Container[tuple[str, str]] = ()) -> list[Cell]:
    """Cells of tables, each table as likely as every other: one of ten rows is tried as often as one of a thousand.

    ``unread`` columns, by file and name, are left out.
    """
    tables = (
        (file, [one for one in several if (file, one.change.partition(" ")[0]) not in unread])
        for file, several in _of_files(TABLES, cells, only)
    )
    return _in_turn(seed, tables)[:count]


def others(seed: int, count: int, only: str = "") -> list[Slip]:
    """Slips of the code, each kind as likely as every other."""
    kinds: defaultdict[str, list[Slip]] = defaultdict(list)
    for _, several in _of_files(CODE, slips, only):
        for one in several:
            kinds[one.kind].append(one)
    return list(islice(filter(_is_python, _in_turn(seed, kinds.items())), count))


def _in_turn(seed: int, groups: Iterable[tuple[str, list[One]]]) -> list[One]:
    """All of several groups, each group's coming as often as another's while it lasts.

    The nth of a group comes at a time that only its name and n decide, as calls come to an exchange.
    """
    arrivals = []
    for name, several in groups:
        at = 0.0
        for number, one in enumerate(sorted(several, key=lambda one: _chance(seed, one.key))):
            at -= math.log(1 - _chance(seed, f"{name}|{number}"))
            arrivals.append((at, one))
    return [one for _, one in sorted(arrivals, key=lambda pair: pair[0])]


def _of_files(
    patterns: Sequence[str], of: Callable[[str, str], Iterator[One]], only: str
) -> Iterator[tuple[str, list[One]]]:
    for path in sorted({path for pattern in patterns for path in SOURCE.glob(pattern)}):
        file = str(path.relative_to(SOURCE))
        if only in file and (found := list(of(path.read_text("utf-8"), file))):
            yield file, found


def _chance(seed: int, text: str) -> float:
    """A number from 0 to 1 that depends on seed and text alone."""
    return int.from_bytes(sha256(f"{seed}|{text}".encode()).digest()[:8]) / 2**64
