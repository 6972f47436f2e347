"""What every computed reply ends with: its sources and cautions always, its steps where they were asked for."""

from __future__ import annotations

import pytest
from borewright.api import create_app

HOLE = {"type": "through", "thickness": "12 mm"}


@pytest.fixture(scope="module")
def service():
    return create_app().test_client()


@pytest.mark.parametrize(
    ("path", "body", "section"),
    [
        ("/v1/drills/recommend", {"thread": "M8"}, "recommended."),
        ("/v1/hole-specs", {"thread": "M8", "hole": HOLE, "material": {"name": "6061-T6"}}, "drill.recommended."),
    ],
)
def test_a_reply_has_sources_and_tells_its_steps_when_asked(service, path, body, section):
    plain = service.post(path, json=body).json
    explained = service.post(path, json=body | {"explain": True}).json
    assert "derivation" not in plain
    assert explained["derivation"]
    for reply in (plain, explained):
        assert any(one["for"].startswith(section) for one in reply["sources"])
        assert reply["assumptions"]
        assert reply["units"]["length"] == "mm"
        assert reply["tables_version"]
    assert service.post(path, json=body | {"explain": False}).json.keys() == plain.keys()


def test_sources_of_a_hole_are_those_of_its_parts(service):
    """Each part names its figures under its own name."""
    spec = service.post("/v1/hole-specs", json={"thread": "M8", "hole": HOLE, "material": {"name": "6061-T6"}}).json
    places = {one["for"].partition(".")[0] for one in spec["sources"]}
    assert {"drill", "tap", "cutting_data", "material"} <= places
