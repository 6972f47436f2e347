"""Thin client of the Borewright service."""

__version__ = "0.1.0"
