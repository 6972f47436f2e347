"""Replies: plain dicts in their final order, figures in the unit that was asked for."""

from .audit import audit_reply
from .catalogues import CATALOGUES, catalogue, catalogue_rows, thread_catalog
from .drill import drill_reply
from .finish import allowance_reply
from .hole_spec import hole_spec_pieces, hole_spec_reply
from .tap import decode_reply, tap_reply
from .thread import thread_reply

__all__ = [
    "CATALOGUES",
    "allowance_reply",
    "audit_reply",
    "catalogue",
    "catalogue_rows",
    "decode_reply",
    "drill_reply",
    "hole_spec_pieces",
    "hole_spec_reply",
    "tap_reply",
    "thread_catalog",
    "thread_reply",
]
