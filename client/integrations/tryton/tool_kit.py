"""The tool list of a part in Tryton: a product of the kind kit, a component a tool (module `product_kit`).

With the modules `purchase` and `stock` such a kit is ordered, moved and issued as one.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from proteus import Model


def is_held() -> bool:
    """Whether this Tryton has kits."""
    return bool(Model.get("ir.model").find([("name", "=", "product.component")]))


def write_kit(code: str, tools: Sequence[str], before: Iterable[str]) -> list[str]:
    """Make the kit ``<code> tools`` hold each tool once; what was put in and taken out, a line each.

    Args: ``tools`` are the names of now, ``before`` those that an earlier run has written: what else people have put
    into the kit stays. A tool is the product of that name; it is made where there is none.
    """
    kit = _template("kit", f"{code} tools")
    held = {component.product.template.name: component for component in kit.components}
    added = [name for name in tools if name not in held]
    gone = [name for name in before if name in held and name not in tools]
    for name in gone:
        kit.components.remove(held[name])
    for name in added:
        (tool,) = _template("goods", name).products
        kit.components.new(product=tool, quantity=1.0, unit=tool.default_uom)
    if added or gone:
        kit.save()
    told = {"added": added, "taken out": gone}
    return [f"tool list: {what} {'; '.join(names)}" for what, names in told.items() if names]


def _template(kind: str, name: str) -> Model:
    templates = Model.get("product.template")
    found = templates.find([("name", "=", name), ("type", "=", kind)])
    if found:
        return found[0]
    unit, *_ = Model.get("product.uom").find([("name", "=", "Unit")])
    made = templates(name=name, code=name if kind == "kit" else None, type=kind, default_uom=unit)
    made.save()
    return made
