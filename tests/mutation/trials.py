"""Tries mistakes with the tests that may notice them: in a fork of a loaded run, or imported anew if they must be."""

from __future__ import annotations

import math
import os
import pickle
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

import fresh
import swap
from forks import in_forks
from loaded import OPTIONS, ROOT, SOURCE, Loaded, file_of
from mutants import Cell, Mutant


@dataclass
class Trial:
    """A mistake, the tests it is tried with in their order until ``most_seconds`` are used, and what came of it."""

    mutant: Mutant
    tests: Sequence[str]
    most_seconds: float = math.inf
    noticed_by: str = ""
    seconds: float = 0
    left: list[str] = field(default_factory=list)


class _Fork(NamedTuple):
    """What a fork of the loaded run tries: some tests of a trial, with the new code of functions."""

    trial: Trial
    tests: Sequence[str]
    codes: Sequence[tuple[object, object]]


def tried(trials: Sequence[Trial], *, processes: int) -> Iterator[Trial]:
    """Each trial as it ends."""
    fresh.load()
    for trial, (noticed_by, used, left) in zip(trials, _in_loaded(trials, processes), strict=True):
        trial.noticed_by, trial.seconds, trial.left = noticed_by, used, left
        if noticed_by or not left:
            yield trial
    yield from _imported_anew([one for one in trials if one.left and not one.noticed_by], processes)


def _in_loaded(trials: Sequence[Trial], processes: int) -> list[tuple[str, float, list[str]]]:
    """What came of each trial in a loaded run, which has a process of its own, and the tests that it could not ask."""
    with tempfile.TemporaryDirectory() as folder:
        answer = Path(folder) / "answer"
        child = os.fork()
        if not child:
            try:
                _run_loaded(trials, processes, answer)
            finally:
                os._exit(0)
        os.waitpid(child, 0)
        if not answer.exists():
            raise RuntimeError("the tests cannot be loaded: run pytest on them")
        return pickle.loads(answer.read_bytes())


def _run_loaded(trials: Sequence[Trial], processes: int, answer: Path) -> None:
    import pytest

    def work(loaded: Loaded) -> None:
        forks = [_fork_of(trial, loaded) for trial in trials]
        with tempfile.TemporaryDirectory() as folder:
            asked = [one for one in forks if one.tests]
            done = in_forks(asked, lambda one: _try(one, loaded, Path(folder)), processes=processes)
            for fork, said, used in done:
                fork.trial.noticed_by, fork.trial.seconds = said, used
                print(f"{used:5.1f} s  {fork.trial.mutant}  [{said}]", file=sys.stderr, flush=True)
            _control(trials, loaded, processes)
        answer.write_bytes(pickle.dumps([(one.noticed_by, one.seconds, one.left) for one in trials]))

    os.chdir(ROOT)
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    sys.path.insert(0, str(SOURCE.parent))
    files = sorted({file_of(test) for trial in trials for test in trial.tests})
    pytest.main([*OPTIONS, *(f"tests/{name}" for name in files)], plugins=[Loaded(work)])


def _fork_of(trial: Trial, loaded: Loaded) -> _Fork:
    """What of a trial can be asked of a loaded run; the rest is left."""
    mutant, codes = trial.mutant, []
    if isinstance(mutant, Cell):
        places: list[swap.Place | str] = [mutant.file]
    else:
        source = (SOURCE / mutant.file).read_text("utf-8")
        try:
            codes = swap.changed_codes(source, mutant.text(source), str(SOURCE / mutant.file))
        except swap.ImportedOnly:
            trial.left = list(trial.tests)
            return _Fork(trial, (), ())
        places = [swap.place(old) for old, _ in codes]
    if any(one in loaded.imported for one in places) or (codes and not swap.living(codes, loaded.functions)):
        trial.left = list(trial.tests)
        return _Fork(trial, (), ())
    early = {name for name, ran in loaded.collected.items() if any(one in ran for one in places)}
    trial.left = [test for test in trial.tests if file_of(test) in early]
    return _Fork(trial, [test for test in trial.tests if file_of(test) not in early], codes)


def _control(trials: Sequence[Trial], loaded: Loaded, processes: int) -> None:
    """Leave to a fresh run what a test noticed that fails in a fork without any mistake."""
    noticing = {trial.noticed_by for trial in trials if trial.noticed_by in loaded.items}
    for test, failed, _ in in_forks(sorted(noticing), lambda one: next(loaded.run([one]), ""), processes=processes):
        for trial in trials:
            if failed and trial.noticed_by == test:
                trial.noticed_by, trial.left = "", list(trial.tests)


def _try(fork: _Fork, loaded: Loaded, folder: Path) -> str:
    import every

    every._ENOUGH = 1
    mutant = fork.trial.mutant
    if isinstance(mutant, Cell):
        moved = folder / f"{os.getpid()}.csv"
        moved.write_text(mutant.text((SOURCE / mutant.file).read_text("utf-8")), "utf-8")
        sys.modules["borewright.tables"]._paths()[Path(mutant.file).stem] = moved
    else:
        swap.swap(fork.codes, loaded.functions)
    return next(loaded.run(fork.tests, fork.trial.most_seconds), "")


def _imported_anew(trials: Sequence[Trial], processes: int) -> Iterator[Trial]:
    with tempfile.TemporaryDirectory() as folder:
        asked = [(trial, group) for trial in trials for group in fresh.in_groups(trial.left)]
        while asked:
            now = {id(trial): (trial, group) for trial, group in reversed(asked)}
            done = in_forks(
                now.values(),
                lambda one: fresh.first_failed(
                    one[0].mutant, one[1], Path(folder) / str(os.getpid()), one[0].most_seconds
                ),
                processes=processes,
            )
            for (trial, group), said, used in done:
                trial.noticed_by, trial.seconds = said, trial.seconds + used
                asked.remove((trial, group))
                if said:
                    asked = [one for one in asked if one[0] is not trial]
                if all(one[0] is not trial for one in asked):
                    yield trial
