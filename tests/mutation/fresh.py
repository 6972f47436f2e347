"""A run of pytest that imports the service anew for each mistake, from a folder that has one file of its own.

The folder holds links to all others, and to what is compiled of them.
"""

from __future__ import annotations

import math
import os
import shutil
import sys
import time
from collections.abc import Iterable, Sequence
from pathlib import Path

import pytest
from forks import begin_test
from loaded import OPTIONS, ROOT, SOURCE, function_of
from mutants import Mutant


class _Failed:
    """A plugin of pytest: the first test, or file of tests, that fails until the tests have used ``most_seconds``."""

    name = ""

    def __init__(self, most_seconds: float) -> None:
        self._most = most_seconds
        self._end = math.inf

    def pytest_collection(self) -> None:
        import every

        every._ENOUGH = 1

    def pytest_runtestloop(self) -> None:
        self._end = time.process_time() + self._most

    def pytest_runtest_protocol(self) -> bool | None:
        return time.process_time() > self._end or None

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

    assert all((flask, hypothesis, jsonschema, marshmallow, orjson))
    assert "borewright" not in sys.modules


def first_failed(mutant: Mutant | None, tests: Sequence[str], folder: Path, most_seconds: float = math.inf) -> str:
    """The first of the tests that fails until the seconds are used, "" where none does.

    The process ends with it.
    """
    copied(mutant, folder)
    os.chdir(ROOT)
    sys.path.insert(0, str(folder))
    sys.dont_write_bytecode = True
    failed = _Failed(most_seconds)
    begin_test()
    code = pytest.main([*OPTIONS, *(f"tests/{test}" for test in tests)], plugins=[failed])
    if code not in (0, 1, 2) and not failed.name:
        raise RuntimeError(f"the tests do not run: {code}: {tests}")
    shutil.rmtree(folder, ignore_errors=True)
    assert bool(code) == bool(failed.name)
    return failed.name


def copied(mutant: Mutant | None, folder: Path) -> None:
    """Make a folder whose service is that of the project but for the changed file of a mistake."""
    service = folder / "borewright"
    if mutant is None:
        folder.mkdir(parents=True)
        service.symlink_to(SOURCE)
        return
    _linked(SOURCE, service, Path(mutant.file).parts)
    changed = service / mutant.file
    changed.unlink()
    changed.write_text(mutant.text((SOURCE / mutant.file).read_text("utf-8")), "utf-8")


def _linked(source: Path, folder: Path, way: Sequence[str]) -> None:
    """Links to all that a folder holds; folders on the way to the changed file are made, and those of all tables."""
    folder.mkdir(parents=True)
    for entry in source.iterdir():
        if entry.is_dir() and (entry.name == way[0] or source.name == "tables"):
            _linked(entry, folder / entry.name, way[1:] or [""])
        else:
            (folder / entry.name).symlink_to(entry)


def in_groups(tests: Iterable[str]) -> list[list[str]]:
    """Tests in the order of the list: a few first, for each group is loaded before its first test runs."""
    listed = list(tests)
    return [group for group in (listed[:3], listed[3:12], listed[12:]) if group]
