"""What the plan of a part says of its loss and of the speeds of a step; chances by hand from natural logarithms."""

from __future__ import annotations

import json
from types import SimpleNamespace

import jsonschema
import pytest
from borewright.contract.documents import published
from borewright.contract.sections.part_plan import LoadingItem, ProofSection
from borewright.contract.sections.schema import writer
from borewright.contract.unit_view import view
from borewright.core.part.model import Loading
from borewright.core.part.selection import Stage
from every import every


@pytest.fixture(scope="module")
def valid():
    schema = json.loads(published.schemas_json()["part-plan-reply"])

    def check(name, shown):
        jsonschema.Draft202012Validator({"$ref": f"#/$defs/{name}", "$defs": schema["$defs"]}).validate(shown)
        return shown

    return check


@every(
    ("counts", "loss", "shown"),
    [
        # 1 - exp(-0.25 / 1), of its bound 1 - exp(-0.125 / 1)
        ((1,), (0.25, 0.125), (0.2212, 0.1175)),
        # two holes of one kind and three of another lose a fifth each: 1 - exp(-0.05), 1 - exp(-0.025)
        ((2, 3), (0.25, 0.125), (0.04877, 0.02469)),
        # what would be won is no loss
        ((1,), (-0.25, -0.5), (0, 0)),
        ((1,), (0.0, 0.0), (0, 0)),
        # no hole was planned
        ((), (0.0, 0.0), (0, 0)),
        ((2,), None, (None, None)),
    ],
)
def test_a_hole_loses_its_share_of_what_all_lose(valid, counts, loss, shown):
    plan = SimpleNamespace(
        optimal=True,
        bound=3,
        proved=("tools",),
        loss=None if loss is None else Stage("loss", *loss, proved=True),
        order_optimal=True,
        holes=[SimpleNamespace(hole=SimpleNamespace(count=count)) for count in counts],
    )
    found = valid("ProofSection", writer(ProofSection, view("in", None))(plan))
    assert (found["loss"], found["loss_bound"]) == shown


@every(
    ("speeds", "feeds", "shown"),
    [
        ((900.0, 600.0), (0.12, 0.08), (600, [900, 600], 0.08)),
        ((), (), (None, [], None)),
    ],
)
def test_a_step_goes_by_the_lowest_of_its_speeds_and_feeds(valid, speeds, feeds, shown):
    step = Loading(1, 1, "6.8 mm twist drill", "drill", ("A",), 1, speeds, feeds, None, 6.0, 1.0)
    found = valid("LoadingItem", writer(LoadingItem, view("mm", None))(step))
    assert (found["spindle_speed"], found["spindle_speeds"], found["feed"]) == shown
