"""Which way the arrows run: api (and bulk) -> contract -> core -> tables, and who may use which library."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from syntax_trees import nodes

ROOT = Path(__file__).parent.parent.parent
PACKAGE = ROOT / "service" / "borewright"
CLIENT = ROOT / "client" / "borewright_client"

#: Layer -> layers of our own it may import besides itself.
MAY_IMPORT = {
    "tables": set(),
    "core": {"tables"},
    "contract": {"core", "quantiles", "solver", "tables"},
    "solver": {"core"},
    "quantiles": {"core"},
    "api": {"contract", "core", "quantiles", "solver", "tables"},
    "bulk": {"contract", "core", "solver", "tables"},
}
LIBRARIES = {
    "tables": set(),
    "core": set(),
    "contract": {
        "marshmallow",
        "apispec",
        "orjson",
        "pint",
        "lxml",
        "openpyxl",
        "xlsxwriter",
        "cairocffi",
        "cairosvg",
        "ezdxf",
        "segno",
    },
    "solver": {"highspy", "numpy"},
    "quantiles": {"scipy"},
    "api": {"flask", "werkzeug", "orjson", "gunicorn", "prometheus_client"},
    "bulk": {"dask", "pandas", "orjson"},
}
#: What api may use of core: the orchestrator, and the folders of what does more than one hole; and the errors.
API_OF_CORE = {
    "core.plan.specify",
    "core.part",
    "core.audit",
    "core.notes",
    "core.rework",
    "core.shop_figures",
    "core.errors",
}


@cache
def imported(path: Path, package: str, folder: Path) -> tuple[str, ...]:
    """Every module that a file imports, absolute, both import forms."""
    return tuple(_imported(path, package, folder))


def _imported(path: Path, package: str, folder: Path) -> Iterator[str]:
    here = (package, *path.relative_to(folder).with_suffix("").parts)
    for node in nodes(path):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = ".".join(here[: len(here) - node.level]) if node.level else ""
            base = ".".join(part for part in (start, node.module or "") if part)
            yield from (f"{base}.{alias.name}" for alias in node.names)


def files(layer: str) -> list[Path]:
    """The modules of a layer, which is a folder or one module."""
    return sorted([*(PACKAGE / layer).rglob("*.py"), *PACKAGE.glob(f"{layer}.py")])


def imports_of(layer: str) -> Iterator[tuple[Path, str]]:
    for path in files(layer):
        for name in imported(path, "borewright", PACKAGE):
            yield path.relative_to(ROOT), name


def is_standard(name: str) -> bool:
    return name.split(".")[0] in sys.stdlib_module_names


@pytest.mark.parametrize("layer", sorted(MAY_IMPORT))
def test_layers(layer):
    allowed = MAY_IMPORT[layer] | {layer}
    wrong = [
        (str(path), name)
        for path, name in imports_of(layer)
        if name.startswith("borewright.") and name.split(".")[1] not in allowed | {"__version__"}
    ]
    assert files(layer)
    assert wrong == []


@pytest.mark.parametrize("layer", sorted(LIBRARIES))
def test_libraries(layer):
    wrong = [
        (str(path), name)
        for path, name in imports_of(layer)
        if not is_standard(name) and name.split(".")[0] not in LIBRARIES[layer] | {"borewright"}
    ]
    assert wrong == []


def test_web_layer_uses_only_the_front_of_the_domain():
    used = {name.removeprefix("borewright.") for _, name in imports_of("api") if name.startswith("borewright.core")}
    assert used
    assert {name for name in used if not any(f"{name}.".startswith(f"{front}.") for front in API_OF_CORE)} == set()


def test_nothing_goes_out():
    """No layer imports what opens connections or starts programs: a request cannot make the service fetch or run.

    The start asks for free addresses with sockets of its own, and connects to nobody.
    """
    outward = {
        "ftplib",
        "http",
        "poplib",
        "requests",
        "smtplib",
        "socket",
        "subprocess",
        "telnetlib",
        "urllib",
        "urllib3",
    }
    numbers = {"socket.SHUT_RD", "socket.SHUT_WR", "socket.SOL_SOCKET", "socket.SO_SNDBUF"}
    wrong = [
        (str(path), name)
        for layer in MAY_IMPORT
        for path, name in imports_of(layer)
        if name.split(".")[0] in outward
        and path.name != "addresses.py"
        and not name.startswith("urllib.parse")
        and name not in numbers
    ]
    assert wrong == []
    assert "connect" not in (ROOT / "service" / "borewright" / "api" / "addresses.py").read_text("utf-8")


def test_pint_lives_in_one_module():
    users = {path.name for layer in MAY_IMPORT for path, name in imports_of(layer) if name.split(".")[0] == "pint"}
    assert users == {"unit_list.py"}


def test_client_knows_nothing_of_the_service():
    names = [name for path in CLIENT.rglob("*.py") for name in imported(path, "borewright_client", CLIENT)]
    assert names
    assert {name.split(".")[0] for name in names if not is_standard(name)} <= {
        "borewright_client",
        "click",
        "httpx",
        "requests",
        "tqdm",
        "urllib3",
    }


def test_both_import_forms_are_seen(tmp_path):
    module = tmp_path / "sub" / "module.py"
    module.parent.mkdir()
    module.write_text("import flask.json\nfrom ..api import x\nfrom . import y\nfrom marshmallow import fields\n")
    assert set(imported(module, "pkg", tmp_path)) == {"flask.json", "pkg.api.x", "pkg.sub.y", "marshmallow.fields"}
