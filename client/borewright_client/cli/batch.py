"""`borewright batch`: a file of holes in, a file of specifications out, CSV or NDJSON by suffix.

What is wrong with a hole is told by row and column of the file that was read.
"""

from __future__ import annotations

import json
import sys
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack
from pathlib import Path
from types import SimpleNamespace
from typing import IO, Any

import click

from ..client import Client, Reply
from . import flat, holes
from .columns import BATCH, COLUMNS
from .command import argument, command, option
from .exit_codes import REFUSED, WrongUse
from .hints import hint
from .printable import printable
from .sheet import paint_for

#: Problems that are told one by one; the file that is written has all of them.
_MOST_TOLD = 50
#: Verdicts of a specification; the first one leaves nothing to decide.
_VERDICTS = ("ready", "review", "infeasible")


def _columns() -> str:
    return "".join(f"  {name:<26} {column.meaning}\n" for name, column in COLUMNS.items())


def _judge(reply: Reply) -> int:
    print(text(reply), file=sys.stderr)
    return REFUSED if reply["failed"] else 0


@command(
    "batch", "specification of every hole of a file",
    argument("holes", "FILE"),
    option("-o", "--output", metavar="FILE", type=click.Path(),
           help="file to write, .csv or .ndjson (else shown, as the input is)"),
    option("--only", type=click.Choice(("review",)),
           help="write only the holes that leave something to decide, and problems"),
    option("--detail", type=click.Choice(COLUMNS["detail"].words), help="how much of a specification is shown as JSON"),
    examples=("holes.csv -o specs.csv", "holes.csv -o specs.ndjson --units metric", "holes.ndjson --csv"),
    more="FILE is .csv, or .ndjson with a request a line.\n\n"
    f"columns of a .csv that is read (a cell left blank is not sent):\n{_columns()}",
    judge=_judge, shown=False,
)  # fmt: skip
def ask(client: Client, options: SimpleNamespace) -> Reply:
    """Specify every hole of a file. Returns counts: items, ok, failed, verdicts; problems are told on the way."""
    counts, verdicts = {"items": 0, "ok": 0, "failed": 0}, dict.fromkeys(_VERDICTS, 0)
    told: list[str] = []
    source = Path(options.holes)
    # A fault of the file itself is told before anything is asked; what comes through a pipe is read once.
    total = sum(1 for _ in opened(source)) if source.is_file() else None
    with ExitStack() as files:
        target = _target(files, options)
        write = _csv(target) if _wants_csv(options) else _lines(target)
        rows: deque[holes.Hole] = deque()
        sent = _Requests(opened(source), rows, total, _asked_of_all(options))
        items = iter(sent) if total is None else sent
        for result in client.batch(items, defaults=_defaults(options), progress=bool(options.output)):
            hole = rows.popleft()
            verdict = result["spec"]["verdict"] if "spec" in result else None
            if verdict != _VERDICTS[0] or not options.only:
                write({**result, "row": hole.row})
            if verdict in verdicts:
                verdicts[verdict] += 1
            counts["items"] += 1
            counts["ok" if result["status"] == "ok" else "failed"] += 1
            if result["status"] != "ok" and len(told) < _MOST_TOLD:
                told += _told(options.holes, hole, result)
    _tell(told, counts["failed"])
    return {**counts, "verdicts": verdicts}


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
            yield {**hole.request, **self._always}


def text(reply: Reply) -> str:
    """The counts in a line."""
    judged = ", ".join(f"{count} {verdict}" for verdict, count in reply["verdicts"].items())
    return f"{reply['items']} holes: {reply['ok']} specified ({judged}), {reply['failed']} with a problem"


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
    return holes.is_csv(options.output or options.holes)


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


def _told(name: str, hole: holes.Hole, result: Reply) -> Iterator[str]:
    """What is wrong with a hole, a line a field."""
    problem = result["problem"]
    where = f"{name} {'row' if holes.is_csv(name) else 'line'} {hole.row}"
    if hole.request.get("id"):
        where += f", {hole.request['id']}"
    for error in problem.get("errors") or [{}]:
        column = holes.column_of(error.get("pointer") or "")
        sent = _sent(hole.request, error.get("pointer") or "")
        place = f", column {column}" if column else ""
        yield f"{where}{place}{sent}: {error.get('detail') or problem.get('detail')}{hint(error)}"


def _sent(request: Any, pointer: str) -> str:
    for part in pointer.split("/")[1:]:
        request = request.get(part) if isinstance(request, dict) else request
    return f", {request!r}" if isinstance(request, (str, int, float)) else ""


def _tell(told: list[str], failed: int) -> None:
    paint = paint_for(sys.stderr)
    for line in told[:_MOST_TOLD]:
        print(paint.bad(printable(line)), file=sys.stderr)
    if failed and len(told) >= _MOST_TOLD:
        print(f"... {failed} holes in all; the output has every problem", file=sys.stderr)
