"""Coating, plating, anodize and heat-treat allowances of tapped holes, and overtap for hot-dip zinc."""

from .allowance import allow
from .making import coat_to_come, limits_to_make
from .products import FinishEntry, catalogue

__all__ = ["FinishEntry", "allow", "catalogue", "coat_to_come", "limits_to_make"]
