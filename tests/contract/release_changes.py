"""Which answers a release changed, by the comparison that the service makes for its callers, in a paragraph."""

from __future__ import annotations

import json
import re
import textwrap
from collections import Counter
from collections.abc import Mapping
from typing import Any

from borewright.contract.compare.differences import Difference, Walk
from borewright.contract.compare.subjects import MATTERING, matters
from borewright.contract.sections.detail import BY_DETAIL

JSON, HOLES = "application/json", "/v1/hole-specs"
WIDTH = 118
#: How a release names what changed, by subject of the comparison.
NAMES = {
    "tool": "tools",
    "depth": "depths",
    "limit": "limits",
    "gauge": "gauges",
    "operation": "operations",
    "decision": "decisions",
    "caution": "cautions",
}
#: What a record leaves of a member that named a version, and of a number whose decimals look like one.
_GAP = re.compile(r"(?<={),+|,(?=[,}])|(?<=[0-9])\.(?=[],}])")

Answer = tuple[int, str]


class Changes:
    """Counts the answers that differ, by what they differ in."""

    def __init__(self) -> None:
        self._holes = self._other = self._other_differ = self._words = self._status = 0
        self._mattering = Counter[str]()
        self._matter = 0
        self._examples: dict[str, str] = {}

    def add(self, path: str, form: str, body: Mapping[str, Any], before: Answer, after: Answer) -> None:
        """Compare an answer, its status and text, with the one of now."""
        if path != HOLES or form != JSON:
            self._other += 1
            self._other_differ += before != after
            return
        self._holes += 1
        if before == after:
            return
        if before[0] != after[0] or before[0] != 200:
            self._status += before[0] != after[0]
            self._words += before[0] == after[0]
            return
        self._add_differences(body, differences(body, before[1], after[1]))

    def _add_differences(self, body: Mapping[str, Any], found: list[Difference]) -> None:
        subjects = {one.subject for one in found if matters(one.subject)}
        self._matter += bool(subjects)
        self._words += not subjects
        self._mattering.update(subjects)
        for one in found:
            if one.subject in subjects and isinstance(one.after, (str, int, float)):
                self._examples.setdefault(one.subject, f"{_name(body)}: {one.pointer} {one.before} -> {one.after}")

    def paragraph(self) -> str:
        """The paragraph, an item of a list."""
        if not (self._matter or self._words or self._status or self._other_differ):
            text = f"- Of {self._holes} recorded hole specifications and {self._other} other answers none changed."
        else:
            text = (
                f"- Of {self._holes} recorded hole specifications {self._matter} changed in what the shop must know"
                f"{self._by_subject()}, {self._words} in other figures, words or sources only;"
                f" {self._status} are answered or refused that were not. Of {self._other} other answers"
                f" {self._other_differ} differ. {self._by_example()}"
            )
        return textwrap.fill(text, WIDTH, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)

    def _by_subject(self) -> str:
        counts = [f"{NAMES[one]} {self._mattering[one]}" for one in MATTERING if self._mattering[one]]
        return f" ({', '.join(counts)})" if counts else ""

    def _by_example(self) -> str:
        return " ".join(f"For example {self._examples[one]}." for one in MATTERING if one in self._examples)


def differences(body: Mapping[str, Any], before: str, after: str) -> list[Difference]:
    """Where two recorded replies to ``body`` differ."""
    detail = body.get("detail") or "full"
    earlier, later = (json.loads(_GAP.sub("", text)) for text in (before, after))
    return list(Walk(texts_alone=detail == "routing").differences(BY_DETAIL[detail], earlier, later))


def _name(body: Mapping[str, Any]) -> str:
    thread = body["thread"]
    return thread if isinstance(thread, str) else f"{thread.get('system')} {thread.get('size')}"
