"""What harms people where a hole is made in a part of that material or under that finish."""

from __future__ import annotations

import re
from dataclasses import dataclass

from borewright.core import finishing
from borewright.core.caches import cached, read_once
from borewright.core.materials import alloys
from borewright.core.model import Allowance, Caution, FinishInput, Material, MaterialInput
from borewright.tables import load

_CACHED = 256
_NO_WORD = re.compile(r"[^a-z0-9-]+")


@dataclass(frozen=True, slots=True)
class _Harm:
    """A row of the table: a thing of that kind, by one of its names, unless other words stand beside it."""

    kind: str
    named: tuple[str, ...]
    not_with: tuple[str, ...]
    code: str
    text: str

    def is_in(self, part: _Part) -> bool:
        """Whether a part has it."""
        if self.kind not in part.called:
            return False
        value = part.called[self.kind]
        met = any(_stands_in(name, value) for name in self.named) if "word" in self.kind else value in self.named
        return met and not any(_stands_in(word, part.words) for word in self.not_with)


@dataclass(frozen=True, slots=True)
class _Part:
    """What is cut, or what it is coated with: its name, what it is called by kind of row, the words it was given in."""

    name: str
    called: dict[str, str]
    words: str


@cached(_CACHED)
def cautions(
    *, material: Material | None, named: MaterialInput | None, allowance: Allowance | None, finish: FinishInput | None
) -> tuple[Caution, ...]:
    """Each harm once, of the part's material before that of its finish.

    Args:
        material: of the part as it was found.
        named: the material as it was asked for, whose words may tell what no table holds.
        allowance: of the finish as it was read.
        finish: the finish as it was asked for.

    Source: health.csv (common practice).
    """
    parts = [part for part in (_of_material(material, named), _of_finish(allowance, finish)) if part is not None]
    found = {
        harm.code: Caution(harm.code, f"{part.name}: {harm.text}")
        for part in parts
        for harm in _harms()
        if harm.is_in(part)
    }
    return tuple(found.values())


def _of_material(material: Material | None, named: MaterialInput | None) -> _Part | None:
    if material is None:
        return None
    words = _words(named.name if named is not None else None)
    row = alloys.by_id().get(material.material_id or "")
    called = {"alloy": "" if row is None else row.alloy, "family": material.family or "", "word": words}
    return _Part(material.name, called, words)


def _of_finish(allowance: Allowance | None, finish: FinishInput | None) -> _Part | None:
    known = None if allowance is None else allowance.finish.specification
    if known is None:  # a coat that is told by its figures alone
        return None
    assert finish is not None
    words = _words(finish.text, finish.specification, finish.finish_class)
    family = finishing.family_of(known)
    called = {"finish_family": family, "word_of_finish": words, "word_of_zinc": words if family == "zinc" else ""}
    return _Part(known, called, words)


def _stands_in(word: str, words: str) -> bool:
    return f" {word} " in words


def _words(*texts: str | None) -> str:
    """The words of texts in lower case with a space on both sides of each."""
    return f" {_NO_WORD.sub(' ', ' '.join(text for text in texts if text).casefold()).strip()} "


@read_once
def _harms() -> tuple[_Harm, ...]:
    return tuple(
        _Harm(
            row["kind"],
            tuple(row["named"].split(";")),
            tuple(word for word in row["not_with"].split(";") if word),
            row["code"],
            row["text"],
        )
        for row in load("health").rows
    )
