"""The web layer: Flask in front of the contract and the domain."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask

    from .settings import Settings

__all__ = ["create_app"]


def create_app(settings: Settings | None = None) -> Flask:
    """The service as a WSGI application; see :func:`application.create_app`."""
    from . import application  # settings and keys are read without it

    return application.create_app(settings)
