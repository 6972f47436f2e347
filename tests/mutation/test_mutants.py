"""The mistakes that are tried are real ones, each of one line; most of a hundred seeded ones are noticed."""

from __future__ import annotations

import subprocess
import sys
from difflib import ndiff
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
import draw
import swap
from borewright.core.model import status
from mutants import cells, changes, moved
from slips import STATUSES, slips

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "service" / "borewright"


@pytest.mark.parametrize(("figure", "other"), [("0.4375", "0.4376"), ("19", "18"), ("-2.0", "-2.1"), ("8", "9")])
def test_a_figure_moves_by_its_last_digit(figure, other):
    assert moved(figure) == other


@pytest.mark.parametrize(
    ("file", "places"), [("tables/gauging/gauge_plain_plug.csv", cells), ("core/rounding.py", changes)]
)
def test_a_mutant_changes_one_line(file, places):
    text = (SOURCE / file).read_text("utf-8")
    found = list(places(text, file))
    assert len(found) >= 10
    for mutant in found[::7]:
        changed = [line for line in ndiff(text.splitlines(), mutant.text(text).splitlines()) if line[0] in "+-"]
        assert [line[0] for line in changed] == ["-", "+"], mutant


@pytest.mark.parametrize("file", ["core/rounding.py", "core/plan/process.py", "core/materials/hardness.py"])
def test_a_slip_leaves_a_module_of_as_many_lines(file):
    text = (SOURCE / file).read_text("utf-8")
    found = list(slips(text, file))
    assert len({one.key for one in found}) == len(found) >= 10
    for slip in found:
        changed = slip.text(text)
        compile(changed, file, "exec")
        assert changed != text, slip
        assert len(changed.splitlines()) == len(text.splitlines()), slip


def test_statuses_are_those_of_the_domain():
    assert tuple(status.STATUSES) == STATUSES


SLIPS = """
def found(rows, limit, *, least=0):
    "A doc."
    rows.sort()
    if limit and rows:
        return min(a for a in rows if a > limit), "published"
    return taken(rows, limit, least=least)
"""


def test_each_kind_of_slip_is_made():
    made = {one.text(SLIPS).strip() for one in slips(SLIPS, "core/f.py")}
    whole = SLIPS.strip()
    for piece, instead in (
        ("rows.sort()", "pass"),
        ("if limit and rows:", "if True:"),
        ("if limit and rows:", "if limit:"),
        ("min(a for a in rows if a > limit)", "max((a for a in rows if a > limit))"),
        ("(a for a in rows if a > limit)", "(a for a in rows)"),
        ('min(a for a in rows if a > limit), "published"', "(min((a for a in rows if a > limit)),)"),
        ('"published"', "'from_memory'"),
        ("taken(rows, limit, least=least)", "taken(limit, rows, least=least)"),
        ("taken(rows, limit, least=least)", "taken(rows, limit)"),
    ):
        assert whole.replace(piece, instead) in made, (piece, instead)


def test_a_draw_stays_when_lines_come_before_it():
    source = "a = 1\nb = a + 2\n\n\ndef f(x):\n    return x * 3 < 4\n"
    keys = {one.key for one in changes(source, "core/f.py")}
    assert len(keys) > 8
    assert keys <= {one.key for one in changes(f'"""What it is."""\nc = 7\n{source}', "core/f.py")}


def test_each_table_is_drawn_as_often_whatever_its_length():
    drawn = [one.file for one in draw.figures(seed=1, count=800)]
    assert drawn.count("tables/drilling/drills.csv") < 25
    assert len(set(drawn)) > 80


def test_changed_code_gets_into_functions_that_were_handed_on():
    source = "K = 2\n\n\ndef outer(n):\n    def inner(x):\n        return x + n\n    return inner\n"
    before: dict = {}
    exec(compile(source, "held.py", "exec"), before)
    inner = before["outer"](5)
    codes = swap.changed_codes(source, source.replace("x + n", "x - n"), "held.py")
    swap.swap(codes, {swap.place(one.__code__): [one] for one in (before["outer"], inner)})
    assert inner(7) == 2
    assert before["outer"](1)(7) == 6
    with pytest.raises(swap.ImportedOnly):
        swap.changed_codes(source, source.replace("K = 2", "K = 3"), "held.py")


def test_a_sample_is_noticed():
    """50 changes of code, 50 cells: survivors that ``survivors.csv`` does not name are few."""
    command = [sys.executable, str(Path(__file__).with_name("run.py")), "--processes", "1"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    told = [line for line in run.stdout.splitlines() if not line.startswith(("noticed", "named"))]
    assert run.returncode == 0, "\n".join([*told, run.stderr])
    assert run.stdout.count("\nnoticed") >= 90, run.stdout
