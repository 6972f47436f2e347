"""Every text of a reply speaks the units of the reply: inches and pounds, or millimetres and newtons.

The requests (``varied_requests.json``) are everyday holes of pump housings and the awkward ones: large, thin, hard,
plated, inserts, pipe, a small machine, plans with mistakes.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from borewright.api import create_app
from borewright.core.plan.caution_order import CODES

VARIED = json.loads((Path(__file__).parent / "varied_requests.json").read_text())
SPEC = "/v1/hole-specs"
#: Evidence in its own unit, names of documents, threads, tools and materials, and what is no text at all.
NAMES = frozenset(
    [
        "derivation",
        "sources",
        "units",
        "standard",
        "document",
        "designation",
        "thread",
        "marking",
        "label",
        "class",
        "series",
        "value_basis",
        "name",
        "specification",
        "spec_id",
        "request_id",
        "id",
        "tables_version",
        "rules_version",
        "straight_hole_drill",
        "covers",
        "does_not_cover",
    ]
)
#: Names of drills, threads, finishes and materials that hold a size.
NAMED = ("label", "designation", "document", "name", "specification", "class")
SIZED = re.compile(r"\d ?(?:mm|in)\b")
_NUMBER = r"(?<![\w./])-?\d+(?:[./]\d+)*"
FOREIGN = {
    "inch": re.compile(rf"{_NUMBER} ?(?:mm|um|N\*m|N|kW|MPa|m/min|mm/rev)(?![\w/*])"),
    "metric": re.compile(rf"{_NUMBER} ?(?:in|inch|inches|lbf\*in|lbf|hp|psi|ksi|ft/min|in/rev)(?![\w/*])"),
}
#: Tapers, and metric pitches, which are names of threads.
USUAL = re.compile(r"1 in 16|pitch(?:es)? (?:of )?[\d., and]+ mm|has [\d.]+ mm\.$|given by its pitch in mm")
LONG_DECIMALS = re.compile(r"\d\.\d{6}|\d[eE][+-]?\d")
#: The constant of the thread height has six decimals.
CONSTANT = "1.299038"


def requests() -> Iterator[tuple[str, str, dict[str, Any]]]:
    """What is asked: a name, a path and a body without its unit system."""
    for name, hole in VARIED["holes"].items():
        of_drill = ("thread", "material", "method", "finish", "percent_thread", "objective", "drill_series")
        yield name, SPEC, hole
        yield f"drill, {name}", "/v1/drills/recommend", _only(hole, *of_drill)
        yield f"tap, {name}", "/v1/taps/recommend", _only(hole, "thread", "material", "method", "finish", "hole")
        yield f"thread, {name}", "/v1/threads/resolve", _only(hole, "thread")
        if "finish" in hole:
            yield f"allowance, {name}", "/v1/allowances", _only(hole, "thread", "finish")
    for name, plan in VARIED["plans"].items():
        hole = VARIED["holes"][plan["hole"]]
        yield f"audit, {name}", f"{SPEC}/audit", hole | {"as_planned": plan["as_planned"]}
    for marking in VARIED["markings"]:
        yield f"decode, {marking}", "/v1/taps/decode", {"marking": marking}


def _only(hole: Mapping[str, Any], *names: str) -> dict[str, Any]:
    return {name: hole[name] for name in names if name in hole}


def texts(value: object, place: str = "") -> Iterator[tuple[str, str]]:
    """Every text below a value with its place."""
    if isinstance(value, str):
        yield place, value
    elif isinstance(value, list):
        for index, one in enumerate(value):
            yield from texts(one, f"{place}/{index}")
    elif isinstance(value, dict):
        for name, one in value.items():
            if name not in NAMES or isinstance(one, dict):
                yield from texts(one, f"{place}/{name}")


def named(value: object, names: Collection[str]) -> Iterator[str]:
    """Every text under one of the names, at any depth."""
    if isinstance(value, list):
        for one in value:
            yield from named(one, names)
    elif isinstance(value, dict):
        for name, one in value.items():
            if isinstance(one, str):
                if name in names:
                    yield one
            else:
                yield from named(one, names)


def without_names(text: str, names: list[str]) -> str:
    for name in names:
        text = text.replace(name, "NAME")
    return USUAL.sub("NAME", text)


def faults(body: dict[str, Any], reply: dict[str, Any], system: str) -> list[str]:
    """Texts of a reply that are not in its units or not in plain decimals."""
    own = [*named(reply, NAMED)]
    own += [*body.get("stock", {}).get("drills", ()), str(body.get("as_planned", {}).get("drill"))]
    if "errors" in reply:
        own += [text for _, text in texts(body)]  # What was given is repeated as it was given.
    names = sorted({name for name in own if SIZED.search(name)}, key=len, reverse=True)
    found = []
    for place, text in texts(reply):
        plain = without_names(text, names)
        if FOREIGN[system].search(plain) or "\N{NO-BREAK SPACE}" in text:
            found.append(f"{place}: {text}")
        if LONG_DECIMALS.search(text.replace(CONSTANT, "")):
            found.append(f"{place}: {text}")
    return found


@pytest.fixture(scope="module")
def service() -> Any:
    return create_app().test_client()


@pytest.mark.parametrize("system", ["inch", "metric"])
def test_texts_speak_the_units_of_the_reply(service, system):
    found = []
    for name, path, body in requests():
        response = service.post(path, json=body | {"unit_system": system})
        assert response.status_code in (200, 422), name
        reply = response.json
        if {"unit_doubtful", "value_out_of_range"} & set(named(reply, ["code"])):
            continue  # What is asked about stands as it was given, a range in every unit that may be sent.
        found += [f"{name}{fault}" for fault in faults(body, reply, system)]
    assert not found, "\n".join(found)


def test_a_foreign_unit_is_found():
    reply = {"assumptions": ["6.8 mm drill (0.2677 in)", "0.5 mm deep"], "drill": {"label": "6.8 mm"}}
    assert faults({}, reply, "inch") == ["/assumptions/1: 0.5 mm deep"]
    assert faults({}, reply, "metric") == ["/assumptions/0: 6.8 mm drill (0.2677 in)"]


def test_cautions_of_replies_stand_in_their_order(service):
    places = {code: place for place, code in enumerate(CODES)}
    for name, path, body in requests():
        cautions = service.post(path, json=body).json.get("cautions", [])
        order = [places[caution["code"]] for caution in cautions]
        assert order == sorted(order), name
