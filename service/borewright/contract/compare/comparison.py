"""A comparison on one page: what is answered now, where it differs from what was kept, why, and what follows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal, NamedTuple

from borewright import tables
from borewright.contract import replies
from borewright.contract.requests.compare import CompareAsked
from borewright.contract.requests.request import Asked, Detail
from borewright.contract.sections.detail import BY_DETAIL
from borewright.contract.spec_id import spec_id
from borewright.core.model import Unit
from borewright.core.plan import rules_version
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest

from .causes import Cause, CauseName, Causes, Versions, of_service, told
from .differences import Difference, Walk
from .kept import Kept
from .subjects import SUBJECTS, matters

Json = dict[str, Any]

#: Without these parts of the kept reply nobody can say that nothing that matters has changed.
_NEEDED = {("drill",), ("tap",), ("depths",), ("limits",), ("gauging",)}


@dataclass(frozen=True, slots=True)
class Change:
    """A difference with its possible causes."""

    difference: Difference
    why: tuple[CauseName, ...]

    @property
    def matters(self) -> bool:
        """Whether the shop must know."""
        return matters(self.difference.subject)


class NamedVersions(NamedTuple):
    """What names a specification and what answered it, as far as it is known."""

    spec_id: str | None
    verdict: str | None
    tables_version: str | None
    rules_version: str | None


@dataclass(frozen=True, slots=True)
class Comparison:
    """A kept specification beside the one of now; ``thread_unit`` and ``unit`` are those of what is shown."""

    id: str | None
    verdict: str
    before: NamedVersions
    after: NamedVersions
    detail: Detail
    same_request: bool | None
    why: Sequence[Cause]
    changes: Sequence[Change]
    not_compared: Sequence[Difference]
    assumptions: tuple[str, ...]
    thread_unit: Unit
    unit: Unit


_NAMES = NamedVersions._fields
#: Fields that one of the two versions does not have.
_NOT_COMPARED = ("not_kept", "no_longer_answered")


def compared(asked: CompareAsked) -> Comparison:
    """What a kept specification and the one of now differ in. Raises: BorewrightError where now has no answer."""
    kept, unit = asked.kept, _unit(asked)
    now = _answer(asked.after, kept, unit)
    versions = _Both(_versions(asked, unit), Versions(now["tables_version"], now["rules_version"]))
    causes = Causes(_same_request(asked, now, unit, versions), of_service(*versions))
    found = _differences(asked, now, causes, unit)
    changes = [one for one in found if one.difference.how not in _NOT_COMPARED]
    apart = [one.difference for one in found if one.difference.how in _NOT_COMPARED]
    return Comparison(
        id=asked.id,
        verdict=_verdict(asked, changes, apart, versions),
        before=_told(kept.reply or {"spec_id": kept.spec_id}),
        after=_told(now)._replace(spec_id=spec_id(asked.after.request, _own_unit(asked.after))),
        detail=kept.detail,
        same_request=causes.same_request,
        why=tuple(told(causes, *versions, differs=bool(changes))),
        changes=sorted(changes, key=lambda one: SUBJECTS.index(one.difference.subject)),
        not_compared=apart,
        assumptions=tuple(_assumptions(asked, unit)),
        thread_unit=asked.after.request.thread.unit,
        unit=unit,
    )


class _Both(NamedTuple):
    kept: Versions
    now: Versions


def _own_unit(asked: Asked[HoleSpecRequest]) -> Unit:
    return asked.unit or asked.request.thread.unit


def _unit(asked: CompareAsked) -> Unit:
    return asked.kept.unit or _own_unit(asked.before or asked.after)


def _answer(asked: Asked[HoleSpecRequest], kept: Kept, unit: Unit) -> Json:
    """Today's reply in the units and the detail of the kept one."""
    wanted = replace(asked, unit=unit, detail=kept.detail, explain=False)
    return replies.hole_spec_reply(specify(asked.request), wanted)


def _versions(asked: CompareAsked, unit: Unit) -> Versions:
    """What answered the kept request. Without a reply its name tells whether it was what answers today."""
    kept = asked.kept
    if kept.reply is None and asked.before is not None and kept.spec_id == spec_id(asked.before.request, unit):
        return Versions(tables.version(), rules_version.version())
    return Versions(kept.word("tables_version"), kept.word("rules_version"))


def _same_request(asked: CompareAsked, now: Json, unit: Unit, versions: _Both) -> bool | None:
    """Whether what is answered now is what the kept reply answered; None where nothing tells."""
    if asked.before is not None and asked.other_request:
        return spec_id(asked.before.request, unit) == spec_id(asked.after.request, unit)
    if versions.kept.rules is not None:
        if _names_it(asked, now, unit, versions.kept.rules):
            return True
        if versions.kept.rules == versions.now.rules:
            return False
    return True if asked.before is not None and asked.kept.reply is not None else None


def _names_it(asked: CompareAsked, now: Json, unit: Unit, rules: str) -> bool:
    """Whether the kept name is that of the request by the kept rules, in the unit of what was kept."""
    name, request = asked.kept.spec_id, asked.after.request
    if name == spec_id(request, unit, rules):
        return True
    if request.finish is None or request.finish.text_unit == unit:
        return False
    # The unit in which bare numbers of a finish were read is part of the name, also where there are none.
    other = replace(request, finish=replace(request.finish, text_unit=unit))
    if name != spec_id(other, unit, rules):
        return False
    return _answer(replace(asked.after, request=other), asked.kept, unit) | {"spec_id": now["spec_id"]} == now


def _differences(asked: CompareAsked, now: Json, causes: Causes, unit: Unit) -> list[Change]:
    kept = asked.kept
    if asked.before is None or not asked.other_request or causes.same_request:
        if kept.reply is None:
            return []
        return [Change(one, causes.names) for one in _between(kept, kept.reply, now)]
    same = _answer(asked.before, kept, unit)
    by_request = {one.pointer for one in _between(kept, same, now)}
    if kept.reply is None:
        return [Change(one, ("request",)) for one in _between(kept, same, now)]
    by_service = {one.pointer for one in _between(kept, kept.reply, same)}
    return [
        Change(one, _why(one.pointer in by_request, one.pointer in by_service, causes))
        for one in _between(kept, kept.reply, now)
    ]


def _why(by_request: bool, by_service: bool, causes: Causes) -> tuple[CauseName, ...]:
    if by_request == by_service:
        return causes.names
    return ("request",) if by_request else causes.of_service


def _between(kept: Kept, before: Mapping[str, Any], after: Json) -> Iterable[Difference]:
    return Walk(texts_alone=kept.detail == "routing").differences(BY_DETAIL[kept.detail], before, after)


def _verdict(
    asked: CompareAsked, changes: Iterable[Change], apart: Iterable[Difference], versions: _Both
) -> Literal["keep", "update", "review"]:
    if any(one.matters for one in changes):
        return "update"
    if asked.kept.reply is None and versions.kept.rules is None:
        return "review"
    return "review" if any(one.how == "not_kept" and one.place in _NEEDED for one in apart) else "keep"


def _told(reply: Mapping[str, Any]) -> NamedVersions:
    return NamedVersions(*(value if isinstance(value := reply.get(name), str) else None for name in _NAMES))


def _assumptions(asked: CompareAsked, unit: Unit) -> Iterator[str]:
    if unit != _own_unit(asked.after):
        yield f"compared in {unit}, the unit of what was kept; the request of now asks for {_own_unit(asked.after)}"
    if asked.kept.reply is None:
        yield "no reply was kept: what the service changed since is not told field by field"
