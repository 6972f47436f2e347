"""The web layer: Flask in front of the contract and the domain."""

from .application import create_app

__all__ = ["create_app"]
