"""The words of hole notes: phrases of six languages and what they mean, longest first."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.tables import load

Phrase = tuple[str, ...]


@read_once
def phrases() -> Mapping[str, tuple[tuple[Phrase, frozenset[str]], ...]]:
    """First word -> the phrases that begin with it and their meanings, longest phrase first."""
    by_first: dict[str, list[tuple[Phrase, frozenset[str]]]] = {}
    for row in load("note_words").rows:
        phrase = tuple(row["words"].replace("'", "").split())
        by_first.setdefault(phrase[0], []).append((phrase, frozenset(row["meaning"].split())))
    return MappingProxyType(
        {first: tuple(sorted(found, key=lambda one: -len(one[0]))) for first, found in by_first.items()}
    )


@read_once
def english_words() -> tuple[str, ...]:
    """Words of more than three letters out of English phrases: what a misspelled word may be."""
    rows = [row["words"].replace("'", "").split() for row in load("note_words").rows if row["language"] == "en"]
    return tuple(dict.fromkeys(word for words in rows for word in words if len(word) > 3))


@read_once
def unspaced() -> Mapping[str, tuple[str, ...]]:
    """Words of a script that puts no blanks between words, by their first character, longest first."""
    by_first: dict[str, list[str]] = {}
    for word in sorted((first for first in phrases() if not first.isascii()), key=len, reverse=True):
        by_first.setdefault(word[0], []).append(word)
    return MappingProxyType({first: tuple(words) for first, words in by_first.items()})
