"""Every field of a hole has a column of CSV, an option of the command and a field of the page, or a reason why not.

All of them are held to the published schema, which the running one makes; the client imports nothing of the service.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from borewright.contract.documents import published
from borewright.contract.requests.csv_columns import COLUMNS, TEXT_OF, WITHOUT_COLUMNS
from borewright_client.cli import columns
from borewright_client.cli.options import options_of, request_of
from borewright_client.cli.program import GROUP

SCHEMAS = {name: json.loads(text) for name, text in published.schemas_json().items()}
SCHEMA = SCHEMAS["hole-spec-request"]
PAGE = Path(__file__).parents[2] / "service" / "borewright" / "api" / "page" / "index.html"
KINDS = {"string": "text", "number": "figure", "integer": "figure", "boolean": "flag", "array": "list"}

_AS_TEXT = "the text in the field above it says it"
_TEXTS = [f"{name}.{field}" for name, field in TEXT_OF.items()]


def fields(schema: dict[str, Any], path: str = "") -> Iterator[tuple[str, str]]:
    """Dotted name and kind of every field: of an object that may be a text as well, the text and the fields."""
    for name, inner in resolved(schema)["properties"].items():
        options = [resolved(option) for option in inner.get("anyOf", [inner])]
        kinds = {kind for option in options for kind in KINDS if kind in types(option)}
        dotted = f"{path}{name}"
        if kinds:
            yield dotted, KINDS["number"] if kinds & {"number", "integer"} else KINDS[min(kinds)]
        for option in options:
            if "properties" in option:
                yield from fields(option, f"{dotted}.")


def types(option: dict[str, Any]) -> list[str]:
    found = option.get("type", [])
    return [found] if isinstance(found, str) else found


def resolved(schema: dict[str, Any]) -> dict[str, Any]:
    reference = schema.get("$ref")
    found: dict[str, Any] = SCHEMA["$defs"][reference.rpartition("/")[2]] if reference else schema
    return found


FIELDS = dict(fields(SCHEMA))
#: Fields of the contract that neither a column nor an option has.
NO_TEXT = {name: why for name in FIELDS for place, why in WITHOUT_COLUMNS.items() if name.startswith(f"{place}.")} | (
    dict.fromkeys(_TEXTS, _AS_TEXT)
)
_AS_TEXT_TOO = "the text of material or finish may hold it"
#: Fields that the page does not ask for.
NO_FORM_FIELD = {
    **{name: why for name, why in NO_TEXT.items() if name != "machine.drill_oversize.standard_deviation"},
    "hole.type": "a choice without a fault of its own: no pointer leads to it",
    "material.hardness": _AS_TEXT_TOO,
    "material.group": _AS_TEXT_TOO,
    "material.tensile_strength": _AS_TEXT_TOO,
    "finish.class": _AS_TEXT_TOO,
    "finish.thickness": _AS_TEXT_TOO,
    "finish.growth_fraction": "for a coat that no specification names: JSON, CSV or the command",
    "finish.masked": "the plan says where a thread must be masked",
    "finish.reading": "the reading of the thread's standard holds",
    "hole.run_out": "a rule of drawing offices: JSON, CSV or the command",
    "dimensions_apply": "a general note says it: the page of notes, JSON, CSV or the command",
    "drill_series": "the crib, which the page asks for, says it",
    "length_of_engagement": "the depth of full thread holds",
    "safety_factor": "for joints that a designer works out: JSON, CSV or the command",
    "machine.name": "it chooses among the figures of a shop, which the page does not take: JSON, CSV or the command",
    "strict": "a person reads the caution",
    "explain": "the page shows no derivation",
    "detail": "the page shows what it needs",
}


def test_the_fields_are_those_of_the_schema():
    """Held by hand to the contract, so that the walk above cannot miss what it should find."""
    assert {"thread", "hole.type", "hole.run_out", "machine.max_torque", "safety_factor", "mating_screw.class"} <= set(
        FIELDS
    )
    kinds = {
        "id": "text",
        "hole.thickness": "figure",
        "strict": "flag",
        "stock.taps": "list",
        "percent_thread": "figure",
    }
    assert kinds.items() <= FIELDS.items()


@pytest.mark.parametrize("known", [COLUMNS, columns.COLUMNS], ids=["service", "client"])
def test_every_field_has_a_column(known):
    assert {name: column.kind for name, column in known.items()} == {
        name: kind for name, kind in FIELDS.items() if name not in NO_TEXT
    }
    assert set(NO_TEXT) <= set(FIELDS)


def test_what_has_no_column_is_what_a_cell_cannot_hold():
    """Counted by hand: nine fields of a thread, three of percent, two pairs of limits, mean and spread, two texts,
    and the eight of a shop's figures.
    """
    assert len(NO_TEXT) == 9 + 3 + 2 * 2 + 2 + 2 + 8
    assert {"thread.pitch", "percent_thread.max", "finish.heat_treat_growth.min", "material.name"} <= set(NO_TEXT)
    assert all(any(name.startswith(f"{place}.") for name in FIELDS) for place in WITHOUT_COLUMNS)


def test_a_column_says_what_it_may_hold():
    assert COLUMNS["drill_series"].words == ("fractional", "number", "letter", "metric")
    assert COLUMNS["hole.run_out"].meaning.endswith("(chamfer, din_76_1 or bs_1936)")
    assert COLUMNS["machine.max_power"].meaning.endswith("; a bare number is in hp or kW")
    assert COLUMNS["mating_screw.class"].meaning == "class of the external thread, e.g. 2A or 6g"


def given(request: dict[str, Any], path: str = "") -> Iterator[str]:
    """Dotted name of every field of a request."""
    for name, value in request.items():
        if isinstance(value, dict):
            yield from given(value, f"{path}{name}.")
        else:
            yield f"{path}{name}"


#: Where a text stands when further fields say more of its object.
SHOWN_AS = dict(zip(TEXT_OF, _TEXTS, strict=True))


#: What arguments and the options of a hole's extent set.
ARGUMENTS = {
    "spec": ("M8", "--blind", "20", "--wall", "30"),
    "thread": ("M8",),
    "drill": ("M8",),
    "allowance": ("M8", "ISO 4042"),
    "tap": ("M8", "--blind", "20", "--wall", "30"),
}


def request_for(name: str) -> str:
    return "hole_spec" if name == "spec" else name


def asked(command: str, *words: str) -> set[str]:
    """Dotted names of the request that a command makes of its words."""
    return set(given(request_of(dict(GROUP.commands[command].make_context(command, [*words]).params))))


def option_with_value(option: str, name: str) -> list[str]:
    words = columns.COLUMNS[name].words
    return [option] if FIELDS[name] == "flag" else [option, words[0] if words else "5 mm"]


@pytest.mark.parametrize("command", ARGUMENTS)
def test_every_field_has_an_option(command):
    """All arguments and options of a command together make a request with every field that its schema has."""
    options = options_of(request_for(command)).items()
    words = [word for option, name in options if name != "finish" or command != "allowance"
             for word in option_with_value(option, name)]  # fmt: skip
    known = dict(fields(SCHEMAS[f"{request_for(command).replace('_', '-')}-request"])).keys() - NO_TEXT.keys()
    assert asked(command, *ARGUMENTS[command], *words) == {SHOWN_AS.get(name, name) for name in known}


def test_an_option_sets_its_field_and_no_other():
    alone = asked("spec", "M8", "--through", "12")
    for option, name in options_of("hole_spec").items():
        assert asked("spec", "M8", "--through", "12", *option_with_value(option, name)) - alone == {name}


def test_every_field_is_on_the_page():
    pointers = re.findall(r'data-pointer="/([^"]+)"', PAGE.read_text(encoding="utf-8"))
    shown = {pointer.replace("/", ".") for pointer in pointers}
    assert shown <= set(FIELDS)
    assert set(FIELDS) - shown == set(NO_FORM_FIELD)
