"""The client that waits for its answers: sends what is called through one kept connection pool."""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from types import TracebackType
from typing import Any, TypeVar

import requests
from requests.adapters import HTTPAdapter

from . import answers, retry_after
from .agent import user_agent
from .batch import Cutter, Lines
from .call import JSON, NDJSON, Body, Call, Pages
from .calls import CATALOGS, Calls
from .errors import BrokenOff, ClientError, ConnectFailed, NoAnswer

__all__ = ["CATALOGS", "Body", "Client", "Reply"]

#: Any reply, as whoever does not care for its fields names it.
Reply = Mapping[str, Any]
R = TypeVar("R")

_BACKOFF_SECONDS = 0.2
_BLOCK = 65_536


class Client(Calls):
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
        self._headers = {"Content-Type": JSON}
        if api_key is not None:
            self._headers["Authorization"] = f"Bearer {api_key}"
        if self._session.headers.get("User-Agent") == requests.utils.default_user_agent():
            self._headers["User-Agent"] = user_agent("requests", requests.__version__)
        #: Proxies and certificates of the environment, looked up once.
        found: dict[str, Any] = dict(self._session.merge_environment_settings(self.url, {}, False, None, None))
        self._environment = {**found, "timeout": self._timeout}
        #: What a session of our own sends through: it has neither hooks nor cookies, nor an encoding asked for.
        self._adapter = self._session.get_adapter(self.url) if session is None else None
        #: A file of certificates is looked for at each call, also where the address needs none.
        self._direct = self._environment if url.lower().startswith("https:") else {**self._environment, "verify": True}
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

    def run(self, call: Call[R], /) -> R:
        """The reply to a call. Raises: ClientError."""
        for tries_left in range(self._retries, -1, -1):
            try:
                return call.read(self._whole(call))
            except BrokenOff as error:
                if not tries_left:
                    return _instead(call, error)
            except ClientError as error:
                return _instead(call, error)
        raise AssertionError("unreachable")

    def each_page(self, pages: Pages[R], /) -> Iterator[R]:
        """The replies to calls that follow from one another."""
        call = next(pages, None)
        while call is not None:
            reply = self.run(call)
            yield reply
            try:
                call = pages.send(reply)
            except StopIteration:
                return

    def each_line(self, run: Lines[R], /) -> Iterator[R]:
        """The results of many items."""
        try:
            while lines := run.to_send():
                try:
                    for line in self._lines(Call("POST", run.path, bytes, lines, accept=NDJSON)):
                        yield run.taken(line)
                    run.ended()
                except ClientError as error:
                    time.sleep(run.wait_after(error))
        finally:
            run.close()

    def _whole(self, call: Call[Any]) -> bytes:
        """The content of a good answer, read in one piece."""
        with self._as_errors_of_ours():
            response = self._send(call, stream=False)
            content = b"".join(response.iter_content(None))
        if not answers.is_good(response.status_code):
            raise answers.error(response.status_code, response.headers, content)
        return content

    def _lines(self, call: Call[bytes]) -> Iterator[bytes]:
        """The lines that answer lines, as they come."""
        cutter = Cutter()
        with self._as_errors_of_ours():
            opened = self._send(call, stream=True)
        with opened as response:
            if not answers.is_good(response.status_code):
                raise answers.error(response.status_code, response.headers, response.content)
            try:
                for block in response.iter_content(_BLOCK):
                    yield from cutter.lines(block)
            except requests.exceptions.RequestException as error:
                raise NoAnswer(f"the answer from {self.url} broke off: {error}") from error
        cutter.end()

    def _prepare(self, method: str, path: str, accept: str) -> requests.PreparedRequest:
        headers = {**self._headers, "Accept": accept}
        if accept == NDJSON:
            headers["Content-Type"] = NDJSON
        elif method == "POST" and self._adapter is not None:
            headers["Accept-Encoding"] = "identity"  # to pack and unpack a reply takes longer than to send it on a site
        return self._session.prepare_request(requests.Request(method, self.url + path, headers=headers))

    def _send(self, call: Call[Any], *, stream: bool) -> requests.Response:
        path, _, query = call.path.partition("?")
        request = self._template(call.method, path, call.accept).copy()
        if query:
            request.url = f"{request.url}?{query}"
        if call.body is not None:
            request.body = call.body
            request.headers["Content-Length"] = str(len(call.body))
        if call.sent is not None:
            request.headers["Content-Type"] = call.sent
        if self._adapter is not None:
            response = self._adapter.send(request, **{**self._direct, "stream": stream})
            if not response.is_redirect:
                return response
            response.close()
        return self._session.send(request, **{**self._environment, "stream": stream})

    @contextmanager
    def _as_errors_of_ours(self) -> Iterator[None]:
        try:
            yield
        except requests.exceptions.ConnectTimeout as error:
            raise ConnectFailed(f"no connection to {self.url}: {error}") from error
        except requests.exceptions.ConnectionError as error:
            raise _broken(self.url, error) from error
        except requests.exceptions.ChunkedEncodingError as error:
            raise BrokenOff(f"no whole answer from {self.url}: {error}") from error
        except requests.exceptions.RequestException as error:
            raise NoAnswer(f"no whole answer from {self.url}: {error}") from error


def _instead(call: Call[R], error: ClientError) -> R:
    if call.instead is None:
        raise error
    return call.instead(error)


def _new_session(retries: int) -> requests.Session:
    policy = retry_after.BoundedRetry(
        total=retries,
        status_forcelist=answers.ASK_AGAIN,
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


def _broken(url: str, error: requests.exceptions.ConnectionError) -> ClientError:
    """A connection that never was, or one that broke after the request went out."""
    cause = error.args[0] if error.args else None
    reason = getattr(cause, "reason", cause)
    if type(reason).__name__ in {"NewConnectionError", "ConnectTimeoutError", "NameResolutionError"}:
        return ConnectFailed(f"no connection to {url}: {reason}")
    return NoAnswer(f"no whole answer from {url}: {reason}")
