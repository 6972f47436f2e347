"""The client whose answers are awaited: the same calls as the one that waits, with ``borewright-client[async]``."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from types import TracebackType
from typing import Any, TypeVar

import httpx

from . import answers
from .agent import user_agent
from .batch import Cutter, Lines
from .call import JSON, NDJSON, Call, Pages
from .calls import Calls
from .errors import BrokenOff, ClientError, ConnectFailed, NoAnswer, ServiceUnavailable

R = TypeVar("R")

_BACKOFF_SECONDS = 0.2
_WORTH_ASKING_AGAIN = (BrokenOff, ConnectFailed, ServiceUnavailable)


class AsyncClient(Calls):
    """One Borewright service, its answers awaited.

    Args:
        url: root address of the service, e.g. ``http://127.0.0.1:8080``.
        api_key: sent as bearer token where given.
        timeout: seconds to connect, and to wait for the answer.
        retries: how often to ask again after a failed connection, an answer that broke off or one of 429, 502, 503,
            504: the service keeps nothing, so that asking twice does no harm.
        session: a prepared :class:`httpx.AsyncClient` (proxies, certificates).
    """

    def __init__(
        self,
        url: str,
        *,
        api_key: str | None = None,
        timeout: tuple[float, float] = (3.05, 30.0),
        retries: int = 2,
        session: httpx.AsyncClient | None = None,
    ) -> None:
        self.url = url.rstrip("/")
        self._session = session if session is not None else httpx.AsyncClient()
        self._timeout = httpx.Timeout(timeout[1], connect=timeout[0])
        self._retries = retries
        self._headers = {"User-Agent": user_agent("httpx", httpx.__version__)}
        if api_key is not None:
            self._headers["Authorization"] = f"Bearer {api_key}"

    async def __aenter__(self) -> AsyncClient:
        """Use the client as a context: the connections are closed on leaving it."""
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the connections."""
        await self.close()

    async def close(self) -> None:
        """Close the kept connections."""
        await self._session.aclose()

    async def run(self, call: Call[R], /) -> R:
        """The reply to a call. Raises: ClientError."""
        try:
            return call.read(await self._content(call))
        except ClientError as error:
            if call.instead is None:
                raise
            return call.instead(error)

    async def each_page(self, pages: Pages[R], /) -> AsyncIterator[R]:
        """The replies to calls that follow from one another."""
        call = next(pages, None)
        while call is not None:
            reply = await self.run(call)
            yield reply
            try:
                call = pages.send(reply)
            except StopIteration:
                return

    async def each_line(self, run: Lines[R], /) -> AsyncIterator[R]:
        """The results of many items."""
        try:
            while lines := run.to_send():
                try:
                    async for line in self._lines(Call("POST", run.path, bytes, lines, accept=NDJSON)):
                        yield run.taken(line)
                    run.ended()
                except ClientError as error:
                    await asyncio.sleep(run.wait_after(error))
        finally:
            run.close()

    async def _content(self, call: Call[Any]) -> bytes:
        for tries in range(self._retries):
            try:
                return await self._whole(call)
            except _WORTH_ASKING_AGAIN as error:
                if isinstance(error, ServiceUnavailable) and error.status not in answers.ASK_AGAIN:
                    raise
                said = getattr(error, "retry_after", None)
                await asyncio.sleep(_BACKOFF_SECONDS * 2**tries if said is None else said)
        return await self._whole(call)

    async def _whole(self, call: Call[Any]) -> bytes:
        try:
            response = await self._session.send(self._request(call))
        except httpx.HTTPError as error:
            raise _named(self.url, error) from error
        if not answers.is_good(response.status_code):
            raise answers.error(response.status_code, response.headers, response.content)
        return response.content

    async def _lines(self, call: Call[bytes]) -> AsyncIterator[bytes]:
        """The lines that answer lines, as they come."""
        cutter = Cutter()
        try:
            response = await self._session.send(self._request(call), stream=True)
            try:
                if not answers.is_good(response.status_code):
                    raise answers.error(response.status_code, response.headers, await response.aread())
                async for block in response.aiter_bytes():
                    for line in cutter.lines(block):
                        yield line
            finally:
                await response.aclose()
        except httpx.HTTPError as error:
            raise _named(self.url, error) from error
        cutter.end()

    def _request(self, call: Call[Any]) -> httpx.Request:
        headers = {**self._headers, "Accept": call.accept}
        if call.body is not None:
            headers["Content-Type"] = call.sent or (NDJSON if call.accept == NDJSON else JSON)
        return self._session.build_request(
            call.method, self.url + call.path, content=call.body, headers=headers, timeout=self._timeout
        )


def _named(url: str, error: httpx.HTTPError) -> ClientError:
    if isinstance(error, (httpx.ConnectError, httpx.ConnectTimeout)):
        return ConnectFailed(f"no connection to {url}: {error}")
    if isinstance(error, httpx.RemoteProtocolError):
        return BrokenOff(f"no whole answer from {url}: {error}")
    return NoAnswer(f"no whole answer from {url}: {error or type(error).__name__}")
