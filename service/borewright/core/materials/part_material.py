"""Part materials: from a name, an ISO 513 group, a hardness or a strength to one record with its sources.

An unknown material is answered with an empty record and a caution, or refused where the caller asked to be strict.
Several conditions of one alloy are told apart by the hardness given, else the weakest is taken and said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

from borewright.core.caches import cached, read_once
from borewright.core.derivation import steps_made_again
from borewright.core.errors import BorewrightError, MaterialError
from borewright.core.model import Material, MaterialInput
from borewright.core.practice import number
from borewright.core.quantity_text import marked

from . import alloys, hardness, material_names
from .alloys import Alloy
from .draft import Draft
from .hardness import HardnessReading
from .hardness_by_strength import take_hardness_by_strength
from .material_names import NameReading

GROUPS = ("P", "M", "K", "N", "S", "H")

#: Hardness from which ISO 513 files a steel under H.
_HARDENED_HRC = number("hardened_from_hrc")

#: Tensile strengths that are read at all.
_WEAKEST_MPA, _STRONGEST_MPA = number("weakest_tensile_mpa"), number("strongest_tensile_mpa")


@dataclass(frozen=True, slots=True)
class _Known:
    """What the request says of the part's strength."""

    hardness: HardnessReading | None
    tensile_mpa: float | None


_GROUP_NAME = re.compile(r"(?:iso ?(?:513)? ?)?(?:group )?([pmknsh])")


@cached(512)
@steps_made_again
def find(material: MaterialInput, *, strict: bool = False) -> Material:
    """The part material that a request names, as far as it is known.

    Args:
        material: name as people type it (a hardness may stand inside it), ISO 513 group, hardness text, tensile
            strength in MPa.
        strict: refuse a material, condition or hardness that is not held instead of answering with a caution.

    Raises: MaterialError ``material_unknown``, ``material_conflict``, ``hardness_unreadable``,
        ``hardness_out_of_table``, ``value_out_of_range``.

    Source: materials, material_names, material_families, hardness_conversion and shear_ratios tables.
    """
    given_mpa = material.tensile_strength_mpa
    if given_mpa is not None and not _WEAKEST_MPA <= given_mpa <= _STRONGEST_MPA:
        raise MaterialError(
            "value_out_of_range",
            f"A tensile strength lies between {_WEAKEST_MPA:g} and {_STRONGEST_MPA:g} MPa.",
            pointer="/material/tensile_strength",
        )
    text = (material.name or "").strip()
    readable = len(text) <= material_names.LONGEST
    inside, rest = hardness.find_in(text) if readable else (None, text)
    group = _group(material.group)
    lone = _GROUP_NAME.fullmatch(" ".join(rest.casefold().split()))
    if lone is not None:
        group, rest = _same_group(group, lone[1].upper()), ""
    reading = _hardness_given(material.hardness, inside)
    said = material_names.read(rest) if readable else NameReading()
    if strict and (said.not_held or (not said.rows and said.family is None and group is None)):
        raise MaterialError(
            "material_unknown",
            _unknown_text(text, said),
            pointer="/material",
            allowed=() if text else GROUPS,
            did_you_mean=material_names.suggestions(rest),
        )
    alone = reading is not None or given_mpa is not None
    if alone and group is None and not rest.strip():
        draft = _taken_as_steel(reading)
    else:
        draft = _drafted(text, rest, said, group, _Known(reading, given_mpa))
    if reading is not None:
        _apply_hardness(draft, reading, strict=strict)
    _apply_strength(draft, said, reading, given_mpa)
    if reading is None:
        take_hardness_by_strength(draft, given_mpa)
    _apply_group(draft, group)
    return draft.done()


@read_once
def catalogue() -> tuple[Material, ...]:
    """Every alloy held, in every condition.

    Source: materials table.
    """
    found = []
    for row in alloys.alloys():
        draft = Draft(_title(row))
        draft.take_row(row)
        draft.take_row_strength()
        found.append(draft.done())
    return tuple(found)


def _group(given: str | None) -> str | None:
    if given is None:
        return None
    letter = given.strip().upper()
    if letter not in GROUPS:
        raise MaterialError(
            "material_unknown", "The group is one of the ISO 513 letters.", pointer="/material/group", allowed=GROUPS
        )
    return letter


def _same_group(given: str | None, named: str) -> str:
    if given is not None and given != named:
        raise MaterialError(
            "material_conflict", f"Group {given} is given, but {named} named.", pointer="/material/group"
        )
    return named


def _hardness_given(field_text: str | None, inside: HardnessReading | None) -> HardnessReading | None:
    """The hardness of the field or of the name; both are refused when they differ."""
    if field_text is None:
        return inside
    reading = hardness.read(field_text.strip())
    if inside is not None and (inside.scale, inside.value) != (reading.scale, reading.value):
        raise MaterialError(
            "material_conflict",
            "The name and the hardness field give different hardness.",
            pointer="/material/hardness",
        )
    return reading


def _unknown_text(text: str, said: NameReading) -> str:
    if said.rows and said.not_held:
        alloy = said.rows[0].alloy
        held = ", ".join(row.condition for row in alloys.alloy_names()[alloys.compact(alloy)])
        return f"{alloy} is held, but not in the condition {' '.join(said.not_held)!r}; held: {held}."
    if not text:
        return "No material name or group is given."
    return f"The material {text[:60]!r} is not in the tables."


def _drafted(text: str, rest: str, said: NameReading, group: str | None, known: _Known) -> Draft:
    """Start from the alloy, the family, the group or nothing."""
    if said.rows:
        draft = _from_alloy(text, said, known)
    elif said.family is not None:
        draft = Draft(said.family.name)
        draft.take_family(said.family.family, said.family.iso_group, f"the family ({said.family.name})")
        draft.record.assumptions.extend([said.family.note] if said.family.note else [])
    elif group is not None:
        draft = Draft(f"ISO 513 group {group}")
        draft.take_family(None, group, f"the ISO 513 group {group}")
    else:
        draft = Draft(text[: material_names.LONGEST] or "not stated")
        meant = material_names.suggestions(rest)
        hint = f" Did you mean {', '.join(meant)}?" if meant else ""
        draft.record.caution(
            "material_unknown",
            f"{_unknown_text(text, said)}{hint} No cutting data, torque or strength can be given for it.",
        )
    words = [word for word in said.unread if word not in said.not_held]
    if words and (said.rows or said.family):
        draft.record.assume(f"not understood in the material name, without effect: {', '.join(words)}")
    return draft


def _taken_as_steel(reading: HardnessReading | None) -> Draft:
    """A hardness or a strength alone: steel, the part material that shops measure and order by them."""
    hrc = None if reading is None else hardness.convert(reading).hrc
    group = "H" if hrc is not None and hrc >= _HARDENED_HRC else "P"
    draft = Draft("steel" if reading is None else f"steel, {reading.value:g} {reading.scale}")
    draft.take_group(group)
    draft.record.caution(
        "material_taken_as_steel",
        f"No material was named: a hardness or strength alone is read as that of steel, ISO 513 group {group}. Name the"
        " material or its group.",
    )
    return draft


def _from_alloy(text: str, said: NameReading, known: _Known) -> Draft:
    """Start from the row that fits best, and tell what was assumed in choosing it."""
    reading = known.hardness
    row = _choose(said.rows, known)
    draft = Draft(_title(row))
    draft.take_row(row)
    alias = said.alias
    if alias is not None and alias.note:
        draft.name = f"{alias.name} ({draft.name})"
        draft.record.assume(f"{alias.name}: {alias.note} ({row.name}, from memory)")
    several = len(said.rows) > 1
    if said.not_held:
        draft.name, draft.hb = text, None
        draft.record.caution(
            "material_condition_not_held",
            f"{_unknown_text(text, said)} No strength is given for it; cutting data are those of the alloy.",
        )
    elif reading is not None:
        draft.name = (
            f"{alias.name if alias is not None and alias.note else row.name}, {reading.value:g} {reading.scale}"
        )
        if several:
            draft.record.assume(f"{row.alloy}: {row.condition} is the condition held nearest to the hardness given")
    elif known.tensile_mpa is not None and several:
        draft.name = alias.name if alias is not None and alias.note else row.name
        draft.record.assume(f"{row.alloy}: {row.condition} is the condition held nearest to the strength given")
    elif several or not (said.condition_said or row.condition.startswith(("as ", "moulded"))):
        why = "the weakest of the conditions held" if several else "the only condition held"
        draft.record.assume(marked(f"{row.alloy} taken as {row.condition}, {why}: condition or hardness not stated"))
    if reading is None and "500 kg" in row.hardness_printed:
        draft.record.assume(f"hardness of {row.alloy} is the Brinell figure of the 500 kg load")
    return draft


def _choose(rows: tuple[Alloy, ...], known: _Known) -> Alloy:
    """The row nearest to the hardness given, else to the strength given, else the weakest."""
    wanted = None if known.hardness is None else _brinell(known.hardness)
    nearest = _nearest([(row.hardness_hb, row) for row in rows], wanted)
    if nearest is None:
        nearest = _nearest([(row.tensile_mpa, row) for row in rows], known.tensile_mpa)
    if nearest is not None:
        return nearest
    return min(rows, key=lambda row: row.tensile_mpa if row.tensile_mpa is not None else inf)


def _nearest(figures: Iterable[tuple[float | None, Alloy]], wanted: float | None) -> Alloy | None:
    """The row whose figure is nearest to the one ``wanted``, None where none is known."""
    apart = [(abs(figure - wanted), row) for figure, row in figures if figure is not None and wanted is not None]
    return min(apart, key=lambda one: one[0])[1] if apart else None


def _brinell(reading: HardnessReading) -> float | None:
    if reading.scale == "HB":
        return reading.value
    try:
        return hardness.convert(reading).hb
    except BorewrightError:
        return None


def _title(row: Alloy) -> str:
    """Name with condition, without saying a temper twice."""
    return row.name if row.condition in row.name else f"{row.name}, {row.condition}"


def _apply_hardness(draft: Draft, reading: HardnessReading, *, strict: bool) -> None:
    """Put the hardness given in place of the row's, converted with the steel relations where that is right."""
    if reading.assumption:
        draft.record.assume(reading.assumption)
    steel = draft.is_steel or (draft.family is None and draft.iso_group is None)
    if reading.scale == "HB" and not steel:
        draft.hb = reading.value
        draft.source("hardness", "the request", "", "computed")
        return
    what = f"{reading.value:g} {reading.scale}"
    try:
        found = hardness.convert(reading)
    except MaterialError:
        if steel or strict:
            raise
        draft.hb = None
        draft.record.caution(
            "hardness_not_converted", f"{what} of {draft.name} cannot be converted to Brinell: no table for it is held."
        )
        return
    draft.take_hardness(found)
    if not steel:
        draft.record.caution(
            "hardness_conversion_estimate",
            f"The conversion of {what} is the one for steel; for {draft.name} it is an estimate.",
        )


def _apply_strength(draft: Draft, said: NameReading, reading: HardnessReading | None, given_mpa: float | None) -> None:
    """Tensile, yield and shear strength: what is given, else what the hardness says, else the row's."""
    alias = said.alias
    if given_mpa is not None:
        draft.take_tensile(given_mpa, "given", "the request", "", "computed")
    elif said.not_held:
        return
    elif alias is not None and alias.strength == "own" and alias.tensile_mpa is not None:
        draft.take_tensile(alias.tensile_mpa, "spec min", "", f"designation {alias.name}", "from_memory")
    elif alias is not None and alias.strength == "not_held":
        draft.record.caution("strength_not_held", f"The strength of {alias.name} is not held.")
    elif reading is not None and draft.is_steel and not draft.has_hardness_of_row:
        _tensile_by_hardness(draft, reading)
    else:
        draft.take_row_strength()
        if reading is not None and draft.row is not None and not draft.has_hardness_of_row and draft.tensile:
            draft.record.caution("strength_of_other_hardness", f"The strength is that of {_title(draft.row)}.")


def _tensile_by_hardness(draft: Draft, reading: HardnessReading) -> None:
    found = hardness.convert(reading)
    if found.tensile_mpa is None:
        draft.record.caution("strength_not_held", f"No strength is held for {reading.value:g} {reading.scale}.")
        return
    draft.record.steps.extend(step for step in found.steps if "tensile" in step.quantity)
    draft.take_tensile(found.tensile_mpa, "approximate, by hardness", "ASTM E140", found.locator or "", found.status)


def _apply_group(draft: Draft, group: str | None) -> None:
    """Check a group given against the alloy's; file hardened steel under H."""
    steel = draft.family in alloys.STEELS
    if steel and (draft.hrc or 0.0) >= _HARDENED_HRC:
        draft.iso_group = "H"
        draft.record.assume(f"steel of {draft.hrc:.0f} HRC is filed under ISO 513 group H")
    if group is None or group == draft.iso_group:
        return
    row = draft.row
    if (row is not None and group in row.other_groups | {row.iso_group}) or (group == "H" and steel):
        draft.iso_group = group
        draft.record.assume(f"{draft.name} filed under ISO 513 group {group} as the request does")
        return
    raise MaterialError(
        "material_conflict",
        f"{draft.name} belongs to ISO 513 group {draft.iso_group}, not {group}.",
        pointer="/material/group",
        allowed=(draft.iso_group,) if draft.iso_group else (),
    )
