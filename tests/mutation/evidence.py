"""Which tests run which lines and open which tables, and how long each takes: measured once, kept in ``.mutation``.

    python tests/mutation/evidence.py

Every cache is emptied before each test, so that none is spared by what another one left behind.
"""

from __future__ import annotations

import json
import os
import re
import sys
import time
from collections import defaultdict
from collections.abc import Mapping, Sequence
from pathlib import Path

import coverage
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from loaded import OPTIONS, ROOT, SOURCE, Loaded, Ran, files_of_tests

KEPT = ROOT / ".mutation"


class Evidence:
    """What was measured."""

    def __init__(self) -> None:
        self._data = coverage.CoverageData(str(KEPT / "lines"))
        self._data.read()
        kept = json.loads((KEPT / "tests.json").read_text("utf-8"))
        self.seconds: Mapping[str, float] = kept["seconds"]
        self._tables: Mapping[str, Sequence[str]] = kept["tables"]
        self._by_line: dict[str, Mapping[int, Sequence[str]]] = {}

    def tests_of_line(self, file: str, line: int) -> list[str]:
        """Tests that run a line of a module, quickest first."""
        if file not in self._by_line:
            self._by_line[file] = self._data.contexts_by_lineno(str(SOURCE / file))
        return self._sorted(self._by_line[file].get(line, ()))

    def tests_of_file(self, file: str) -> list[str]:
        """Tests that open a table or run a line of a module, quickest first."""
        if file.endswith(".csv"):
            return self._sorted(self._tables.get(file, ()))
        self.tests_of_line(file, 0)
        return self._sorted({one for tests in self._by_line[file].values() for one in tests})

    def tests_of_folder(self, file: str) -> list[str]:
        """Tests that run a line of a module beside one that only declares, quickest first."""
        beside = (path.relative_to(SOURCE) for path in (SOURCE / file).parent.glob("*.py"))
        return self._sorted({test for path in beside for test in self.tests_of_file(str(path))})

    def tests_of_figure(self, name: str) -> list[str]:
        """Tests that run a module which binds a figure of the table of practice, quickest first."""
        base = re.compile(rf'"{re.sub("_(in|mm)$", "", name)}(_in|_mm)?"')
        modules = (path for path in SOURCE.rglob("*.py") if base.search(path.read_text("utf-8")))
        return self._sorted({test for path in modules for test in self.tests_of_file(str(path.relative_to(SOURCE)))})

    def _sorted(self, tests: Sequence[str] | set[str]) -> list[str]:
        return sorted((one for one in tests if one), key=lambda one: self.seconds.get(one, 0))


def measure() -> int:
    """Runs all tests that may judge and keeps what they run."""
    KEPT.mkdir(exist_ok=True)
    (KEPT / "lines").unlink(missing_ok=True)
    lines = coverage.Coverage(data_file=str(KEPT / "lines"), source=[str(SOURCE)], config_file=False)
    lines.start()

    def work(loaded: Loaded) -> None:
        seconds: dict[str, float] = defaultdict(float)
        tables: dict[str, list[str]] = defaultdict(list)
        for test, items in loaded.items.items():
            opened = Ran()
            loaded.watch.seen = opened
            lines.switch_context(test)
            loaded.forget()
            began = time.process_time()
            for item, following in zip(items, [*items[1:], None], strict=True):
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            seconds[test] = time.process_time() - began
            lines.switch_context("")
            for table in opened.tables:
                tables[table].append(test)
        (KEPT / "tests.json").write_text(json.dumps({"seconds": seconds, "tables": tables}), "utf-8")

    os.chdir(ROOT)
    options = [one for one in OPTIONS if one != "-x"]
    code = pytest.main([*options, *(f"tests/{name}" for name in files_of_tests())], plugins=[Loaded(work)])
    lines.stop()
    lines.save()
    return int(code)


if __name__ == "__main__":
    sys.exit(measure())
