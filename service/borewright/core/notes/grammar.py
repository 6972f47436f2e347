"""The form of a rule, and how rules are tried: each token is looked at once, forward, without going back.

A rule's ``form`` is a line of items parted by blanks. An item names kinds of tokens (``size``, ``size|numbered``); with
``?`` behind it the item may be missing; ``place:size`` gives the token a name. Items behind the form look ahead: with
``>`` before it a token must follow (``>limit?``: it may), with ``!`` it must not. An item that may be missing is taken
wherever it stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from borewright.core.caches import cached, read_once

from .tokens import Token

START = "start"


class Counted(Protocol):
    """What counts the rules that are tried."""

    steps: int


class FormItem(NamedTuple):
    """One place of a form."""

    kinds: frozenset[str]
    name: str | None
    optional: bool
    ahead: bool
    absent: bool


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of the grammar: ``reads`` is what a text of its ``form`` means, ``example`` a text that it reads.

    ``after``: kinds of what was read just before; empty means anything.
    """

    name: str
    reads: str
    form: str
    example: str
    after: frozenset[str] = frozenset()

    def items(self) -> tuple[FormItem, ...]:
        """The form taken apart."""
        return tuple(_item(word) for word in self.form.split())


class Element(NamedTuple):
    """What a rule read: its meaning, its tokens and those that the form names."""

    reads: str
    rule: str
    tokens: tuple[Token, ...]
    named: Mapping[str, Token]

    @property
    def start(self) -> int:
        """First place in the copy."""
        return self.tokens[0].start

    @property
    def end(self) -> int:
        """Place behind the last one."""
        return self.tokens[-1].end


def _item(word: str) -> FormItem:
    ahead, absent = word[0] == ">", word[0] == "!"
    word = word.lstrip(">!")
    optional = word.endswith("?")
    name, _, kinds = word.rstrip("?").rpartition(":")
    return FormItem(frozenset(kinds.split("|")), name or None, optional, ahead, absent)


class Grammar:
    """Rules in the order in which they are tried."""

    def __init__(self, rules: Iterable[Rule]) -> None:
        self.rules = tuple(rules)
        self.items = tuple(rule.items() for rule in self.rules)

    def match(self, tokens: Sequence[Token], place: int, before: str, work: Counted) -> Element | None:
        """What the first rule that fits reads at the ``place`` in ``tokens``, None where none fits.

        Args: ``before`` what was read before; ``work`` counts the rules tried.
        """
        following = tokens[place + 1].kinds if place + 1 < len(tokens) else frozenset()
        for one in _possible(tokens[place].kinds, following):
            rule = self.rules[one]
            work.steps += 1
            if rule.after and before not in rule.after:
                continue
            found = _fits(self.items[one], tokens, place)
            if found is not None:
                end, named = found
                return Element(rule.reads, rule.name, tuple(tokens[place:end]), named)
        return None


@cached(1024)
def _possible(first: frozenset[str], second: frozenset[str]) -> tuple[int, ...]:
    """Rules that a token with those kinds can open when that other one follows it."""
    items = grammar().items
    return tuple(place for place in _opening(first) if _may_open(items[place], (first, second)))


@cached(256)
def _opening(first: frozenset[str]) -> tuple[int, ...]:
    """Rules that a token with those kinds can open."""
    return tuple(place for place, items in enumerate(grammar().items) if _may_open(items, (first,)))


def _may_open(items: Sequence[FormItem], kinds: Sequence[frozenset[str]]) -> bool:
    place = 0
    for item in items:
        if place == len(kinds):
            return True
        here = not item.kinds.isdisjoint(kinds[place])
        if item.absent or item.ahead:
            return here != item.absent
        if here:
            place += 1
        elif not item.optional:
            return False
    return True


def _fits(items: Sequence[FormItem], tokens: Sequence[Token], place: int) -> tuple[int, dict[str, Token]] | None:
    named: dict[str, Token] = {}
    ahead, end = 0, len(tokens)
    for item in items:
        at = place + ahead
        here = at < end and not item.kinds.isdisjoint(tokens[at].kinds)
        if item.absent or item.ahead:
            if here != item.absent:
                ahead += here
            elif item.absent or not item.optional:
                return None
        elif here:
            if item.name:
                named[item.name] = tokens[place]
            place += 1
        elif not item.optional:
            return None
    return place, named


@read_once
def grammar() -> Grammar:
    """The grammar of hole notes."""
    from .rules import RULES  # the rules use the form that is defined here

    return Grammar(RULES)
