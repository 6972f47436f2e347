"""Starts the Borewright service and a Tryton that lives in memory, writes two products' routings, prints them, ends.

`bash client/integrations/tryton/demo` runs it with what it needs.
"""

from __future__ import annotations

import logging
import os
import sys
import warnings
from pathlib import Path

os.environ |= {"TRYTOND_DATABASE_URI": "sqlite://", "DB_NAME": ":memory:"}  # read by trytond when it is imported
warnings.simplefilter("ignore", DeprecationWarning)

from proteus import Model  # noqa: E402
from running import running_service  # noqa: E402
from tapped_holes import LIST_NAME, write_routing  # noqa: E402
from trytond.tests.tools import activate_modules  # noqa: E402

#: Lists of holes of two products of Kestrel Ridge Pumps.
PRODUCTS = {
    "KRP-4105": ("Bearing bracket", Path(__file__).with_name(LIST_NAME).read_text(encoding="utf-8")),
    "KRP-6008": ("Drive flange", "id,thread,type,full_thread_depth,thickness,material\n"
                                 "KRP-6008-F1,M12,blind,18,35,1045\n"
                                 "KRP-6008-F2,M8x1,blind,12,,1045\n"),
}  # fmt: skip


def main() -> int:
    """Make the products with their lists, write the routings twice, print them."""
    print("Making a Tryton database in memory; this takes some seconds ...", flush=True)
    activate_modules(["production_routing"])
    for code, (name, holes) in PRODUCTS.items():
        _make_product(code, name, holes)
    with running_service() as client:
        logging.basicConfig(level=logging.INFO, format="%(message)s")
        for code in PRODUCTS:
            write_routing(client, code)
        again = [change for code in PRODUCTS for change in write_routing(client, code)]
    print("Run again:", again or "nothing to change")
    for routing in Model.get("production.routing").find([]):
        print(f"\nRouting {routing.name}")
        for step in routing.steps:
            print(f"  {step.sequence:5}  {step.operation.name}")
    return 1 if again else 0


def _make_product(code: str, name: str, holes: str) -> None:
    unit, *_ = Model.get("product.uom").find([("name", "=", "Unit")])
    template = Model.get("product.template")(name=name, code=code, type="goods", default_uom=unit)
    template.producible = True
    template.save()
    attachment = Model.get("ir.attachment")(name=LIST_NAME, type="data", resource=template.products[0])
    attachment.data = holes.encode()
    attachment.save()


if __name__ == "__main__":
    sys.exit(main())
