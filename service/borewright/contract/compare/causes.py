"""Why a kept specification differs from the one of now, as far as the names and versions of both tell."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

CauseName = Literal["request", "table", "rule"]
CAUSES: tuple[CauseName, ...] = ("request", "table", "rule")


class Versions(NamedTuple):
    """What answered a request: the fingerprints of tables and rules, None where a kept reply does not tell."""

    tables: str | None
    rules: str | None


class Cause(NamedTuple):
    """One possible cause; ``certain`` where nothing else can have made the differences that are laid to it."""

    cause: CauseName
    certain: bool
    text: str


class Causes(NamedTuple):
    """The causes that are possible, and whether the request is the same: None where that is not told."""

    same_request: bool | None
    of_service: tuple[CauseName, ...]

    @property
    def names(self) -> tuple[CauseName, ...]:
        """All that are possible."""
        return self.of_service if self.same_request else ("request", *self.of_service)


def of_service(kept: Versions, now: Versions) -> tuple[CauseName, ...]:
    """What of the service may have changed: its tables, its rules, either, or neither.

    The fingerprint of the rules covers the tables that they read: where both are others, either may be the cause.
    """
    if kept.rules == now.rules:
        return () if kept.tables in (now.tables, None) else ("table",)
    return ("rule",) if kept.tables == now.tables else ("table", "rule")


def told(causes: Causes, kept: Versions, now: Versions, *, differs: bool) -> Iterable[Cause]:
    """The possible causes with what speaks for each.

    Args: ``differs`` False where nothing differs: then there is nothing to explain but what changed without effect.
    """
    certain = len(causes.names) == 1 and differs
    if causes.same_request is False:
        yield Cause("request", certain, "The request is another one than the kept reply answered.")
    elif causes.same_request is None:
        yield Cause(
            "request", False, "Whether the request is the same is not told: the kept `spec_id` cannot be made of it."
        )
    if "table" in causes.of_service:
        yield Cause("table", certain, _changed("tables", kept.tables, now.tables))
    if "rule" in causes.of_service:
        yield Cause("rule", certain, _changed("rules, with the tables that they read,", kept.rules, now.rules))


def _changed(what: str, before: str | None, after: str | None) -> str:
    if before is None:
        return f"The kept reply does not say which {what} answered it; today's are {after}."
    return f"The {what} were {before} and are {after}."
