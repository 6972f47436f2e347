"""Thin client of the Borewright service: one method an endpoint, typed replies and errors, connection reuse.

>>> from borewright_client import Client
>>> client = Client("http://127.0.0.1:8080")
>>> spec = client.hole_spec({"thread": "M8", "hole": {"type": "through", "thickness": 12}})  # doctest: +SKIP

`borewright_client.async_client.AsyncClient` has the same methods, to be awaited; `borewright_client.replies` the types.
"""

from .agent import __version__
from .client import Client
from .errors import ClientError, ConnectFailed, NoAnswer, RequestRefused, ServiceUnavailable

__all__ = ["Client", "ClientError", "ConnectFailed", "NoAnswer", "RequestRefused", "ServiceUnavailable", "__version__"]
