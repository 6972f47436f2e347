"""`borewright batch`: a file of holes in, a file of specifications out, CSV or NDJSON by suffix.

What is wrong with a hole is told by row and column of the file that was read.
"""

from __future__ import annotations

import json
import sys
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack
from itertools import count
from pathlib import Path
from types import SimpleNamespace
from typing import IO, Any

import click

from ..call import post_for
from ..client import Client, Reply
from . import flat, holes, workbooks
from .batch_summary import VERDICTS, Summary
from .columns import BATCH, COLUMNS
from .command import argument, command, option
from .exit_codes import REFUSED, WrongUse
from .shop_figures import kept_figures, shop_figures_option


def _columns() -> str:
    return "".join(f"  {name:<26} {column.meaning}\n" for name, column in COLUMNS.items())


@command(
    "batch", "specification of every hole of a file",
    argument("holes", "FILE"),
    option("-o", "--output", metavar="FILE", type=click.Path(),
           help="file to write, .csv, .xlsx or .ndjson (else shown as CSV or lines)"),
    option("--only", type=click.Choice(("review",)),
           help="write only the holes that leave something to decide, and problems"),
    option("--with-requests", is_flag=True,
           help="write each request beside its result (.ndjson), for `borewright compare` after an upgrade"),
    option("--detail", type=click.Choice(COLUMNS["detail"].words), help="how much of a specification is shown as JSON"),
    shop_figures_option(),
    examples=("holes.csv -o specs.csv", "holes.xlsx -o specs.xlsx", "holes.csv -o specs.ndjson --units metric"),
    more="FILE is .csv or .xlsx with a head of columns, or .ndjson with a request a line; - reads standard input.\n"
    "Columns may have other names (Callout, Thru, Depth (mm)); which ones were taken for which, the service tells.\n\n"
    f"columns of a .csv that is read (a cell left blank is not sent):\n{_columns()}",
    judge=lambda reply: REFUSED if reply["failed"] else 0, shown=False,
)  # fmt: skip
def ask(client: Client, options: SimpleNamespace) -> Reply:
    """Specify every hole of a file; how many failed. What is to be known of them is told at the end."""
    with ExitStack() as files:
        options.holes = holes.kept(files, options.holes)
        theirs, summary = workbooks.is_left_to_the_service(options.holes, COLUMNS), Summary(options.holes)
        if (theirs or workbooks.is_workbook(options.output)) and not (options.shop_figures or options.with_requests):
            return _sent_whole(client, options, files)
        defaults = {**_defaults(options), **kept_figures(options.shop_figures)}
        found = _Found(client, Path(options.holes), theirs=theirs)
        if workbooks.is_workbook(options.output):
            _write_workbook(client, options, list(found.opened()), defaults)
            write: Callable[[Reply], None] = _nothing
        else:
            target = _target(files, options)
            write = _csv(target) if _wants_csv(options) else _lines(target)
        for hole, result in _answered(client, options, found, defaults):
            summary.add(hole, result)
            verdict = result["spec"]["verdict"] if "spec" in result else None
            if not options.only or verdict != VERDICTS[0]:
                write({**result, "row": hole.row, **_request(options, hole, defaults)})
    summary.tell()
    return {"failed": summary.failed}


class _Found:
    """The holes of a file, read here or by the service; ``total`` is how many there are, None of what comes through a
    pipe.
    """

    def __init__(self, client: Client, source: Path, *, theirs: bool) -> None:
        self._source, self._read = source, list(_of_one(client, source)) if theirs else None
        # A fault of the file itself is told before anything is asked; what comes through a pipe is read once.
        self.total = sum(1 for _ in self.opened()) if theirs or source.is_file() else None

    def opened(self) -> Iterator[holes.Hole]:
        """The holes, in their order."""
        return opened(self._source) if self._read is None else iter(self._read)


def _of_one(client: Client, source: Path) -> Iterator[holes.Hole]:
    """The holes of a sheet as the service reads it, without how many of each a part has."""
    for hole in workbooks.read(client, source):
        hole.request.pop("count", None)
        yield hole


def _answered(
    client: Client, options: SimpleNamespace, found: _Found, defaults: Mapping[str, Any]
) -> Iterator[tuple[holes.Hole, Reply]]:
    """Each hole with its answer, or with its problem where the service could not read its row."""
    rows: deque[holes.Hole] = deque()
    sent = _Requests(found.opened(), rows, found.total, _asked_of_all(options))
    items = iter(sent) if found.total is None else sent
    place = count()
    for result in client.batch(items, defaults=defaults, progress=bool(options.output)):
        yield from _unread(rows, place)
        yield rows.popleft(), {**result, "index": next(place)}
    yield from _unread(rows, place)


def _unread(rows: deque[holes.Hole], place: Iterator[int]) -> Iterator[tuple[holes.Hole, Reply]]:
    while rows and rows[0].problem is not None:
        hole = rows.popleft()
        told = {"index": next(place), "id": hole.request["id"], "status": "error", "problem": hole.problem}
        yield hole, told


def _write_workbook(
    client: Client, options: SimpleNamespace, found: Sequence[holes.Hole], defaults: Mapping[str, Any]
) -> None:
    """A workbook of what the rows that can be read ask for, written by the service; the others are told at the end."""
    if options.with_requests:
        raise WrongUse("--with-requests writes lines: name a file that ends in .ndjson")
    items = [hole.request for hole in found if hole.problem is None]
    path = "/v1/hole-specs/batch" + (f"?only={options.only}" if options.only else "")
    asked = {"defaults": defaults, "items": items}
    Path(options.output).write_bytes(client.run(post_for(path, asked, workbooks.form(options.output))))


def _nothing(_: Reply) -> None:
    """What the service has written is not written again."""


def _request(options: SimpleNamespace, hole: holes.Hole, defaults: Mapping[str, Any]) -> dict[str, Any]:
    return {"request": {**defaults, **hole.request}} if options.with_requests else {}


def _sent_whole(client: Client, options: SimpleNamespace, files: ExitStack) -> Reply:
    """Let the service read the file; a workbook is written by it too."""
    summary, source, path = Summary(options.holes), Path(options.holes), "/v1/hole-specs/batch"
    query = {**_defaults(options), **({} if workbooks.is_workbook(options.output) else _asked_of_all(options))}
    lines = workbooks.answer(client, path, source, query, workbooks.NDJSON).splitlines()
    results = [json.loads(line) for line in lines]
    for place, result in enumerate(results, 1):
        summary.add(holes.Hole(result.get("row", place), {"id": result["id"]}), result)
    if workbooks.is_workbook(options.output):
        query |= {"only": options.only} if options.only else {}
        content = workbooks.answer(client, path, source, query, workbooks.form(options.output))
        Path(options.output).write_bytes(content)
    else:
        target = _target(files, options)
        write = _csv(target) if _wants_csv(options) else _lines(target)
        for result in results:
            if not options.only or "problem" in result or result["spec"]["verdict"] != VERDICTS[0]:
                write(result)
    summary.tell()
    return {"failed": summary.failed}


class _Requests:
    """The requests of a file, taken as they are needed; ``rows`` gets the holes that are on their way.

    ``always`` are fields that every request gets, whatever the file says.
    """

    def __init__(
        self, found: Iterator[holes.Hole], rows: deque[holes.Hole], total: int | None, always: Mapping[str, str]
    ) -> None:
        self._found, self._rows, self._total, self._always = found, rows, total, always

    def __len__(self) -> int:
        return self._total or 0

    def __iter__(self) -> Iterator[dict[str, Any]]:
        for hole in self._found:
            self._rows.append(hole)
            if hole.problem is None:
                yield {**hole.request, **self._always}


def opened(source: Path, further: Sequence[str] = ()) -> Iterator[holes.Hole]:
    """The holes of a file, as :func:`holes.read` gives them."""
    try:
        with source.open(encoding="utf-8-sig", newline="") as lines:
            yield from holes.read(str(source), lines, further)
    except UnicodeDecodeError:
        raise WrongUse(f"{source}: the file is not UTF-8; save it as 'CSV UTF-8'") from None


def _target(files: ExitStack, options: SimpleNamespace) -> IO[str]:
    if not options.output:
        return sys.stdout
    return files.enter_context(Path(options.output).open("w", encoding="utf-8", newline=""))


def _wants_csv(options: SimpleNamespace) -> bool:
    if options.json or options.csv:
        return bool(options.csv)
    return workbooks.form(options.output or options.holes) != workbooks.NDJSON


def _defaults(options: SimpleNamespace) -> dict[str, str]:
    return {name: word for name, word in (("unit_system", options.unit_system), ("detail", options.detail)) if word}


def _asked_of_all(options: SimpleNamespace) -> dict[str, str]:
    """CSV shows no more than figures have."""
    return {"detail": "figures"} if _wants_csv(options) else {}


def _lines(target: IO[str]) -> Callable[[Reply], None]:
    def write(result: Reply) -> None:
        target.write(json.dumps(result, ensure_ascii=False) + "\n")

    return write


def _csv(target: IO[str]) -> Callable[[Reply], None]:
    writer = flat.Writer(target, BATCH)

    def write(result: Reply) -> None:
        known = {**result.get("spec", {}), **result}
        writer.write(known)

    return write
