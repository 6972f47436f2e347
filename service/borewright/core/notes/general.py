"""General notes of a drawing: class of all threads, countersinks, finish, which limits hold, the unit."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from borewright.core.errors import FinishError
from borewright.core.finishing.finish_text import FinishReading
from borewright.core.finishing.finish_text import read as read_finish
from borewright.core.model import DimensionsApply, Unit

from .characters import Copy, plain_copy
from .grammar import Element
from .model import GeneralReading
from .reading import Reading, Work, read_copy
from .tokens import Token

_CLASS = re.compile(r"(?<![0-9A-Z./-])(?:[1-3]B|(?:[4-8][GH]){1,2})(?![0-9A-Z])")
_FINISH_HEAD = re.compile(
    r"^[ :.,;-]*(?:(?:SURFACE )?FINISH(?:ED)?|COATING|PLATING|PLATE|TREATMENT)?[ :.-]+", re.IGNORECASE
)
_FINISH_WORDS = re.compile(
    r"FINISH|PLAT|COAT|ANODI[ZS]|ZINC|FE/ZN|NICKEL|CHROM|CADMIUM|PHOSPHAT|PASSIVAT|GALVAN|ASTM|MIL-|AMS|ISO|QQ-|OXIDE",
    re.IGNORECASE,
)
_SAID_OF_ALL = re.compile(
    r"(?<![A-Z])(?:ALL|EVERY|THE|TAPPED|INTERNAL|EXTERNAL|THREADS?|THDS?|HOLES?|ARE|SHALL|BE|TO|APPLY|CLASS|TOLERANCES?|PER|INCH|METRIC"
    r"|DIMENSIONS?|LIMITS?|AND|IN|FOR|OF|FINISH|ALLE|GEWINDE|TOUS|LES|TUTTI|PARTS?|DRAWING|UNITS?|OTHERWISE)(?![A-Z])",
    re.IGNORECASE,
)
#: Edges and burrs are no objects of a thread: what is done to all of them is read as it stands.
_OBJECTS = re.compile(
    r"(?<![A-Z])(?:ALL(?!\s+(?:SHARP\s+)?(?:EDGES|BURRS))|EVERY|TAPPED|INTERNAL|HOLES?|THREADS?|ALLE|GEWINDE)(?![A-Z])",
    re.IGNORECASE,
)
_MASKED = re.compile(r"MASK|PLUG", re.IGNORECASE)
_DOCUMENT = re.compile(r"(?<![A-Z])(?:ASTM|MIL|AMS|QQ|ISO|DOD|BS|DIN|NAS)[- ]?[A-Z0-9].*", re.IGNORECASE)
_FINISH_LINE = re.compile(r"(?:[0-9]{1,2}[.)] *)?(?:SURFACE )?FINISH(?![A-Z])", re.IGNORECASE)
_KNOWN = frozenset({"unless", "before_finish", "after_finish", "unit_mm", "unit_in", "deburr", "mask", "countersink"})
_OF_A_LINE = frozenset({"unless", "before_finish", "after_finish", "unit_mm", "unit_in", "deburr"})


@dataclass(slots=True)
class General:
    """What the general notes say together. ``angle``, ``over``: countersink to the major diameter and what is added."""

    unit: Unit | None = None
    thread_class: str | None = None
    class_yields: bool = False
    countersink: bool = False
    angle: Decimal | None = None
    over: Token | None = None
    finish: str | None = None
    masked: bool = False
    dimensions_apply: DimensionsApply | None = None
    notes: list[GeneralReading] = field(default_factory=list)


def read_general(notes: Iterable[str], work: Work) -> General:
    """What the general ``notes`` of a drawing say, read within the bound of ``work``.

    Source: rules G1 to G5 of the reference notes; ASME Y14.5M-1994 2.4.1 for limits before or after a finish.
    """
    general = General()
    for note in notes:
        general.notes.append(_read_one(note, general, work))
    return general


def lines(copy: Copy, reading: Reading) -> Iterator[tuple[int, int]]:
    """Lines of a copy that by its ``reading`` are said of the whole drawing."""
    place = 0
    starts = [element.start for element in reading.elements]
    for line in copy.text.split("\n"):
        end = place + len(line)
        elements = reading.elements[bisect_left(starts, place) : bisect_left(starts, end)]
        if line.strip() and (_is_general(elements) or _FINISH_LINE.match(line.strip())):
            yield place, end
        place = end + 1


def _is_general(elements: Sequence[Element]) -> bool:
    """Whether the elements of a line are said of the whole drawing."""
    reads = {element.reads for element in elements}
    return not _OF_A_LINE.isdisjoint(reads) and not {"thread", "size_and_tap", "depth"} & reads


def _read_one(note: str, general: General, work: Work) -> GeneralReading:
    copy = plain_copy(note)
    reading = read_copy(_without_objects(copy.text), work)
    changes = [change for element in reading.elements if (change := _take(element, general))]
    left = _left_over(copy.text, reading)
    found = _CLASS.search(left.upper())
    if found:
        general.thread_class = found[0]
        general.class_yields = any(element.reads == "unless" for element in reading.elements)
        changes.append(f"threads without a class: {found[0]}")
        left = left[: found.start()] + " " * len(found[0]) + left[found.end() :]
    finish = _finish(left, work) if general.finish is None else None
    if finish:
        general.finish, left = finish, ""
        changes.append(f"finish: {finish}")
    return GeneralReading(note, tuple(changes), _unread(copy, reading, left))


def _without_objects(text: str) -> str:
    """The text with blanks for "all tapped holes" and the like, so that a rule sees what is done to them."""
    return text if _MASKED.search(text) else _OBJECTS.sub(lambda found: " " * len(found[0]), text)


def _take(element: Element, general: General) -> str:
    """Enter one element into ``general`` and say what it changes; nothing where it is none of a general note."""
    if element.reads in ("before_finish", "after_finish"):
        general.dimensions_apply = "before_finish" if element.reads == "before_finish" else "after_finish"
        return f"limits hold {element.reads.replace('_', ' the ')}"
    if element.reads in ("unit_mm", "unit_in"):
        general.unit = "mm" if element.reads == "unit_mm" else "in"
        return f"bare lengths are in {general.unit}"
    if element.reads == "mask":
        general.masked = True
        return "threads are masked"
    if element.reads == "deburr":
        return "edges are broken: changes no hole request"
    angle = element.named.get("a")
    if element.reads != "countersink" or angle is None:
        return ""
    general.countersink, general.angle, general.over = True, angle.value, element.named.get("o")
    return "holes without a countersink: to the major diameter"


def _left_over(text: str, reading: Reading) -> str:
    """The text without what was read as something of a general note."""
    for element in reading.elements:
        if element.reads in _KNOWN:
            text = text[: element.start] + " " * (element.end - element.start) + text[element.end :]
    return text


def _finish(text: str, work: Work) -> str | None:
    """A finish by its specification, without the words before its document where these add nothing."""
    plain = " ".join(_FINISH_HEAD.sub("", " " + text).split()).strip(" .,;:-")
    if not plain or work.finishes == 0 or not _FINISH_WORDS.search(text):
        return None
    work.finishes -= 1
    read = _read_finish(plain)
    if read is None:
        return None
    found = _DOCUMENT.search(plain)
    alone = _read_finish(found[0]) if found else None
    if found and alone is not None and alone.product is read.product:
        plain = found[0]
    spelled = {word.casefold(): word for word in read.product.label.split()}
    return " ".join(spelled.get(word.casefold(), word) for word in plain.split())


def _read_finish(text: str) -> FinishReading | None:
    try:
        return read_finish(text, unit="in")
    except FinishError:
        return None


def _unread(copy: Copy, reading: Reading, left: str) -> tuple[str, ...]:
    """Texts that nothing read; words that only say "all threads shall be" are none."""
    if not left.strip():
        return ()
    plain = _SAID_OF_ALL.sub(lambda found: " " * len(found[0]), left)
    spans = [*reading.unread, *reading.elsewhere]
    return tuple(copy.text[start:end] for start, end in sorted(spans) if re.search(r"\w", plain[start:end] or ""))
