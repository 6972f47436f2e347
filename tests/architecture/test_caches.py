"""All caches of the domain and of its edge are made by one module, so that each is bounded, listed and measured."""

import ast
import inspect
import textwrap
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages

import borewright
import pytest
from borewright.core import caches
from every import every
from syntax_trees import nodes

ROOT = Path(borewright.__file__).parent
PROJECT = Path(__file__).parents[2]
MODULES = [path for layer in ("core", "contract") for path in sorted((ROOT / layer).rglob("*.py"))]


def _imported(path: Path) -> set[str]:
    found = {
        f"{node.module}.{name.name}" for node in nodes(path) if isinstance(node, ast.ImportFrom) for name in node.names
    }
    return found | {name.name for node in nodes(path) if isinstance(node, ast.Import) for name in node.names}


@pytest.fixture(scope="module")
def every_cache():
    for layer in ("core", "contract"):
        package = import_module(f"borewright.{layer}")
        for module in walk_packages(package.__path__, f"{package.__name__}."):
            if not module.name.endswith(".publish"):
                import_module(module.name)
    return caches.caches()


@every("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_no_module_makes_its_own_cache(path):
    if "functools" not in path.read_text("utf-8"):
        return  # a tree takes its time
    made = {"functools", "functools.cache", "functools.lru_cache", "functools.cached_property"} & _imported(path)
    assert path.name == "caches.py" or not made


def test_what_is_read_from_the_tables_never_pushes_each_other_out(every_cache):
    """A key of a table is a unit, a system, a group or a name: all of them fit."""
    full = [one.name for one in every_cache if one.of_tables and one.held == one.entries]
    assert not full


def _unused(one):
    """Parameters of a cached function that its body never names."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(one.function.__wrapped__)))
    named = {node.id for statement in tree.body[0].body for node in ast.walk(statement) if isinstance(node, ast.Name)}
    return set(one.key) - named


def test_every_part_of_a_key_is_used(every_cache):
    """What a function does not use would only part answers that are the same."""
    known = [one for one in every_cache if not one.of_tables]
    assert not {one.name: found for one in known if (found := _unused(one))}


def test_a_cache_forgets_what_it_was_longest_not_asked():
    calls = []

    @caches.cached(2)
    def doubled(number):
        calls.append(number)
        return 2 * number

    assert [doubled(number) for number in (1, 2, 1, 3, 1, 2)] == [2, 4, 2, 6, 2, 4]
    assert calls == [1, 2, 3, 2]
    found = next(one for one in caches.caches() if one.name.endswith("doubled"))
    assert (found.key, found.entries, found.held, found.of_tables) == (("number",), 2, 2, False)
    found.clear()
    assert found.held == 0


def test_answers_with_large_keys_are_kept_apart():
    @caches.cached_apart(2, lambda words: len(words) > 3)
    def joined(words):
        return object()

    usual, large = (one for one in caches.caches() if ".joined" in one.name)
    assert (large.entries, large.name) == (caches.LARGE_KEYS, f"{usual.name} (large keys)")
    assert joined(("a", "b")) is joined(("a", "b"))
    assert joined(tuple("abcd")) is joined(tuple("abcd"))
    assert (usual.held, large.held) == (1, 1)


def test_the_table_of_caches_is_that_of_the_code(every_cache):
    """Names, keys and bounds; the bytes are measured by tests/load/cache_bytes.py."""
    text = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = [[cell.strip() for cell in line.split("|")[1:-1]] for line in text.splitlines() if line.startswith("| `co")]
    listed = {cells[0].strip("`"): tuple(cells[1:3]) for cells in rows if len(cells) == 4}
    made = {}
    for one in every_cache:
        if one.name.startswith(("core.", "contract.")) and not one.of_tables:
            made.setdefault(one.name, []).append(one)
    assert listed == {
        name: (", ".join(same[0].key), f"{len(same)} x {same[0].entries}" if len(same) > 1 else f"{same[0].entries}")
        for name, same in made.items()
    }
