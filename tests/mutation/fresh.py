"""A run of pytest that imports the service anew for each mistake, from a folder that has one file of its own.

The folder holds links to all other files, their compiled ones too.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

import pytest
from forks import begin_test
from loaded import OPTIONS, ROOT, SOURCE, function_of
from mutants import Mutant


class _Failed:
    """A plugin of pytest: the first test, or file of tests, that fails."""

    name = ""

    def pytest_collection(self) -> None:
        import every

        every._ENOUGH = 1

    def pytest_runtest_logstart(self) -> None:
        begin_test()

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed and not self.name:
            self.name = function_of(report.nodeid)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed and not self.name:
            self.name = function_of(report.nodeid)


def load() -> None:
    """What every test needs but the service itself: loaded once, not for each mistake."""
    import flask
    import hypothesis
    import jsonschema
    import marshmallow
    import orjson
    import schemathesis

    assert all((flask, hypothesis, jsonschema, marshmallow, orjson, schemathesis))
    assert "borewright" not in sys.modules


def first_failed(mutant: Mutant | None, tests: Sequence[str], folder: Path) -> str:
    """The first of the tests that fails, "" where none does; in a process that ends with it."""
    copied(mutant, folder)
    os.chdir(ROOT)
    sys.path.insert(0, str(folder))
    sys.dont_write_bytecode = True
    failed = _Failed()
    begin_test()
    code = pytest.main([*OPTIONS, *(f"tests/{test}" for test in tests)], plugins=[failed])
    if code not in (0, 1, 2):
        raise RuntimeError(f"the tests do not run: {code}: {tests}")
    assert bool(code) == bool(failed.name)
    return failed.name


def copied(mutant: Mutant | None, folder: Path) -> None:
    """Fill the folder with links to the service, and the changed file of a mistake."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(SOURCE, folder / "borewright", copy_function=os.symlink)
    if mutant is not None:
        changed = folder / "borewright" / mutant.file
        source = (SOURCE / mutant.file).read_text("utf-8")
        for old in changed.parent.glob(f"__pycache__/{changed.stem}.*"):
            old.unlink()
        changed.unlink()
        changed.write_text(mutant.text(source), "utf-8")


def in_groups(tests: Iterable[str]) -> list[list[str]]:
    """Tests in the order of the list: a few first, for each group is loaded before its first test runs."""
    listed = list(tests)
    return [group for group in (listed[:3], listed[3:12], listed[12:]) if group]
