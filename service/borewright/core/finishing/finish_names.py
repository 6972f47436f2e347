"""How finishes are called: document numbers, and names of the trade with the documents they stand for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from borewright.core.caches import read_once
from borewright.core.model import Unit
from borewright.tables import load

from .designators import Item, items, phrase
from .products import Phrase, Product, products, specifications


@dataclass(frozen=True, slots=True)
class Name:
    """A name of the trade and the specifications it stands for, by the unit of the thread's standard."""

    words: Phrase
    specifications: Mapping[Unit, tuple[str, ...]]
    implied: tuple[Item, ...]
    families: frozenset[str]

    def suits(self, row: Product) -> bool:
        """Whether the name may stand beside the finish ``row``."""
        return row.specification.family in self.families or "*" in self.families


@read_once
def keys() -> tuple[tuple[Phrase, str], ...]:
    """Document numbers, longest first, with the specification each stands for."""
    pairs = [(key, one.name) for one in specifications().values() for key in one.keys]
    return tuple(sorted(pairs, key=lambda pair: -len(pair[0])))


@read_once
def names() -> tuple[Name, ...]:
    """Names of the trade, longest first."""
    found = [
        Name(
            phrase(words),
            {
                "in": tuple(row["specifications"].split("|")),
                "mm": tuple((row["specifications_mm"] or row["specifications"]).split("|")),
            },
            tuple(item for part in row["class_keys"].split("&") if part for item in items(part)),
            frozenset(row["families"].split("|")),
        )
        for row in load("finish_names").rows
        for words in row["names"].split("|")
    ]
    return tuple(sorted(found, key=lambda name: -len(name.words)))


@read_once
def labels() -> tuple[str, ...]:
    """Everything that may be meant: specifications, specifications with class, and names of the trade."""
    rows = [one.label for group in products().values() for one in group]
    return (*specifications(), *rows, *(" ".join(name.words) for name in names()))
