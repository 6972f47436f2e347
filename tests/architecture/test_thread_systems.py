"""Who asks about a thread system asks for a trait of it: its name is known to the standards and to the readers only."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from pathlib import Path

from borewright.core.standards import systems
from syntax_trees import nodes

PACKAGE = Path(__file__).parent.parent.parent / "service" / "borewright"
#: Folders that know the systems by name.
OWN = ("core/standards", "core/callout")
#: Examples of requests in the published documents.
EXAMPLES = {
    "contract/requests/queries.py": {"iso_metric"},
    "contract/requests/thread.py": {"unified", "iso_metric"},
    "contract/documents/examples.py": {"iso_metric"},
    "contract/documents/endpoints.py": {"unified"},
}


def names_in(found: Iterable[ast.AST]) -> Iterator[str]:
    """Names of systems, and beginnings of them, among the texts of a module."""
    for node in found:
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in {*systems.NAMES, "insert_"}:
            yield node.value


def test_no_module_outside_names_a_system():
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        place = str(path.relative_to(PACKAGE))
        if not place.startswith(OWN):
            names = set(names_in(nodes(path))) - EXAMPLES.get(place, set())
            if names:
                found[place] = names
    assert found == {}


def test_every_form_of_a_name_is_seen():
    source = 'if thread.system == "npt" or thread.system in ("unified", other):\n    x = {"iso_7": 1}'
    assert sorted(names_in(ast.walk(ast.parse(source)))) == ["iso_7", "npt", "unified"]


def test_families_are_not_found_by_the_text_of_their_names():
    """No module of the domain imports another by text, or asks a module for what it may lack."""
    calls = {
        (str(path.relative_to(PACKAGE)), node.func.id)
        for path in (PACKAGE / "core").rglob("*.py")
        for node in nodes(path)
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in ("import_module", "__import__")
    }
    assert calls == set()
