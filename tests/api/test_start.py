"""What the start loads: nothing that no first request needs."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib.util import find_spec

#: Makers of documents, of other forms of an answer, of units, of what runs beside the service.
NOT_NEEDED = {
    "apispec",
    "borewright.api.batch.reply",
    "borewright.bulk",
    "borewright.contract.catalogues",
    "borewright.contract.sections.audit",
    "borewright.contract.sections.detail",
    "borewright.contract.sections.service",
    "borewright.core.audit",
    "borewright.core.tapping.marking",
    "borewright.contract.writers.drawing.sheet",
    "borewright.contract.documents.endpoints",
    "borewright.contract.documents.examples",
    "borewright.contract.documents.openapi",
    "borewright.contract.documents.published",
    "cairocffi",
    "cairosvg",
    "dask",
    "lxml",
    "numpy",
    "pandas",
    "pint",
    "requests",
    "xml.sax",
    "yaml",
}


def loaded_by(statements: str) -> set[str]:
    """Modules that a new interpreter has after ``statements``."""
    code = f"{statements}\nimport json, sys\nprint(json.dumps(sorted(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(json.loads(done.stdout))


def test_the_start_loads_nothing_for_later():
    loaded = loaded_by("import borewright.api.wsgi, borewright.api.worker")
    assert "borewright.core.plan.specify" in loaded
    assert loaded & NOT_NEEDED == set()


def test_the_names_of_what_is_not_needed_are_right():
    """Each is loaded by what needs it, or can be, so that a module under another name is noticed."""
    loaded = loaded_by(
        "import borewright.api.batch.reply, borewright.contract.documents.published\n"
        "import borewright.contract.writers.drawing.sheet, borewright.bulk"
    )
    left = NOT_NEEDED - {"cairocffi", "cairosvg"} - loaded
    assert left == {"dask", "lxml", "pandas", "pint", "requests", "yaml"}
    assert all(find_spec(name) for name in left)


def test_settings_are_read_before_anything_is_loaded():
    loaded = loaded_by("import borewright.api.settings, borewright.api.keys")
    assert {name for name in loaded if name.split(".")[0] in ("flask", "marshmallow", "werkzeug")} == set()
    assert {name for name in loaded if name.startswith("borewright.contract")} == set()
