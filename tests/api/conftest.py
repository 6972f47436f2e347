"""The application in process, without server."""

from __future__ import annotations

import pytest
from borewright.api import create_app
from flask.testing import FlaskClient


@pytest.fixture
def client() -> FlaskClient:
    return create_app().test_client()
