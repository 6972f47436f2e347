"""Thin client of the Borewright service: one method an endpoint, typed errors, connection reuse.

>>> from borewright_client import Client
>>> client = Client("http://127.0.0.1:8080")
>>> spec = client.hole_spec({"thread": "M8", "hole": {"type": "through", "thickness": 12}})  # doctest: +SKIP
"""

from .client import Client
from .errors import ClientError, ConnectFailed, NoAnswer, RequestRefused, ServiceUnavailable

__version__ = "0.1.0"

__all__ = ["Client", "ClientError", "ConnectFailed", "NoAnswer", "RequestRefused", "ServiceUnavailable"]
