"""A tapped hole that went wrong: every way to go on with it, each with its arithmetic, and the ways that are none."""

from .found import BrokenTap, FaultFound, Measured, ReworkRequest
from .rework import rework

__all__ = ["BrokenTap", "FaultFound", "Measured", "ReworkRequest", "rework"]
