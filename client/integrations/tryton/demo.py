"""Starts the Borewright service and a Tryton that lives in memory, writes two products' routings, shows them, ends.

`bash client/integrations/tryton/demo` runs it with what it needs.
"""

from __future__ import annotations

import logging
import os
import sys
import warnings
from pathlib import Path

os.environ |= {  # read by trytond when it is imported
    "TRYTOND_DATABASE_URI": "sqlite://",
    "TRYTOND_ATTACHMENT__FILESTORE": "false",
    "DB_NAME": ":memory:",
}
warnings.simplefilter("ignore", DeprecationWarning)

from proteus import Model  # noqa: E402
from running import running_service  # noqa: E402
from tapped_holes import B2MML, write_routing  # noqa: E402
from trytond.tests.tools import activate_modules  # noqa: E402

MODULES = ("production_routing", "product_kit", "borewright_routing")
#: Lists of holes of two products of Kestrel Ridge Pumps, the second as a spreadsheet saved it.
PRODUCTS = {
    "KRP-4105": ("Bearing bracket", Path(__file__).with_name("tapped_holes.csv").read_text(encoding="utf-8")),
    "KRP-6008": ("Drive flange", "id;Callout;Qty;type;Depth (mm);Wall;material\n"
                                 "KRP-6008-F1;M12;8;blind;18,5;35;1045\n"
                                 "KRP-6008-F2;M8x1;2;blind;12;;1045\n"),
}  # fmt: skip
LOT = 40


def main() -> int:
    """Make the products with their lists, write the routings twice, show what a planner opens in Tryton."""
    print("Making a Tryton database in memory; this takes half a minute ...", flush=True)
    activate_modules(list(MODULES))
    for code, (name, holes) in PRODUCTS.items():
        _make_product(code, name, holes)
    with running_service() as client:
        print("Writing the routings; what the log says:\n", flush=True)
        logging.basicConfig(level=logging.INFO, format="%(message)s", stream=sys.stdout)
        for code in PRODUCTS:
            write_routing(client, code, lot_size=LOT)
        again = [change for code in PRODUCTS for change in write_routing(client, code, lot_size=LOT)]
    print("\nRun again:", again or "nothing to change")
    for routing in Model.get("production.routing").find([]):
        _show(routing)
    return 1 if again else 0


def _make_product(code: str, name: str, holes: str) -> None:
    unit, *_ = Model.get("product.uom").find([("name", "=", "Unit")])
    template = Model.get("product.template")(name=name, code=code, type="goods", default_uom=unit)
    template.producible = True
    template.save()
    attachment = Model.get("ir.attachment")(name="tapped_holes.csv", type="data", resource=template.products[0])
    attachment.data = holes.encode()
    attachment.save()


def _show(routing: Model) -> None:
    print(f"\n=== Routing {routing.name}: an operation a tool with its holes (seconds a part: tool change + run)")
    for step in routing.steps:
        times = f"{step.tool_change.seconds:3} + {step.run_time.total_seconds():5.1f}" if step.run_time else " " * 11
        print(f"{step.sequence:5}  {times}  {step.operation.name}")
    resource = ("resource", "=", f"production.routing,{routing.id}")
    for note in Model.get("ir.note").find([resource]):
        head, _, text = note.message.partition("\n")
        print(f"\n--- Note: {head}\n{text}")
    (kit,) = Model.get("product.product").find([("code", "=", f"{routing.name.split()[0]} tools")])
    print(f"\n--- Product {kit.code}, a kit to order or to issue")
    for component in kit.template.components:
        print(f"{component.quantity:5g}  {component.product.template.name}")
    (attached,) = Model.get("ir.attachment").find([resource, ("name", "=", B2MML)])
    print(f"\n--- Attached for an MES: {B2MML}, {attached.data_size:,} bytes")


if __name__ == "__main__":
    sys.exit(main())
