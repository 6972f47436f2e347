"""Writes the tapped holes of a demo product into a Tryton that lives in memory, prints the routing, and ends.

The Borewright service must be running; BOREWRIGHT_CLIENT_URL tells where (http://127.0.0.1:8080).
"""

from __future__ import annotations

import logging
import os
import warnings
from pathlib import Path

os.environ |= {"TRYTOND_DATABASE_URI": "sqlite://", "DB_NAME": ":memory:"}  # read by trytond when it is imported
warnings.simplefilter("ignore", DeprecationWarning)

from borewright_client import Client  # noqa: E402
from proteus import Model  # noqa: E402
from tapped_holes import LIST_NAME, write_routing  # noqa: E402
from trytond.tests.tools import activate_modules  # noqa: E402

CODE = "KRP-4105"


def main() -> None:
    """Make the product with its list, write the routing twice, print it."""
    print("Making a Tryton database in memory; this takes some seconds ...")
    activate_modules(["production_routing"])
    _make_product()
    logging.basicConfig(level=logging.INFO, format="%(message)s")
    with Client(os.environ.get("BOREWRIGHT_CLIENT_URL", "http://127.0.0.1:8080")) as client:
        write_routing(client, CODE)
        print("Run again:", write_routing(client, CODE) or "nothing to change")
    for routing in Model.get("production.routing").find([]):
        print(f"\nRouting {routing.name}")
        for step in routing.steps:
            print(f"  {step.sequence:5}  {step.operation.name}")


def _make_product() -> None:
    unit, *_ = Model.get("product.uom").find([("name", "=", "Unit")])
    template = Model.get("product.template")(name="Pump housing", code=CODE, type="goods", default_uom=unit)
    template.producible = True
    template.save()
    holes = Path(__file__).with_name(LIST_NAME).read_bytes()
    Model.get("ir.attachment")(name=LIST_NAME, type="data", data=holes, resource=template.products[0]).save()


if __name__ == "__main__":
    main()
