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
from borewright_client.cli.arguments import parser
from borewright_client.cli.asking import _hole_spec
from borewright_client.cli.options import further

SCHEMAS = {name: json.loads(text) for name, text in published.schemas_json().items()}
SCHEMA = SCHEMAS["hole-spec-request"]
FURTHER = further("hole_spec")
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
    """Counted by hand: nine fields of a thread, three of percent, two pairs of limits, mean and spread, two texts."""
    assert len(NO_TEXT) == 9 + 3 + 2 * 2 + 2 + 2
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


class Asked:
    """A client that tells what it is asked."""

    def __getattr__(self, name: str) -> Any:
        return lambda thread, finish=None, **fields: {"thread": thread, "finish": finish, **fields}


DRILLING = ("--percent", "70", "--objective", "chart", "--drill-oversize", "0.03")
MATERIAL = ("--material", "4140", "--hardness", "28 HRC")
COMMANDS = {
    "thread": ("M8",),
    "drill": ("M8", *DRILLING, *MATERIAL, "--method", "cut", "--finish", "ISO 4042"),
    "allowance": ("M8", "ISO 4042", *MATERIAL, "--tap-limits", "metric_d"),
    "tap": ("M8", "--blind", "20", "--wall", "30", "--drill-depth-limit", "26", *MATERIAL, "--method", "cut",
            "--finish", "ISO 4042", "--tap-limits", "metric_d"),
}  # fmt: skip


@pytest.mark.parametrize("command", COMMANDS)
def test_every_field_of_a_part_has_an_option(command):
    """All options of a command together make a request with every field that its schema has."""
    words = [command, *COMMANDS[command], "--edition", "2019", "--units", "metric", "--explain"]
    for option, name in further(command).items():
        words += [option] if FIELDS[name] == "flag" else [option, "1"]
    options = parser().parse_args(words)
    known = dict(fields(SCHEMAS[f"{command}-request"])).keys() - NO_TEXT.keys()
    asked = {name for name in given(options.call(Asked(), options)) if name != "finish" or "finish" in known}
    assert asked == {SHOWN_AS.get(name, name) for name in known}


def options_of(*words: str) -> set[str]:
    return set(given(_hole_spec(parser().parse_args(["spec", "M8", *words]))))


def test_every_field_has_an_option():
    """The request that all options together make has every field that a column has."""
    words = [
        "--wall", "30", "--drill-depth-limit", "26", "--id", "KRP-1", "--percent", "70", "--objective", "chart",
        "--method", "cut", "--material", "4140", "--hardness", "28 HRC", "--finish", "ISO 4042", "--tap-limits",
        "metric_d", "--drill-oversize", "0.03", "--edition", "2019", "--screw-class", "6g", "--screw-grade", "8.8",
        "--explain", "--json", "--detail", "full", "--units", "metric",
    ]  # fmt: skip
    for option, name in FURTHER.items():
        words += [option] if FIELDS[name] == "flag" else [option, "1"]
    assert options_of("--blind", "20", *words) == {SHOWN_AS.get(name, name) for name in FIELDS if name not in NO_TEXT}


@pytest.mark.parametrize(("option", "name"), FURTHER.items())
def test_an_option_sets_its_field_and_no_other(option, name):
    words = [option] if FIELDS[name] == "flag" else [option, "5 mm"]
    assert options_of("--through", "12", *words) - options_of("--through", "12") == {name}


def test_every_field_is_on_the_page():
    pointers = re.findall(r'data-pointer="/([^"]+)"', PAGE.read_text(encoding="utf-8"))
    shown = {pointer.replace("/", ".") for pointer in pointers}
    assert shown <= set(FIELDS)
    assert set(FIELDS) - shown == set(NO_FORM_FIELD)
