"""A client that a generator makes from the OpenAPI document asks the real service."""

from __future__ import annotations

import importlib
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest
from made_clients import DOCUMENT, lines, options, what_they_say

NAME = "shop_client"
#: What the generator leaves out, and says so: bodies in media types that it does not know.
NOT_JSON = {"application/x-ndjson", "text/csv", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"}

REQUEST = {
    "id": "KRP-1042-A3",
    "thread": "M8x1.25-6H",
    "hole": {"type": "blind", "full_thread_depth": 16},
    "material": {"name": "6061-T6"},
    "unit_system": "metric",
}


@pytest.fixture(scope="module")
def generated(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ModuleType]:
    """The package that openapi-python-client makes of the committed document."""
    folder = tmp_path_factory.mktemp("generated")
    command = [sys.executable, "-m", "openapi_python_client", "generate", *options("openapi-python-client")]
    files = ["--path", str(DOCUMENT), "--output-path", str(folder / NAME)]
    ran = subprocess.run([*command, *files], capture_output=True, text=True, timeout=120)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    warnings = re.findall(r"^WARNING.*\n\n(.*)$", ran.stdout + ran.stderr, re.MULTILINE)
    assert {text.removeprefix("Unsupported content type ") for text in warnings} == NOT_JSON
    sys.path.insert(0, str(folder))
    try:
        yield importlib.import_module(NAME)
    finally:
        sys.path.remove(str(folder))


def part(generated: ModuleType, name: str) -> ModuleType:
    return importlib.import_module(f"{generated.__name__}.{name}")


def test_the_lines_of_the_page_ask_the_service(generated, service_url, capsys):
    exec(lines("python", service_url), {})
    assert capsys.readouterr().out.strip() == what_they_say(service_url)


def test_specifies_a_hole(generated, service_url):
    create = part(generated, "api.hole_specifications.create_hole_spec")
    body = part(generated, "models.hole_spec_request_body").HoleSpecRequestBody.from_dict(REQUEST)
    with generated.Client(base_url=service_url) as client:
        answer = create.sync_detailed(client=client, body=body)
    assert answer.status_code == 200
    spec = answer.parsed
    assert type(spec).__name__ == "HoleSpec"
    assert spec.id == "KRP-1042-A3"
    assert spec.thread.designation == "M8x1.25-6H"
    assert spec.thread.internal.pitch_diameter.min_ == 7.188  # ISO 965-2, M8 6H
    assert spec.thread.internal.pitch_diameter.max_ == 7.348
    assert spec.units.length == "mm"
    assert [operation.sequence for operation in spec.operations][:2] == [10, 20]


def test_specifies_many_holes(generated, service_url):
    create = part(generated, "api.hole_specifications.create_hole_specs")
    body = part(generated, "models.batch_request_body").BatchRequestBody.from_dict(
        {"defaults": {"material": "6061-T6"}, "items": [REQUEST, {**REQUEST, "id": "KRP-1042-A4", "thread": "1/4"}]}
    )
    with generated.Client(base_url=service_url) as client:
        answer = create.sync_detailed(client=client, body=body)
    assert answer.status_code == 200
    assert (answer.parsed.summary.ok, answer.parsed.summary.failed) == (1, 1)
    assert [result.id for result in answer.parsed.results] == ["KRP-1042-A3", "KRP-1042-A4"]


def test_reads_a_problem(generated, service_url):
    resolve = part(generated, "api.threads.resolve_thread")
    body = part(generated, "models.thread_request").ThreadRequest.from_dict({"thread": "1/4"})
    with generated.Client(base_url=service_url) as client:
        answer = resolve.sync_detailed(client=client, body=body)
    assert answer.status_code == 422
    assert answer.parsed.code == "callout_ambiguous"
    assert answer.parsed.errors[0].pointer == "/thread"


def test_has_a_list_of_words_once(generated):
    models = Path(str(generated.__file__)).parent / "models"
    for name, words in {"UnitSystem": {"inch", "metric"}, "Detail": {"full", "figures", "routing"}}.items():
        assert {word.value for word in getattr(part(generated, "models"), name)} == words
        with_them = [
            path.name for path in models.glob("*.py") if all(f'= "{word}"' in path.read_text() for word in words)
        ]
        assert len(with_them) == 1, with_them
