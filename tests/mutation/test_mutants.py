"""The mistakes that are tried are real ones: each changes one place of a file and leaves the rest as it was."""

from __future__ import annotations

import sys
from difflib import ndiff
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
import subjects
from mutants import cells, changes, moved

SOURCE = Path(__file__).parents[2] / "service" / "borewright"


@pytest.mark.parametrize(("figure", "other"), [("0.4375", "0.4376"), ("19", "18"), ("-2.0", "-2.1"), ("8", "9")])
def test_a_figure_moves_by_its_last_digit(figure, other):
    assert moved(figure) == other


@pytest.mark.parametrize(
    ("file", "places"), [("tables/gauging/gauge_plain_plug.csv", cells), ("core/rounding.py", changes)]
)
def test_a_mutant_changes_one_line(file, places):
    text = (SOURCE / file).read_text("utf-8")
    found = list(places(SOURCE / file, file))
    assert len(found) >= 10
    for mutant in found[::7]:
        changed = [line for line in ndiff(text.splitlines(), mutant.text(text).splitlines()) if line[0] in "+-"]
        assert [line[0] for line in changed] == ["-", "+"], mutant


def test_every_file_has_tests_of_its_subject():
    files = [*SOURCE.glob("tables/**/*.csv"), *SOURCE.glob("core/**/*.py"), SOURCE / "contract" / "unit_view.py"]
    for file in files:
        tests = subjects.tests_of(str(file.relative_to(SOURCE)))
        assert tests
        assert [path for path in tests if not Path(path).exists()] == []
