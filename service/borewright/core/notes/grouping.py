"""Which elements of a note belong to one hole."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import islice, takewhile

from .grammar import Element
from .reading import Reading

#: Counts that stand before what they count.
_BEFORE = frozenset({"C1", "C7", "C11", "C2"})
_DRILLS = frozenset({"drill", "drill_and_tap", "drill_word"})
_COUNTED = _DRILLS | {"thread", "tap", "place"}


def holes(reading: Reading, text: str) -> Iterator[tuple[Element, ...]]:
    """The elements of each hole in the ``reading`` of ``text``, in the order of the note. Together they are all
    elements.

    A hole begins at a label, at a second thread, at a count that a thread or a drill follows, and behind a blank line,
    ``;`` or AND at its count, drill or thread.
    """
    current = _Group()
    threads = sum(one.reads == "thread" for one in reading.elements)
    for place, element in enumerate(reading.elements):
        threads -= element.reads == "thread"
        rest = _Rest(reading, place, has_thread=bool(threads))
        if current.elements and element.reads != "joining" and _begins(element, current, rest, text):
            yield tuple(current.elements)
            current = _Group()
        current.add(element)
    if current.elements:
        yield tuple(current.elements)


class _Group:
    """Elements of one hole so far."""

    def __init__(self) -> None:
        self.elements: list[Element] = []
        self.reads: set[str] = set()

    def add(self, element: Element) -> None:
        self.elements.append(element)
        self.reads.add(element.reads)


class _Rest:
    """What of a reading stands from one of its elements on; ``has_thread``: whether another thread follows."""

    def __init__(self, reading: Reading, place: int, *, has_thread: bool) -> None:
        self.reading, self.place, self.has_thread = reading, place, has_thread

    @property
    def following(self) -> str:
        """What the next element reads, joining words and references left out."""
        rest = islice(self.reading.elements, self.place + 1, self.place + 12)
        return next((one.reads for one in rest if one.reads not in ("joining", "reference")), "")

    def is_labelled(self, last: int) -> bool:
        """Whether a label stands between a place of the copy and the element."""
        labels = self.reading.labels
        first, end = (bisect_left(labels, (at,)) for at in (last, self.reading.elements[self.place].start))
        return first < end


def _begins(element: Element, current: _Group, rest: _Rest, text: str) -> bool:
    if rest.is_labelled(current.elements[-1].end):
        return True
    if (
        element.reads == "count"
        and element.rule in _BEFORE
        and ("fitted" in current.reads or (rest.following == "fitted" and "thread" in current.reads))
    ):
        return "count" in current.reads or _opens_line(element, text)
    if current.reads.isdisjoint(("thread", "size_and_tap")):
        return False
    if element.reads == "thread" or (element.reads == "fitted" and "count" not in current.reads):
        return True
    if element.reads == "count" and element.rule in _BEFORE:
        return rest.following in _COUNTED and rest.has_thread and _apart(element, current, text)
    if element.reads not in _DRILLS:
        return False
    strong = _after_blank_line(element, text) or _parted(current.elements)
    return (strong or (not current.reads.isdisjoint(_DRILLS) and _opens_line(element, text))) and rest.has_thread


def _apart(element: Element, current: _Group, text: str) -> bool:
    """Whether a count is not that of the thread before it: one stands already, or by its place on the line.

    ``2X`` counts what follows, but at the end of a line what stands before it there; PLACES count what stands before,
    also from a line of their own, but at the beginning of a line what follows on it.
    """
    if "count" in current.reads:
        return True
    opens, closes = _opens_line(element, text), _closes_line(element, text)
    if element.rule == "C2":
        return opens and not closes
    return opens or not closes or _parted(current.elements)


def _parted(current: Sequence[Element]) -> bool:
    """Whether ``;`` or AND stands at the end of what was read."""
    joining = takewhile(lambda one: one.reads == "joining", reversed(current))
    return any({"semicolon", "and"} & token.kinds for one in joining for token in one.tokens)


def _after_blank_line(element: Element, text: str) -> bool:
    before = text[: element.start]
    return before[len(before.rstrip()) :].count("\n") > 1


def _closes_line(element: Element, text: str) -> bool:
    return not text[element.end :].partition("\n")[0].strip()


def _opens_line(element: Element, text: str) -> bool:
    return not text[: element.start].rpartition("\n")[2].strip()
