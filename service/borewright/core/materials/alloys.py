"""The table of part materials as records, and the names people use for them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, cast

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.model import Status

MPA_PER_KSI = 6.894757

STEELS = frozenset(
    {
        "carbon steel",
        "free-machining steel",
        "alloy steel",
        "tool steel",
        "stainless ferritic",
        "stainless martensitic",
        "stainless PH",
    }
)


@dataclass(frozen=True, slots=True)
class Alloy:
    """One row of the materials table: an alloy in one condition. Strengths in MPa, a blank cell is None."""

    material_id: str
    alloy: str
    name: str
    condition: str
    condition_words: frozenset[str]
    uns: str
    family: str
    iso_group: str
    other_groups: frozenset[str]
    hardness_hb: float | None
    hardness_printed: str
    hardness_status: Status | None
    tensile_mpa: float | None
    yield_mpa: float | None
    shear_mpa: float | None
    shear_status: Status | None
    value_basis: str | None
    chip_type: Literal["long", "short"]
    power_constant: float | None
    speed_group: str
    force_group: str
    source: str
    status: Status
    note: str


@dataclass(frozen=True, slots=True)
class Alias:
    """Another name of an alloy. Its strength is the alloy's (``held``), its ``own``, or ``not_held``."""

    name: str
    rows: tuple[Alloy, ...]
    tensile_mpa: float | None
    strength: str
    note: str


@dataclass(frozen=True, slots=True)
class MaterialFamily:
    """A family or an ISO 513 group, with the alloy whose cutting data stand for it."""

    name: str
    family: str | None
    iso_group: str
    representative: str | None
    note: str


def compact(text: str) -> str:
    """Letters and digits of ``text``, folded: ``Ti-6Al-4V`` -> ``ti6al4v``.

    Source: own notation.
    """
    return re.sub(r"[^a-z0-9]+", "", text.casefold())


@read_once
def alloys() -> tuple[Alloy, ...]:
    """Every row of the materials table, in its order.

    Source: materials table.
    """
    return tuple(_alloy(row) for row in tables.load("materials").rows)


@read_once
def by_id() -> Mapping[str, Alloy]:
    """The rows by ``material_id``.

    Source: materials table.
    """
    return {row.material_id: row for row in alloys()}


@read_once
def families() -> tuple[MaterialFamily, ...]:
    """Families and groups; the first row of a family is the family's own.

    Source: material_families table.
    """
    return tuple(
        MaterialFamily(row["name"], row["family"] or None, row["iso513"], row["representative"] or None, row["note"])
        for row in tables.load("material_families").rows
    )


@read_once
def family_of(name: str | None, iso_group: str | None) -> MaterialFamily | None:
    """The row that stands for the family ``name``, or for the whole ISO 513 group ``iso_group`` where no family is
    known.

    Source: material_families table.
    """
    for row in families():
        if name is not None and row.family == name:
            return row
    for row in families():
        if name is None and iso_group is not None and row.family is None and row.iso_group == iso_group:
            return row
    return None


@read_once
def aliases() -> tuple[Alias, ...]:
    """Other names of the alloys held.

    Source: material_names table.
    """
    found = []
    for row in tables.load("material_names").rows:
        rows = tuple(alloy for alloy in alloys() if alloy.alloy == row["alloy"])
        if row["condition"]:
            rows = tuple(alloy for alloy in rows if row["condition"] in alloy.condition_words)
        tensile = float(row["tensile_mpa"]) if row["tensile_mpa"] else None
        found.append(Alias(row["name"], rows, tensile, row["strength"], row["note"]))
    return tuple(found)


@read_once
def alloy_names() -> Mapping[str, tuple[Alloy, ...]]:
    """Compact name -> rows: alloy, UNS number, row name, alloy with condition.

    Source: materials table.
    """
    found: dict[str, tuple[Alloy, ...]] = {}
    for alloy in alloys():
        for key in dict.fromkeys((compact(alloy.alloy), compact(alloy.uns), *_with_condition(alloy))):
            if key:
                found[key] = (*found.get(key, ()), alloy)
    return found


@read_once
def names_with_condition() -> frozenset[str]:
    """Compact names that tell the condition as well as the alloy.

    Source: materials table.
    """
    return frozenset(key for alloy in alloys() for key in _with_condition(alloy)) - {
        compact(alloy.alloy) for alloy in alloys()
    }


def _with_condition(alloy: Alloy) -> tuple[str, ...]:
    return (compact(alloy.material_id), *(compact(alloy.alloy) + word for word in alloy.condition_words))


@read_once
def alias_names() -> Mapping[str, Alias]:
    """Compact name -> alias.

    Source: material_names table.
    """
    return {compact(alias.name): alias for alias in aliases()}


@read_once
def family_names() -> Mapping[str, MaterialFamily]:
    """Compact name -> family (ISO 513 letters are not names).

    Source: material_families table.
    """
    return {compact(row.name): row for row in families() if row.family is not None}


@read_once
def condition_words() -> frozenset[str]:
    """Every word that names a condition of some alloy.

    Source: materials table.
    """
    return frozenset(word for alloy in alloys() for word in alloy.condition_words)


@read_once
def shown_names() -> tuple[str, ...]:
    """Names to suggest from: alloys with their condition, other names, families.

    Source: materials, material_names, material_families tables.
    """
    with_condition = (
        f"{alloy.alloy}-{alloy.condition.split('/')[0]}" for alloy in alloys() if alloy.family == "aluminium wrought"
    )
    plain: Iterable[str] = (alloy.alloy for alloy in alloys())
    return tuple(
        dict.fromkeys(
            (
                *plain,
                *with_condition,
                *(row.name for row in aliases()),
                *(row.name for row in families() if row.family is not None),
            )
        )
    )


def _alloy(row: Mapping[str, str]) -> Alloy:
    in_ksi = row["strength_unit"] == "ksi"

    def strength(name: str) -> float | None:
        if not row[f"{name}_mpa"]:
            return None
        return float(row[f"{name}_ksi"]) * MPA_PER_KSI if in_ksi else float(row[f"{name}_mpa"])

    chip = row["chip"]
    return Alloy(
        material_id=row["material_id"],
        alloy=row["alloy"],
        name=row["name"],
        condition=row["condition"],
        condition_words=frozenset(row["condition_words"].split()),
        uns=row["uns"],
        family=row["family"],
        iso_group=row["iso513"],
        other_groups=frozenset(re.findall(r"\b[PMKNSH]\b", row["iso513_alt"])),
        hardness_hb=float(row["hardness_hb"]) if row["hardness_hb"] else None,
        hardness_printed=row["hardness_printed"],
        hardness_status=cast("Status | None", row["hardness_status"] or None),
        tensile_mpa=strength("tensile"),
        yield_mpa=strength("yield"),
        shear_mpa=strength("shear"),
        shear_status=cast("Status | None", row["shear_status"] or None),
        value_basis=row["value_basis"] or None,
        chip_type="short" if chip.startswith("short") and chip != "short to long" else "long",
        power_constant=float(row["kp_hp_in3_min"]) if row["kp_hp_in3_min"] else None,
        speed_group=row["speed_group"],
        force_group=row["force_group"],
        source=row["source"],
        status=cast("Status", row["status"]),
        note=row["note"],
    )
