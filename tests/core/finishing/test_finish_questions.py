"""What speaks against a finish itself: materials it cannot be put on, and prohibitions of its specification."""

from __future__ import annotations

import pytest
from borewright.api import create_app
from borewright.core.finishing import substrate
from borewright.tables import load

HOLE = {"type": "through", "thickness": 0.75}


@pytest.fixture(scope="module")
def client():
    return create_app().test_client()


def _specified(client, finish, material, **more):
    answer = client.post(
        "/v1/hole-specs", json={"thread": "1/4-20 UNC-2B", "hole": HOLE, "material": material, "finish": finish, **more}
    )
    assert answer.status_code == 200, answer.json
    return answer.json


@pytest.mark.parametrize(
    ("finish", "material"),
    [
        ("ASTM A153", "6061-T6"),
        ("hot dip galvanize", "A380"),
        ("hot dip galvanize", "304"),
        ("hot dip galvanize", "acetal"),
        ("hard anodize", "304"),
        ("hard anodize", "A36"),
        ("ASTM B633 Fe/Zn 8", "acetal"),
        ("passivate", "1018"),
        ("black oxide", "6061-T6"),
        ("MIL-DTL-5541", "4140"),
    ],
)
def test_what_cannot_be_coated_stops_the_hole(client, finish, material):
    reply = _specified(client, finish, material)
    assert reply["verdict"] == "infeasible"
    assert reply["review"][0]["code"] == "finish_substrate_impossible"
    assert "finish" not in [one["operation"] for one in reply["operations"]]
    assert "tap_after_galvanizing" not in [one["code"] for one in reply["cautions"]]
    body = {"thread": "1/4-20 UNC-2B", "material": material, "finish": finish}
    allowance = client.post("/v1/allowances", json=body).json
    assert allowance["feasible"] is False
    assert allowance["tap"] is None
    assert "finish_substrate_impossible" in [one["code"] for one in allowance["cautions"]]


@pytest.mark.parametrize(
    ("finish", "material"),
    [
        ("ASTM A153", "A36"),
        ("hard anodize", "6061-T6"),
        ("passivate", "304"),
        ("black oxide", "4140"),
        ("hard anodize", None),
    ],
)
def test_what_can_be_coated_is_not_stopped(client, finish, material):
    more = {} if material is None else {"material": material}
    reply = client.post("/v1/hole-specs", json={"thread": "1/4-20 UNC-2B", "hole": HOLE, "finish": finish, **more}).json
    assert "finish_substrate_impossible" not in [one["code"] for one in reply["review"]]


def test_every_material_of_the_substrate_table_is_a_family():
    families = {row["family"] for row in load("materials").rows}
    for row in load("finish_substrates").rows:
        assert row["status"] == "common_practice"
        for start in row["material_families"].split("|"):
            assert any(family.startswith(start) for family in families)
    assert substrate.impossible(None, None) is None


@pytest.mark.parametrize(
    ("finish", "hardness", "prohibited"),
    [
        ("QQ-P-416 Class 2", "44 HRC", True),  # QQ-P-416F 3.2.1: above 43 HRC
        ("QQ-P-416 Class 2", "43 HRC", False),
        ("MIL-C-8837 Class 2", "44 HRC", False),  # vacuum cadmium is what is taken for such steel
        ("ASTM F2329", "41 HRC", True),
        ("AMS 2460 0.0002 in", "48 HRC", True),
    ],
)
def test_prohibitions_come_first(client, finish, hardness, prohibited):
    reply = _specified(client, finish, {"name": "4340", "hardness": hardness})
    codes = [one["code"] for one in reply["review"]]
    assert ("finish_prohibited" in codes) is prohibited
    assert not prohibited or codes[0] == "finish_prohibited"


def test_an_infeasible_finish_has_no_tap(client):
    """Fe/Zn 25: 4 x 0.0015 in of zinc is more than the 0.0065 in of 1/2-13 2B leaves room for a tap in."""
    reply = client.post("/v1/allowances", json={"thread": "1/2-13 UNC-2B", "finish": "ASTM B633 Fe/Zn 25"}).json
    assert reply["feasible"] is False
    assert reply["tap"] is None
    assert reply["remedies"]


@pytest.mark.parametrize(
    ("finish", "material", "times"),
    [
        ("passivate", "304", 1),
        ("black oxide", "4140", 1),
        ("MIL-DTL-5541", "6061-T6", 1),
        ("ASTM B633 Fe/Zn 5", "1018", 2),
    ],
)
def test_one_inspection_where_the_finish_moves_nothing(client, finish, material, times):
    done = [one["operation"] for one in _specified(client, finish, material)["operations"]]
    assert done.count("inspect") == times
