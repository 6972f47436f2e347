"""The Tryton integration on a real trytond with an in-memory database, asking the real service."""

from __future__ import annotations

import csv
import importlib.util
import io
import json
import logging
import os
import subprocess
import sys
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any
from unittest import mock

import pytest
from borewright_client import Client

ROOT = Path(__file__).parent.parent.parent
FOLDER = ROOT / "client" / "integrations" / "tryton"
HOLES = (FOLDER / "tapped_holes.csv").read_text()
ONE_HOLE = "\n".join(HOLES.splitlines()[:2])

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")  # trytond's own


@pytest.fixture(scope="module")
def kept_databases(tmp_path_factory) -> str:
    """Where Tryton keeps a database that it made, so that it is made once for the tests and the demonstration."""
    return str(tmp_path_factory.mktemp("databases"))


@pytest.fixture(scope="module")
def database(kept_databases) -> Iterator[None]:
    """A Tryton database in memory with productions and routings."""
    names = {"TRYTOND_DATABASE_URI": "sqlite://", "DB_NAME": ":memory:", "DB_CACHE": kept_databases}
    with mock.patch.dict(os.environ, names), warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        from trytond.tests.tools import activate_modules

        activate_modules(["production_routing"])
        yield


@pytest.fixture(scope="module")
def integration(database: None) -> ModuleType:
    found = importlib.util.spec_from_file_location("tapped_holes", FOLDER / "tapped_holes.py")
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


@pytest.fixture
def client(service_url: str) -> Iterator[Client]:
    with Client(service_url) as client:
        yield client


@pytest.fixture
def models(database: None) -> Callable[[str], Any]:
    from proteus import Model

    return Model.get


@pytest.fixture
def product(models, request) -> Any:
    """A product of its own for each test."""
    unit, *_ = models("product.uom").find([("name", "=", "Unit")])
    template = models("product.template")(name="Pump housing", code=f"KRP-4105 {request.node.name}", type="goods")
    template.default_uom, template.producible = unit, True
    template.save()
    return template.products[0]


def attach(models, product, text: str) -> None:
    """Put the list of holes on the product, in the place of the one before."""
    attachments = models("ir.attachment")
    for old in attachments.find([("resource", "=", f"product.product,{product.id}")]):
        old.delete()
    attachments(name="tapped_holes.csv", type="data", data=text.encode(), resource=product).save()


def routing_of(models, product) -> Any:
    found = models("production.routing").find([("name", "=", f"{product.code} tapped holes")])
    assert len(found) == 1
    return found[0]


def steps(models, product) -> list[tuple[int, str]]:
    return [(step.sequence, step.operation.name) for step in routing_of(models, product).steps]


def line_count(client: Client, text: str) -> int:
    """How many operations the service gives the first hole of a list."""
    first = next(csv.DictReader(io.StringIO(text)))
    hole = {"type": first["type"], "full_thread_depth": float(first["full_thread_depth"]), "thickness": 1.5}
    rest = {name: first[name] for name in ("id", "thread", "material", "finish")}
    return len(client.hole_spec({**rest, "hole": hole})["operations"])


def notes(models, product) -> list[str]:
    routing = routing_of(models, product)
    return [note.message for note in models("ir.note").find([("resource", "=", f"production.routing,{routing.id}")])]


def as_earlier(models, product, **parts: Any) -> None:
    """Make the record of the only hole one of an earlier version of the service, with other parts of its reply."""
    routing = routing_of(models, product)
    (record,) = models("ir.attachment").find([("resource", "=", f"production.routing,{routing.id}")])
    held = json.loads(record.data)
    held["specification"] |= {"tables_version": "earlier", "rules_version": "earlier", "spec_id": "earlier", **parts}
    record.description, record.data = "earlier", json.dumps(held).encode()
    record.save()


def test_writes_a_step_an_operation(integration, models, client, product, caplog):
    attach(models, product, HOLES)
    with caplog.at_level(logging.INFO, logger="borewright.tryton"):
        changes = integration.write_routing(client, product.code)
    assert [change.split(",")[0] for change in changes] == [
        "KRP-4105-D1: written",
        "KRP-4105-D2: written",
        "KRP-4105-P1: written",
    ]
    written = steps(models, product)
    request = integration.read_holes(HOLES)[0]
    lines = client.hole_spec(request)["operations"]
    assert written[: len(lines)] == [(1000 + line["sequence"], f"KRP-4105-D1: {line['text']}") for line in lines]
    assert [number for number, _ in written] == sorted({number for number, _ in written})
    assert len(written) > 3 * 4
    (pipe_tap,) = (text for _, text in written if text.startswith("KRP-4105-P1: Tap "))
    assert "to the gauge line, tip 0.687 in past the face" in pipe_tap  # 0.459 + 0.2278, whatever the wall of 0.75
    assert any("KRP-4105-P1: Inspect thread" in text and "L1 taper thread plug" in text for _, text in written)
    assert notes(models, product) == ["\n".join(changes)]
    assert len(caplog.messages) == 3


def test_same_spec_id_changes_nothing(integration, models, client, product):
    attach(models, product, HOLES)
    integration.write_routing(client, product.code)
    before = [step.id for step in routing_of(models, product).steps]
    assert integration.write_routing(client, product.code) == []
    assert [step.id for step in routing_of(models, product).steps] == before
    assert len(notes(models, product)) == 1


def test_what_matters_after_an_upgrade_is_updated_and_said(integration, models, client, product, caplog):
    attach(models, product, ONE_HOLE)
    integration.write_routing(client, product.code)
    before = steps(models, product)
    depths = client.hole_spec(integration.read_holes(ONE_HOLE)[0])["depths"]
    as_earlier(models, product, depths={**depths, "drill_depth": 0.5})
    changed = routing_of(models, product).steps[1].operation
    changed.name += " (as it was)"
    changed.save()
    with caplog.at_level(logging.INFO, logger="borewright.tryton"):
        changes = integration.write_routing(client, product.code)
        assert integration.write_routing(client, product.code) == []
    assert changes == [
        f"KRP-4105-D1: updated, {len(before)} steps, tables earlier -> {client.version()['tables_version']},"
        f" /depths/drill_depth 0.5 -> {depths['drill_depth']} (another table or rule)"
    ]
    assert caplog.messages == [f"{product.code}: {changes[0]}"]
    assert changes[0] in notes(models, product)
    assert steps(models, product) == before
    assert len(models("production.routing.operation").find([("id", "=", changed.id), ("active", "=", False)])) == 1


def test_what_does_not_matter_is_kept_and_logged(integration, models, client, product, caplog):
    attach(models, product, ONE_HOLE)
    integration.write_routing(client, product.code)
    as_earlier(models, product, assumptions=["said in other words"], sources=[])
    before = [step.id for step in routing_of(models, product).steps]
    with caplog.at_level(logging.INFO, logger="borewright.tryton"):
        assert integration.write_routing(client, product.code) == []
        assert integration.write_routing(client, product.code) == []  # the record has been renewed
    kept = f"{product.code}: KRP-4105-D1: kept, nothing that matters differs (another table or rule)"
    assert caplog.messages == [kept]
    assert [step.id for step in routing_of(models, product).steps] == before
    assert len(notes(models, product)) == 1


def test_changed_hole_is_written_again_in_its_place(integration, models, client, product):
    attach(models, product, HOLES)
    integration.write_routing(client, product.code)
    changed = HOLES.replace("0.75,1.5", "0.5,1.5")
    lines = line_count(client, changed)
    attach(models, product, changed)
    (change,) = integration.write_routing(client, product.code)
    assert change.startswith(f"KRP-4105-D1: updated, {lines} steps, tables {client.version()['tables_version']}, /")
    assert change.endswith(" more (another request)")
    first = steps(models, product)[:lines]
    assert all(1000 <= number < 2000 and text.startswith("KRP-4105-D1: ") for number, text in first)


def test_hole_that_left_the_list_leaves_the_routing(integration, models, client, product):
    attach(models, product, HOLES)
    integration.write_routing(client, product.code)
    attach(models, product, ONE_HOLE)
    changes = integration.write_routing(client, product.code)
    assert changes == [
        "KRP-4105-D2: removed, it is no longer in the list",
        "KRP-4105-P1: removed, it is no longer in the list",
    ]
    assert {text.split(":")[0] for _, text in steps(models, product)} == {"KRP-4105-D1"}


def test_steps_of_people_stay(integration, models, client, product):
    operation = models("production.routing.operation")(name="Deburr and wash")
    operation.save()
    routing = models("production.routing")(name=f"{product.code} tapped holes")
    routing.steps.new(operation=operation, sequence=20)
    routing.save()
    attach(models, product, ONE_HOLE)
    integration.write_routing(client, product.code)
    attach(models, product, ONE_HOLE.replace("0.75,1.5", "0.5,1.5"))
    integration.write_routing(client, product.code)
    assert steps(models, product)[0] == (20, "Deburr and wash")


def test_routing_of_the_bill_of_materials_is_used(integration, models, client, product):
    bom = models("production.bom")(name=product.code)
    bom.outputs.new(product=product, quantity=1)
    bom.save()
    routing = models("production.routing")(name=f"{product.code} machining")
    routing.boms.append(bom)
    routing.save()
    product.boms.new(bom=bom, routing=routing)
    product.save()
    attach(models, product, ONE_HOLE)
    integration.write_routing(client, product.code)
    routing.reload()
    assert len(routing.steps) > 4
    assert models("production.routing").find([("name", "=", f"{product.code} tapped holes")]) == []


def test_record_on_the_routing_holds_the_specification(integration, models, client, product):
    attach(models, product, ONE_HOLE)
    integration.write_routing(client, product.code)
    routing = routing_of(models, product)
    (record,) = models("ir.attachment").find([("resource", "=", f"production.routing,{routing.id}")])
    held = json.loads(record.data)
    assert record.description == held["specification"]["spec_id"]
    assert held["specification"]["cautions"]
    assert held["operations"] == [step.operation.id for step in routing.steps]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (HOLES.replace("3/8-16 UNC-2B", "1/4").replace("1/4-28 UNF", "1/4-29 UNF"), ["D1 /thread", "D2 /thread"]),
        (ONE_HOLE.replace("type", "sort"), ["KRP-4105-D1 /sort"]),
        (ONE_HOLE.replace("KRP-4105-D1", ""), ["needs an id"]),
        (ONE_HOLE + "\n" + ONE_HOLE.splitlines()[1], ["no two the same"]),
        (ONE_HOLE + ",x,y", ["more cells"]),
    ],
    ids=["threads", "column", "no id", "same id", "cells"],
)
def test_bad_list_changes_nothing(integration, models, client, product, text, told):
    attach(models, product, text)
    with pytest.raises(integration.CannotWrite) as refused:
        integration.write_routing(client, product.code)
    assert all(words in str(refused.value) for words in told)
    assert models("production.routing").find([("name", "=", f"{product.code} tapped holes")]) == []


def test_cells_are_numbers_only_where_the_contract_has_numbers(integration):
    text = "id,thread,type,thickness,material,percent_thread\n4105,M8,through,.5,4140,75\nB,M8,through,nan,,"
    first, second = integration.read_holes(text)
    hole = {"type": "through", "thickness": 0.5}
    assert first == {"id": "4105", "thread": "M8", "hole": hole, "material": "4140", "percent_thread": 75.0}
    assert second["hole"]["thickness"] == "nan"


def test_product_must_be_there_and_have_a_list(integration, client, product):
    with pytest.raises(integration.CannotWrite, match="0 products have the code KRP-0"):
        integration.write_routing(client, "KRP-0")
    with pytest.raises(integration.CannotWrite, match=r"0 attachments tapped_holes\.csv"):
        integration.write_routing(client, product.code)


def test_command(integration, models, client, service_url, product, monkeypatch, capsys):
    monkeypatch.setenv("TRYTON_URL", "http://127.0.0.1:9/krp/rpc/")
    attach(models, product, ONE_HOLE)
    with mock.patch.object(integration.tryton, "set_xmlrpc") as connect:  # the database in memory is asked
        assert integration.main([product.code, "--url", service_url]) == 0
        assert integration.main(["KRP-0", "--url", service_url]) == 1
        assert integration.main([product.code, "--url", "http://127.0.0.1:9"]) == 1
    connect.assert_called_with("http://127.0.0.1:9/krp/rpc/")
    assert len(steps(models, product)) == line_count(client, ONE_HOLE)
    told = capsys.readouterr().err
    assert "0 products have the code KRP-0" in told
    assert "no connection to http://127.0.0.1:9" in told
    monkeypatch.delenv("TRYTON_URL")
    with pytest.raises(SystemExit, match="2"):
        integration.main([product.code])


def test_module_is_short():
    assert len((FOLDER / "tapped_holes.py").read_text().splitlines()) < 260


def test_the_demonstration_runs_by_itself(database, kept_databases) -> None:
    """What `bash client/integrations/tryton/demo` runs once its environment is made."""
    path = os.pathsep.join(filter(None, (os.environ.get("PYTHONPATH"), str(ROOT / "service" / "demo"))))
    done = subprocess.run(
        [sys.executable, FOLDER / "demo.py"],
        env={**os.environ, "PYTHONPATH": path, "DB_CACHE": kept_databases}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "Run again: nothing to change" in done.stdout
    assert "Routing KRP-4105 tapped holes" in done.stdout
    assert "   1010  KRP-6008-F1: Spot drill" in done.stdout
