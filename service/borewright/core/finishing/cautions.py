"""What can go wrong with a coated thread: hydrogen, masking, thin plate in deep holes, the wrong substrate."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from ...tables import load
from ..errors import MaterialError
from ..machining import hardness
from ..model import Caution, Material, Range, Thread
from .coat import Coat
from .geometry import flank_factor
from .products import Product

_HYDROGEN_FAMILIES = frozenset((
    "zinc", "fastener_electroplate", "cadmium", "nickel", "electroless_nickel", "chromium", "zinc_nickel", "copper",
    "tin", "silver", "thin_plate_on_nuts",
))  # fmt: skip
_POOR_THROW = _HYDROGEN_FAMILIES - {"electroless_nickel"} | {"vacuum_cadmium", "pvd", "mechanical_zinc"}
_NO_HYDROGEN_GROUPS = frozenset("N")
_SOFT_HB = 226.0

_MASK = Caution(
    "mask_and_strip",
    "The thread keeps its limits only if it is plugged or masked before the finish; remove the mask and any"
    " leakage, and gauge the thread afterwards. The masked thread has no protection.",
)
_THIN = Caution(
    "plate_thin_in_deep_holes",
    "Electroplate and line-of-sight coats are thin or absent deep in a blind hole and heavy at the edge: the thread is"
    " gauged over its whole depth, and the bottom may not be protected.",
)
_UNEVEN = Caution(
    "anodize_thin_in_deep_holes", "The film is thinner deep in a hole; let the etch and film be tried on the thread."
)
_FLAKE = Caution(
    "flake_fills_roots", "Zinc flake is thin on crests and thick in roots: try the gauge on coated threads."
)
_CHROME = Caution(
    "mask_chromium", "Chromium throws poorly into holes and hard chromium is ground to size: mask tapped holes."
)
_HEAT = Caution(
    "mask_heat_treatment",
    "Threaded holes are normally masked against nitriding and carburizing; no growth figure is published, so a growth"
    " must come from trials. A case-hardened thread is brittle.",
)
_SQUARE = Caution(
    "square_flanks",
    "On square flanks a coat narrows the groove by twice its thickness and hardly moves the diameters: allow for it on"
    " the groove width.",
)


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

    @property
    def said(self) -> str:
        """The rule with its document and bound."""
        if self.least is None:
            return f"{self.document}: {self.rule}"
        to = f" to {self.up_to:g}" if self.up_to is not None else ""
        return f"{self.document}, {'above' if self.above else 'from'} {self.least:g}{to} {self.measure}: {self.rule}"


def masked() -> tuple[Caution, ...]:
    """What goes with a masked thread."""
    return (_MASK,)


def of_coat(thread: Thread, coat: Coat, material: Material | None) -> tuple[Caution, ...]:
    """Cautions of a finish on a thread.

    Args:
        thread: the thread that carries the coat.
        coat: with its family and figures.
        material: of the part, None where it is not known.

    Source: hydrogen_rules.csv; distribution of plate in holes: ASTM B633-98 7.1.2, NAS 672, common practice.
    """
    found: list[Caution] = []
    row = coat.product
    if row is not None:
        found += _by_family(row)
        found += _hydrogen(row, material)
        found += _substrate(row, material)
    if flank_factor(thread.thread_angle) is None:
        found.append(_SQUARE)
    if _thick(thread, coat.build_up):
        found.append(
            Caution(
                "thick_coat",
                "The coat moves the pitch diameter by more than the thread's whole tolerance: masking or tapping"
                " afterwards is the usual choice.",
            )
        )
    return tuple(found)


def _by_family(row: Product) -> list[Caution]:
    family = row.specification.family
    found = []
    if family in _POOR_THROW and not row.after_finish:
        found.append(_THIN)
    if family == "anodize":
        found.append(_UNEVEN)
    if family == "zinc_flake":
        found.append(_FLAKE)
    if family == "chromium":
        found.append(_CHROME)
    if family == "heat_treatment":
        found.append(_HEAT)
    if row.max_rule == "drawing":
        found.append(
            Caution("finish_thickness_on_drawing", f"{row.label} leaves the thickness to the drawing: check it there.")
        )
    return found


def _thick(thread: Thread, build_up: Range) -> bool:
    pitch = thread.internal.pitch_diameter
    factor = flank_factor(thread.thread_angle)
    if pitch.min is None or pitch.max is None or factor is None or build_up.max is None:
        return False
    return factor * build_up.max > pitch.max - pitch.min


def _substrate(row: Product, material: Material | None) -> list[Caution]:
    """An aluminium finish on another metal, or a steel one on aluminium."""
    if material is None or material.family is None:
        return []
    aluminium = "alumin" in material.family
    if (row.substrate == "aluminium") != aluminium and (row.substrate == "aluminium" or _is_ferrous(row)):
        return [
            Caution("finish_substrate", f"{row.label} is for {row.substrate}; the part is {material.name}: check it.")
        ]
    return []


def _is_ferrous(row: Product) -> bool:
    return row.substrate.startswith(("steel", "iron", "ferrous", "corrosion resistant"))


def _hydrogen(row: Product, material: Material | None) -> list[Caution]:
    """Rules of the standards that apply to the finish and are reached by the part's hardness."""
    if material is not None and not _can_embrittle(material):
        return []
    rules = _rules_for(row)
    if not rules:
        return []
    if material is None or not _is_known(material):
        said = "; ".join(rule.said for rule in rules if rule.measure != "MPa" or rule.up_to is None)
        return [Caution("hydrogen_embrittlement", f"Hard steel can crack after plating or pickling. {said}.")]
    reached = [rule.said for rule in rules if _reaches(rule, material)]
    if not any(_reaches(rule, material) for rule in rules if rule.least is not None):
        return []
    return [Caution("hydrogen_embrittlement", f"At this hardness: {'; '.join(reached)}.")]


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
    least, upper = _bounds(rule)
    if figure < least or (rule.above and figure <= least):
        return False
    return upper is None or figure <= upper


def _figure(measure: str, material: Material) -> float | None:
    """The part's tensile strength, or its hardness in HRC (Vickers bounds are converted to it)."""
    return material.tensile_strength_mpa if measure == "MPa" else material.hardness_hrc


def _bounds(rule: _Rule) -> tuple[float, float | None]:
    if rule.measure != "HV" or rule.least is None:
        return rule.least or 0.0, rule.up_to
    return _vickers(rule.least), None if rule.up_to is None else _vickers(rule.up_to)


@cache
def _vickers(value: float) -> float:
    """A Vickers bound in HRC, by the conversion table of steel."""
    try:
        return hardness.convert(hardness.Reading("HV", value)).hrc or 0.0
    except MaterialError:
        return 0.0


@cache
def _rules_for(row: Product) -> tuple[_Rule, ...]:
    own = {row.specification.name, row.specification.family}
    if row.specification.family in _HYDROGEN_FAMILIES:
        own.add("*")
    return tuple(rule for rule in _rules() if own.intersection(rule.applies_to))


@cache
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
    )
