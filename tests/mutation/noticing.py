"""Which tests have noticed mistakes in a file, those that noticed most first: ``noticing.csv``, by long runs."""

from __future__ import annotations

import csv
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

FILE = Path(__file__).with_name("noticing.csv")
#: Tests kept of a file.
_MOST = 6
#: Tests tried of a file and of its neighbours.
_MOST_TRIED = 12


class Noticing:
    """How often each test noticed a mistake in each file."""

    def __init__(self) -> None:
        self._by_file: defaultdict[str, Counter[str]] = defaultdict(Counter)
        if FILE.exists():
            with FILE.open(encoding="utf-8", newline="") as lines:
                for row in filter(_is_there, csv.DictReader(lines)):
                    self._by_file[row["file"]][row["test"]] = int(row["noticed"])

    def tests(self, file: str) -> list[str]:
        """Tests that noticed mistakes in a file, then those that did in its neighbours."""
        own = [test for test, _ in self._by_file[file].most_common()] if file in self._by_file else []
        folder = file.rpartition("/")[0]
        near: Counter[str] = Counter()
        for other, counted in self._by_file.items():
            if other.rpartition("/")[0] == folder:
                near.update(counted)
        return list(dict.fromkeys([*own, *(test for test, _ in near.most_common())]))[:_MOST_TRIED]

    def add(self, noticed: Iterable[tuple[str, str]]) -> None:
        """Count what noticed mistakes, pairs of file and test, and write all down."""
        for file, test in noticed:
            self._by_file[file][test] += 1
        with FILE.open("w", encoding="utf-8", newline="") as lines:
            written = csv.writer(lines, lineterminator="\n")
            written.writerow(("file", "test", "noticed"))
            written.writerows(_rows(self._by_file))


def _is_there(row: Mapping[str, str]) -> bool:
    """Whether the test of a row is still there under its name."""
    file, _, name = row["test"].partition("::")
    path = FILE.parents[1] / file
    return path.exists() and f"def {name.rpartition('::')[2]}(" in path.read_text("utf-8")


def _rows(by_file: Mapping[str, Counter[str]]) -> Sequence[tuple[str, str, int]]:
    return [(file, test, count) for file in sorted(by_file) for test, count in by_file[file].most_common(_MOST)]
