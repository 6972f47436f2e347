"""The answers of a batch: what one item gets, kept for identical lines."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

import orjson

from borewright.api import problems
from borewright.api.bodies import parse_object, refuse_marked
from borewright.api.kept import Answer, KeptAnswers, Pieces
from borewright.api.problems import Refusal
from borewright.contract.faults import invalid
from borewright.contract.texts import Unit, unit_asked
from borewright.core.errors import BorewrightError

from .lines import LONGEST_LINE

Json = dict[str, Any]
_log = logging.getLogger("borewright")
_LONGEST_ID = 200
_JSON_FORMS = ("application/json", "application/x-ndjson")


@dataclass(frozen=True, slots=True)
class Job:
    """What is done with each item: ``answer`` turns the item's body into its reply, shown under ``key``.

    ``verdicts`` are those that a reply can have, the first one leaves nothing to look at. ``in_pieces`` makes the same
    reply as JSON in pieces, where that is quicker than writing it.
    """

    name: str
    key: str
    verdicts: tuple[str, ...]
    answer: Callable[[Json], Json]
    in_pieces: Callable[[Json], Answer] | None = None


class Result(NamedTuple):
    """An item's answer: ``shown`` is what follows its index in the reply, as pieces of the form asked for.

    ``verdict`` of the reply, None for a problem; ``kept``: it was there already, from a line of the same bytes.
    """

    verdict: str | None
    shown: Pieces
    kept: bool = False

    @property
    def ok(self) -> bool:
        """Whether the item was answered."""
        return self.verdict is not None


_CACHE = KeptAnswers()


class Answers:
    """Answers items of one request.

    Args:
        job: what is done with each item.
        show: turns the fields of a result, without its index, into bytes.
        form: name of the form that ``show`` writes.
        defaults: fields for every item that does not have them itself; ``known_by`` are their bytes.
        instance, request_id: for the problems of items.
    """

    def __init__(
        self,
        job: Job,
        show: Callable[[Json], bytes],
        *,
        form: str,
        defaults: Mapping[str, Any],
        known_by: bytes,
        instance: str,
        request_id: str,
        max_depth: int,
        cache_bytes: int,
    ) -> None:
        self._job, self._show, self._defaults = job, show, defaults
        self._known, self._json = (job.name, form, known_by), form in _JSON_FORMS
        self._instance, self._request_id = instance, request_id
        self._max_depth, self._cache_bytes = max_depth, cache_bytes

    def of_line(self, line: bytes | None) -> Result:
        """The answer to an item as bytes; None = the line was too long."""
        key = (line, *self._known)
        kept = _CACHE.get(key)
        if kept is not None:
            return Result(kept.verdict, kept.pieces, kept=True)
        result = self._of_new_line(line)
        if result.verdict is not None and self._cache_bytes:
            _CACHE.keep(key, Answer(result.verdict, result.shown), self._cache_bytes)
        return result

    def _of_new_line(self, line: bytes | None) -> Result:
        if line is None:
            return self.refused(
                Refusal("line_too_long", f"This item is longer than {LONGEST_LINE} bytes, and was skipped.")
            )
        try:
            item = parse_object(line, max_depth=self._max_depth)
        except (BorewrightError, Refusal) as error:
            return self.refused(error)
        return self.of_item(item)

    def of_item(self, item: object, *, marked: bool = False) -> Result:
        """The answer to an item that was read. Args: ``marked`` = it may hold what reading marked as a fault."""
        if not isinstance(item, dict):
            return self.refused(invalid("body_not_object", "Expected a JSON object as item."))
        name = _id(item)
        try:
            if marked:
                refuse_marked(item)
            shown = self._answer(name, {**self._defaults, **item} if self._defaults else item)
        except (BorewrightError, Refusal) as error:
            return self.refused(error, name, unit_asked({**self._defaults, **item}))
        except Exception as error:
            _log.error("an item of request %s failed", self._request_id, exc_info=error)
            return self.refused(Refusal("internal_error", "The item could not be answered."), name)
        return Result(*shown)

    def _answer(self, name: str | None, body: Json) -> Answer:
        job = self._job
        if job.in_pieces is None or not self._json:
            reply = job.answer(body)
            return Answer(reply["verdict"], (self._show({"id": name, "status": "ok", job.key: reply}),))
        head = b'{"id":%s,"status":"ok","%s":' % (orjson.dumps(name), job.key.encode())
        verdict, made = job.in_pieces(body)
        pieces = list(made)
        pieces[0] = head + pieces[0]
        pieces[-1] += b"}"
        return Answer(verdict, tuple(pieces))

    def refused(self, error: BorewrightError | Refusal, name: str | None = None, unit: Unit | None = None) -> Result:
        """The problem of an item."""
        found = error.faults
        code = found[0].code if isinstance(error, Refusal) else error.code
        problem = problems.document(
            code, found[0].detail, found, instance=self._instance, request_id=self._request_id, unit=unit
        )
        return Result(None, (self._show({"id": name, "status": "error", "problem": problem}),))


def _id(item: Json) -> str | None:
    name = item.get("id")
    return name if isinstance(name, str) and len(name) <= _LONGEST_ID else None
