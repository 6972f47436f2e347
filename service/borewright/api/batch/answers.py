"""The answers of a batch: what one item gets, kept for lines that differ in nothing but their id."""

from __future__ import annotations

import hashlib
import json
import logging
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

import orjson

from borewright.api import hole_ids, problems
from borewright.api.problems import Refusal
from borewright.api.response_cache import NO_DEFAULTS, Answer, Pieces, Question, ResponseCache
from borewright.api.strict_json import parse_object, refuse_marked
from borewright.contract import hole_id
from borewright.contract.faults import invalid
from borewright.contract.texts import Unit, unit_asked
from borewright.core.errors import BorewrightError

from .job import Job, Json
from .lines import LONGEST_LINE
from .sheet_items import SheetItem

Show = Callable[[Json], bytes]
_log = logging.getLogger("borewright")
_DIGEST_BYTES = 16


class Result(NamedTuple):
    """An item's answer: ``shown`` is what follows its index in the reply, as pieces of the form asked for.

    ``verdict`` of the reply, None for a problem; ``kept``: it was there already; ``code`` of the problem. ``row`` of a
    sheet in which it stood, and the row before it that has the same id.
    """

    verdict: str | None
    shown: Pieces
    kept: bool = False
    code: str | None = None
    row: int | None = None
    same_id_as_row: int | None = None

    @property
    def ok(self) -> bool:
        """Whether the item was answered."""
        return self.verdict is not None


class Answers:
    """Answers items of one request.

    Args:
        job: what is done with each item.
        form: name of the form in which ``show`` writes the fields of a result, without its index; None = as JSON.
        defaults: fields for every item that does not have them itself.
        instance, request_id: for the problems of items.
    """

    def __init__(
        self,
        job: Job,
        *,
        form: str,
        show: Show | None,
        defaults: Mapping[str, Any],
        instance: str,
        request_id: str,
        max_depth: int,
        cache: ResponseCache,
    ) -> None:
        self._job, self._form, self._show, self._defaults = job, form, show, defaults
        self._answer = job.in_full if show is not None and job.in_full is not None else job.answer
        self._digest = _digest(defaults)
        self._instance, self._request_id = instance, request_id
        self._max_depth, self._cache = max_depth, cache
        self._row: SheetItem | None = None

    def of_line(self, line: bytes | None) -> Result:
        """The answer to an item as bytes; None = the line was too long."""
        if line is None:
            return self.refused(
                Refusal("line_too_long", f"This item is longer than {LONGEST_LINE} bytes, and was skipped.")
            )
        return self._of_row(line) if self._show is not None else self._of_json(line)

    def of_piece(self, piece: bytes | Refusal | None) -> Result:
        """The answer to what was read of a stream: an item as bytes, or why there is none."""
        return self.refused(piece) if isinstance(piece, Refusal) else self.of_line(piece)

    def of_item(self, item: object, *, marked: bool = False) -> Result:
        """The answer to an item that was read. Args: ``marked`` = it may hold what reading marked as a fault."""
        if not isinstance(item, dict):
            return self.refused(invalid("body_not_object", "Expected a JSON object as item."))
        if marked:
            return self._of_new(item, None, marked=True)
        # Not orjson, for which a number too large for a float is null.
        return self._of_json(json.dumps(item, ensure_ascii=False, separators=(",", ":")).encode(), item)

    def _of_row(self, line: bytes) -> Result:
        """The answer in a form of its own, kept for the very same line."""
        question = self._question(line, self._form)
        row = self._cache.get(question)
        if row is not None:
            return Result(row.verdict, row.pieces, kept=True)
        result = self._of_json(line)
        if result.verdict is not None:
            self._cache.keep(question, Answer(result.verdict, result.shown))
        return result

    def _of_json(self, line: bytes, item: Json | None = None) -> Result:
        rest, name = hole_ids.take_out(line)
        question = self._question(rest, "" if self._show is None else "in full")
        kept = self._cache.get(question)
        if kept is not None:
            return self._good(name, kept.verdict, hole_ids.put_in(name, kept.pieces), kept=True)
        if item is None:
            try:
                item = parse_object(line, max_depth=self._max_depth, most=self._job.of_item)
            except (BorewrightError, Refusal) as error:
                return self.refused(error)
        return self._of_new(item, (question, name))

    def _of_new(self, item: Json, asked: tuple[Question, bytes] | None, *, marked: bool = False) -> Result:
        name, body = hole_id.of_item(item), {**self._defaults, **item} if self._defaults else item
        try:
            if marked:
                refuse_marked(item)
            verdict, pieces = self._answer(body)
        except (BorewrightError, Refusal) as error:
            return self.refused(error, name, unit_asked(body))
        except Exception as error:
            _log.error("an item of request %s failed", self._request_id, exc_info=error)
            return self.refused(Refusal("internal_error", "The item could not be answered."), name)
        if asked is not None and (nameless := hole_ids.left_out(pieces, asked[1])) is not None:
            self._cache.keep(asked[0], Answer(verdict, nameless))
        return self._good(orjson.dumps(name), verdict, pieces)

    def _question(self, line: bytes, form: str = "") -> Question:
        return Question(f"{self._job.name} {form}" if form else self._job.name, self._digest, line)

    def _good(self, name: bytes, verdict: str, pieces: Pieces, *, kept: bool = False) -> Result:
        """The result of an item that was answered."""
        if self._show is not None:
            reply = orjson.loads(b"".join(pieces))
            shown = self._show({"id": orjson.loads(name), "status": "ok", self._job.key: reply})
            return Result(verdict, (shown,), kept)
        found = list(pieces)
        found[0] = b'{"id":%b,"status":"ok","%b":%b' % (name, self._job.key.encode(), found[0])
        found[-1] += b"}"
        return Result(verdict, tuple(found), kept)

    def refused(self, error: BorewrightError | Refusal, name: str | None = None, unit: Unit | None = None) -> Result:
        """The problem of an item."""
        found = error.faults
        code = found[0].code if isinstance(error, Refusal) else error.code
        problem = problems.document(
            code, found[0].detail, found, instance=self._instance, request_id=self._request_id, unit=unit
        )
        if self._row is not None:
            self._row.mark(problem)
        show = self._show or orjson.dumps
        return Result(None, (show({"id": name, "status": "error", "problem": problem}),), code=code)

    def of_row(self, row: SheetItem, same_id_as_row: int | None) -> Result:
        """The answer to a row of a sheet."""
        self._row = row
        content = row.content
        result = self.of_line(content) if isinstance(content, bytes) else self.refused(content, row.name)
        self._row = None
        return result._replace(row=row.number, same_id_as_row=same_id_as_row)


def _digest(defaults: Mapping[str, Any]) -> bytes:
    if not defaults:
        return NO_DEFAULTS
    return hashlib.blake2b(json.dumps(defaults).encode(), digest_size=_DIGEST_BYTES).digest()
