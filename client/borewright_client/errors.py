"""What can go wrong in a call.

ClientError
|-- ConnectFailed        no connection was made: nothing was asked
|-- NoAnswer             asked, but no answer came in time or it broke off (asking again is safe: nothing is stored)
|   `-- BrokenOff        it began and broke off
`-- (an answer that is a problem; ``problem`` holds it whole)
    |-- RequestRefused       400-499: mend the request; ``errors`` point at the fields
    `-- ServiceUnavailable   429 and 500-599: try again later; ``retry_after`` in seconds where the service said so
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


class ClientError(Exception):
    """Base of everything this package raises on purpose."""


class ConnectFailed(ClientError):
    """No connection could be made."""


class NoAnswer(ClientError):
    """The connection was made but no whole answer came."""


class BrokenOff(NoAnswer):
    """The answer began and broke off."""


class _Problem(ClientError):
    """An answer of media type application/problem+json (RFC 9457)."""

    def __init__(self, status: int, problem: Mapping[str, Any], retry_after: float | None = None) -> None:
        self.status = status
        self.problem = dict(problem)
        self.code: str = str(problem.get("code", "unknown"))
        self.errors: list[dict[str, Any]] = list(problem.get("errors", []))
        self.request_id: str | None = problem.get("request_id")
        self.retry_after = retry_after
        super().__init__(self._summary())

    def _summary(self) -> str:
        lines = [f"{self.status} {self.code}: {self.problem.get('detail') or self.problem.get('title', '')}"]
        for error in self.errors:
            hint = error.get("did_you_mean") or error.get("allowed")
            tail = f" ({', '.join(map(str, hint))})" if hint else ""
            lines.append(f"  {error.get('pointer') or '/'}: {error.get('detail', '')}{tail}")
        return "\n".join(lines)


class RequestRefused(_Problem):
    """The service read the request and refused it."""


class ServiceUnavailable(_Problem):
    """The service cannot answer now."""
