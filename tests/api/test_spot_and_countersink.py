"""Spot drill and countersink of replies by hand: as flat as the drill or flatter, to 1.05 D, as deep as their cones."""

from __future__ import annotations

from math import radians, tan

import pytest


@pytest.mark.parametrize(
    ("thread", "depth", "point", "diameter", "drill", "spot_deg", "sink_deg"),
    [
        ("1/2-13 UNC-2B", "0.75 in", 118, 1.05 * 0.5, 0.4219, 120, 90),
        ("M10", "15 mm", 118, 1.05 * 10, 8.5, 120, 120),
        ("M10", "15 mm", 140, 1.05 * 10, 8.5, 140, 120),
    ],
)
def test_cones_by_hand(client, thread, depth, point, diameter, drill, spot_deg, sink_deg):
    hole = {"type": "blind", "full_thread_depth": depth, "point_angle": point}
    reply = client.post("/v1/hole-specs", json={"thread": thread, "hole": hole, "material": "1045"}).json
    lines = {one["operation"]: one for one in reply["operations"]}
    spot, sink = lines["spot_drill"], lines["countersink"]
    assert (spot["tool"]["included_angle"], sink["tool"]["included_angle"]) == (spot_deg, sink_deg)
    assert reply["depths"]["countersink_diameter"] == pytest.approx(diameter)
    assert spot["parameters"]["depth"] == pytest.approx(diameter / 2 / tan(radians(spot_deg / 2)), abs=1e-3)
    assert sink["parameters"]["depth"] == pytest.approx((diameter - drill) / 2 / tan(radians(sink_deg / 2)), abs=1e-3)
