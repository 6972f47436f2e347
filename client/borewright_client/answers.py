"""What an answer says: the reply of a good one, the error of any other."""

from __future__ import annotations

import json
from collections.abc import Mapping
from http import HTTPStatus
from typing import Any

from . import retry_after
from .errors import ClientError, NoAnswer, RequestRefused, ServiceUnavailable

#: Answers worth asking again for. Every call of this API only computes, so a repeated POST changes nothing.
ASK_AGAIN = (429, 502, 503, 504)


def is_good(status: int) -> bool:
    """Whether the answer is a reply."""
    return HTTPStatus.OK <= status < HTTPStatus.BAD_REQUEST


def json_object(content: bytes) -> Any:
    """The object in an answer. Raises NoAnswer where it is no JSON, as the page of a proxy."""
    try:
        return json.loads(content)
    except ValueError:
        raise NoAnswer("the answer is not JSON") from None


def error(status: int, headers: Mapping[str, str], content: bytes) -> ClientError:
    """What an answer that is no reply says."""
    try:
        problem = dict(json.loads(content))
    except ValueError:
        problem = {"code": "not_json", "detail": f"the answer is not JSON ({headers.get('Content-Type')})"}
    if status == HTTPStatus.TOO_MANY_REQUESTS or status >= HTTPStatus.INTERNAL_SERVER_ERROR:
        return ServiceUnavailable(status, problem, retry_after.seconds(headers.get("Retry-After")))
    return RequestRefused(status, problem)
