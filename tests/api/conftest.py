"""The application in process, without server."""

from __future__ import annotations

import pytest
from borewright.api import create_app
from borewright.api.answers import RESPONSE_CACHE
from borewright.api.settings import Settings
from flask import Flask
from flask.testing import FlaskClient


@pytest.fixture(scope="session")
def application() -> Flask:
    """The service as it is without settings; its routes are made once, which takes longer than most requests."""
    return create_app()


@pytest.fixture
def client(application) -> FlaskClient:
    """Asks a service that keeps no answer yet; answers are all that it would keep from one test to the next."""
    application.config[RESPONSE_CACHE].__init__(Settings().response_cache_bytes)
    return application.test_client()
