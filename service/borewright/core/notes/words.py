"""The words of hole notes: phrases of six languages and what they mean."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from borewright.core.caches import read_once
from borewright.tables import load

Phrase = tuple[str, ...]


@read_once
def phrases() -> Mapping[str, tuple[tuple[Phrase, frozenset[str]], ...]]:
    """First word -> the phrases that begin with it and their meanings."""
    by_first: dict[str, list[tuple[Phrase, frozenset[str]]]] = {}
    for row in load("note_words").rows:
        phrase = tuple(row["words"].replace("'", "").split())
        by_first.setdefault(phrase[0], []).append((phrase, frozenset(row["meaning"].split())))
    return MappingProxyType({first: tuple(found) for first, found in by_first.items()})


class Branch(NamedTuple):
    """What the words so far mean (None where they are no phrase yet), and the words that may follow."""

    meanings: frozenset[str] | None
    further: Mapping[str, Branch]


@read_once
def first_words() -> Mapping[str, Branch]:
    """The phrases as a tree: what does not go on in it needs no further look."""
    every = [(phrase, meanings) for found in phrases().values() for phrase, meanings in found]
    return _branches(every, 0)


def _branches(every: list[tuple[Phrase, frozenset[str]]], place: int) -> Mapping[str, Branch]:
    by_word: dict[str, list[tuple[Phrase, frozenset[str]]]] = {}
    for phrase, meanings in every:
        if len(phrase) > place:
            by_word.setdefault(phrase[place], []).append((phrase, meanings))
    return MappingProxyType(
        {
            word: Branch(
                next((meanings for phrase, meanings in found if len(phrase) == place + 1), None),
                _branches(found, place + 1),
            )
            for word, found in by_word.items()
        }
    )


@read_once
def english_words() -> tuple[str, ...]:
    """Words of more than three letters out of English phrases: what a misspelled word may be."""
    rows = [row["words"].replace("'", "").split() for row in load("note_words").rows if _is_english(row)]
    return tuple(dict.fromkeys(word for words in rows for word in words if len(word) > 3))


def _is_english(row: Mapping[str, str]) -> bool:
    """Whether a misspelled word may be one of the row: numbers are too like other words."""
    return row["language"] == "en" and "number_word" not in row["meaning"]


@read_once
def unspaced() -> Mapping[str, tuple[str, ...]]:
    """Words of a script that puts no blanks between words, by their first character, longest first."""
    by_first: dict[str, list[str]] = {}
    for word in sorted((first for first in phrases() if not first.isascii()), key=len, reverse=True):
        by_first.setdefault(word[0], []).append(word)
    return MappingProxyType({first: tuple(words) for first, words in by_first.items()})
