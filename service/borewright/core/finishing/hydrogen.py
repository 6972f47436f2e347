"""Hydrogen and hard steel: what each standard prohibits, and what it asks for before and after plating."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, cast

from borewright.core.caches import cached, read_once
from borewright.core.materials import hardness
from borewright.core.model import Caution, Material
from borewright.core.model.decision import Decision
from borewright.core.practice import number
from borewright.core.quantity_text import NO_BREAK, marked
from borewright.tables import load

from .products import Product

Kind = Literal["risk", "process", "bake", "no_bake", "relief", "prohibited"]

#: Families of finishes whose deposits bring hydrogen into steel.
HYDROGEN_FAMILIES = frozenset((
    "zinc", "fastener_electroplate", "cadmium", "nickel", "electroless_nickel", "chromium", "zinc_nickel", "copper",
    "tin", "silver", "thin_plate_on_nuts",
))  # fmt: skip
#: Deposits that are commonly chromated after the bake (common practice).
_CHROMATED = frozenset(("zinc", "fastener_electroplate", "cadmium", "zinc_nickel"))
_NO_HYDROGEN_GROUPS = frozenset("N")
_SOFT_HB = number("no_hydrogen_below_hb")
#: The bands of strength are printed in whole MPa (1001 to 1100, 1101 to 1200).
_HALF = 0.5


@dataclass(frozen=True, slots=True)
class _Rule:
    """One rule of a standard; ``least`` on its own measure, None where it always holds."""

    applies_to: tuple[str, ...]
    document: str
    measure: str
    least: float | None
    above: bool
    up_to: float | None
    rule: str
    kind: Kind

    @property
    def text(self) -> str:
        """The rule with its document and bound."""
        if self.least is None:
            return f"{self.document}: {self.rule}"
        to = f" to {self.up_to:g}" if self.up_to is not None else ""
        blank = NO_BREAK if self.measure == "MPa" else " "
        bound = f"{'above' if self.above else 'from'} {self.least:g}{to}{blank}{self.measure}"
        return marked(f"{self.document}, {bound}: {self.rule}")


def cautions(row: Product, material: Material | None) -> tuple[Caution, ...]:
    """Rules that apply to the finish ``row`` and are reached by the hardness of ``material``; all where it is unknown.

    A prohibition that is reached is not among them: :func:`prohibited` asks about it.

    Source: hydrogen_rules.csv.
    """
    rules = _rules_for(row)
    if not rules or (material is not None and not _can_embrittle(material)):
        return ()
    if material is None or not _is_known(material):
        said = "; ".join(rule.text for rule in rules if rule.measure != "MPa" or rule.up_to is None)
        return (Caution("hydrogen_embrittlement", f"Hard steel can crack after plating or pickling. {said}."),)
    reached = [rule.text for rule in reached_by(row, material) if rule.kind != "prohibited"]
    return (Caution("hydrogen_embrittlement", f"At this hardness: {'; '.join(reached)}."),) if reached else ()


def prohibited(row: Product | None, material: Material | None) -> Decision | None:
    """The question that a prohibition of the finish ``row`` leaves at the hardness of ``material``, None without one.

    Source: hydrogen_rules.csv.
    """
    if row is None or material is None:
        return None
    rule = next((rule for rule in reached_by(row, material) if rule.kind == "prohibited"), None)
    if rule is None:
        return None
    return Decision(
        "finish_prohibited",
        f"{row.label} on {material.name}: {rule.text}. Hard steel cracks from the hydrogen of the bath. Decide: another"
        " finish (zinc flake or mechanical plating bring none), a softer part, or the written leave of the design"
        " authority.",
        "/finish",
    )


def stress_relief(row: Product | None, material: Material | None) -> str | None:
    """What the shop does before plating ``material`` that is cut hardened with ``row``, None where nothing is asked.

    Source: hydrogen_rules.csv (ASTM B849).
    """
    found = _rules_of("relief", row, material)
    if not found:
        return None
    said = "; ".join(rule.text for rule in found)
    return (
        f"Stress-relieve before plating, as the part is cut after hardening ({said}); temperature and time by the"
        " order, below the tempering temperature"
    )


def bake(row: Product | None, material: Material | None) -> str | None:
    """The bake after plating ``row`` and when it starts, None where none is asked at the hardness of ``material``.

    Source: hydrogen_rules.csv (ASTM B850, ASTM F1941, MIL-DTL-14538D); 4 h and before chromate: from memory for others.
    """
    found = _rules_of("bake", row, material)
    if not found:
        return None
    said = "; ".join(rule.text for rule in found)
    chromate = ", before any chromate" if row is not None and row.specification.family in _CHROMATED else ""
    return f"Bake against hydrogen, started within 4 h of plating{chromate}: {said}"


def _rules_of(kind: Kind, row: Product | None, material: Material | None) -> tuple[_Rule, ...]:
    if row is None or material is None:
        return ()
    return tuple(rule for rule in reached_by(row, material) if rule.kind == kind)


def reached_by(row: Product, material: Material) -> tuple[_Rule, ...]:
    """The rules that hold for the finish ``row`` at the hardness of ``material``; empty where none with a bound is
    reached.

    Source: hydrogen_rules.csv.
    """
    if not _can_embrittle(material):
        return ()
    reached = tuple(rule for rule in _rules_for(row) if _reaches(rule, material))
    return reached if any(rule.least is not None for rule in reached) else ()


def _can_embrittle(material: Material) -> bool:
    family = material.family or ""
    return material.iso_group not in _NO_HYDROGEN_GROUPS and "austenitic" not in family and "plastic" not in family


def _is_known(material: Material) -> bool:
    return material.hardness_hrc is not None or material.tensile_strength_mpa is not None or _is_soft(material)


def _is_soft(material: Material) -> bool:
    return material.hardness_hb is not None and material.hardness_hb < _SOFT_HB


def _reaches(rule: _Rule, material: Material) -> bool:
    if rule.least is None:
        return True
    figure = _figure(rule.measure, material)
    if figure is None:
        return False
    least = _on_scale_of_part(rule.least, rule.measure)
    if figure < least or (rule.above and figure <= least):
        return False
    return rule.up_to is None or figure <= _on_scale_of_part(rule.up_to, rule.measure)


def _figure(measure: str, material: Material) -> float | None:
    """The part's tensile strength, or its hardness in HRC (Vickers bounds are converted to it)."""
    if measure != "MPa":
        return material.hardness_hrc
    strength = material.tensile_strength_mpa
    return None if strength is None else int(strength + _HALF)


def _on_scale_of_part(bound: float, measure: str) -> float:
    return _vickers(bound) if measure == "HV" else bound


@read_once
def _vickers(bound: float) -> float:
    """A Vickers bound in HRC, by the conversion table of steel."""
    hrc = hardness.convert(hardness.HardnessReading("HV", bound)).hrc
    assert hrc is not None  # every bound lies where the relation of Rockwell C has rows
    return hrc


@cached(256)
def _rules_for(row: Product) -> tuple[_Rule, ...]:
    own = {row.specification.name, row.specification.family}
    if row.specification.family in HYDROGEN_FAMILIES:
        own.add("*")
    return tuple(rule for rule in _rules() if own.intersection(rule.applies_to))


@read_once
def _rules() -> tuple[_Rule, ...]:
    return tuple(_rule(row) for row in load("hydrogen_rules").rows)


def _rule(row: Mapping[str, str]) -> _Rule:
    edition = "" if row["edition"] == "not stated" else f" ({row['edition']})"
    return _Rule(
        tuple(row["applies_to"].split("|")),
        f"{row['document']}{edition}",
        row["measure"],
        float(row["threshold"]) if row["threshold"] else None,
        row["bound"] == "over",
        float(row["up_to"]) if row["up_to"] else None,
        row["rule"],
        cast(Kind, row["kind"]),
    )
