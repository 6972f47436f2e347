"""Tries seeded small mistakes and tells which ones no test notices.

    python tests/mutation/evidence.py    # once, and when tests have changed: which tests run which lines
    python tests/mutation/run.py [--seed 1] [--cells 50] [--code 50] [--slips 0] [--only drilling] [--processes 2]
                                 [--learn] [--tests core/hole/test_depths.py::test_x ...]

With what ``evidence.py`` measured each mistake is tried with all tests that run its line or open its table, until they
have used the seconds; without it with those that noticed mistakes nearby. What ``survivors.csv`` names is no survivor.
"""

from __future__ import annotations

import argparse
import csv
import sys
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).parent))
import draw
from loaded import NO_JUDGES, ROOT
from mutants import Cell, Code, Mutant
from noticing import Noticing
from slips import Slip
from trials import Trial, tried

if TYPE_CHECKING:  # it needs coverage, which what lands does not
    from evidence import Evidence

#: The share of mistakes of a kind that no test need notice.
MOST_SURVIVE = {Code: 0.05, Slip: 0.05, Cell: 0.02}
#: What each kind is called.
_CALLED = {Code: "changes of code", Slip: "other slips", Cell: "cells"}
SURVIVORS = Path(__file__).with_name("survivors.csv")


#: Tables whose figures modules bind when they are imported, so that no test opens them.
BOUND_AT_IMPORT = ("tables/practice.csv", "tables/plan/way_of_making.csv")


def named() -> set[tuple[str, str, str]]:
    """File, place and change of the mistakes that no test is to notice, each with its reason; ``*`` is any of them."""
    with SURVIVORS.open(encoding="utf-8", newline="") as lines:
        return {(row["file"], row["place"], row["change"]) for row in csv.DictReader(lines)}


def unread(names: Iterable[tuple[str, str, str]]) -> set[tuple[str, str]]:
    """Files and columns of the cells that no answer reads: named as ``column *`` at any place."""
    return {(file, change.removesuffix(" *")) for file, place, change in names if place == "*" and change != "*"}


def trials(mutants: Sequence[Mutant], seconds: float) -> list[Trial]:
    """Each mistake with the tests that may notice it: those that noticed others of its file, then the quick ones."""
    noticing = Noticing()
    if not (ROOT / ".mutation" / "tests.json").exists():
        return [Trial(mutant, noticing.tests(mutant.file)) for mutant in mutants]
    from evidence import Evidence

    evidence, found = Evidence(), []
    for mutant in mutants:
        running = _running(mutant, evidence)
        known = [test for test in noticing.tests(mutant.file) if isinstance(mutant, Cell) or test in running]
        folder = mutant.file.split("/")[1]
        running.sort(key=lambda test: f"/{folder}/" not in test and not test.startswith("tables/"))
        asked = [test for test in dict.fromkeys([*known, *running]) if test not in NO_JUDGES]
        found.append(Trial(mutant, asked, most_seconds=seconds))
    return found


def _running(mutant: Mutant, evidence: Evidence) -> list[str]:
    if isinstance(mutant, (Code, Slip)):
        return (
            evidence.tests_of_line(mutant.file, mutant.line)
            or evidence.tests_of_file(mutant.file)
            or evidence.tests_of_folder(mutant.file)
        )
    if mutant.file in BOUND_AT_IMPORT:
        return evidence.tests_of_figure(mutant.place.partition(",")[0])
    return evidence.tests_of_file(mutant.file)


def main() -> int:
    """0 where no larger share survives than may."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for name, default in (("seed", 1), ("cells", 50), ("code", 50), ("slips", 0), ("processes", 2), ("seconds", 60)):
        options.add_argument(f"--{name}", type=int, default=default)
    options.add_argument("--only", default="", help="part of the path below service/borewright")
    options.add_argument("--tests", nargs="*", default=[], help="tests that are asked first")
    options.add_argument("--learn", action="store_true", help="write down which tests noticed")
    asked = options.parse_args()
    mutants: list[Mutant] = [
        *draw.code(asked.seed, asked.code, asked.only),
        *draw.others(asked.seed, asked.slips, asked.only),
        *draw.figures(asked.seed, asked.cells, asked.only, unread(named())),
    ]
    names, survivors, noticed = named(), [], []
    asking = [replace(one, tests=[*asked.tests, *one.tests]) for one in trials(mutants, asked.seconds)]
    for trial in tried(asking, processes=asked.processes):
        known = any((trial.mutant.file, trial.mutant.place, one) in names for one in (trial.mutant.change, "*"))
        what = "noticed " if trial.noticed_by else "named   " if known else "SURVIVED"
        print(f"{what} {trial.seconds:5.1f} s  {trial.mutant}  [{trial.noticed_by}]", flush=True)
        if trial.noticed_by:
            noticed.append((trial.mutant.file, trial.noticed_by))
        elif not known:
            survivors.append(trial.mutant)
    if asked.learn:
        Noticing().add(noticed)
    shares = [_share(kind, mutants, survivors) for kind in MOST_SURVIVE]
    return 0 if all(share <= most for share, most in zip(shares, MOST_SURVIVE.values(), strict=True)) else 1


def _share(kind: type[Mutant], mutants: Sequence[Mutant], survivors: Sequence[Mutant]) -> float:
    """The share of the mistakes of a kind that survived, which is printed."""
    count, of_kind = (sum(isinstance(one, kind) for one in several) for several in (mutants, survivors))
    share = of_kind / max(count, 1)
    print(f"{of_kind} of {count} {_CALLED[kind]} survived ({share:.1%})")
    return share


if __name__ == "__main__":
    sys.exit(main())
