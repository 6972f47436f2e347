"""What can go wrong with a coated thread: hydrogen, masking, thin plate in deep holes, the wrong substrate."""

from __future__ import annotations

from borewright.core.model import Caution, Diameters, Material, Range, Thread
from borewright.core.quantity_text import length

from . import hydrogen, substrate
from .coat import Coat
from .flank_geometry import flank_factor
from .hydrogen import HYDROGEN_FAMILIES
from .products import Product

_POOR_THROW = HYDROGEN_FAMILIES - {"electroless_nickel"} | {"vacuum_cadmium", "pvd", "mechanical_zinc"}

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


def masked() -> tuple[Caution, ...]:
    """What goes with a masked thread."""
    return (_MASK,)


def limits_before_finish(thread: Thread, change: Diameters) -> tuple[Caution, ...]:
    """What goes with limits that hold before a finish that moves them.

    Args:
        thread: made to its class.
        change: of each diameter by the finish.

    Source: ASME Y14.5M-1994 2.4.1 asks the drawing to say which limits it means.
    """
    least = change.pitch_diameter.min
    if not least:
        return ()
    return (
        Caution(
            "gauge_before_finish",
            f"The limits hold before the finish: gauge then. The coat takes up to {length(-least, thread.unit)} of the"
            " pitch diameter, and a GO gauge of the class may not enter afterwards; the screw must leave that room.",
        ),
    )


def of_material(row: Product, material: Material | None) -> tuple[Caution, ...]:
    """Cautions of a finish on a part's material.

    Args:
        row: the finish.
        material: of the part, None where it is not known.

    Source: hydrogen_rules.csv.
    """
    return *hydrogen.cautions(row, material), *_substrate(row, material)


def of_coat(thread: Thread, coat: Coat) -> tuple[Caution, ...]:
    """Cautions of a finish on a thread, whatever the material.

    Args:
        thread: the thread that carries the coat.
        coat: with its family and figures.

    Source: distribution of plate in holes: ASTM B633-98 7.1.2, NAS 672, common practice.
    """
    found: list[Caution] = []
    row = coat.product
    if row is not None:
        found += _by_family(row)
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
    if family in _POOR_THROW:
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
    if material is None or material.family is None or substrate.impossible(row, material) is not None:
        return []
    aluminium = "alumin" in material.family
    if (row.substrate == "aluminium") != aluminium and (row.substrate == "aluminium" or _is_ferrous(row)):
        return [
            Caution("finish_substrate", f"{row.label} is for {row.substrate}; the part is {material.name}: check it.")
        ]
    return []


def _is_ferrous(row: Product) -> bool:
    return row.substrate.startswith(("steel", "iron", "ferrous", "corrosion resistant"))
