"""Damage by copying and scanning: mended only where exactly one repair of a text that reads as nothing reads whole."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

from .characters import DIAMETER, Copy
from .general import lines
from .reading import Reading, Work, read_copy
from .words import english_words, phrases

#: Characters that are taken for each other.
_ALIKE = {
    "O": "0", "o": "0", "Q": "0", "D": "0", "l": "1", "I": "1", "i": "1", "|": "1", "S": "5", "s": "5", "B": "8",
    "Z": "2", "z": "2", "G": "6", "b": "6", "0": "O", "1": "I", "5": "S", "8": "B", "2": "Z", "6": "G",
}  # fmt: skip
_PAIRS = (("LI", "U"), ("RN", "M"), ("VV", "W"), ("CL", "D"), ("I-I", "H"), ("l-l", "H"))
_RUN = re.compile(r"[^ \n]+")
_WORD = re.compile(r"[A-Za-z]{4,14}")
_SAYS = re.compile(r"[A-Za-z0-9]")
_CLASS = re.compile(r"-(6[A-Z]|[A-Za-z]H)$")
_ZERO = re.compile(r"(?<![0-9A-Za-z.,])0(?=[.,][0-9]|[1-9][0-9]*[.,][0-9]|[1-9][0-9])")
#: Bounds of the work: texts of a note that are not read, its damaged places, repairs tried of one place, and of all.
_MOST_UNREAD, _MOST_PLACES, _MOST_OF_ONE, _MOST_TRIES, _LONGEST_RUN = 12, 6, 16, 40, 24
#: Tokens that the repairs of a note take to try, on one another.
_OF_REPAIRS = 400
#: Words of letters that are taken for figures, which are none.
_WHOLE = frozenset({"DO", "GO", "ID", "IS", "OD", "SO"})
#: What is no reason to take a word for another one.
_SAYS_NOTHING = frozenset({"joining", "hole_word", "tap", "reference", "other", "place"})
_NEIGHBOURS, _NEAR = 4, 100


def mend(copy: Copy, work: Work) -> tuple[Copy, Reading]:
    """``copy`` with what one repair alone makes whole mended and told in it, and its reading, within the bound of
    ``work``.

    Source: rule T6 of the reference notes.
    """
    reading = read_copy(copy.text, work)
    needed, tries = work.tokens + _OF_REPAIRS, _MOST_TRIES
    for _ in range(2):
        if work.left < needed:
            break
        damaged = _damaged(copy, reading)
        mended = copy
        for start, end in reversed(damaged):
            tried = list(_repairs(copy.text[start:end]))[: min(tries, _MOST_OF_ONE)]
            tries -= len(tried)
            fitting: dict[tuple[str, ...], str] = {}
            for new in tried:
                meaning = _meaning(mended, start, end, new, work)
                if meaning:
                    fitting.setdefault(meaning, new)
            if len(fitting) == 1:
                mended = _repaired(mended, start, end, *fitting.values())
        if mended is copy:
            break
        copy, reading = mended, read_copy(mended.text, work)
    return copy, reading


def _damaged(copy: Copy, reading: Reading) -> list[tuple[int, int]]:
    """Runs without blanks that hold something unread; none where there are too many."""
    unread = [span for span in reading.unread if _SAYS.search(copy.text, *span)]
    if not unread or len(unread) > _MOST_UNREAD:
        return []
    of_all = tuple(lines(copy, reading))
    found: dict[tuple[int, int], None] = {}
    for first, last in unread:
        for start, end in _runs(copy.text, first, last):
            if not any(start in range(*line) for line in of_all):
                found[start, end] = None
            if len(found) > _MOST_PLACES:
                return []
    return list(found)


def _runs(text: str, first: int, last: int) -> Iterator[tuple[int, int]]:
    """The runs without blanks, short enough to be mended, that reach into a span of ``text``."""
    before = text[:first]
    for run in _RUN.finditer(text, max(before.rfind(" "), before.rfind("\n"))):
        if run.start() >= last:
            break
        if len(run[0]) <= _LONGEST_RUN:
            yield run.start(), run.start() + len(run[0].rstrip(",;"))


def _repaired(copy: Copy, start: int, end: int, new: str) -> Copy:
    first, last = copy.span(start, end)
    mended = copy.replaced(start, end, new)
    told = (first, last, f"{copy.text[start:end]!r} is read as {new!r}")
    return Copy(mended.text, mended.starts, mended.ends, (*mended.repairs, told))


def _meaning(copy: Copy, start: int, end: int, new: str, work: Work) -> tuple[str, ...]:
    """What the repaired place says among its neighbours on the line; nothing where any of it is left unread."""
    first, last = _window(copy, start, end)
    begin, finish = start - first, start - first + len(new)
    reading = read_copy(copy.text[first:start] + new + copy.text[end:last], work)
    if any(_meet(span, (begin, finish)) for span in (*reading.unread, *reading.elsewhere)):
        return ()
    elements = [one for one in reading.elements if _meet((one.start, one.end), (begin, finish))]
    tokens = [token for one in elements for token in one.tokens if _meet((token.start, token.end), (begin, finish))]
    names = [token.designation for token in tokens if token.designation is not None]
    if any(token.value == 0 for token in tokens):  # nothing is of size 0: DO is no D0
        return ()
    if any(name.callout is None for name in names) or all(one.reads in _SAYS_NOTHING for one in elements):
        return ()
    said = [one.reads for one in elements] + [str(token.value) for token in tokens if token.value is not None]
    return (*said, *(name.text for name in names))


def _meet(one: tuple[int, int], other: tuple[int, int]) -> bool:
    """Whether two spans have a character in common."""
    return max(one[0], other[0]) < min(one[1], other[1])


def _window(copy: Copy, start: int, end: int) -> tuple[int, int]:
    """The line around a place, at most a few runs on either side."""
    first, last = copy.line_of(start)
    before = list(re.finditer(r"[^ ]+", copy.text[max(first, start - _NEAR) : start]))[-_NEIGHBOURS:]
    after = list(re.finditer(r"[^ ]+", copy.text[end : min(last, end + _NEAR)]))[:_NEIGHBOURS]
    return (
        max(first, start - _NEAR) + before[0].start() if before else start,
        end + after[-1].end() if after else end,
    )


def _repairs(chunk: str) -> Iterator[str]:
    """What a damaged run may have been, each once; nothing for a word that is whole."""
    if chunk.upper() in _WHOLE:
        return
    yield from dict.fromkeys(one for one in _every_repair(chunk) if one != chunk)


def _every_repair(chunk: str) -> Iterator[str]:
    yield _ZERO.sub(DIAMETER, chunk, count=1)
    places = [place for place, sign in enumerate(chunk) if sign in _ALIKE][:8]
    yield from (_with(chunk, (place,)) for place in places)
    for old, new in _PAIRS:
        yield chunk.replace(old, new, 1)
    if class_text := _CLASS.search(chunk):
        yield chunk[: class_text.start()] + "-6H"
    yield from _words(chunk)
    for pair in combinations(places[:5], 2):
        if chunk[pair[0]].isdigit() == chunk[pair[1]].isdigit():
            yield _with(chunk, pair)


def _with(chunk: str, places: tuple[int, ...]) -> str:
    signs = list(chunk)
    for place in places:
        signs[place] = _ALIKE[signs[place]]
    return "".join(signs)


def _words(chunk: str) -> Iterator[str]:
    """The run with a misspelled word put right: one slip, or two in a long word, the first letter right."""
    for word in _WORD.finditer(chunk):
        written = word[0].upper()
        if written in phrases():
            continue
        slips = 2 if len(written) > 6 else 1
        for known in english_words():
            near = known[0] == written[0] and abs(len(known) - len(written)) <= slips
            if near and _distance(known, written, slips) <= slips:
                yield chunk[: word.start()] + known + chunk[word.end() :]


def _distance(one: str, other: str, most: int) -> int:
    """Letters to change, add or leave out (neighbours that changed places count one); above ``most`` any number."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, left in enumerate(one, 1):
        earlier, before, row = before, row, [i]
        for j, right in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (left != right))
            if i > 1 and j > 1 and left == other[j - 2] and one[i - 2] == right:
                cost = min(cost, earlier[j - 2] + 1)
            row.append(cost)
        if min(row) > most:
            break
    return row[-1]
