"""Coating, plating, anodize and heat-treat allowances of tapped holes, and overtap for hot-dip zinc."""

from .allowance import allow
from .products import FinishEntry, catalogue

__all__ = ["FinishEntry", "allow", "catalogue"]
