"""One collected run of pytest that is forked for each mistake: what the tests need is loaded once.

While modules are imported and tests collected it is written down which functions run and which tables are opened. A
mistake in one of those would not be seen in a fork, and goes to ``fresh.py``.
"""

from __future__ import annotations

import functools
import gc
import importlib
import math
import pkgutil
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import pytest
import swap
from forks import begin_test

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "service" / "borewright"
TABLES = str(SOURCE / "tables")
_OWN = (str(SOURCE), str(ROOT / "tests"))
_Cached = functools._lru_cache_wrapper
#: Tests without a server or browser, where a mistake in a figure is seen.
FOLDERS = ("core", "contract", "tables", "trade", "derived", "solver", "api")
#: Tests that compare what is generated with itself, the whole text of the rules with a fingerprint, or the answers of
#: this process with those of another one, which has no mistake.
NO_JUDGES = (
    "contract/test_documents.py", "core/plan/test_rules_version.py",
    "api/test_replies.py::test_same_bytes_in_another_process",
)  # fmt: skip
#: Fixtures that start something outside of the process.
OUTSIDE = {"service_url", "processes", "browser", "balancer"}
OPTIONS = (
    *("-x", "-q", "-m", "not long", "-p", "no:cacheprovider", "-p", "no:xdist", "--assert=plain"),
    *("--hypothesis-profile=ci", "-W", "ignore:Module already imported:pytest.PytestAssertRewriteWarning"),
)


class Ran:
    """What ran and was opened in a stretch of time: places of functions, and files of tables."""

    def __init__(self) -> None:
        self.functions: set[swap.Place] = set()
        self.tables: set[str] = set()

    def __contains__(self, one: swap.Place | str) -> bool:
        return one in self.functions or one in self.tables


class Watch:
    """Tells what runs: ``seen`` is where it is written down, None where nothing is."""

    def __init__(self) -> None:
        self.seen: Ran | None = None
        sys.addaudithook(self._opened)

    @contextmanager
    def over(self, ran: Ran) -> Iterator[None]:
        """Write down what runs meanwhile."""
        before, self.seen = self.seen, ran
        codes: set[CodeType] = set()

        def called(frame: FrameType, event: str, _: Any) -> None:
            if event == "call":
                codes.add(frame.f_code)

        sys.setprofile(called)
        try:
            yield
        finally:
            sys.setprofile(None)
            own = (swap.place(code) for code in codes if code.co_filename.startswith(str(SOURCE)))
            ran.functions.update(place for place in own if not place[1].startswith("<module>"))
            self.seen = before

    def _opened(self, event: str, arguments: tuple[Any, ...]) -> None:
        # As text: whoever reads all tables as bytes makes their version.
        if event == "open" and self.seen is not None and arguments[1] == "r" and str(arguments[0]).startswith(TABLES):
            self.seen.tables.add(str(Path(arguments[0]).relative_to(SOURCE)))


class Loaded:
    """A plugin of pytest: collects, then calls ``work`` with itself in place of running the tests."""

    def __init__(self, work: Callable[[Loaded], None]) -> None:
        self.work = work
        self.watch = Watch()
        self.imported = Ran()
        self.collected: dict[str, Ran] = defaultdict(Ran)
        self.items: dict[str, list[pytest.Item]] = defaultdict(list)
        self.session: pytest.Session
        with self.watch.over(self.imported):
            for part in ("core", "contract", "api", "solver", "quantiles"):
                package = importlib.import_module(f"borewright.{part}")
                for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
                    importlib.import_module(module.name)
        self.caches = _caches()

    @pytest.hookimpl(wrapper=True)
    def pytest_make_collect_report(self, collector: pytest.Collector) -> Iterator[None]:
        if not isinstance(collector, pytest.Module):
            return (yield)
        self.forget()
        with self.watch.over(self.collected[file_of(collector.nodeid)]):
            return (yield)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.session = session
        for item in session.items:
            if not OUTSIDE & set(getattr(item, "fixturenames", ())):
                self.items[function_of(item.nodeid)].append(item)
        gc.unfreeze()  # what is frozen is not told of
        self.functions = swap.functions_below(str(SOURCE))
        self.caches = _caches()
        self.forget()
        gc.collect()
        gc.freeze()
        self.work(self)
        return True

    def forget(self) -> None:
        """Empty every cache of the service and of its tests, also that of the tables."""
        for one in self.caches:
            one.cache_clear()

    def run(self, tests: Iterable[str], most_seconds: float = math.inf) -> Iterator[str]:
        """Run tests until they have used the seconds, stop at the first that fails and yield its name."""
        items = [item for test in tests for item in self.items.get(test, ())]
        end = time.process_time() + most_seconds
        for item, following in zip(items, [*items[1:], None], strict=True):
            if time.process_time() > end:
                return
            begin_test()
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if self.session.testsfailed:
                yield function_of(item.nodeid)
                return


def _caches() -> list[Any]:
    found = (one for one in gc.get_objects() if type(one) is _Cached)
    return [one for one in found if _file_of_code(one.__wrapped__).startswith(_OWN)]


def _file_of_code(function: Any) -> str:
    """Where a function is written, "" where it is not in Python."""
    return function.__code__.co_filename if hasattr(function, "__code__") else ""


def function_of(node: str) -> str:
    """The test without its parameters: ``core/test_x.py::test_y``."""
    return node.partition("[")[0].removeprefix("tests/")


def file_of(node: str) -> str:
    """The file of a test: ``core/test_x.py``."""
    return node.partition("::")[0].removeprefix("tests/")


def files_of_tests() -> list[str]:
    """The files of tests that may judge."""
    found = (path for folder in FOLDERS for path in sorted((ROOT / "tests" / folder).rglob("test_*.py")))
    names = (str(path.relative_to(ROOT / "tests")) for path in found)
    return [name for name in names if name not in NO_JUDGES]
