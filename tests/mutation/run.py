"""Tries seeded small mistakes and tells which ones no test notices.

    python tests/mutation/run.py [--seed 1] [--cells 50] [--code 50] [--only drilling] [--processes 2]

A file is drawn first, then a place in it, so that a table of ten rows is tried as often as one of a thousand. Each
mistake is made in a copy of ``service/borewright`` and tried with the tests of its subject (``subjects.py``), until the
first one fails. A process loads once what the tests need and is forked for each mistake.
"""

from __future__ import annotations

import argparse
import compileall
import multiprocessing
import os
import random
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from multiprocessing.process import BaseProcess
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import subjects
from mutants import Mutant, cells, changes

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "service" / "borewright"
#: A mistake that makes the tests hang is found when they take so much of a processor.
MOST_CPU_SECONDS = 200
#: All passed, one failed, an import or a fixture failed, killed after the most time of a processor.
_ENDS = (0, 1, 2, -signal.SIGXCPU, -signal.SIGKILL)


@dataclass
class Try:
    """A mutant whose tests run in a process."""

    mutant: Mutant
    copy: Path
    process: BaseProcess
    began: float

    def noticed(self) -> bool | None:
        """Whether a test failed, None while they run."""
        if self.process.is_alive():
            return None
        self.process.join()
        if self.process.exitcode not in _ENDS:
            raise RuntimeError(f"the tests of {self.mutant.file} do not run: {self.process.exitcode}")
        return self.process.exitcode != 0


def draw(seed: int, wanted_cells: int, wanted_code: int, only: str) -> list[Mutant]:
    """The mutants of a seed."""
    chance = random.Random(seed)
    tables = _files("tables/**/*.csv", only)
    modules = [
        *_files("core/**/*.py", only),
        *_files("contract/unit_view.py", only),
        *_files("contract/texts.py", only),
    ]
    found = [_one(tables, cells, chance) for _ in range(wanted_cells)] if tables else []
    return found + ([_one(modules, changes, chance) for _ in range(wanted_code)] if modules else [])


def _files(pattern: str, only: str) -> list[str]:
    return sorted(str(path.relative_to(SOURCE)) for path in SOURCE.glob(pattern) if only in str(path))


def _one(files, places, chance) -> Mutant:
    while True:
        file = chance.choice(files)
        found = list(places(SOURCE / file, file))
        if found:
            return chance.choice(found)


def tried(mutants: Sequence[Mutant], processes: int) -> Iterator[tuple[Mutant, bool, float]]:
    """Each mutant, whether a test noticed it and how long that took."""
    waiting, running = list(mutants)[::-1], []
    with tempfile.TemporaryDirectory() as folder:
        free = [_copy(Path(folder) / str(number)) for number in range(processes)]
        while waiting or running:
            while waiting and free:
                running.append(_begin(waiting.pop(), free.pop()))
            time.sleep(0.05)
            for one in list(running):
                if (noticed := one.noticed()) is not None:
                    running.remove(one)
                    free.append(one.copy)
                    shutil.copyfile(SOURCE / one.mutant.file, one.copy / "borewright" / one.mutant.file)
                    yield one.mutant, noticed, time.monotonic() - one.began


def _copy(folder: Path) -> Path:
    shutil.copytree(SOURCE, folder / "borewright", ignore=shutil.ignore_patterns("__pycache__"))
    compileall.compile_dir(folder, quiet=2)
    return folder


def _begin(mutant: Mutant, copy: Path) -> Try:
    changed = copy / "borewright" / mutant.file
    changed.write_text(mutant.text((SOURCE / mutant.file).read_text("utf-8")), "utf-8")
    for old in changed.parent.glob(f"__pycache__/{changed.stem}.*"):
        old.unlink()
    process = multiprocessing.get_context("fork").Process(target=_test, args=(copy, subjects.tests_of(mutant.file)))
    process.start()
    return Try(mutant, copy, process, time.monotonic())


def _test(copy: Path, tests: Sequence[str]) -> None:
    """Runs in a process of its own: the tests against the copy."""
    import pytest

    resource.setrlimit(resource.RLIMIT_CPU, (MOST_CPU_SECONDS, MOST_CPU_SECONDS + 10))
    os.chdir(ROOT)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    os.environ["PYTHONPATH"] = f"{copy}{os.pathsep}{os.environ.get('PYTHONPATH', '')}"
    sys.path.insert(0, str(copy))
    sys.dont_write_bytecode = True
    options = ["-x", "-q", "-p", "no:cacheprovider", "-m", "not long", "--hypothesis-profile=ci"]
    loaded = "ignore:Module already imported:pytest.PytestAssertRewriteWarning"
    os._exit(pytest.main([*options, "-W", loaded, *tests]))


def _load() -> None:
    """What every test needs, so that it is loaded once and not for each mutant."""
    import flask
    import hypothesis
    import jsonschema
    import marshmallow
    import orjson
    import pytest

    assert all((flask, hypothesis, jsonschema, marshmallow, orjson, pytest))
    assert "borewright" not in sys.modules


def main() -> int:
    """0 where every mutant was noticed."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for name, default in (("seed", 1), ("cells", 50), ("code", 50), ("processes", 2)):
        options.add_argument(f"--{name}", type=int, default=default)
    options.add_argument("--only", default="", help="part of the path below service/borewright")
    asked = options.parse_args()
    mutants = draw(asked.seed, asked.cells, asked.code, asked.only)
    _load()
    survivors = 0
    for mutant, noticed, seconds in tried(mutants, asked.processes):
        survivors += not noticed
        print(f"{'noticed ' if noticed else 'SURVIVED'} {seconds:5.0f} s  {mutant}", flush=True)
    print(f"{survivors} of {len(mutants)} survived ({survivors / max(len(mutants), 1):.0%})")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main())
