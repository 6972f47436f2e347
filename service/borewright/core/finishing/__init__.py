"""Coating, plating, anodize and heat-treat allowances of tapped holes, and overtap for hot-dip zinc."""

from .allowance import allow
from .limits_before_finish import as_cut, coat_to_come, is_impossible, limits_to_make, moves
from .products import FinishEntry, catalogue, family_of

__all__ = [
    "FinishEntry",
    "allow",
    "as_cut",
    "catalogue",
    "coat_to_come",
    "family_of",
    "is_impossible",
    "limits_to_make",
    "moves",
]
