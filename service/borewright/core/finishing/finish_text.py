"""A finish as text: which row of the finish table it names, and a thickness if one is written.

Documents come first (``MIL-A-8625``), names of the trade where no document is written (``hard anodize``). The class is
found by the phrases of the table; a type, class or grade that no row explains is refused, never ignored, and so is a
document that is not held. Other words (colour, after-treatment) are listed as not used.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from borewright.core.caches import cached
from borewright.core.errors import FinishError, nearest
from borewright.core.model import Range, Unit

from .designators import Item, find, is_designator, items
from .finish_names import Name, keys, labels, names
from .products import Product, products
from .thickness import Thickness, refuse_unread, thickness

_CACHED = 1024
_STANDARDS_BODIES = frozenset({"ams", "astm", "bs", "din", "en", "iso", "jis", "mil", "nas", "qq", "sae"})
_SMALLEST_DOCUMENT = 100
_FILLERS = frozenset((
    "per", "to", "in", "accordance", "with", "the", "and", "or", "of", "on", "a", "an", "as", "by", "for", "after",
    "before", "use", "using", "spec", "specification", "latest", "revision", "rev", "edition", "finish", "coat",
    "plate", "electroplate", "process", "film", "surface", "part", "hole", "thread", "fastener", "steel", "service",
    "application", "suffix", "thickness", "thick", "min", "max", "minimum", "maximum", "nominal", "um", "mm", "inch",
    "mild", "moderate", "severe", "very", "light", "astm", "mil", "std", "iso", "din", "ams", "sae", "ansi", "asme",
    "fed", "nas", "h", "side", "both", "each", "thk", "nom", "inch", "plus", "minus", "least", "most",
))  # fmt: skip
_METALS = frozenset(("zn", "cd", "ni", "co", "cu", "fe"))
_NOT_A_DOCUMENT = frozenset(("at", "to", "for", "of", "bake", "least"))


@dataclass(frozen=True, slots=True)
class FinishReading:
    """A finish text as read: the row it names, a thickness where one is written, and what was assumed."""

    product: Product
    thickness: Thickness | None
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Match:
    """A row whose class stands in the text, with the places of the words that say so."""

    product: Product
    places: frozenset[int]


@dataclass(slots=True)
class _Text:
    """The words of one finish, and the places already understood; ``editions`` are years and revision letters."""

    said: str
    words: tuple[Item, ...]
    taken: set[int]
    editions: set[int]

    def left(self) -> tuple[Item, ...]:
        """The words, with what is understood blanked out."""
        return tuple(Item("", "") if at in self.taken else item for at, item in enumerate(self.words))


@cached(_CACHED)
def read(
    text: str, *, unit: Unit, bare: Unit | None = None, on_steel: bool = False, thickness_given: bool = False
) -> FinishReading:
    """The finish that a ``text`` names.

    Args:
        text: specification, class, thickness and words of the trade in any order.
        unit: unit of the thread's standard; it chooses between an inch and a metric document for one name.
        bare: unit of a thickness that is written without one; default ``unit``.
        on_steel: the part is steel, which raises the minimum of some classes.
        thickness_given: a thickness is given beside the text, so that no class is needed.

    Raises:
        FinishError: ``finish_unknown``, ``finish_class_unknown``, ``finish_ambiguous``, ``finish_conflict``.

    Source: finishes.csv, finish_specifications.csv, finish_names.csv.
    """
    given = _Text(text, items(text), set(), set())
    written = _documents(given)
    left = given.left()
    name = next((one for one in names() if find(left, one.words, set()) is not None), None)
    if not written and name is None:
        raise FinishError(
            "finish_unknown", f'The finish "{text[:80]}" is not in the tables.', did_you_mean=nearest(text, labels())
        )
    by_name = not written
    if name is not None and (not written or set(written) & set(name.specifications[unit])):
        given.words = (*given.words, *(replace(item, gap=" ") for item in name.implied))
    if by_name and name is not None:
        written = name.specifications[unit]
    if on_steel:
        given.words = (*given.words, Item("steel", " "))
    bare = bare or unit
    match = _row(written, given, in_order=by_name, free=thickness_given, bare=bare)
    given.taken |= match.places
    found, place = thickness(given.words, given.taken, bare=bare)
    given.taken |= place
    _refuse_unread(given, match.product)
    refuse_unread(given.words, given.taken)
    taken_for = _named(name, match.product) if by_name and name is not None else ()
    return FinishReading(match.product, found, (*taken_for, *_unused(given, match.product)))


def _named(name: Name, row: Product) -> tuple[str, ...]:
    said = " ".join(name.words)
    return (f'"{said}" names no document: {row.specification.name} is taken (common practice)',)


def _documents(given: _Text) -> tuple[str, ...]:
    """Specifications whose document number stands in the text, in the order of the text."""
    found: dict[str, int] = {}
    for key, name in keys():
        place = find(given.words, key, given.taken)
        while place is not None:
            given.taken |= set(place)
            _take_edition(given, place.stop)
            found.setdefault(name, place.start)
            place = find(given.words, key, given.taken)
    return tuple(sorted(found, key=lambda name: found[name]))


def _take_edition(given: _Text, at: int) -> None:
    """A revision letter or year written onto a document number: ``416F``, ``B633-19``, ``4042:1999``."""
    while at < len(given.words):
        item = given.words[at]
        letter = item.gap == "" and len(item.text) == 1
        year = item.gap in ("-", ":") and item.text.isdigit() and len(item.text) in (2, 4)
        if not letter and not year:
            return
        given.taken.add(at)
        given.editions.add(at)
        at += 1


def _row(written: tuple[str, ...], given: _Text, *, in_order: bool, free: bool, bare: Unit) -> _Match:
    """The one row the text names; several rows are one where thickness and build-up agree."""
    best = [match for name in written for match in _matches(products()[name], given)]
    if in_order and best:
        first = best[0].product.specification
        best = [match for match in best if match.product.specification is first]
    stated = [match for match in best if match.product.states_thickness] or best
    if not stated:
        return _without_class(written, given, free=free, bare=bare)
    if not all(_same(one.product, other.product) for one, other in pairwise(stated)):
        raise _ambiguous([match.product for match in stated], given)
    return stated[0]


def _matches(rows: Iterable[Product], given: _Text) -> list[_Match]:
    """The rows of one specification that explain most of the text, all of them where they tie."""
    found = [match for row in rows if (match := _match(row, given)) is not None]
    most = max((len(match.places) for match in found), default=None)
    return [match for match in found if len(match.places) == most]


def _match(row: Product, given: _Text) -> _Match | None:
    if not row.alternatives:
        return _Match(row, frozenset())
    places: set[int] = set()
    for way in row.alternatives:
        spots = [find(given.words, part, given.editions) for part in way]
        if all(spot is not None for spot in spots):
            places.update(at for spot in spots if spot is not None for at in spot)
    return _Match(row, frozenset(places)) if places else None


def _same(one: Product, other: Product) -> bool:
    """Whether two rows change a thread by the same amount."""
    if one.after_finish and other.after_finish:
        return True
    return one is other or (
        one.growth == other.growth
        and one.in_holes == other.in_holes
        and one.thickness("in") == other.thickness("in")
        and one.thickness("mm") == other.thickness("mm")
    )


def _without_class(written: tuple[str, ...], given: _Text, *, free: bool, bare: Unit) -> _Match:
    """No row names itself: a thickness makes the class needless, otherwise the class is asked for."""
    rows = [row for name in written for row in products()[name]]
    if all(row.after_finish for row in rows):
        return _Match(rows[0], frozenset())
    said = _class_said(given, rows[0])
    partly = [
        row for row in rows if any(find(given.words, part, given.taken) for way in row.alternatives for part in way)
    ]
    if said and not partly:
        raise _class_unknown(rows[0], said[0], given)
    if not partly and (free or thickness(given.words, given.taken, bare=bare)[0] is not None):
        return _Match(_any_class(products()[written[0]]), frozenset())
    raise _ambiguous(partly or rows, given)


def _class_said(given: _Text, row: Product) -> list[str]:
    """What looks like a class and is not understood: designators, and the number of ``Fe/Zn 8``."""
    left = given.left()
    metal = [
        f"{before.text} {item.text}"
        for before, item in pairwise(left)
        if before.text in _METALS and item.text.isdigit() and item.text
    ]
    return metal + [item.text for item in left if is_designator(item) and not _is_neutral(item.text, row)]


def _any_class(rows: tuple[Product, ...]) -> Product:
    """A specification without its class: only process and build-up fraction are left of its rows."""
    low = min(row.growth.min for row in rows if row.growth.min is not None)
    high = max(row.growth.max for row in rows if row.growth.max is not None)
    nothing = Range(None, None)
    return replace(
        rows[0],
        finish_class=None,
        process=_process_of_all(rows),
        growth=Range(low, high),
        thickness_um=nothing,
        thickness_in=nothing,
        max_rule="must_be_given",
        note="",
    )


def _process_of_all(rows: tuple[Product, ...]) -> str:
    """What the processes of all rows begin with, else their family: no row's own process is claimed."""
    shortest = min((row.process for row in rows), key=len)
    is_shared = all(row.process.startswith(shortest) for row in rows)
    return shortest if is_shared else rows[0].specification.family.replace("_", " ")


def _is_neutral(text: str, row: Product) -> bool:
    return not {text, f"{text.partition(' ')[0]} *"}.isdisjoint((*row.neutral, *row.specification.neutral))


def _refuse_unread(given: _Text, row: Product) -> None:
    """Refuse what would change the answer: another class, another document, another process."""
    left = given.left()
    understood = {given.words[at].text for at in given.taken}
    for at, item in enumerate(left):
        if is_designator(item) and item.text not in understood and not _is_neutral(item.text, row):
            raise _other_class(row, item.text, given)
        if _is_document(left, at):
            raise FinishError(
                "finish_unknown",
                f'"{left[at - 1].text} {item.text}" looks like a document that is not held, beside {row.label}.',
                did_you_mean=(row.label,),
            )
    for name in names():
        if find(left, name.words, set()) is not None:
            if name.suits(row):
                return
            said = " ".join(name.words)
            raise FinishError("finish_conflict", f'"{said}" and {row.specification.name} are different finishes.')


def _is_document(left: tuple[Item, ...], at: int) -> bool:
    """Whether a number of three digits or more follows letters (``ABC 1234``), or any number a body (``ASTM B63``)."""
    text = left[at].text
    if not text.isdigit() or at == 0 or left[at].gap not in ("", " ", "-"):
        return False
    before = left[at - 1].text
    if not _STANDARDS_BODIES.isdisjoint(item.text for item in left[max(at - 2, 0) : at]):
        return True
    return int(text) >= _SMALLEST_DOCUMENT and before.isalpha() and before not in _NOT_A_DOCUMENT


def _unused(given: _Text, row: Product) -> tuple[str, ...]:
    """What was read but changes nothing, in words."""
    left = [item.text for item in given.left() if item.text]
    neutral = dict.fromkeys(text for text in left if " " in text and _is_neutral(text, row))
    known = {word for name in names() if name.suits(row) for word in name.words}
    other = [text for text in left if " " not in text and text not in _FILLERS and text not in known]
    lines = []
    if neutral:
        lines.append(f"{', '.join(neutral)}: no effect on the thickness of {row.specification.name}")
    if other:
        lines.append(f"words of the finish that were not used: {' '.join(other)}")
    return tuple(lines)


def _other_class(row: Product, said: str, given: _Text) -> FinishError:
    """The text names one class of the specification and then another word of it."""
    known = {
        word for one in products()[row.specification.name] for way in one.alternatives for key in way for word in key
    }
    if said in known:
        return FinishError(
            "finish_conflict", f'"{said}" contradicts {row.label}.', pointer="/class", did_you_mean=(row.label,)
        )
    return _class_unknown(row, said, given)


def _class_unknown(row: Product, said: str, given: _Text) -> FinishError:
    name = row.specification.name
    classes = tuple(one.finish_class for one in products()[name] if one.finish_class)
    return FinishError(
        "finish_class_unknown",
        f'{name} has no "{_as_written(said, given)}" in the tables.',
        pointer="/class",
        allowed=classes,
        did_you_mean=nearest(said, classes),
    )


def _as_written(said: str, given: _Text) -> str:
    """Words of the finish as the caller wrote them, with what is joined to them by a stroke."""
    found = re.search(r"(?:\w+/)?" + r"\W*".join(map(re.escape, said.split())), given.said, re.IGNORECASE)
    return found[0] if found else said


def _ambiguous(rows: list[Product], given: _Text) -> FinishError:
    return FinishError(
        "finish_ambiguous",
        f'The finish "{given.said.strip()[:80]}" can mean {len(rows)} entries of the tables; they differ in thickness:'
        " name the class.",
        pointer="/class",
        did_you_mean=tuple(row.label for row in rows),
    )
