"""A document that the head of a table names is cited from there: nobody writes its name and edition again."""

import ast
from pathlib import Path

import borewright
from borewright import tables
from syntax_trees import nodes

CORE = Path(borewright.__file__).parent / "core"
#: What makes a source, a cite or the standard of a thread, and which of its arguments are document and edition.
MAKERS = {"Source": 1, "Cite": 0, "Standard": 0}
#: A handbook has rules on many pages besides the table that names it.
HANDBOOK = ("Machinery's Handbook", "27th ed.")


def _named_twice(path, heads):
    for node in nodes(path):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in MAKERS:
            first = MAKERS[node.func.id]
            pair = tuple(part.value for part in node.args[first : first + 2] if isinstance(part, ast.Constant))
            if pair in heads:
                yield f"{path.relative_to(CORE)}:{node.lineno} {pair}"


def test_the_heads_of_tables_name_their_documents():
    named = [tables.load(name).head for name in tables.names()]
    heads = {(head.get("document"), head.get("edition")) for head in named} - {HANDBOOK}
    assert ("ISO 228-1", "2000") in heads
    assert [place for path in sorted(CORE.rglob("*.py")) for place in _named_twice(path, heads)] == []
