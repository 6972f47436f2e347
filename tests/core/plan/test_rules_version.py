"""The version of the rules moves with every rule and every table that one reads, and with nothing else."""

import ast
import hashlib
import re
import shutil
from pathlib import Path

import borewright
import pytest
from borewright import tables
from borewright.core.plan import rules_version
from borewright.core.plan.rules_version import fingerprint
from syntax_trees import nodes

PACKAGE = Path(borewright.__file__).parent
HEAD = "# title: of a test\n# status: common_practice\nname,value\n"


@pytest.fixture
def copy(tmp_path):
    """The rules and tables in a folder of their own."""
    for name in ("core", "tables"):
        shutil.copytree(PACKAGE / name, tmp_path / name, ignore=shutil.ignore_patterns("__pycache__"))
    return tmp_path


def _of(folder):
    return fingerprint(folder / "core", folder / "tables")


def _replace(path, old, new):
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_the_same_contents_have_the_same_version_wherever_they_are(copy):
    assert _of(copy) == rules_version.version()


def test_a_constant_of_a_rule_moves_it(copy):
    _replace(copy / "core" / "drilling" / "percent_of_thread.py", '"1.299038"', '"1.299039"')
    assert _of(copy) != rules_version.version()


def test_prose_does_not_move_it(copy):
    module = copy / "core" / "hole" / "depths.py"
    _replace(module, '"""', '"""Said otherwise. ')
    _replace(module, "\n\n\n", "\n\n\n# a remark\n")
    _replace(module, "import annotations", "import annotations  # said beside the code")
    assert _of(copy) == rules_version.version()


def _texts(node):
    """Its string, or nothing."""
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def test_nothing_but_prose_is_left_out():
    """Every docstring is emptied and nothing else: no other text looks like one, or like a comment."""
    for path in (PACKAGE / "core").rglob("*.py"):
        source = path.read_bytes()
        bare = rules_version.without_prose(source)
        prose = [node.value for node in nodes(path) if isinstance(node, ast.Expr) and _texts(node.value)]
        assert len(re.findall(rb'(?m)^ *r?""$', bare)) == len(prose) == source.count(b'"""') / 2, path
        texts = {_texts(node) for node in nodes(path)} - {node.value for node in prose}
        assert not [text for text in texts if re.search(r"  #|\n *#", text)], path


def test_a_new_module_moves_it(copy):
    (copy / "core" / "drilling" / "new_rule.py").write_text('"""A rule."""\n', encoding="utf-8")
    assert _of(copy) != rules_version.version()


@pytest.mark.parametrize(
    "name", ["drills", "tap_drill_unified", "hydrogen_rules", "way_of_making", "tap_words", "practice"]
)
def test_a_table_that_is_read_moves_it(copy, name):
    """``tap_drill_unified`` is read by the beginning of its name."""
    (path,) = (copy / "tables").rglob(f"{name}.csv")
    path.write_text(path.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    assert _of(copy) != rules_version.version()


def test_a_table_that_nothing_reads_does_not_move_it(copy):
    path = copy / "tables" / "plan" / "colours_of_paint.csv"
    for rows in ("rust,1\n", "rust,2\n"):
        path.write_text(HEAD + rows, encoding="utf-8")
        assert _of(copy) == rules_version.version()


def test_a_module_and_a_table_may_move_to_another_folder(copy):
    (copy / "core" / "moved").mkdir()
    shutil.move(copy / "core" / "drilling" / "tap_drill_charts.py", copy / "core" / "moved" / "charts.py")
    shutil.move(copy / "tables" / "drilling" / "drills.csv", copy / "tables" / "tapping" / "drills.csv")
    assert _of(copy) == rules_version.version()


def test_every_table_is_read():
    """A table that no rule names would answer nothing."""
    assert rules_version.tables_read(PACKAGE / "core", tables.FOLDER) == set(tables.names())


def test_the_version_is_made_of_bare_modules_and_of_the_tables_that_they_name(tmp_path):
    """Twelve digits of SHA-256 over the sorted digests of each, by the general library."""
    quotes = '"' * 3
    core, folder = tmp_path / "core", tmp_path / "tables"
    core.mkdir()
    folder.mkdir()
    written = f'{quotes}Says what.{quotes}\n\n# why\nA = "steel_"  # beside\n\n\nB = "drills"\n'
    (core / "one.py").write_text(written, encoding="utf-8")
    (core / "two.py").write_text(
        f"{quotes}More.{quotes}\n\n\ndef f():\n    {quotes}Does.{quotes}\n    return 1\n", "utf-8"
    )
    tables_of = {"steel_one": b"1", "steel_two": b"2", "drills": b"3", "drill": b"4", "mild_steel_": b"5", "taps": b"6"}
    for name, content in tables_of.items():
        (folder / f"{name}.csv").write_bytes(content)
    bare = (b'""\nA = "steel_"\nB = "drills"', b'""\ndef f():\n    ""\n    return 1')
    assert [rules_version.without_prose(path.read_bytes()) for path in (core / "one.py", core / "two.py")] == list(bare)
    digests = sorted(hashlib.sha256(content).digest() for content in (*bare, b"1", b"2", b"3"))
    assert fingerprint(core, folder) == hashlib.sha256(b"".join(digests)).hexdigest()[:12]
    assert len(fingerprint(core, folder)) == 12
    assert rules_version.tables_read(core, folder) == {"steel_one", "steel_two", "drills"}
