"""The client: builds a request once an endpoint, sends bodies through one kept connection pool."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from types import TracebackType
from typing import Any
from urllib.parse import urlencode

import requests
from requests.adapters import HTTPAdapter

from . import batch, retry_after
from .errors import BrokenOff, ClientError, ConnectFailed, NoAnswer, RequestRefused, ServiceUnavailable

Body = Mapping[str, Any]
Reply = dict[str, Any]

#: Names that :meth:`Client.catalog` takes.
CATALOGS = ("materials", "finishes", "drills", "tap-limits", "thread-systems", "units")

#: Answers worth asking again for. Every call of this API only computes, so a repeated POST changes nothing.
_RETRY_STATUS = (429, 502, 503, 504)
_BACKOFF_SECONDS = 0.2


class Client:
    """One Borewright service.

    Args:
        url: root address of the service, e.g. ``http://127.0.0.1:8080``.
        api_key: sent as bearer token where given.
        timeout: seconds to connect and to wait for the answer.
        retries: how often to ask again after a failed connection, an answer that broke off or one of 429, 502, 503,
            504: the service keeps nothing, so that asking twice does no harm.
        session: a prepared :class:`requests.Session` (proxies, certificates); its own adapters and retries are kept.
    """

    def __init__(
        self,
        url: str,
        *,
        api_key: str | None = None,
        timeout: float | tuple[float, float] = (3.05, 30.0),
        retries: int = 2,
        session: requests.Session | None = None,
    ) -> None:
        self.url = url.rstrip("/")
        self._timeout = timeout
        self._session = session if session is not None else _new_session(retries)
        self._retries = retries
        self._headers = {"Accept": "application/json", "Content-Type": "application/json"}
        if api_key is not None:
            self._headers["Authorization"] = f"Bearer {api_key}"
        #: Proxies and certificates of the environment, looked up once.
        self._environment: dict[str, Any] = dict(
            self._session.merge_environment_settings(self.url, {}, None, None, None)
        )
        self._template = cache(self._prepare)

    def __enter__(self) -> Client:
        """Use the client as a context: the connections are closed on leaving it."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the connections."""
        self.close()

    def close(self) -> None:
        """Close the kept connections."""
        self._session.close()

    # --- one method an endpoint ----------------------------------------------------------------------

    def resolve_thread(self, thread: str | Body, **fields: Any) -> Reply:
        """``POST /v1/threads/resolve``: the thread of a callout and its limits of size."""
        return self._post("/v1/threads/resolve", {"thread": thread, **fields})

    def recommend_drill(self, thread: str | Body, **fields: Any) -> Reply:
        """``POST /v1/drills/recommend``: the drill, ranked alternatives and rejected drills."""
        return self._post("/v1/drills/recommend", {"thread": thread, **fields})

    def allowance(self, thread: str | Body, finish: str | Body, **fields: Any) -> Reply:
        """``POST /v1/allowances``: limits before a coating, plating or heat treatment."""
        return self._post("/v1/allowances", {"thread": thread, "finish": finish, **fields})

    def recommend_tap(self, thread: str | Body, **fields: Any) -> Reply:
        """``POST /v1/taps/recommend``: the tap, its chamfer and pitch-diameter limit."""
        return self._post("/v1/taps/recommend", {"thread": thread, **fields})

    def decode_tap(self, marking: str, **fields: Any) -> Reply:
        """``POST /v1/taps/decode``: what is etched on a tap's shank and the classes it holds."""
        return self._post("/v1/taps/decode", {"marking": marking, **fields})

    def read_note(self, note: str, **fields: Any) -> Reply:
        """``POST /v1/notes/read``: the holes of a note as requests, what is asked back, what was not read."""
        return self._post("/v1/notes/read", {"note": note, **fields})

    def hole_spec(self, request: Body) -> Reply:
        """``POST /v1/hole-specs``: the complete specification of one tapped hole."""
        return self._post("/v1/hole-specs", request)

    def drawing(self, request: Body, media_type: str = "image/svg+xml") -> bytes:
        """``POST /v1/hole-specs`` as a section to scale: SVG, and where the service can print, PDF or PNG."""
        prepared = self._made("/v1/hole-specs", request)
        prepared.headers["Accept"] = media_type
        response = self._send(prepared)
        if not response.ok:
            _read(response)
        return bytes(response.content)

    def audit(self, request: Body) -> Reply:
        """``POST /v1/hole-specs/audit``: what a routing plans for a hole, checked; ``as_planned`` holds the plan."""
        return self._post("/v1/hole-specs/audit", request)

    def audit_batch(self, items: Sequence[Body], **fields: Any) -> Reply:
        """``POST /v1/hole-specs/audit/batch``: a routing checked, item by item; ``defaults`` fill all items."""
        return self._post("/v1/hole-specs/audit/batch", {"items": list(items), **fields})

    def batch(
        self, items: Iterable[Body], *, defaults: Body | None = None, slice_size: int = 500, progress: bool = False
    ) -> Iterator[Reply]:
        """``POST /v1/hole-specs/batch``: an answer an item, in order, while the items are being taken.

        Items are sent in slices, and what comes back is yielded at once, so that neither is ever held whole. Where a
        connection breaks, only the items without answer are asked again: none is lost, none comes twice.

        Args:
            items: requests as :meth:`hole_spec` takes them; any iterable, also one without end.
            defaults: fields for every item that does not have them itself.
            slice_size: most items a request.
            progress: show a bar on a terminal, with the extra ``borewright-client[progress]``.

        Yields:
            ``{"index", "id", "status": "ok" | "error", "spec" | "problem"}``, ``index`` over the whole run.
        """
        return batch.run(self._lines, items, defaults=defaults, slice_size=slice_size, progress=progress)

    def plan_part(self, request: Body) -> Reply:
        """``POST /v1/part-plans``: all tapped holes of a part with the fewest tools, their order, time and kit."""
        return self._post("/v1/part-plans", request)

    def threads(self, **filters: Any) -> Reply:
        """``GET /v1/threads/catalog``: standard sizes; filters as in the contract."""
        return self._get("/v1/threads/catalog", filters)

    def catalog(self, name: str, **filters: Any) -> Reply:
        """``GET /v1/catalog/<name>``: one of :data:`CATALOGS`."""
        return self._get(f"/v1/catalog/{name}", filters)

    def version(self) -> Reply:
        """``GET /v1/version``: versions of the service and of its tables."""
        return self._get("/v1/version", {})

    def ready(self) -> bool:
        """``GET /health/ready``: True when the service takes requests."""
        try:
            self._get("/health/ready", {})
        except ClientError:
            return False
        return True

    # --- transport -----------------------------------------------------------------------------------

    def _post(self, path: str, body: Body) -> Reply:
        return self._answer(self._made(path, body))

    def _made(self, path: str, body: Body) -> requests.PreparedRequest:
        request = self._template("POST", path).copy()
        request.body = json.dumps(body, allow_nan=False, separators=(",", ":")).encode()
        request.headers["Content-Length"] = str(len(request.body))
        return request

    def _lines(self, lines: bytes) -> Iterator[bytes]:
        """The lines that answer lines, as they come."""
        request = self._template("POST", "/v1/hole-specs/batch").copy()
        request.body = lines
        request.headers["Content-Length"] = str(len(lines))
        request.headers["Content-Type"] = request.headers["Accept"] = "application/x-ndjson"
        response = self._send(request, stream=True)
        with response:
            if not response.ok:
                _read(response)
            try:
                yield from _whole_lines(response)
            except requests.exceptions.RequestException as error:
                raise NoAnswer(f"the answer from {self.url} broke off: {error}") from error

    def _get(self, path: str, filters: Mapping[str, Any]) -> Reply:
        request = self._template("GET", path).copy()
        if filters:
            request.url = f"{request.url}?{urlencode(filters)}"
        return self._answer(request)

    def _prepare(self, method: str, path: str) -> requests.PreparedRequest:
        return self._session.prepare_request(requests.Request(method, self.url + path, headers=self._headers))

    def _answer(self, request: requests.PreparedRequest) -> Reply:
        for _ in range(self._retries):
            try:
                return _read(self._send(request))
            except BrokenOff:
                continue
        return _read(self._send(request))

    def _send(self, request: requests.PreparedRequest, *, stream: bool = False) -> requests.Response:
        try:
            return self._session.send(request, timeout=self._timeout, **{**self._environment, "stream": stream})
        except requests.exceptions.ConnectTimeout as error:
            raise ConnectFailed(f"no connection to {self.url}: {error}") from error
        except requests.exceptions.ConnectionError as error:
            raise _broken(self.url, error) from error
        except requests.exceptions.ChunkedEncodingError as error:
            raise BrokenOff(f"no whole answer from {self.url}: {error}") from error
        except requests.exceptions.RequestException as error:
            raise NoAnswer(f"no whole answer from {self.url}: {error}") from error


def _new_session(retries: int) -> requests.Session:
    policy = retry_after.BoundedRetry(
        total=retries,
        status_forcelist=_RETRY_STATUS,
        allowed_methods=None,
        backoff_factor=_BACKOFF_SECONDS,
        respect_retry_after_header=True,
        raise_on_status=False,
    )
    session = requests.Session()
    adapter = HTTPAdapter(max_retries=policy)
    session.mount("http://", adapter)
    session.mount("https://", adapter)
    return session


def _whole_lines(response: requests.Response) -> Iterator[bytes]:
    rest = b""
    for block in response.iter_content(65536):
        *lines, rest = (rest + block).split(b"\n")
        yield from lines
    if rest:
        raise NoAnswer("the answer broke off within a line")


def _broken(url: str, error: requests.exceptions.ConnectionError) -> ClientError:
    """A connection that never was, or one that broke after the request went out."""
    cause = error.args[0] if error.args else None
    reason = getattr(cause, "reason", cause)
    if type(reason).__name__ in {"NewConnectionError", "ConnectTimeoutError", "NameResolutionError"}:
        return ConnectFailed(f"no connection to {url}: {reason}")
    return NoAnswer(f"no whole answer from {url}: {reason}")


def _read(response: requests.Response) -> Reply:
    try:
        content = json.loads(response.content)
    except ValueError:
        content = {"code": "not_json", "detail": f"the answer is not JSON ({response.headers.get('Content-Type')})"}
        if response.ok:
            raise NoAnswer(content["detail"]) from None
    if response.ok:
        return dict(content)
    if response.status_code == requests.codes.too_many_requests or response.status_code >= 500:
        raise ServiceUnavailable(
            response.status_code, content, retry_after.seconds(response.headers.get("Retry-After"))
        )
    raise RequestRefused(response.status_code, content)
