"""Names of the Unified series: with and without the number of a constant-pitch series, UN and its J form."""

from __future__ import annotations


def without_number(series: str) -> str:
    """The letters of ``series``: ``16UN`` -> ``UN``. Source: ASME B1.1 section 6."""
    return series.lstrip("0123456789")


def un_form(series: str) -> str:
    """``series`` as the UN thread has it: ``UNJF`` -> ``UNF``, ``16UNJ`` -> ``16UN``. Source: ASME B1.15."""
    return series.replace("UNJ", "UN")


def j_form(series: str) -> str:
    """The J form of ``series``, a UN one: ``UNF`` -> ``UNJF``, ``16UN`` -> ``16UNJ``. Source: ASME B1.15."""
    return series.replace("UN", "UNJ")
